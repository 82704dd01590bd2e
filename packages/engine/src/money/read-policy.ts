import { type Dimension, parseMoney, parseQuantity } from '../kernel/index.ts'
import {
  type MoneyPolicy,
  type PricedOption,
  type RentPolicy,
  RISK_WHEN,
  type Risk,
  SERVICE_PER,
  type Service,
  SPREADS,
  type SpreadOf,
} from './policy.ts'

/** Names what is wrong: path, what was found, what is wanted, how to mend. */
export type Wrong = (path: string, found: unknown, wanted: string, mend: string) => void

type Raw = Readonly<Record<string, unknown>>
const isRaw = (value: unknown): value is Raw => typeof value === 'object' && value !== null && !Array.isArray(value)

const KEYS = [
  'margin',
  'consumables',
  'spread',
  'warranty',
  'price-age',
  'validity',
  'loss-chance',
  'deposit',
  'tax',
  'services',
  'risks',
  'options',
  'rent',
] as const

/** The part `money` of the shop's page. What is absent is nothing (no service, no risk, no rent), never a figure taken in silence. */
export function readMoneyPolicy(value: unknown, wrong: Wrong): MoneyPolicy {
  if (value !== undefined && !isRaw(value)) wrong('money', value, 'named values', 'Write money: and one value a line.')
  const raw = isRaw(value) ? value : {}
  const at = readerOf(wrong)
  at.only(raw, 'money', KEYS)
  const assumed: string[] = []
  const usual = <T>(told: T | null, usually: T, path: string): T => {
    if (told === null) assumed.push(`shop.money.${path}`)
    return told ?? usually
  }
  return {
    marginFrac: at.share(raw.margin, 'money.margin', 0, 0.9),
    consumablesFrac: at.share(raw.consumables, 'money.consumables', 0, 1) ?? 0,
    spread: spreadOf(raw.spread, at),
    warrantyFrac: at.share(raw.warranty, 'money.warranty', 0, 0.5) ?? 0,
    oldAfterDays: usual(at.days(raw['price-age'], 'money.price-age'), 180, 'price-age'),
    validDays: usual(at.days(raw.validity, 'money.validity'), 30, 'validity'),
    lossChanceFrac: usual(at.share(raw['loss-chance'], 'money.loss-chance', 0, 1), 0.05, 'loss-chance'),
    depositFrac: at.share(raw.deposit, 'money.deposit', 0, 1),
    tax: taxOf(raw.tax, at),
    services: at.list(raw.services, 'money.services', (row, path): Service => {
      at.only(row, path, ['id', 'what', 'per'])
      return {
        id: at.text(row.id, `${path}.id`),
        what: at.text(row.what, `${path}.what`),
        per: at.choice(row.per, `${path}.per`, SERVICE_PER),
      }
    }),
    risks: at.list(raw.risks, 'money.risks', (row, path) => riskOf(row, path, at, wrong)),
    options: at.list(raw.options, 'money.options', (row, path) => optionOf(row, path, at)),
    rent: raw.rent === undefined ? null : rentOf(raw.rent, at, wrong),
    assumed,
  }
}

type Reader = ReturnType<typeof readerOf>

function readerOf(wrong: Wrong) {
  const quantity = (value: unknown, path: string, dimension: Dimension, from: number, to: number, mend: string) => {
    if (value === undefined) return null
    const read = parseQuantity(String(value), dimension)
    if (read.ok && read.value.value >= from && read.value.value <= to) return read.value.value
    wrong(path, value, mend.replace(/^Write for example /, 'as in '), mend)
    return null
  }
  return {
    only: (raw: Raw, path: string, keys: readonly string[]): void => {
      for (const key of Object.keys(raw))
        if (!keys.includes(key)) wrong(`${path}.${key}`, key, keys.join(', '), 'Remove the key, or write it as it is meant.')
    },
    share: (value: unknown, path: string, from: number, to: number): number | null =>
      quantity(value, path, 'share', from, to, `Write for example ${Math.round(((from + to) / 4) * 100)} %.`),
    days: (value: unknown, path: string): number | null => {
      const seconds = quantity(value, path, 'time', DAY_S, 3660 * DAY_S, 'Write for example 30 days.')
      return seconds === null ? null : Math.round(seconds / DAY_S)
    },
    number: (value: unknown, path: string, from: number, to: number): number => {
      if (typeof value === 'number' && value >= from && value <= to) return value
      wrong(path, value, `a number from ${from} to ${to}`, `Write for example ${from === 0 ? 1 : from}.`)
      return from
    },
    years: (value: unknown, path: string): number => {
      const months = quantity(value ?? '', path, 'stay', 1, 600, 'Write for example 10 years.')
      return (months ?? 12) / 12
    },
    text: (value: unknown, path: string): string => {
      if (typeof value === 'string' && value.trim() !== '' && value.length <= 200) return value.trim()
      wrong(path, value, 'words', 'Write what it is.')
      return ''
    },
    choice: <T extends string>(value: unknown, path: string, all: readonly T[]): T => {
      const known = all.find((one) => one === value)
      if (known === undefined) wrong(path, value, all.join(' | '), `Write one of ${all.join(', ')}.`)
      return known ?? all[0]!
    },
    list: <T>(value: unknown, path: string, each: (row: Raw, path: string) => T): readonly T[] => {
      if (value === undefined) return []
      if (!Array.isArray(value)) {
        wrong(path, value, 'a list', 'Write each on a line after a dash.')
        return []
      }
      return value.flatMap((row, i) => {
        if (isRaw(row)) return [each(row, `${path}[${i}]`)]
        wrong(`${path}[${i}]`, row, 'named values', 'Write { name: value, … }.')
        return []
      })
    },
  }
}

