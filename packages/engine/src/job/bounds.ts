import type { LoadKind, RuleSetId, Span } from './types.ts'

/** Ranges that stand in for what nobody said. Each says where it comes from; `job/bounds.test.ts` compares them with the tables. */

export const told = (value: number, basis = 'the job document'): Span => ({ low: value, high: value, basis, told: true })
export const bounded = (low: number, high: number, basis: string): Span => ({ low, high, basis, told: false })

/** Power factor by kind. Provenance: common practice; a heating element is a resistance. */
export const POWER_FACTOR: Record<LoadKind, readonly [number, number]> = {
  heater: [1, 1],
  charger: [0.6, 0.98],
  electronic: [0.6, 0.98],
  motor: [0.5, 0.9],
  drive: [0.7, 0.98],
  welder: [0.5, 0.9],
  mixed: [0.85, 1],
}

/** Efficiency of a motor at full load when its plate does not say: never better than the first figure asks, by shaft watts. Provenance: common practice. */
export const motorEfficiencyFrac = (shaftW: number): number => (shaftW < 750 ? 0.6 : shaftW < 7500 ? 0.78 : 0.88)
/** Outside this, shaft power and input cannot both be right. Provenance: common practice. */
export const EFFICIENCY_RANGE = [0.4, 0.98] as const

interface TransformerRow {
  readonly kVA: number
  readonly lowPct: number
  readonly highPct: number
  readonly xOverR: number
}
type TransformerKind = 'us 1-phase pole' | 'us 3-phase pad' | 'us dry 3-phase' | 'intl 3-phase oil'
const row = (kVA: number, lowPct: number, highPct: number, xOverR: number): TransformerRow => ({ kVA, lowPct, highPct, xOverR })

/**
 * Impedance range and X/R by kind and size.
 * @source One utility's list of pole and pad transformers (us); IEC 60076-5 minimum impedance (intl). Provenance: mixed by row, read and memory; dry: common practice
 */
export const TRANSFORMERS: Record<TransformerKind, readonly TransformerRow[]> = {
  'us 1-phase pole': [
    row(10, 1.2, 2.2, 1.1),
    row(15, 1.6, 3, 1.1),
    row(25, 1.5, 3, 1.2),
    row(37.5, 1.5, 2.6, 1.3),
    row(50, 1.5, 3, 1.4),
    row(75, 1.5, 2.5, 1.5),
    row(100, 1.5, 3, 1.6),
    row(167, 1.8, 3, 1.9),
  ],
  'us 3-phase pad': [
    row(75, 1.6, 3, 1.5),
    row(112.5, 1.6, 3, 1.7),
    row(150, 1.6, 2.5, 1.9),
    row(300, 1.6, 2.5, 2.7),
    row(500, 1.8, 3.5, 3.5),
    row(750, 5.75, 5.75, 5),
  ],
  'us dry 3-phase': [row(30, 2.5, 5, 0.8), row(45, 2.5, 5, 1), row(75, 3, 6, 1.3), row(112.5, 3, 6, 1.6)],
  'intl 3-phase oil': [
    row(50, 4, 4, 1.6),
    row(100, 4, 4, 2),
    row(160, 4, 4, 2.3),
    row(200, 4, 4.5, 2.5),
    row(250, 4, 4, 2.8),
    row(315, 4, 4.5, 3),
    row(400, 4, 4, 3.3),
    row(630, 4, 4, 3.7),
    row(1000, 5, 6, 5.5),
  ],
}

const kindOf = (set: RuleSetId, phases: 1 | 3, dry: boolean): TransformerKind =>
  set === 'intl' ? 'intl 3-phase oil' : dry ? 'us dry 3-phase' : phases === 1 ? 'us 1-phase pole' : 'us 3-phase pad'

