import type { BuiltBody } from '../job/index.ts'
import { rentFor } from '../money/index.ts'
import type { MaterialMoney, Model, YardBox } from '../parts/index.ts'
import type { PlanResult } from '../plan/index.ts'
import { HIRE_DAYS, type Terms } from './terms.ts'
import type { ChangesNeeded, Price, PriceKind, PriceLine } from './types.ts'

/** What is asked of one thing before anything is done to it or for it. */
interface Thing {
  readonly what: string
  /** What it stands the shop in; null: not known. */
  readonly costMoney: number | null
  /** Sale, and rate of 28 days, where a sheet says them; else they follow from the cost. */
  readonly saleMoney?: number | null
  readonly rentPer28DaysMoney?: number | null
  readonly from: string
  /** The cost is at least this. */
  readonly lacking: readonly string[]
  /** Way to the place, where the sheet knows it. */
  readonly oneWayMoney?: number | null
}

/** What is done before it can be switched on there. */
export interface Work {
  readonly changes: ChangesNeeded | null
  readonly testFirst: boolean
  /** Feed, electrode and cords, which the place asks of any box. A list of changes holds them already. */
  readonly place: MaterialMoney
}

/** A candidate by the kind of price that the call is ranked by, and the other kind beside it. */
export interface Priced {
  readonly price: Price
  readonly priceBeside: Price
}

export function pricedThing(thing: Thing, work: Work, terms: Terms): Priced {
  const other: PriceKind = terms.kind === 'sale' ? 'rent over the call' : 'sale'
  return { price: priceAs(terms.kind, thing, work, terms), priceBeside: priceAs(other, thing, work, terms) }
}

/**
 * Every candidate by the same lines: the thing itself, its way, crane, turn-round, test, changes, and the margin on what is done. What nobody
 * said is a line without money: named, and the sum is a floor.
 */
function priceAs(is: PriceKind, thing: Thing, work: Work, terms: Terms): Price {
  const rents = is === 'rent over the call'
  const ways = rents ? 2 : 1
  const times = (n: number | null, money: number | null) => (n === null || money === null ? null : n * money)
  const own = rents ? rentOf(thing, terms) : saleOf(thing, terms)
  const oneWay = thing.oneWayMoney === undefined ? terms.oneWayMoney : thing.oneWayMoney
  const done = doneLines(work, terms)
  const cost = done.reduce((sum, l) => sum + (l.money ?? 0), 0)
  const lines: PriceLine[] = [
    own,
    { what: rents ? 'haul there and back' : 'haul there', money: times(ways, oneWay) },
    ...(terms.withCrane
      ? [{ what: rents ? 'crane, set down and picked up' : 'crane, set down', money: times(ways, terms.craneMoney) }]
      : []),
    ...(rents ? [{ what: 'turn-round', money: terms.turnRoundMoney }] : []),
    ...(work.testFirst ? [{ what: 'full test', money: terms.hire.fullTestMoney }] : []),
    ...done,
    ...(cost === 0
      ? []
      : [
          {
            what: 'margin on what is done',
            money: terms.marginFrac === null ? null : (cost * terms.marginFrac) / (1 - terms.marginFrac),
          },
        ]),
  ]
  const lacking = [
    ...lines.filter((l) => l.money === null).map((l) => l.what),
    ...(own.money === null ? [] : thing.lacking),
    ...(work.changes?.lacking ?? work.place.missing.map((m) => `price of ${m.id}`)),
  ]
  return {
    ...{ is, lines, currency: terms.currency, lacking: [...new Set(lacking)] },
    totalMoney: Math.round(lines.reduce((sum, l) => sum + (l.money ?? 0), 0) * 100) / 100,
    isFloor: lacking.length > 0,
    isPriced: own.money !== null,
  }
}

function saleOf({ what, costMoney, saleMoney, from }: Thing, { marginFrac }: Terms): PriceLine {
  const asked = saleMoney ?? (costMoney === null || marginFrac === null ? null : costMoney / (1 - marginFrac))
  const why = saleMoney != null ? from : whyNot(costMoney, marginFrac === null ? ['the margin'] : []) || `${from}, and the margin`
  return { what: `price of ${what}`, money: asked, from: why }
}

/** Rate × periods; where no sheet says a rate, the one that the shop would ask of a thing of this cost, turn-round apart. */
function rentOf({ what, costMoney, rentPer28DaysMoney, from }: Thing, terms: Terms): PriceLine {
  const { rent, marginFrac, periodDays, periodsCount, interestFrac } = terms
  const lacks = [
    ...(periodsCount === null ? ['the day it is needed'] : []),
    ...(rentPer28DaysMoney == null && rent === null ? ['the shop’s rent policy'] : []),
    ...(rentPer28DaysMoney == null && marginFrac === null ? ['the margin'] : []),
  ]
  const derived = (): number | null =>
    costMoney === null || rent === null || marginFrac === null
      ? null
      : rentFor({
          ...{ policy: rent, costMoney, interestFrac, marginFrac, periodDays, seasonDays: null, isFloor: false },
          ...{ cordsMoney: 0, haulMoney: 0, turnRoundMoney: 0, stayMonths: 1 },
        }).rateMoney
  const rate = rentPer28DaysMoney == null ? derived() : (rentPer28DaysMoney * periodDays) / HIRE_DAYS
  const money = rate === null || periodsCount === null ? null : rate * periodsCount
  const why =
    rentPer28DaysMoney != null
      ? whyNot(0, lacks) || 'rent of its sheet'
      : whyNot(costMoney, lacks) || `${from}, by recovery over its life`
  return { what: `rent of ${what}`, money, from: why }
}

