import type { PointMm } from '../job/index.ts'
import { Fault, power, type Step, source, type Worked } from '../kernel/index.ts'
import type { MassCentre, MassItem } from './result.ts'
import { figure, finite, line, rowsOf } from './shelf.ts'

/** A point mass that is only known within a span, on one axis. */
interface SpanPoint {
  readonly low: number
  readonly high: number
  readonly at: number
}

/**
 * Least and greatest centre of masses that may each lie anywhere in its span, all at once and one without the other.
 *
 *   x = Σ m·x / Σ m, every m at the end that moves x the wanted way: high where it lies beyond x, low where it lies before
 *
 * Exact: x moves with m as (xᵢ − x)/Σm, so the extreme lies at a corner, and each round can only go further.
 * @throws Fault `haul/mass-range` unless the sum of the least is above 0
 */
export function centreRange(points: readonly SpanPoint[]): { readonly low: number; readonly high: number } {
  if (!(points.reduce((sum, p) => sum + p.low, 0) > 0)) throw new Fault('haul/mass-range', points.length)
  return { low: -furthest(points.map((p) => ({ ...p, at: -p.at }))), high: furthest(points) }
}

function furthest(points: readonly SpanPoint[]): number {
  let at = Number.NEGATIVE_INFINITY
  for (let round = 0; round <= points.length + 1; round += 1) {
    let mass = 0
    let moment = 0
    for (const p of points) {
      const m = p.at > at ? p.high : p.low
      mass += m
      moment += m * p.at
    }
    const next = moment / mass
    if (!(next > at)) return at
    at = next
  }
  return at
}

/**
 * Mass and centre of things, each with both ends of what is not known.
 *
 *   m = Σ mᵢ;  x = Σ mᵢ·xᵢ / Σ mᵢ, and y, z alike
 *
 * @throws Fault `haul/mass-range`
 */
export function massCentre(
  items: readonly MassItem[],
  of: { readonly state: MassCentre['state']; readonly lengthMm: number; readonly widthMm: number },
): Worked<MassCentre> {
  const middle = (item: MassItem): number => (item.massKg.low + item.massKg.high) / 2
  const total = sum(items, middle)
  if (!(total > 0)) throw new Fault('haul/mass-range', of)
  const low = sum(items, (i) => i.massKg.low)
  const high = sum(items, (i) => i.massKg.high)
  const axis = (at: 0 | 1 | 2): { readonly middle: number; readonly low: number; readonly high: number } => {
    const band = (i: MassItem): number => (at === 0 ? i.bandXMm : 0)
    const points = (sign: number): readonly SpanPoint[] =>
      items.map((i) => ({
        low: i.massKg.low,
        high: i.massKg.high,
        at: i.atMm[at] + sign * (i.massKg.low < 0 ? -band(i) : band(i)),
      }))
    return {
      middle: sum(items, (i) => middle(i) * i.atMm[at]) / total,
      low: centreRange(points(-1)).low,
      high: centreRange(points(1)).high,
    }
  }
  const [x, y, z] = [axis(0), axis(1), axis(2)]
  const off = (span: { readonly low: number; readonly high: number }, half: number): number =>
    Math.max(Math.abs(span.low - half), Math.abs(span.high - half))
  const centre: MassCentre = {
    state: of.state,
    massKg: { low, high, basis: 'sum of the items', told: items.every((i) => i.massKg.told) },
    centreMm: [x.middle, y.middle, z.middle],
    lowMm: [x.low, y.low, z.low],
    highMm: [x.high, y.high, z.high],
    offXMm: off(x, of.lengthMm / 2),
    offYMm: off(y, of.widthMm / 2),
  }
  const puts = items.map((i) => [i.id, `${rounded(i.massKg.low)} to ${rounded(i.massKg.high)}`, 'kg'] as const)
  const moments = items.map((i) => [`m·x of ${i.id}`, (middle(i) * i.atMm[0]) / 1000, 'kg·m'] as const)
  const steps: readonly Step[] = [
    line('m', 'Σ mᵢ, least', puts, low, 'kg', source('the items', 'computed')),
    line('m', 'Σ mᵢ, greatest', [], high, 'kg', source('the items', 'computed')),
    line('x', 'Σ mᵢ·xᵢ / Σ mᵢ, every mass in the middle of its span', [...moments, ['Σ m', total, 'kg']], x.middle / 1000, 'm'),
    ...spanSteps('x', x),
    line('y', 'Σ mᵢ·yᵢ / Σ mᵢ', [['Σ m', total, 'kg']], y.middle / 1000, 'm'),
    ...spanSteps('y', y),
    line('z', 'Σ mᵢ·zᵢ / Σ mᵢ', [['Σ m', total, 'kg']], z.middle / 1000, 'm'),
    ...spanSteps('z', z),
    line('e along', 'greatest |x − L/2|', [['L', of.lengthMm / 1000, 'm']], centre.offXMm / 1000, 'm'),
    line('e across', 'greatest |y − b/2|', [['b', of.widthMm / 1000, 'm']], centre.offYMm / 1000, 'm'),
  ]
  return { value: centre, steps }
}