/** Rows of the sizes at or next to a rating. Never empty. */
function neighbours(kind: TransformerKind, kVA: number): readonly TransformerRow[] {
  const rows = TRANSFORMERS[kind]
  const at = rows.findIndex((r) => r.kVA >= kVA)
  if (at < 0) return rows.slice(-1)
  return (rows[at] as TransformerRow).kVA === kVA
    ? rows.slice(Math.max(0, at - 1), at + 2)
    : rows.slice(Math.max(0, at - 1), at + 1)
}

/** Impedance in per cent usual for a transformer of this size. */
export function impedancePct(set: RuleSetId, phases: 1 | 3, kVA: number, dry = false): Span {
  const kind = kindOf(set, phases, dry)
  const exact = TRANSFORMERS[kind].find((r) => r.kVA === kVA)
  const rows = exact ? [exact] : neighbours(kind, kVA)
  return bounded(
    Math.min(...rows.map((r) => r.lowPct)),
    Math.max(...rows.map((r) => r.highPct)),
    `usual for ${kind} of ${kVA} kVA (table transformer-typical)`,
  )
}

/** X/R usual for a transformer of this size: that of the sizes on either side of it. */
export function xOverR(set: RuleSetId, phases: 1 | 3, kVA: number, dry = false): Span {
  const kind = kindOf(set, phases, dry)
  const ratios = neighbours(kind, kVA).map((r) => r.xOverR)
  return bounded(
    Math.min(...ratios),
    Math.max(...ratios),
    `sizes on either side of ${kVA} kVA, ${kind} (table transformer-typical)`,
  )
}

/** Subtransient reactance by rating, per cent. @source Trade data sheets. Provenance: common practice */
export const SUBTRANSIENT: readonly (readonly [maxKVA: number, pct: number])[] = [
  [60, 10],
  [150, 11],
  [Number.POSITIVE_INFINITY, 12],
]
/** Tolerance of a declared reactance. @source IEC 60034-1. Provenance: memory */
const REACTANCE_TOLERANCE = 0.3

export function subtransientPct(kVA: number): Span {
  const pct = (SUBTRANSIENT.find(([max]) => kVA <= max) as readonly [number, number])[1]
  return bounded(
    pct * (1 - REACTANCE_TOLERANCE),
    pct * (1 + REACTANCE_TOLERANCE),
    'small sets of this size by trade data sheets, 30 % either way (table generator-react)',
  )
}

/**
 * Soil resistivity by kind, lowest and highest, Ω·m.
 * @source US Bureau of Standards (first four rows); Japanese grounding table. Provenance: read; dry sand, granite and permafrost: common practice
 */
export const SOIL_OHM_M: Readonly<Record<string, readonly [number, number]>> = {
  fill: [5.9, 70],
  'clay or loam': [3.4, 163],
  'clay with sand or gravel': [10.2, 1350],
  'gravel and stones': [590, 4580],
  boggy: [2, 50],
  'silt or humus': [20, 260],
  'moist sand': [50, 3000],
  'moist gravel': [50, 3000],
  rocky: [100, 8000],
  'dry sand': [1000, 5000],
  'granite or permafrost': [1000, 100_000],
}

/**
 * Times that freezing raises resistivity, at −5 °C by the lower source and at −15 °C by the higher.
 * @source US Bureau of Standards data in an earth-testing handbook (4.2, 11, 46 at 0, −5, −15 °C); another copy (2.3, 10, 33). Provenance: read
 */
export const FROZEN_RATIO = [2.3, 46] as const

export function soilOhmM(kind: string | undefined): Span {
  const all = kind === undefined ? Object.values(SOIL_OHM_M) : [SOIL_OHM_M[kind] as readonly [number, number]]
  return bounded(
    Math.min(...all.map((r) => r[0])),
    Math.max(...all.map((r) => r[1])),
    kind === undefined ? 'any soil of the table' : `${kind} (table soil)`,
  )
}

/** Kelvin that the air in an unventilated box rises above the day outside. @source A storage operator's rough table, 30 → 45–60, 40 → 55–70. Provenance: read, weak */
export const SUN_RISE_K = 30
