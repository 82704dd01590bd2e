import type { Job, Tariff } from '../job/index.ts'
import type { BoxNeeds, NeedsResult } from '../power/needs/result.ts'
import type { Bill, BoxSupply, OfferRow, SupplyResult } from '../power/supply/result.ts'
import { type Flow, inWinter, paidMoney, paybackMonth, presentMoney } from './flows.ts'
import type { Comparison, Habit, Lacking, Pair, Price, Rent, Way } from './result.ts'

interface Ends {
  readonly low: number
  readonly high: number
}

/** The meter and its tariff, as the question of supply reckons them. */
export interface Meter {
  readonly billFor: (
    metered: {
      readonly energyKWh: number
      readonly peakKW: Ends
      readonly peakKVA: Ends
      readonly powerFactorFrac: Ends
      readonly highest11: number | null
    },
    tariff: Tariff,
  ) => Bill
  readonly windowPeakKW: (profileW: readonly number[], windowMin: number) => number
}

export interface CompareInputs {
  readonly job: Pick<Job, 'phases' | 'needs' | 'money' | 'tariff'>
  readonly needs: NeedsResult
  readonly supply: SupplyResult
  readonly price: Price
  readonly rent: Rent | null
  readonly boxesCount: number
  readonly meter: Meter
}

const MONTHS = 12

/** What else the customer could do, each as one list of flows over the stay. Plain money and worth today come from that list alone. */
export function compared(of: CompareInputs): Comparison {
  const { job, price } = of
  const interest = job.money.interestFrac
  const lacking: Lacking[] = []
  const winters = wintersOf(job, lacking)
  const judge = (way: Omit<Way, 'paidMoney' | 'presentMoney' | 'winters'>): Way => {
    const worth = (hoursRatio: number): number => presentMoney(inWinter(way.flows, hoursRatio), interest ?? 0)
    const in3 =
      winters === null
        ? null
        : {
            mildMoney: worth(winters.mildH / winters.middleH),
            middleMoney: worth(1),
            hardMoney: worth(winters.hardH / winters.middleH),
          }
    return { ...way, paidMoney: paidMoney(way.flows), presentMoney: presentMoney(way.flows, interest ?? 0), winters: in3 }
  }
  const chosen = supplyWay(of, null, lacking)
  const purchase = price.totalMoney === null ? null : price.totalMoney - price.passedMoney * (1 + (price.tax?.frac ?? 0))
  const ways: Way[] = []
  if (chosen !== null && purchase !== null)
    ways.push(judge({ ...chosen, id: 'buy', what: 'buy the box, fed as planned', flows: [bought(purchase), ...chosen.flows] }))
  if (chosen !== null && of.rent !== null)
    ways.push(
      judge({ ...chosen, id: 'rent', what: 'rent the box, fed as planned', flows: [...rentFlows(of.rent, of), ...chosen.flows] }),
    )
  for (const offer of otherOffers(of.supply)) {
    const way = supplyWay(of, offer.key, lacking)
    if (way !== null && purchase !== null)
      ways.push(
        judge({ ...way, id: offer.key, what: `buy the box, fed by ${offer.said}`, flows: [bought(purchase), ...way.flows] }),
      )
  }
  const first = ways[0]
  return {
    stayMonths: job.needs.stayMonths,
    interestFrac: interest ?? 0,
    interestTold: interest !== null,
    winters,
    ways: ways.toSorted((a, b) => a.presentMoney - b.presentMoney || (a.id < b.id ? -1 : 1)),
    pairs: first === undefined ? [] : ways.slice(1).map((other) => pairOf(first, other)),
    habits: of.supply.boxes.flatMap((b) => habitsOf(of, b, lacking)),
    lacking,
  }
}

/** Told hours, in their order; out of it nothing is compared by them. */
function wintersOf({ money }: CompareInputs['job'], lacking: Lacking[]): Comparison['winters'] {
  const told = money.told?.winters ?? null
  if (told === null || (told.mildH <= told.middleH && told.middleH <= told.hardH)) return told
  lacking.push({
    what: 'mild, usual and hard winter',
    why: 'needs.season.winters: a mild one has no more hours than a usual, a hard one no fewer',
  })
  return null
}

/** Of a month's bill, energy and fuel; of those, what heaters draw in a year. Fixed sums, demand and hire stay, however cold it is. */
function winterFrac(row: OfferRow, needs: BoxNeeds | undefined): number {
  const middle = (ends: Ends | null): number => (ends === null ? 0 : (ends.low + ends.high) / 2)
  const lines = row.bill?.lines ?? []
  const all = lines.reduce((sum, l) => sum + middle(l.money), 0)
  const runs = lines.filter((l) => l.what === 'energy' || l.what === 'fuel').reduce((sum, l) => sum + middle(l.money), 0)
  const energy = needs?.rows.reduce((sum, r) => sum + r.energyPerYearKWh, 0) ?? 0
  const heat = needs?.rows.filter((r) => r.kind === 'heater').reduce((sum, r) => sum + r.energyPerYearKWh, 0) ?? 0
  return all > 0 && energy > 0 ? (runs / all) * (heat / energy) : 0
}