const whyNot = (costMoney: number | null, lacks: readonly string[]): string => {
  const all = [...(costMoney === null ? ['what it stands the shop in'] : []), ...lacks]
  return all.length === 0 ? '' : `nobody said ${all.join(', nor ')}`
}

function doneLines({ changes, place }: Work, { ratePerHMoney }: Terms): readonly PriceLine[] {
  if (changes === null)
    return place.lines.length === 0 ? [] : [{ what: 'feed, electrode and cords of the place', money: place.totalMoney }]
  return [
    { what: 'parts of the changes', money: changes.materialMoney },
    {
      what: 'hours of the changes',
      money: changes.labourMoney,
      ...(ratePerHMoney === null ? { from: 'nobody said what an hour costs' } : {}),
    },
    ...changes.uncounted.map((what) => ({
      what: `hours of ${what}`,
      money: null,
      from: 'not counted before somebody has looked',
    })),
  ]
}

/** What a sheet says of a box that stands; a price asked, less the margin, is taken for its cost. */
function worthOf(
  body: BuiltBody | null,
  { currency, marginFrac }: Terms,
): Pick<Thing, 'costMoney' | 'from' | 'lacking'> & {
  readonly saleMoney: number | null
} {
  const worth = body?.worth
  if (worth === undefined) return { costMoney: null, saleMoney: null, from: 'nobody said: worth', lacking: [] }
  const from = `${worth.is} of ${worth.on}, ${worth.by}`
  if (worth.currency !== currency)
    return { costMoney: null, saleMoney: null, from: `${from}, in ${worth.currency}: never added`, lacking: [] }
  return worth.is === 'book value'
    ? { costMoney: worth.money, saleMoney: null, from, lacking: [] }
    : { costMoney: marginFrac === null ? null : worth.money * (1 - marginFrac), saleMoney: worth.money, from, lacking: [] }
}

/** A box that stands: what it is worth or rented for as it stands, never what it would cost anew. */
export function standingThing(box: YardBox | null, body: BuiltBody | null, call: string | null, terms: Terms): Thing {
  const worth = worthOf(body, terms)
  const rent = box?.rentPer28Days ?? null
  const away = box?.calls.find((c) => c.call === call)?.awayM ?? null
  const perKm = terms.hire.haulPerKmMoney
  return {
    ...{ what: 'what stands', ...worth },
    ...(rent !== null && rent.currency === terms.currency ? { rentPer28DaysMoney: rent.amount } : {}),
    ...(away === null || perKm === null ? {} : { oneWayMoney: (away / 1000) * perKm }),
  }
}

export function modelThing(model: Model, { currency, marginFrac }: Terms): Thing {
  const money = model.price.currency === currency ? model.price.amount : null
  return {
    ...{ what: 'one as drawn', saleMoney: money, from: `price of ${model.price.date}`, lacking: [] },
    costMoney: money === null || marginFrac === null ? null : money * (1 - marginFrac),
  }
}

/** Lines of the cost that every candidate has apart: the way, the crane, and what the utility is paid whichever is taken. */
const APART = (l: { readonly id: string; readonly group: string }): boolean =>
  l.group === 'haul' || l.group === 'fees' || l.id === 'service/crane call'

/** A box built for the call, by the cost of `money`; where that stands in another currency, by bill and hours. */
export function newThing(fresh: PlanResult, place: MaterialMoney, terms: Terms): Thing {
  const { money, shop } = fresh.assessment.results
  const own = { what: 'one built for it', from: 'cost of the plan' }
  if (shop.boxes.length === 0) return { ...own, costMoney: null, lacking: ['everything: it was not laid out'] }
  if (money.currency === terms.currency) {
    const lines = money.lines.filter((l) => !APART(l))
    const sum = lines.reduce((all, l) => all + (l.money ?? 0), 0)
    return { ...own, costMoney: sum - place.totalMoney, lacking: money.lacking.map((l) => l.what) }
  }
  const hours = shop.boxes.reduce((sum, b) => sum + b.hours.total.middle, 0)
  const bill = shop.boxes.reduce((sum, b) => sum + b.bill.totalMoney, 0)
  const rate = terms.ratePerHMoney
  return {
    ...{ ...own, from: 'bill and hours of the plan' },
    costMoney: rate === null ? null : bill + hours * rate - place.totalMoney,
    lacking: [
      `what ${money.currency} prices alone say`,
      ...shop.boxes.flatMap((b) => b.bill.missing.filter((m) => !m.countsInSum).map((m) => `price of ${m.id}`)),
    ],
  }
}
