import type { FitDesign, PlacedItem, PointMm, RacewayRoute } from './build.ts'

/** What one circuit takes of the wireway: from where its cabinet leads into it to where its raceway leaves it, along its middle. */
export interface WirewayRun {
  readonly circuit: string
  readonly fromMm: number
  readonly toMm: number
}

/** A stretch of the wireway with the circuits that lie in it; twice where one comes back. */
export interface WirewaySection {
  readonly fromMm: number
  readonly toMm: number
  readonly circuits: readonly string[]
}

type Fit = Pick<FitDesign, 'items' | 'raceways'>

export const wirewayPieces = (items: readonly PlacedItem[]): readonly PlacedItem[] => items.filter((i) => i.kind === 'wireway')

const middle = (i: PlacedItem, axis: 0 | 1): number => i.atMm[axis] + i.sizeMm[axis] / 2

/**
 * Place along the wireway of a point beside one of its pieces: in over the left wall, round the corners by the blind end, out over the
 * right wall, along the middle of each piece. Of a wireway on one wall only differences count.
 */
export function alongWirewayMm(items: readonly PlacedItem[], piece: PlacedItem, [x, y]: PointMm): number {
  const pieces = wirewayPieces(items)
  const on = (side: PlacedItem['side']) => pieces.find((p) => p.side === side)
  const [left, end, right] = [on('left'), on('blind end'), on('right')]
  const cornerX = end === undefined ? 0 : middle(end, 0)
  const leftY = left !== undefined ? middle(left, 1) : (end?.atMm[1] ?? 0)
  if (piece.side === 'left') return cornerX - x
  if (piece.side === 'blind end') return y - leftY
  return (right === undefined ? 0 : middle(right, 1)) - leftY + x - cornerX
}

/** Where a raceway enters or leaves the wireway; null: it does not. */
export function tapMm(items: readonly PlacedItem[], r: RacewayRoute): { readonly atMm: number; readonly into: boolean } | null {
  const pieces = wirewayPieces(items)
  const [from, to] = [pieces.find((p) => p.id === r.from), pieces.find((p) => p.id === r.to)]
  const piece = from ?? to
  if (piece === undefined) return null
  const point = from === undefined ? r.pointsMm[r.pointsMm.length - 1] : r.pointsMm[0]
  return { atMm: alongWirewayMm(items, piece, point ?? piece.atMm), into: from === undefined }
}

/**
 * What every circuit takes of the wireway, by circuit: as far as its farthest raceway leaves it. One that is led to its contactors by the
 * wireway and comes back from them lies in it twice.
 */
export function wirewayRuns({ items, raceways }: Fit): readonly WirewayRun[] {
  if (wirewayPieces(items).length === 0) return []
  const contactors = new Map(items.flatMap((i) => (i.kind === 'contactors' ? i.circuits.map((c) => [c, i.id] as const) : [])))
  const taps = raceways.flatMap((r) => {
    const tap = tapMm(items, r)
    return tap === null ? [] : [{ r, ...tap }]
  })
  const switched = new Set(taps.flatMap(({ r, into }) => (into ? [] : r.circuits.filter((c) => contactors.get(c) === r.to))))
  const spans = new Map<string, WirewayRun>()
  for (const { r, atMm, into } of taps)
    for (const circuit of r.circuits) {
      // Before its contactors, or behind them.
      const before = switched.has(circuit) && (contactors.get(circuit) === (into ? r.from : r.to)) !== into
      const key = `${circuit}|${before ? 1 : 2}`
      const had = spans.get(key)
      spans.set(key, {
        circuit,
        fromMm: Math.min(had?.fromMm ?? Infinity, atMm),
        toMm: Math.max(had?.toMm ?? -Infinity, atMm),
      })
    }
  return [...spans].toSorted(([a], [b]) => (a < b ? -1 : 1)).map(([, run]) => run)
}

/** The wireway parted wherever a circuit begins or ends in it, in order. */
export function wirewaySections(runs: readonly WirewayRun[]): readonly WirewaySection[] {
  const cuts = [...new Set(runs.flatMap((r) => [r.fromMm, r.toMm]))].toSorted((a, b) => a - b)
  return cuts.slice(1).flatMap((toMm, i) => {
    const fromMm = cuts[i]!
    const circuits = runs.filter((r) => r.fromMm <= fromMm && r.toMm >= toMm).map((r) => r.circuit)
    return toMm - fromMm < EPS || circuits.length === 0 ? [] : [{ fromMm, toMm, circuits }]
  })
}

/** Places nearer than this are one. */
const EPS = 1e-6