const bought = (money: number): Flow => ({ atMonths: 0, what: 'the box, paid', money })

/** The one that asks more on the first day, and when it has paid that back. */
function pairOf(a: Way, b: Way): Pair {
  const firstDay = ({ flows }: Way): number => paidMoney(flows.filter((f) => f.atMonths === 0))
  const [dear, other] = firstDay(a) >= firstDay(b) ? [a, b] : [b, a]
  return { dear: dear.id, other: other.id, paybackMonths: paybackMonth(dear.flows, other.flows) }
}

interface Offered {
  readonly key: string
  readonly said: string
}

const keyOf = (row: OfferRow): string =>
  `${row.offer}${row.sizeA === null ? '' : ` ${row.sizeA} A`}${row.ownTransformerKVA === null ? '' : ` ${row.ownTransformerKVA} kVA`}`

/** Offers and sizes beside those of the design that are there for every box; what is not available is no way to go. */
function otherOffers({ boxes }: SupplyResult): readonly Offered[] {
  const chosen = new Set(boxes.flatMap((b) => (b.chosenRow === null ? [] : [keyOf(b.chosenRow)])))
  const first = boxes[0]?.offers ?? []
  return first
    .filter((row) => row.available && !chosen.has(keyOf(row)))
    .map((row) => ({ key: keyOf(row), said: `${row.what}, ${row.sizeSaid}` }))
}

interface Fed {
  readonly flows: readonly Flow[]
  readonly but: string
  readonly isFloor: boolean
}

/** Flows of what feeds the boxes over the stay; `key` null: as designed. The running cost is spread evenly over its phase. */
function supplyWay(of: CompareInputs, key: string | null, lacking: Lacking[]): Fed | null {
  const flows: Flow[] = []
  const buts = new Set<string>()
  let isFloor = of.price.isFloor
  const there = new Set<string>()
  for (const b of of.supply.boxes) {
    const row = rowOf(b, key)
    if (row === null) {
      lacking.push({ what: `${key ?? 'the supply of the design'} for ${b.box}, ${b.phase}`, why: 'not among its offers' })
      return null
    }
    const phase = phaseOf(of.job, b.phase)
    const again = there.has(b.box)
    there.add(b.box)
    const oneOff = again ? 0 : (row.oneOffMoney ?? row.feeMoney ?? 0)
    if (!again && row.oneOffMoney === null && row.kind === 'utility') isFloor = true
    if (oneOff > 0) flows.push({ atMonths: phase.from, what: `${row.what}: paid once`, money: oneOff })
    const interim = key === null && !again ? b.interim?.money : null
    if (interim !== null && interim !== undefined)
      flows.push({ atMonths: phase.from, what: `interim for ${b.box}`, money: (interim.low + interim.high) / 2 })
    const needs = of.needs.boxes.find((n) => n.box === b.box && n.phase === b.phase)
    const running = runningMoney(row, again ? 0 : oneOff, phase.months, needs === undefined ? MONTHS : seasonMonths(needs))
    if (running === null) {
      lacking.push({ what: `running cost of ${row.what} for ${b.box}, ${b.phase}`, why: 'nothing of its bill is stated' })
      return null
    }
    isFloor ||= running.isFloor
    const money = running.money / phase.months
    const winterMoney = money * winterFrac(row, needs)
    for (let m = 1; m <= phase.months; m += 1)
      flows.push({ atMonths: phase.from + m, what: `${row.what}: a month`, money, winterMoney })
    if (row.verdict === 'fails') buts.add(`${keyOf(row)} does not carry it`)
    else if (row.lateDays !== null && row.lateDays > 0 && key !== null) buts.add(`${keyOf(row)} is ${row.lateDays} days late`)
  }
  return flows.length === 0 ? null : { flows, but: [...buts].join('; '), isFloor }
}

const rowOf = (b: BoxSupply, key: string | null): OfferRow | null =>
  key === null ? b.chosenRow : (b.offers.find((row) => keyOf(row) === key) ?? null)

/** Over the phase, middle of both ends, without what is paid once. Where a part is not stated: the known part of full months, a floor. */
function runningMoney(
  row: OfferRow,
  oneOff: number,
  months: number,
  season: number,
): { readonly money: number; readonly isFloor: boolean } | null {
  const middle = (ends: Ends): number => (ends.low + ends.high) / 2
  if (row.overStayMoney !== null) {
    const feePaid = row.overStayMoney.low >= oneOff - SAME_MONEY ? oneOff : 0
    return { money: middle(row.overStayMoney) - feePaid, isFloor: false }
  }
  if (row.bill === null || row.bill.lines.every((l) => l.money === null)) return null
  return { money: middle(row.bill.totalMoney) * (season / MONTHS) * months, isFloor: true }
}
/** Below any coin. */
const SAME_MONEY = 1e-6