const DAY_S = 86_400

function spreadOf(value: unknown, at: Reader): MoneyPolicy['spread'] {
  const raw = isRaw(value) ? value : {}
  at.only(raw, 'money.spread', SPREADS)
  const one = (of: SpreadOf) => {
    const pair = Array.isArray(raw[of]) ? (raw[of] as readonly unknown[]) : []
    if (raw[of] === undefined) return { lowFrac: 0, highFrac: 0 }
    return {
      lowFrac: at.share(pair[0] ?? '', `money.spread.${of}[0]`, -0.9, 0) ?? 0,
      highFrac: at.share(pair[1] ?? '', `money.spread.${of}[1]`, 0, 9) ?? 0,
    }
  }
  return { material: one('material'), bought: one('bought'), haul: one('haul') }
}

function taxOf(value: unknown, at: Reader): MoneyPolicy['tax'] {
  if (value === undefined) return null
  const raw = isRaw(value) ? value : {}
  at.only(raw, 'money.tax', ['name', 'share'])
  return { name: at.text(raw.name, 'money.tax.name'), frac: at.share(raw.share ?? '', 'money.tax.share', 0, 1) ?? 0 }
}

function riskOf(row: Raw, path: string, at: Reader, wrong: Wrong): Risk {
  at.only(row, path, ['what', 'when', 'chance', 'low', 'likely', 'high'])
  const ends = (['low', 'likely', 'high'] as const).map((key) => {
    const read = parseMoney(String(row[key] ?? ''), null)
    if (!read.ok) wrong(`${path}.${key}`, row[key], 'an amount with its currency', 'Write for example 700 USD.')
    return read.ok ? read.value : { amount: 0, currency: '' }
  })
  const [low, likely, high] = ends.map((e) => e.amount) as [number, number, number]
  const currencies = new Set(ends.map((e) => e.currency))
  if (currencies.size > 1) wrong(path, [...currencies].join(' and '), 'one currency', 'Write all three in one currency.')
  if (!(low <= likely && likely <= high)) wrong(path, `${low}, ${likely}, ${high}`, 'low ≤ likely ≤ high', 'Put them in order.')
  return {
    what: at.text(row.what, `${path}.what`),
    when: row.when === undefined ? 'always' : at.choice(row.when, `${path}.when`, RISK_WHEN),
    chanceFrac: at.share(row.chance ?? '', `${path}.chance`, 0, 1) ?? 0,
    currency: ends[0]!.currency,
    ...{ lowMoney: low, likelyMoney: likely, highMoney: high },
  }
}

const TRADES = ['welder', 'electrician', 'helper', 'painter'] as const

function optionOf(row: Raw, path: string, at: Reader): PricedOption {
  at.only(row, path, ['what', 'rows', 'hours'])
  const hours = isRaw(row.hours) ? row.hours : {}
  at.only(hours, `${path}.hours`, TRADES)
  return {
    what: at.text(row.what, `${path}.what`),
    rows: at.list(row.rows, `${path}.rows`, (one, p) => {
      at.only(one, p, ['id', 'count'])
      return { id: at.text(one.id, `${p}.id`), count: at.number(one.count, `${p}.count`, 0, 1e6) }
    }),
    hours: Object.fromEntries(
      TRADES.flatMap((t) => (hours[t] === undefined ? [] : [[t, at.number(hours[t], `${path}.hours.${t}`, 0, 1e4)]])),
    ),
  }
}

function rentOf(value: unknown, at: Reader, wrong: Wrong): RentPolicy {
  if (!isRaw(value)) wrong('money.rent', value, 'named values', 'Write rent: and one value a line.')
  const raw = isRaw(value) ? value : {}
  const keys = ['life', 'residual', 'insurance', 'upkeep', 'use', 'off-season', 'turn-round', 'deposit', 'minimum']
  at.only(raw, 'money.rent', keys)
  const share = (key: string, to: number, from = 0) => at.share(raw[key] ?? '', `money.rent.${key}`, from, to) ?? from
  return {
    lifeYears: at.years(raw.life, 'money.rent.life'),
    residualFrac: share('residual', 1),
    insuranceFrac: share('insurance', 1),
    upkeepFrac: share('upkeep', 1),
    useFrac: share('use', 1, 0.01),
    offSeasonFrac: share('off-season', 1),
    turnRound: at.text(raw['turn-round'], 'money.rent.turn-round'),
    depositPeriodsCount: at.number(raw.deposit, 'money.rent.deposit', 0, 24),
    minimumPeriodsCount: at.number(raw.minimum, 'money.rent.minimum', 0, 1000),
  }
}

/** Of a shop that has said nothing: no margin, no service, no risk, no rent. */
export const nothingDecided: MoneyPolicy = readMoneyPolicy(undefined, () => {})
