import type { Problem, Result } from './result.ts'

/** What a quantity measures. The value read is in the unit named here. */
export type Dimension =
  | 'length' // m
  | 'area' // m²
  | 'power' // W
  | 'apparent power' // VA
  | 'voltage' // V
  | 'current' // A
  | 'temperature' // °C, a reading
  | 'difference' // K
  | 'share' // fraction
  | 'mass' // kg
  | 'pressure' // Pa
  | 'time' // s
  | 'stay' // months
  | 'energy' // J
  | 'resistivity' // Ω·m
  | 'resistance' // Ω
  | 'volume' // L
  | 'flow' // L/h
  | 'angle' // degrees
  | 'speed' // m/s
  | 'frequency' // Hz
  | 'irradiation' // kWh/m² a day
  | 'loudness' // dBA

/** A quantity as a person wrote it, and in the engine's unit. */
export interface Quantity {
  readonly value: number
  /** As written, outer blanks taken off. */
  readonly text: string
}

/** An amount of money, by unit when it is a price: `92 USD per h`. */
export interface Money {
  readonly amount: number
  readonly currency: string
  readonly text: string
}

export type QuantityCode =
  | 'quantity/unit-missing'
  | 'quantity/unit-unknown'
  | 'quantity/not-a-number'
  | 'quantity/size-unknown'
  | 'quantity/money'

interface Unit {
  readonly names: readonly string[]
  /** Value in the engine's unit = (number + shift) · factor. */
  readonly factor: number
  readonly shift?: number
  /** May be written as a fraction: `3/4 hp`, `1 1/2 in`. */
  readonly fraction?: true
}

const unit = (factor: number, ...names: string[]): Unit => ({ names, factor })
const broken = (factor: number, ...names: string[]): Unit => ({ names, factor, fraction: true })

const FOOT_M = 0.3048
const INCH_M = 0.0254
/** 550 ft·lbf/s. @source NIST SP 811 (2008), Appendix B. Provenance: memory */
const HORSEPOWER_W = 745.6998715822702
/** @source NIST SP 811 (2008), Appendix B: 1 lbf/ft² = 47.88026 Pa. Provenance: memory */
const PSF_PA = 47.88025898
const POUND_KG = 0.45359237
const GALLON_US_L = 3.785411784
const DAYS_PER_MONTH = 365.25 / 12
const DAY_S = 86400

/** Units by dimension; the first name of each is the one shown in messages. */
const UNITS: Record<Dimension, readonly Unit[]> = {
  length: [
    unit(1, 'm', 'metre', 'metres', 'meter', 'meters'),
    unit(0.001, 'mm'),
    unit(0.01, 'cm'),
    unit(1000, 'km'),
    broken(FOOT_M, 'ft', 'foot', 'feet'),
    broken(INCH_M, 'in', 'inch', 'inches'),
  ],
  area: [
    unit(1, 'm2', 'm²'),
    unit(1e-4, 'cm2', 'cm²'),
    unit(1e-6, 'mm2', 'mm²'),
    unit(FOOT_M * FOOT_M, 'ft2', 'ft²'),
    unit(INCH_M * INCH_M, 'in2', 'in²'),
  ],
  power: [unit(1, 'W', 'watt', 'watts'), unit(1000, 'kW'), unit(1e6, 'MW'), broken(HORSEPOWER_W, 'hp', 'HP')],
  'apparent power': [unit(1, 'VA'), unit(1000, 'kVA'), unit(1e6, 'MVA')],
  voltage: [unit(1, 'V', 'volt', 'volts'), unit(1000, 'kV')],
  current: [unit(1, 'A', 'amp', 'amps', 'ampere', 'amperes'), unit(1000, 'kA'), unit(0.001, 'mA')],
  temperature: [unit(1, 'C', '°C'), { names: ['F', '°F'], factor: 5 / 9, shift: -32 }],
  difference: [unit(1, 'K')],
  share: [unit(0.01, '%', 'percent')],
  mass: [unit(1, 'kg'), unit(1000, 't'), unit(POUND_KG, 'lb', 'lbs')],
  pressure: [unit(1000, 'kPa'), unit(1, 'Pa'), unit(PSF_PA, 'psf')],
  time: [
    unit(3600, 'h', 'hour', 'hours'),
    unit(60, 'min', 'minute', 'minutes'),
    unit(1, 's', 'seconds'),
    unit(DAY_S, 'days', 'day'),
    unit(7 * DAY_S, 'weeks', 'week'),
    unit(DAYS_PER_MONTH * DAY_S, 'months', 'month'),
    unit(365.25 * DAY_S, 'years', 'year'),
  ],
  stay: [
    unit(1, 'months', 'month'),
    unit(12, 'years', 'year'),
    unit(7 / DAYS_PER_MONTH, 'weeks', 'week'),
    unit(1 / DAYS_PER_MONTH, 'days', 'day'),
  ],
  energy: [unit(3.6e6, 'kWh'), unit(3600, 'Wh'), unit(3.6e9, 'MWh'), unit(1, 'J'), unit(1e6, 'MJ')],
  resistivity: [unit(1, 'ohm m', 'Ω m', 'Ωm', 'ohm-m', 'Ω·m')],
  resistance: [unit(1, 'ohm', 'Ω', 'ohms'), unit(0.001, 'mohm', 'mΩ'), unit(1e6, 'Mohm', 'MΩ')],
  volume: [unit(1, 'L', 'l', 'litres', 'liters'), unit(1000, 'm3', 'm³'), unit(GALLON_US_L, 'US gal')],
  flow: [unit(1, 'L/h', 'l/h', 'L per h'), unit(GALLON_US_L, 'US gal/h'), unit(1000, 'm3/h', 'm³/h')],
  angle: [unit(1, 'deg', '°', 'degrees')],
  speed: [unit(1, 'm/s'), unit(1 / 3.6, 'km/h'), unit(0.44704, 'mph')],
  frequency: [unit(1, 'Hz')],
  irradiation: [unit(1, 'kWh/m2', 'kWh/m²')],
  loudness: [unit(1, 'dBA', 'dB(A)')],
}