function phaseOf({ phases, needs }: CompareInputs['job'], id: string): { readonly from: number; readonly months: number } {
  const phase = phases.find((p) => p.id === id)
  return phases.length < 2 || phase === undefined
    ? { from: 0, months: Math.max(1, Math.round(needs.stayMonths)) }
    : { from: phase.fromMonth - 1, months: phase.toMonth - phase.fromMonth + 1 }
}

/** Deposit there and back, haul both ways, a rate for each period asked. Tax comes on rate and haul, not on the deposit. */
function rentFlows(rent: Rent, { price, job, boxesCount }: CompareInputs): readonly Flow[] {
  const tax = 1 + (price.tax?.frac ?? 0)
  const end = Math.max(1, Math.round(job.needs.stayMonths))
  const haul = rent.haulEachWayMoney === null ? 0 : rent.haulEachWayMoney * tax
  const spacing = end / rent.periodsAskedCount
  return [
    { atMonths: 0, what: 'deposit', money: rent.depositMoney },
    ...(haul === 0
      ? []
      : [{ atMonths: 0, what: `haul there, ${boxesCount === 1 ? 'one box' : `${boxesCount} boxes`}`, money: haul }]),
    ...Array.from({ length: rent.periodsAskedCount }, (_, i) => ({
      atMonths: Math.floor(i * spacing),
      what: 'rent of a period, in advance',
      money: rent.rateMoney * tax,
    })),
    ...(haul === 0 ? [] : [{ atMonths: end, what: 'haul back', money: haul }]),
    { atMonths: end, what: 'deposit back', money: -rent.depositMoney },
  ]
}

/** Timers against all night, and staged starts against all at once, on the bill of a metered supply. */
function habitsOf(of: CompareInputs, b: BoxSupply, lacking: Lacking[]): readonly Habit[] {
  const needs = of.needs.boxes.find((n) => n.box === b.box && n.phase === b.phase)
  const row = b.chosenRow
  if (needs === undefined || row === null || row.bill === null || row.kind !== 'utility') return []
  const tariff = of.job.tariff
  if (tariff.blocks.length === 0) {
    lacking.push({ what: `what timers and staging save at ${b.box}`, why: 'the tariff states no price of energy' })
    return []
  }
  const season = seasonMonths(needs)
  const here = {
    energyKWh: needs.all.energyFullMonthKWh,
    peakKW: of.meter.windowPeakKW(needs.staging.afterW, tariff.demandWindowMin),
  }
  const bill = (energyKWh: number, peakKW: number): number => {
    const pf = needs.all.powerFactorFrac
    const kVA = { low: peakKW / pf.high, high: peakKW / pf.low }
    return of.meter.billFor(
      { energyKWh, peakKW: { low: peakKW, high: peakKW }, peakKVA: kVA, powerFactorFrac: pf, highest11: null },
      tariff,
    ).totalMoney.high
  }
  const habit = (id: Habit['id'], said: string, energyKWh: number, peakKW: number): Habit => {
    const monthMoney = bill(energyKWh, peakKW) - bill(here.energyKWh, here.peakKW)
    const about = of.job.phases.length < 2 ? b.box : `${b.box} ${b.phase}`
    return {
      ...{
        id,
        working: `${about}/bill ${id}`,
        box: b.box,
        said,
        energyKWh: here.energyKWh,
        peakKW: here.peakKW,
        otherEnergyKWh: energyKWh,
        otherPeakKW: peakKW,
      },
      ...{ monthMoney, yearMoney: monthMoney * season },
    }
  }
  const together = of.meter.windowPeakKW(needs.staging.beforeW, tariff.demandWindowMin)
  return [
    habit('timers', 'every heater on through its whole window', here.energyKWh + allNightKWh(needs), here.peakKW),
    ...(together > here.peakKW + 1e-9
      ? [habit('staging', 'every machine started when its window opens', here.energyKWh, together)]
      : []),
  ]
}

/** Months of full days in a year that the yearly energy makes. */
const seasonMonths = ({ all }: BoxNeeds): number =>
  all.energyFullMonthKWh <= 0 ? 0 : Math.min(MONTHS, all.energyPerYearKWh / all.energyFullMonthKWh)

const HOURS = 24
/** As the energy of a month of full days is counted. */
const FULL_MONTH_DAYS = 31

/** More energy in a month of full days if heaters ran from the start of their window until they are wanted. */
export function allNightKWh({ rows }: Pick<BoxNeeds, 'rows'>): number {
  const heaters = rows.filter((r) => r.kind === 'heater' && !r.own)
  const more = heaters.reduce((sum, r) => {
    const windowH = (r.readyH - r.fromH + HOURS) % HOURS || HOURS
    const days = Math.min(r.daysPerYear, FULL_MONTH_DAYS)
    return sum + (r.powerW / 1000) * r.dutyFrac * Math.max(0, windowH - r.hoursPerDay) * days
  }, 0)
  return more
}