const rounded = (value: number): number => Number(value.toPrecision(5))

const spanSteps = (symbol: string, span: { readonly low: number; readonly high: number }): readonly Step[] => [
  line(`${symbol} least`, 'every mass at the end of its span that pulls it there', [], span.low / 1000, 'm'),
  line(`${symbol} greatest`, 'every mass at the end of its span that pulls it there', [], span.high / 1000, 'm'),
]

const sum = <T>(all: readonly T[], of: (one: T) => number): number => all.reduce((total, one) => total + of(one), 0)

/**
 * Bare copper or aluminium.
 *
 *   m = A · l · ρ,  mm² · m · g/cm³ / 1000
 *
 * @throws Fault `haul/conductor-range`
 */
export function conductorKg(of: {
  readonly areaMm2: number
  readonly lengthM: number
  readonly count: number
  readonly metal: 'cu' | 'al'
}): number {
  finite('conductor-range', { areaMm2: of.areaMm2, lengthM: of.lengthM, count: of.count })
  if (!(of.areaMm2 > 0 && of.lengthM >= 0 && of.count >= 0)) throw new Fault('haul/conductor-range', of)
  return (of.areaMm2 * of.lengthM * of.count * figure(of.metal === 'cu' ? 'copper-density' : 'aluminium-density').value) / 1000
}

/**
 * Area of a trade size that no table of the rule set holds, as thin cords have.
 *
 *   n AWG: 0.012668 · 92^((36 − n)/19.5) mm², 1/0 counted as 0, 2/0 as −1; kcmil · 0.50671 mm²
 *
 * @throws Fault `haul/size-unknown` for a name that is none
 * @source ASTM B258, definition of the gauge. Provenance: memory
 */
export function tradeAreaMm2(size: string): number {
  const [, digits = '', family = ''] = /^(\d+(?:\.\d+|\/0)?) (AWG|kcmil|mm2)$/.exec(size) ?? []
  if (family === 'mm2') return Number(digits)
  if (family === 'kcmil') return Number(digits) * 0.50671
  if (family !== 'AWG') throw new Fault('haul/size-unknown', size)
  const gauge = digits.endsWith('/0') ? 1 - Number(digits.slice(0, -2)) : Number(digits)
  return 0.012668 * power(92, (36 - gauge) / 19.5)
}

/** Pound a foot in kilograms a metre. @source NIST SP 811. Provenance: memory */
const KG_PER_M = 0.45359237 / 0.3048

const CONDUIT_COLUMN: Readonly<Record<string, string>> = {
  RMC: 'rmc_steel_with_couplings',
  IMC: 'imc',
  EMT: 'emt',
  'RMC aluminium': 'rmc_aluminium',
}

/** Mass of a metre of steel or aluminium conduit; null where the table has none of this kind or size. @source table `conduit-mass` */
export function conduitKgPerM(kind: string, trade: string): number | null {
  const column = CONDUIT_COLUMN[kind]
  const cell = column === undefined ? null : rowsOf('conduit-mass').find((row) => row.trade_size === trade)?.[column]
  return typeof cell === 'number' ? (cell / 100) * KG_PER_M : null
}

/** Mass of a metre of strut; the lightest to the heaviest single channel where the section is none of the table's. @source table `strut-mass` */
export function strutKgPerM(section: string): { readonly low: number; readonly high: number; readonly known: boolean } {
  const rows = rowsOf('strut-mass').map((row) => ({ section: row.section, kg: (row.mass as number) * KG_PER_M }))
  const hit = rows.find((row) => row.section === section)
  if (hit !== undefined) return { low: hit.kg, high: hit.kg, known: true }
  const all = rows.filter((row) => !String(row.section).includes('back to back')).map((row) => row.kg)
  return { low: Math.min(...all), high: Math.max(...all), known: false }
}

export const middleOf = (from: PointMm, to: PointMm): PointMm => [
  (from[0] + to[0]) / 2,
  (from[1] + to[1]) / 2,
  (from[2] + to[2]) / 2,
]
