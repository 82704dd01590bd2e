import { isoOrNull, parseQuantity } from '../kernel/index.ts'
import type { ShopCrew } from '../site/dates/result.ts'
import { HOLIDAY_PLACES, isLeadName } from '../site/index.ts'

export type Wrong = (path: string, found: unknown, wanted: string, mend: string) => void

export const TRADES = ['welder', 'electrician', 'helper', 'painter'] as const
type Trade = (typeof TRADES)[number]

const WEEKDAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday']

const isMap = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/** People, days, booked time, paint bay and lead times, where the shop's page has them. */
export function crewOf(raw: Record<string, unknown>, wrong: Wrong): ShopCrew {
  const people = peopleOf(raw.people, wrong)
  const hours = raw['hours-a-day']
  const hoursGood = hours === undefined || (typeof hours === 'number' && hours > 0 && hours <= 24)
  if (!hoursGood) wrong('hours-a-day', hours, 'hours above 0, at most 24', 'Write for example hours-a-day: 8.')
  const weekdays = weekdaysOf(raw.days, wrong)
  const place = raw.holidays
  const placeGood = place === undefined || (typeof place === 'string' && HOLIDAY_PLACES.includes(place))
  if (!placeGood)
    wrong('holidays', place, `one of ${HOLIDAY_PLACES.join(', ')}`, 'Write the place whose holidays the shop keeps.')
  const bayC = bayOf(raw['paint-bay'], wrong)
  return {
    ...(people === null ? {} : { people }),
    ...(hours === undefined || !hoursGood ? {} : { hoursPerDay: hours as number }),
    ...(weekdays === null ? {} : { weekdays }),
    ...(place === undefined || !placeGood ? {} : { holidays: place as string }),
    ...(raw.closed === undefined
      ? {}
      : { closed: listed('closed', raw.closed, wrong).flatMap((row, i) => closedOf(row, i, wrong)) }),
    ...(raw.booked === undefined
      ? {}
      : { booked: listed('booked', raw.booked, wrong).flatMap((row, i) => bookedOf(row, i, wrong)) }),
    ...(bayC === null ? {} : { bayC }),
    ...(raw['lead-times'] === undefined ? {} : { leads: leadsOf(raw['lead-times'], wrong) }),
  }
}

function peopleOf(value: unknown, wrong: Wrong): Partial<Record<Trade, number>> | null {
  if (value === undefined) return null
  const out: Partial<Record<Trade, number>> = {}
  for (const [trade, count] of Object.entries(isMap(value) ? value : { '': value })) {
    const known = TRADES.find((t) => t === trade)
    if (known !== undefined && typeof count === 'number' && count > 0 && count <= 100) out[known] = count
    else
      wrong(
        `people.${trade}`,
        count,
        `a number above 0 for ${TRADES.join(', ')}`,
        'Write for example people: { welder: 1, electrician: 2 }.',
      )
  }
  return out
}

function weekdaysOf(value: unknown, wrong: Wrong): readonly number[] | null {
  if (value === undefined) return null
  const [from, to] = typeof value === 'string' ? value.split(' to ').map((d) => WEEKDAYS.indexOf(d.trim())) : []
  if (from !== undefined && to !== undefined && from >= 0 && to >= 0)
    return Array.from({ length: ((to - from + 7) % 7) + 1 }, (_, i) => (from + i) % 7).toSorted()
  wrong('days', value, 'the first and the last day of the shop’s week', 'Write for example days: Monday to Friday.')
  return null
}

function bayOf(value: unknown, wrong: Wrong): number | null {
  if (value === undefined) return null
  const read = typeof value === 'string' ? parseQuantity(value, 'temperature') : null
  const airC = read?.ok === true ? read.value.value : Number.NaN
  if (airC > -40 && airC < 60) return airC
  wrong('paint-bay', value, 'the air in which paint hardens', 'Write for example paint-bay: 18 C.')
  return null
}

function listed(key: string, value: unknown, wrong: Wrong): readonly unknown[] {
  if (Array.isArray(value)) return value
  wrong(key, value, 'a list', `Write ${key}: and a row a line, each after a dash.`)
  return []
}

const dayOf = (value: unknown): string | null => (typeof value === 'string' ? isoOrNull(value) : null)

function closedOf(row: unknown, i: number, wrong: Wrong): NonNullable<ShopCrew['closed']> {
  const [from, to] = isMap(row) ? [dayOf(row.from), dayOf(row.to)] : [null, null]
  if (isMap(row) && from !== null && to !== null && from <= to)
    return [{ from, to, why: typeof row.why === 'string' ? row.why : 'closed' }]
  wrong(`closed[${i}]`, row, 'from and to, each a date', 'Write for example {from: 2027-12-24, to: 2028-01-02, why: holidays}.')
  return []
}

function bookedOf(row: unknown, i: number, wrong: Wrong): NonNullable<ShopCrew['booked']> {
  const at = isMap(row) ? row : {}
  const [from, to, trade] = [dayOf(at.from), dayOf(at.to), TRADES.find((t) => t === at.trade)]
  const percent = typeof at.share === 'string' ? parseQuantity(at.share, 'share') : null
  const shareFrac = percent?.ok === true ? percent.value.value : Number.NaN
  if (from !== null && to !== null && from <= to && trade !== undefined && shareFrac > 0 && shareFrac <= 1)
    return [{ from, to, trade, shareFrac, why: typeof at.why === 'string' ? at.why : 'booked' }]
  wrong(
    `booked[${i}]`,
    row,
    'trade, from, to and share',
    'Write for example {trade: welder, from: 2027-07-12, to: 2027-07-23, share: 50 %, why: another box}.',
  )
  return []
}

function leadsOf(value: unknown, wrong: Wrong): NonNullable<ShopCrew['leads']> {
  const out: Record<string, { low: number; likely: number; high: number }> = {}
  for (const [name, row] of Object.entries(isMap(value) ? value : { '': value })) {
    const days = Array.isArray(row) ? row : []
    const [low, likely, high] = days as readonly unknown[]
    const good =
      days.length === 3 &&
      days.every((d) => typeof d === 'number' && d >= 0 && d < 2000) &&
      Number(low) <= Number(likely) &&
      Number(likely) <= Number(high)
    if (good && isLeadName(name)) out[name] = { low: Number(low), likely: Number(likely), high: Number(high) }
    else
      wrong(
        `lead-times.${name}`,
        row,
        'a task of the chain, with its least, likely and most working days, rising',
        'Write for example buy panel: [5, 15, 40]; the names are in docs/dates.md.',
      )
  }
  return out
}