const EXAMPLES: Record<Named, readonly string[]> = {
  length: ['25 m', '82 ft', '6 ft 4 in'],
  area: ['180 cm2', '0.018 m2'],
  power: ['1500 W', '1.5 kW', '3/4 hp'],
  'apparent power': ['75 kVA', '900 VA'],
  voltage: ['120 V', '11 kV'],
  current: ['200 A', '17.4 kA', '30 mA'],
  temperature: ['-31 C', '-24 F'],
  difference: ['12 K'],
  share: ['1.8 %'],
  mass: ['3400 kg', '7500 lb'],
  pressure: ['9.6 kPa', '200 psf'],
  time: ['3 h', '30 min', '13 weeks'],
  stay: ['36 months', '10 weeks'],
  energy: ['5000 kWh'],
  resistivity: ['600 ohm m'],
  resistance: ['18 ohm', '0.2 mohm'],
  volume: ['800 L'],
  flow: ['18.2 L/h'],
  angle: ['46.2 deg'],
  speed: ['4.9 m/s'],
  frequency: ['60 Hz'],
  irradiation: ['4.1 kWh/m2'],
  loudness: ['55 dBA'],
  'conductor size': ['12 AWG', '1/0 AWG', '250 kcmil', '16 mm2'],
}

/** A plain number: sign (also the printed minus), digits, decimal point. No commas, no exponent. */
const NUMBER = String.raw`[-−+]?\d+(?:\.\d+)?`
const FRACTION = String.raw`(?:\d+ )?\d+\/\d+`
const PARTS = new RegExp(`^(${FRACTION}|${NUMBER})\\s*(.*)$`)

const AWG = ['18', '16', '14', '12', '10', '8', '6', '4', '3', '2', '1', '1/0', '2/0', '3/0', '4/0']
const KCMIL = ['250', '300', '350', '400', '500', '600', '700', '750', '800', '900', '1000', '1250', '1500', '1750', '2000']
const SQUARE_MM = [
  '0.5',
  '0.75',
  '1',
  '1.5',
  '2.5',
  '4',
  '6',
  '10',
  '16',
  '25',
  '35',
  '50',
  '70',
  '95',
  '120',
  '150',
  '185',
  '240',
  '300',
  '400',
  '500',
  '630',
]

/** Conductor sizes are names, not quantities; they share the wording of problems. */
type Named = Dimension | 'conductor size'

/** Units a dimension may be written in, as shown in messages and in the schema. */
export const unitsOf = (dimension: Dimension): readonly string[] => UNITS[dimension].map((u) => u.names[0] as string)

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&')

/** Regular expression (source) of what `parseQuantity` reads in a dimension; it admits fractions everywhere, the reader only of hp, ft and in. */
export function patternOf(dimension: Dimension): string {
  const names = UNITS[dimension]
    .flatMap((u) => u.names)
    .map(escaped)
    .join('|')
  const feet = dimension === 'length' ? `|\\d+\\s*(?:ft|feet|foot)\\s+(?:${FRACTION}|\\d+(?:\\.\\d+)?)\\s*(?:in|inch|inches)` : ''
  return `^\\s*(?:(?:${FRACTION}|${NUMBER})\\s*(?:${names})${feet})\\s*$`
}

