import type { Shop } from '../assess/index.ts'
import type { Job } from '../job/index.ts'
import { hireTimeOf } from '../keep/index.ts'
import { type Hire, type MaterialMoney, type Model, NO_HIRE, type YardBox } from '../parts/index.ts'
import type { PlanResult } from '../plan/index.ts'
import type { ChangesNeeded, PriceLine, Ranked } from './types.ts'

/**
 * The one place where ranking asks for money and days. Today: material by the price table, hours at the shop's rate, lead times as told.
 */
export interface Terms {
  readonly hire: Hire
  readonly currency: string
  readonly ratePerHMoney: number | null
}

export function termsOf(job: Job, shop: Shop): Terms {
  const hire = shop.stock?.hire ?? NO_HIRE
  const { currency } = shop.prices
  const rate =
    job.money.currency === currency && job.money.electricianPerHMoney !== null
      ? job.money.electricianPerHMoney
      : hire.currency === currency
        ? hire.electricianPerHMoney
        : null
  return { hire: hire.currency === null || hire.currency === currency ? hire : NO_HIRE, currency, ratePerHMoney: rate }
}

export const HOURS_PER_DAY = 8
const DAY_MS = 86_400_000
const RENT_DAYS = 28

const later = (iso: string | null, days: number): string | null =>
  iso === null ? null : new Date(Date.parse(iso) + days * DAY_MS).toISOString().slice(0, 10)

/** Saturdays and Sundays are not worked: five days of work take seven. */
export const calendarDays = (workDays: number): number =>
  Math.ceil(workDays) + 2 * Math.floor(Math.max(0, Math.ceil(workDays) - 1) / 5)

const latest = (...days: readonly (string | null)[]): string | null =>
  days.includes(null) ? null : ((days as string[]).toSorted().at(-1) ?? null)

/** First day a candidate can be live: the box, and the supply of the plan, both from the day of the order. */
export function earliestOf(
  job: Job,
  fresh: PlanResult,
  ready: { readonly leadDays: number | null; readonly workDays: number },
): string | null {
  const box = ready.leadDays === null ? null : later(job.needs.orderDate, ready.leadDays + calendarDays(ready.workDays))
  return latest(box, fresh.chosen.ready)
}

export function inTimeOf(job: Job, earliest: string | null): boolean | null {
  const time = hireTimeOf(job)
  return earliest === null || time === null ? null : earliest <= time.from
}

type Price = Ranked['price']

function priceOf(is: Price['is'], lines: readonly PriceLine[], currency: string, floor: boolean): Price {
  const totalMoney = Math.round(lines.reduce((sum, l) => sum + (l.money ?? 0), 0) * 100) / 100
  return { is, lines, totalMoney, currency, isFloor: floor || lines.some((l) => l.money === null) }
}

/** Work and material before it can be switched on there; a list of changes holds what the place asks already. */
function changeLines(changes: ChangesNeeded | null, place: MaterialMoney): readonly PriceLine[] {
  if (changes === null) return [{ what: 'feed, electrode and cords of the place', money: place.totalMoney }]
  return [
    { what: 'parts of the changes', money: changes.materialMoney },
    { what: 'hours of the changes', money: changes.labourMoney },
  ]
}

/** Rent over the call, haul there and back, setting down and picking up, turn-round, changes. */
export function yardPrice(
  job: Job,
  box: YardBox,
  call: string | null,
  changes: ChangesNeeded | null,
  testFirst: boolean,
  place: MaterialMoney,
  terms: Terms,
): Price {
  const { hire, currency } = terms
  const time = hireTimeOf(job)
  const days = time === null ? null : (Date.parse(time.to) - Date.parse(time.from)) / DAY_MS
  const away = box.calls.find((c) => c.call === call)?.awayM ?? null
  const rent = box.rentPer28Days
  const times = (n: number | null, money: number | null) => (n === null || money === null ? null : n * money)
  const crane = (job.yard.access.unload ?? '').includes('crane')
  const lines: PriceLine[] = [
    {
      what: 'rent over the call',
      money: rent !== null && rent.currency === currency ? times(days === null ? null : days / RENT_DAYS, rent.amount) : null,
    },
    { what: 'haul there and back', money: times(away === null ? null : (2 * away) / 1000, hire.haulPerKmMoney) },
    ...(crane ? [{ what: 'crane, set down and picked up', money: times(2, hire.craneCallMoney) }] : []),
    { what: 'turn-round', money: hire.turnRoundMoney },
    ...(testFirst ? [{ what: 'full test', money: hire.fullTestMoney }] : []),
    ...changeLines(changes, place),
  ]
  return priceOf('rent over the call', lines, currency, changes?.moneyIsFloor ?? place.missing.length > 0)
}

export function modelPrice(model: Model, changes: ChangesNeeded | null, place: MaterialMoney, terms: Terms): Price {
  const known = model.price.currency === terms.currency
  const lines = [
    { what: `one as drawn, price of ${model.price.date}`, money: known ? model.price.amount : null },
    ...changeLines(changes, place),
  ]
  return priceOf('price of one', lines, terms.currency, changes?.moneyIsFloor ?? place.missing.length > 0)
}

/** The price that `money` asks before tax, its cost and its margin apart; where nobody told a margin, what it costs the shop. */
export function newPrice(fresh: PlanResult, terms: Terms): Price {
  const { price, currency } = fresh.assessment.results.money
  if (price.priceMoney !== null && price.marginMoney !== null && currency === terms.currency)
    return priceOf(
      'price of one',
      [
        { what: 'cost to the shop', money: price.costMoney },
        { what: 'margin', money: price.marginMoney },
      ],
      currency,
      price.isFloor,
    )
  const boxes = fresh.assessment.results.shop.boxes
  const hours = boxes.reduce((sum, b) => sum + b.hours.total.middle, 0)
  const lines = [
    { what: 'bill of material', money: boxes.length === 0 ? null : boxes.reduce((sum, b) => sum + b.bill.totalMoney, 0) },
    { what: 'hours of the shop', money: boxes.length === 0 || terms.ratePerHMoney === null ? null : hours * terms.ratePerHMoney },
  ]
  return priceOf(
    'cost to the shop',
    lines,
    terms.currency,
    boxes.some((b) => b.bill.missing.some((m) => !m.countsInSum)),
  )
}

export const newWorkDays = (fresh: PlanResult): number =>
  fresh.assessment.results.shop.boxes.reduce((sum, b) => sum + b.hours.total.middle, 0) / HOURS_PER_DAY
