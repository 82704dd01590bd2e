import type { Fixing, RacewayRoute, StrutPiece } from '@plugstead/engine/job'

/** `rail left 3 at 811, 1289` and `upright left 1, 2` for pieces whose names differ only in their last number. */
export function pieceWords(ids: readonly string[]): string {
  const groups = new Map<string, string[]>()
  for (const id of ids) {
    const last = / (\d+)$/.exec(id)
    const stem = last === null ? id : id.slice(0, last.index)
    groups.set(stem, [...(groups.get(stem) ?? []), ...(last === null ? [] : [last[1]!])])
  }
  return [...groups]
    .map(([stem, numbers]) =>
      numbers.length === 0 ? stem : `${stem} ${numbers.toSorted((a, b) => Number(a) - Number(b)).join(', ')}`,
    )
    .join(', ')
}

/** `4 × channel nut, 2 × weld to pad`. */
export function fixingWords(fixings: readonly Fixing[]): string {
  const kinds = [...new Set(fixings.map((f) => f.how))]
  return kinds.map((how) => `${fixings.filter((f) => f.how === how).length} × ${how}`).join(', ')
}

/** Of a piece of channel, end to end. */
export const lengthMm = ({ fromMm, toMm }: StrutPiece): number =>
  Math.hypot(toMm[0] - fromMm[0], toMm[1] - fromMm[1], toMm[2] - fromMm[2])

/** Corner to corner. */
export const axisM = (r: RacewayRoute): number =>
  r.pointsMm.reduce((sum, p, i) => {
    const q = r.pointsMm[i - 1]
    return q === undefined ? 0 : sum + Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2])
  }, 0) / 1000