export const examplesOf = (dimension: Dimension): readonly string[] => EXAMPLES[dimension]

/**
 * Reads a quantity as people write it: `30 m`, `6 ft 4 in`, `3/4 hp`, `-31 C`, `-24 F`, `1.8 %`.
 * Value in the unit of its dimension; the text is kept. A bare number, a number with commas, a foreign unit: a problem that says which
 * units are accepted. Never guesses a unit.
 */
export function parseQuantity(text: string, dimension: Dimension): Result<Quantity> {
  const written = text.trim()
  const units = UNITS[dimension]
  if (dimension === 'length') {
    const mixed = new RegExp(`^(\\d+)\\s*(?:ft|feet|foot)\\s+(${FRACTION}|\\d+(?:\\.\\d+)?)\\s*(?:in|inch|inches)$`).exec(written)
    if (mixed) {
      const inches = numberOf(mixed[2] as string, true)
      if (inches === null) return bad('quantity/not-a-number', written, dimension)
      return { ok: true, value: { value: Number(mixed[1]) * FOOT_M + inches * INCH_M, text: written } }
    }
  }
  const parts = PARTS.exec(written)
  if (!parts) return bad('quantity/not-a-number', written, dimension)
  const [, digits = '', rest = ''] = parts
  const name = rest.trim()
  if (name === '') return bad('quantity/unit-missing', written, dimension)
  const known = units.find((u) => u.names.includes(name))
  if (!known) return bad(/^[,.\d_'/]/.test(name) ? 'quantity/not-a-number' : 'quantity/unit-unknown', written, dimension)
  const number = numberOf(digits, known.fraction === true)
  if (number === null) return bad('quantity/not-a-number', written, dimension)
  return { ok: true, value: { value: (number + (known.shift ?? 0)) * known.factor, text: written } }
}

/**
 * Reads several numbers with one unit behind them: `-9.5 -8.8 … -9.6 C`, as twelve months are written.
 * The text of each is kept apart by blanks only.
 */
export function parseSeries(text: string, dimension: Dimension): Result<readonly number[]> {
  const match = new RegExp(`^(${NUMBER}(?:\\s+${NUMBER})*)\\s+(\\D.*)$`).exec(text.trim())
  if (!match) return bad('quantity/not-a-number', text.trim(), dimension)
  const values: number[] = []
  for (const digits of (match[1] as string).split(/\s+/)) {
    const one = parseQuantity(`${digits} ${match[2]}`, dimension)
    if (!one.ok) return one
    values.push(one.value.value)
  }
  return { ok: true, value: values }
}

/** Reads `18500 USD`, or with `per` a price: `92 USD per h` (also `92 USD/h`). Currency: three capital letters (ISO 4217). */
export function parseMoney(text: string, per: string | null): Result<Money> {
  const written = text.trim()
  const match = new RegExp(`^(${NUMBER}) ?([A-Z]{3})(?: per |\\/| \\/ )?(.*)$`).exec(written)
  const tail = match?.[3]?.trim() ?? ''
  const wanted =
    per === null
      ? 'an amount and a currency, for example “18500 USD”'
      : `an amount, a currency and “per ${per}”, for example “92 USD per ${per}”`
  const plain = numberOf(match?.[1] ?? '', false)
  if (!match || plain === null || tail !== (per ?? '')) {
    const example = plain === null ? '' : ` Perhaps “${match?.[1]} ${match?.[2]}${per === null ? '' : ` per ${per}`}”.`
    return {
      ok: false,
      problems: [
        {
          code: 'quantity/money',
          found: `“${written}”`,
          wanted,
          mend: `Write the figure without commas, then the currency.${example}`,
        },
      ],
    }
  }
  return { ok: true, value: { amount: plain, currency: match[2] as string, text: written } }
}

/** Reads a conductor's trade size and gives it its one spelling: `12 AWG`, `1/0 AWG`, `250 kcmil`, `16 mm2`. A size nobody makes is a problem. */
export function parseSize(text: string): Result<string> {
  const written = text.trim()
  const match = /^(\d+(?:\/0|\.\d+)?)\s*(AWG|awg|kcmil|MCM|mm2|mm²)$/.exec(written)
  if (!match) {
    return bad(/^[\d./]+$/.test(written) ? 'quantity/unit-missing' : 'quantity/unit-unknown', written, 'conductor size')
  }
  const [, digits = '', mark = ''] = match
  const family = mark.toUpperCase() === 'AWG' ? 'AWG' : mark === 'kcmil' || mark === 'MCM' ? 'kcmil' : 'mm2'
  const list = family === 'AWG' ? AWG : family === 'kcmil' ? KCMIL : SQUARE_MM
  if (!list.includes(digits)) {
    return {
      ok: false,
      problems: [
        {
          code: 'quantity/size-unknown',
          found: `“${written}”`,
          wanted: `one of the trade sizes in ${family}: ${list.join(', ')}`,
          mend: `Write a size that is made, for example “${EXAMPLES['conductor size'][family === 'AWG' ? 0 : family === 'kcmil' ? 2 : 3]}”.`,
        },
      ],
    }
  }
  return { ok: true, value: `${digits} ${family}` }
}

function numberOf(digits: string, fraction: boolean): number | null {
  if (digits.includes('/')) {
    if (!fraction) return null
    const [whole = '0', part = ''] = digits.includes(' ') ? digits.split(' ') : ['0', digits]
    const [over = '', under = ''] = part.split('/')
    const value = Number(whole) + Number(over) / Number(under)
    return Number.isFinite(value) ? value : null
  }
  if (digits === '' || digits.length > 20) return null
  const value = Number(digits.replace('−', '-'))
  return Number.isFinite(value) ? value : null
}

function bad(code: QuantityCode, written: string, dimension: Named): Result<never> {
  const found = written.length > 60 ? `“${written.slice(0, 57)}…”` : `“${written}”`
  const wanted = `${ARTICLE[dimension] ?? `a ${dimension}`} in ${listed(namesOf(dimension))}`
  const problem: Problem = { code, found, wanted, mend: mendFor(code, written, dimension) }
  return { ok: false, problems: [problem] }
}

const namesOf = (dimension: Named): readonly string[] =>
  dimension === 'conductor size' ? ['AWG', 'kcmil', 'mm2'] : unitsOf(dimension)

const ARTICLE: Partial<Record<Named, string>> = {
  area: 'an area',
  'apparent power': 'an apparent power',
  energy: 'an energy',
  angle: 'an angle',
  difference: 'a temperature difference',
  stay: 'a length of stay',
}

function mendFor(code: QuantityCode, written: string, dimension: Named): string {
  const examples = EXAMPLES[dimension].map((e) => `“${e}”`)
  const digits = new RegExp(`^${NUMBER}`).exec(written)?.[0]
  if (/^\d{1,3}(,\d{3})+/.test(written)) return `Write the number without commas, for example ${examples[0]}.`
  if (/^\d+,\d/.test(written)) return `Write a decimal point, for example ${examples[0]}.`
  if ((code === 'quantity/unit-missing' || code === 'quantity/unit-unknown') && digits !== undefined) {
    const tries = namesOf(dimension)
      .slice(0, 3)
      .map((u) => `“${digits} ${u}”`)
    const foreign = FOREIGN[dimension]?.find((f) => f.names.includes(written.slice(digits.length).trim()))
    const converted = foreign
      ? ` ${written} would be “${trim(Number(digits.replace('−', '-')) * foreign.factor)} ${foreign.to}”.`
      : ''
    return `Write the unit that is meant: ${listed(tries, 'or')}.${converted}`
  }
  return `Write a plain number and its unit, for example ${listed(examples, 'or')}.`
}

/** Units that people write and that are not accepted, with what they would be: shown as an example, never taken in silence. */
const FOREIGN: Partial<
  Record<Named, readonly { readonly names: readonly string[]; readonly factor: number; readonly to: string }[]>
> = {
  length: [
    { names: ['yd', 'yard', 'yards'], factor: 0.9144, to: 'm' },
    { names: ['mi', 'mile', 'miles'], factor: 1.609344, to: 'km' },
  ],
  power: [
    { names: ['PS', 'CV', 'ch'], factor: 735.49875, to: 'W' },
    { names: ['BTU/h', 'Btu/h'], factor: 0.29307107, to: 'W' },
  ],
  pressure: [
    { names: ['psi'], factor: 6.894757, to: 'kPa' },
    { names: ['bar'], factor: 100, to: 'kPa' },
    { names: ['kN/m2', 'kN/m²'], factor: 1, to: 'kPa' },
  ],
  mass: [{ names: ['ton', 'tons'], factor: 907.18474, to: 'kg' }],
  volume: [{ names: ['gal', 'gallon', 'gallons'], factor: GALLON_US_L, to: 'L' }],
}

const trim = (value: number): string => String(Number(value.toPrecision(5)))

function listed(items: readonly string[], join = 'or'): string {
  return items.length <= 1 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} ${join} ${items.at(-1)}`
}
