import { log10 } from './functions.ts'
/** Stands between a number and its unit, and between groups of three digits: narrow, and never a place to break a line. */
export const THIN = '\u202f'

export interface NumberStyle {
  /** Significant digits; whole numbers and the whole part of larger ones are never cut. 3 for what is shown, 4 in workings. */
  readonly digits?: number
  /** As short as it can be without losing a digit: for values that were put in, 0.05 and not 0.0500. */
  readonly shortest?: boolean
  /** Between groups of three: narrow space, or the comma of a person's locale. */
  readonly grouping?: string
}

/** A number for people: − for minus, ∞, “unknown” for what is not a number. */
export function formatNumber(value: number, style: NumberStyle = {}): string {
  if (Number.isNaN(value)) return 'unknown'
  if (!Number.isFinite(value)) return value < 0 ? '−∞' : '∞'
  return atDecimals(value, decimalsFor(value, style.digits ?? SHOWN_DIGITS, style.shortest ?? false), style.grouping ?? THIN)
}

/** A number with its unit, in the prefix a person expects: 17.4 kA, 5.21 mΩ/m. Words pass as they are. */
export function formatQuantity(value: number | string, unit: string, style: NumberStyle = {}): string {
  if (typeof value === 'string') return unit === '' || value === '' ? value : `${value}${THIN}${unitForPeople(unit)}`
  if (Number.isNaN(value)) return 'unknown'
  const scaled = prefixOf(Math.abs(value), unit)
  const number = formatNumber(value * scaled.factor, style)
  return scaled.unit === '' ? number : `${number}${THIN}${scaled.unit}`
}

export interface FormattedPair {
  readonly demand: string
  readonly limit: string
  /** |limit − demand|, with the same decimals. */
  readonly difference: string
}

/**
 * A demand and its limit with the same decimals and the same prefix. Where rounding would hide a breach or make equal what is not,
 * digits are added until it does not.
 */
export function formatPair(demand: number, limit: number, unit: string, style: NumberStyle = {}): FormattedPair {
  if (!Number.isFinite(demand) || !Number.isFinite(limit)) {
    const gap = Math.abs(limit - demand)
    return {
      demand: formatQuantity(demand, unit, style),
      limit: formatQuantity(limit, unit, style),
      difference: Number.isNaN(gap) ? 'unknown' : formatQuantity(gap, unit, style),
    }
  }
  const scaled = prefixOf(Math.max(Math.abs(demand), Math.abs(limit)), unit)
  const [a, b] = [demand * scaled.factor, limit * scaled.factor]
  const digits = style.digits ?? SHOWN_DIGITS
  const most = decimalsAt(Math.max(Math.abs(a), Math.abs(b)), digits)
  let decimals = Math.max(fewestDecimals(a, most), fewestDecimals(b, most))
  while (decimals < MOST_DECIMALS && demand !== limit && a.toFixed(decimals) === b.toFixed(decimals)) decimals += 1
  const withUnit = (value: number): string => {
    const number = atDecimals(value, decimals, style.grouping ?? THIN)
    return scaled.unit === '' ? number : `${number}${THIN}${scaled.unit}`
  }
  return { demand: withUnit(a), limit: withUnit(b), difference: withUnit(Math.abs(b - a)) }
}

/** The unit as it is written for people: Ω, mm², °C. */
export function unitForPeople(unit: string): string {
  return UNIT_WORDS[unit] ?? unit
}

/** Local hour on a circle of 24 h as a clock shows it. */
export function formatHour(hour: number): string {
  const minutes = Math.round((((hour % 24) + 24) % 24) * 60) % 1440
  return `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`
}

const SHOWN_DIGITS = 3
const MOST_DECIMALS = 9

const UNIT_WORDS: Readonly<Record<string, string>> = {
  ohm: 'Ω',
  Ohm: 'Ω',
  'ohm/m': 'Ω/m',
  'Ohm/m': 'Ω/m',
  'ohm/km': 'Ω/km',
  'mohm/m': 'mΩ/m',
  mohm: 'mΩ',
  mm2: 'mm²',
  mm3: 'mm³',
  m2: 'm²',
  m3: 'm³',
  in3: 'in³',
  A2s: 'A²s',
  'A^2s': 'A²s',
  C: '°C',
  degC: '°C',
  ohmm: 'Ω·m',
  'ohm.m': 'Ω·m',
  ohm·m: 'Ω·m',
  deg: '°',
}

/** Unit → factors and words for what is large and what is small. */
const PREFIXES: Readonly<Record<string, { readonly large?: string; readonly small?: string }>> = {
  A: { large: 'kA', small: 'mA' },
  V: { large: 'kV', small: 'mV' },
  W: { large: 'kW' },
  VA: { large: 'kVA' },
  var: { large: 'kvar' },
  Wh: { large: 'kWh' },
  Ω: { large: 'kΩ', small: 'mΩ' },
  'Ω/m': { small: 'mΩ/m' },
  s: { small: 'ms' },
}
const LARGE_FROM = 10_000
const SMALL_BELOW = 0.1

function prefixOf(magnitude: number, unit: string): { readonly factor: number; readonly unit: string } {
  const words = unitForPeople(unit)
  const prefix = PREFIXES[words]
  if (prefix?.large !== undefined && magnitude >= LARGE_FROM && magnitude < Infinity) return { factor: 1e-3, unit: prefix.large }
  if (prefix?.small !== undefined && magnitude > 0 && magnitude < SMALL_BELOW) return { factor: 1e3, unit: prefix.small }
  return { factor: 1, unit: words }
}

function decimalsFor(value: number, digits: number, shortest: boolean): number {
  const decimals = decimalsAt(value, digits)
  const fewest = fewestDecimals(value, decimals)
  return shortest || fewest === 0 ? fewest : decimals
}

/** Decimals that show so many significant digits. */
function decimalsAt(value: number, digits: number): number {
  return value === 0 ? 0 : Math.min(MOST_DECIMALS, Math.max(0, digits - 1 - Math.floor(log10(Math.abs(value)))))
}

/** Fewer decimals where none of them would say anything. */
function fewestDecimals(value: number, most: number): number {
  for (let fewer = 0; fewer < most; fewer += 1) {
    if (Math.abs(Number(value.toFixed(fewer)) - value) <= Math.abs(value) * SAME) return fewer
  }
  return most
}

/** Sums of printed figures differ in their last bits: 0.1 + 0.2 is shown as 0.3. */
const SAME = 1e-9

function atDecimals(value: number, decimals: number, grouping: string): string {
  const fixed = Math.abs(value).toFixed(decimals)
  const [whole = '0', part] = fixed.split('.')
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, grouping) : whole
  const negative = value < 0 && /[1-9]/.test(fixed)
  return `${negative ? '−' : ''}${grouped}${part === undefined ? '' : `.${part}`}`
}
