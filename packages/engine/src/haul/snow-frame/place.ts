import type { BoxBody } from '../../box/index.ts'
import type { SnowFrame } from '../../job/index.ts'
import { amount } from '../shelf.ts'
import { bearerOf, SEAT } from './parts.ts'

/** Where a frame may stand on a box: its top side rails. */
export interface Rails {
  readonly topMm: number
  readonly fromMm: number
  readonly toMm: number
  /** Middles of both rails across the box. */
  readonly acrossMm: readonly [left: number, right: number]
  readonly wideMm: number
  readonly section: string
}

/** Null: a box without two top side rails carries none. */
export function railsOf(body: BoxBody): Rails | null {
  const rails = body.members.filter((m) => m.kind === 'top rail').toSorted((a, b) => a.fromMm[1] - b.fromMm[1])
  const [left, right] = [rails[0], rails[rails.length - 1]]
  if (left === undefined || right === undefined || left === right) return null
  const middle = (m: typeof left): number => (m.fromMm[1] + m.toMm[1]) / 2
  return {
    topMm: Math.min(left.toMm[2], right.toMm[2]),
    fromMm: Math.max(left.fromMm[0], right.fromMm[0]),
    toMm: Math.min(left.toMm[0], right.toMm[0]),
    acrossMm: [middle(left), middle(right)],
    wideMm: left.toMm[1] - left.fromMm[1],
    section: left.section,
  }
}

/** Bearers evenly between the fittings, their seats clear of them. */
export function bearersAt(rails: Rails, count: number): readonly number[] {
  const first = rails.fromMm + amount('frame-seat-long')
  const last = rails.toMm - amount('frame-seat-long')
  return Array.from({ length: count }, (_, i) => Math.round(first + ((last - first) * i) / (count - 1)))
}

/** Greatest distance of two bearers, and how far the deck stands out beyond the last ones. */
export function spacesOf(body: BoxBody, frame: SnowFrame): { readonly spacingMm: number; readonly overhangMm: number } {
  const at = frame.bearersAtMm.toSorted((a, b) => a - b)
  const apart = at.slice(1).map((x, i) => x - at[i]!)
  return {
    spacingMm: Math.max(0, ...apart),
    overhangMm: Math.max(at[0] ?? 0, body.outsideMm[0] - (at.at(-1) ?? 0)),
  }
}

/** Length of rail that one bearer carries at most. */
export const shareMm = (spacingMm: number, overhangMm: number, count: number): number => {
  const inner = count < 3 ? 0 : spacingMm * amount(count === 3 ? 'frame-continuous-three' : 'frame-continuous-more')
  // The end bearer carries the overhang, and what it tips off the next one.
  return Math.max(inner, (spacingMm + overhangMm) ** 2 / (2 * spacingMm))
}

/** Upper faces above the underside of the box: seats, bearers, deck. */
export function levelsOf(rails: Rails, frame: SnowFrame, deckMm: number) {
  const seatsMm = rails.topMm + frame.seatMm
  const bearersMm = seatsMm + bearerOf(frame.section).bMm
  return { seatsMm, bearersMm, deckMm: bearersMm + deckMm }
}

export const seatMm = (): number => bearerOf(SEAT).bMm
