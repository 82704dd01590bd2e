/** Lines mean things: one style a meaning, widths in millimetres on paper (widths from the ISO 128 series; provenance: memory). */
export interface LineStyle {
  readonly widthMm: number
  /** Lengths drawn and left out, in turn. Empty: solid. */
  readonly dashMm: readonly number[]
  readonly round: boolean
}

export type LineMeaning =
  | 'cut'
  | 'opening'
  | 'section'
  | 'fold'
  | 'rib'
  | 'conductor'
  | 'cord'
  | 'dimension'
  | 'chalk'
  | 'proposed'
  | 'behind'
  | 'symbol'
  | 'hair'
  | `ampere ${Weight}`
  | `ampere ${Weight} long dash`
  | `ampere ${Weight} dash dot`

/** Heavier line, more ampere. */
export type Weight = 1 | 2 | 3 | 4

const solid = (widthMm: number): LineStyle => ({ widthMm, dashMm: [], round: false })
const longDash = (widthMm: number): LineStyle => ({ widthMm, dashMm: [2.6, 0.9], round: false })
const dashDot = (widthMm: number): LineStyle => ({ widthMm, dashMm: [2.6, 0.8, 0.6, 0.8], round: false })

export const LINES: Readonly<Record<LineMeaning, LineStyle>> = {
  cut: solid(0.7),
  opening: solid(0.5),
  section: solid(1),
  fold: { widthMm: 0.35, dashMm: [3.5, 1, 0.5, 1], round: false },
  rib: solid(0.18),
  conductor: solid(0.5),
  cord: { widthMm: 0.7, dashMm: [1.5, 0.4], round: false },
  dimension: solid(0.18),
  chalk: { widthMm: 0.35, dashMm: [0.01, 0.75], round: true },
  proposed: { widthMm: 0.35, dashMm: [3.5, 1.5], round: false },
  behind: { widthMm: 0.25, dashMm: [0.75, 0.75], round: false },
  symbol: solid(0.35),
  hair: solid(0.13),
  'ampere 1': solid(0.25),
  'ampere 1 long dash': longDash(0.25),
  'ampere 1 dash dot': dashDot(0.25),
  'ampere 2': solid(0.5),
  'ampere 2 long dash': longDash(0.5),
  'ampere 2 dash dot': dashDot(0.5),
  'ampere 3': solid(0.8),
  'ampere 3 long dash': longDash(0.8),
  'ampere 3 dash dot': dashDot(0.8),
  'ampere 4': solid(1.2),
  'ampere 4 long dash': longDash(1.2),
  'ampere 4 dash dot': dashDot(1.2),
}
