import { amount } from '../figures.ts'
import type { BendRow } from '../result.ts'
import { offsetShrink } from './geometry.ts'

/** Something on the axis of a raceway that is not straight pipe, with how far it reaches to each side. */
export interface Feature {
  readonly kind: BendRow['kind'] | 'box'
  readonly made: BendRow['made']
  readonly atMm: number
  readonly riseMm: number
  /** Of a single bend of it; the outer ones of a saddle. */
  readonly angleDeg: number
  /** Sharp corners: along the axis from its middle, angle, and sharp length from the corner before. */
  readonly corners: readonly { readonly offMm: number; readonly angleDeg: number; readonly legMm: number }[]
  readonly reachMm: number
  /** First and last of several saddles in one. */
  readonly firstMm: number
  readonly lastMm: number
  readonly raised: BendRow['raised']
  /** Of a kick: on which side of it the corner stands whose far leg it lifts. */
  readonly kicks: 'before' | 'after' | null
}

export interface Made {
  readonly radiusMm: number
  readonly odMm: number
  /** Depth of the things at its two ends: a raceway may enter a deep one farther off the wall. */
  readonly deepMm: readonly [from: number, to: number]
  /** Whether the corner nearest to each end lies in the side that the thing there hangs on. */
  readonly flat: readonly [from: boolean, to: boolean]
  /** Straps as laid, along the axis, and how far the rule set lets one be from a box. */
  readonly strapsMm: readonly number[]
  readonly strapFromBoxMm: number
  /** Along the axis, where another raceway was laid to step over it. */
  readonly passedMm: readonly number[]
}

/** A feature of no size and no bend, to be filled in. */
export const bare = (kind: Feature['kind'], how: Feature['made'], atMm: number) =>
  ({
    kind,
    made: how,
    atMm,
    riseMm: 0,
    angleDeg: 0,
    corners: [],
    firstMm: atMm,
    lastMm: atMm,
    raised: null,
    kicks: null,
  }) as const

/** End of the raceway, as something on its axis without reach. */
const endAt = (atMm: number): Feature => ({ ...bare('box', 'box', atMm), reachMm: 0 })

/** What the slope between a kick and its corner is longer than the axis under it: rise · tan(θ/2). 0 between any others. */
export const slopeMoreMm = (a: Feature, b: Feature): number => (leans(a, b) ? moreMm(a) + moreMm(b) : 0)

/** The one is a kick, the other its corner. */
export const leans = (a: Feature, b: Feature): boolean => a.kicks === 'after' || b.kicks === 'before'

const moreMm = (f: Feature): number => (f.kicks === null ? 0 : f.riseMm * offsetShrink(f.angleDeg))

/** Straight pipe between two neighbours. */
export const freeMm = (a: Feature, b: Feature): number => b.atMm - b.reachMm - (a.atMm + a.reachMm) + slopeMoreMm(a, b)

/** Straight pipe that must lie between two neighbours: the hook of the bender, and what goes into a connector. */
export function needMm(a: Feature, b: Feature): number {
  const bent = [a, b].filter((f) => f.made === 'bent').length
  return bent === 2 ? amount('straight between bends') : bent === 1 ? amount('straight at an end') : 0
}

export const lined = (all: readonly Feature[], lengthMm: number): readonly Feature[] => [endAt(0), ...all, endAt(lengthMm)]

/** Straight pipe that lacks, summed over a raceway. */
export function lackOf(all: readonly Feature[], lengthMm: number): number {
  const line = lined(all, lengthMm)
  return line.slice(1).reduce((sum, f, i) => sum + lackMm(line[i]!, f), 0)
}

export const lackMm = (a: Feature, b: Feature): number => Math.max(0, needMm(a, b) - freeMm(a, b))
