import type { Job } from '../job/index.ts'
import type { Finding, Working } from '../kernel/index.ts'
import type { NeedsResult } from '../power/needs/result.ts'
import { agedRows } from './ages.ts'
import { compared, type Meter } from './compare.ts'
import { type CostInputs, checkedLines, type Drafted, draftedCost } from './cost.ts'
import { judgeMoney } from './findings.ts'
import { pricedOptions } from './options.ts'
import { costSpread, drawnThings, pricedFrom, type Settled, settled } from './price.ts'
import { toldOf } from './rates.ts'
import { rentFor } from './rent.ts'
import type { Lacking, MoneyResult, Price, Rent } from './result.ts'
import { moneyWorkings } from './workings.ts'

export interface MoneyInputs extends CostInputs {
  readonly job: Pick<Job, 'boxes' | 'builtBody' | 'surveys' | 'money' | 'tariff' | 'needs' | 'phases'>
  readonly needs: NeedsResult
  readonly meter: Meter
  /** Day by which the age of prices is judged; absent: that of the order. */
  readonly today?: string
}

export interface MoneyAnswer {
  readonly findings: readonly Finding[]
  readonly workings: readonly Working[]
  readonly result: MoneyResult
}

/**
 * What does it cost, sell for, rent for? From the bill, the hours and the choices of the design, at the job's rates and the shop's prices
 * and policy. Nothing is typed in and nothing is left out in silence: what has no price makes the sum a floor that says so.
 */
export function answerMoney(asked: MoneyInputs): MoneyAnswer {
  const inputs = inShopsCurrency(asked)
  const { job, policy, shop } = inputs
  const drafted = draftedCost(inputs)
  const sums = settled(checkedLines(drafted.lines), job.money.currency)
  const nothing = shop.boxes.length === 0
  const unbuilt = job.boxes.filter((b) => !shop.boxes.some((s) => s.box === b.id))
  const told = toldOf(job)
  const lacking: Lacking[] = [
    ...unbuilt.map((b) => ({ what: `everything of ${b.id}`, why: 'it was not laid out: nothing is bought or cut for it yet' })),
    ...drafted.lacking,
  ]
  const isFloor = lacking.length > 0 || sums.beside.length > 0
  const price = pricedFrom(sums, { policy, jobMarginFrac: told.marginFrac, isFloor })
  const rent = nothing || told.buyOrRent === 'buy' ? null : rentOf(inputs, sums, price, drafted, lacking)
  const spread = nothing
    ? null
    : costSpread(drawnThings(sums.lines, policy.warrantyFrac), [price.costMoney, price.priceMoney ?? Infinity])
  const day = inputs.today ?? job.needs.orderDate
  const rows = drafted.table.rows.map(({ id, date, supplier }) => ({ id, date, supplier: supplier ?? '' }))
  const result: MoneyResult = {
    ...{ currency: job.money.currency, day, ...sums, lacking, rows, price, spread, rent },
    aged:
      day === null
        ? rows.filter((r) => r.date === '').map((r) => ({ ...r, days: null }))
        : agedRows(rows, { day, oldAfterDays: policy.oldAfterDays }),
    overCostFrac: spread?.aboveFrac[0] ?? null,
    lossFrac: price.priceMoney === null ? null : (spread?.aboveFrac[1] ?? null),
    options: nothing ? [] : pricedOptions(inputs, drafted.table, price.marginFrac),
    comparison: nothing ? null : compared({ ...inputs, price, rent, boxesCount: shop.boxes.length }),
    validDays: policy.validDays,
    validTold: !policy.assumed.includes('shop.money.validity'),
    oldAfterDays: policy.oldAfterDays,
    orderDepositFrac: policy.depositFrac,
  }
  return { findings: judgeMoney(result, inputs), workings: moneyWorkings(result), result }
}

/** ISO 4217: no currency. */
const NONE_NAMED = 'XXX'

/** A job that names no figure of its own is priced in the shop's currency. */
function inShopsCurrency(inputs: MoneyInputs): MoneyInputs {
  const { job, prices } = inputs
  if (job.money.currency !== NONE_NAMED) return inputs
  const { currency } = prices
  return { ...inputs, job: { ...job, money: { ...job.money, currency }, tariff: { ...job.tariff, currency } } }
}

const DEFAULT_PERIOD_DAYS = 28

/** Of all boxes together, on what they stood the shop in: without haul, and without what is passed through. */
function rentOf(inputs: MoneyInputs, sums: Settled, price: Price, drafted: Drafted, lacking: Lacking[]): Rent | null {
  const { policy, job } = inputs
  if (policy.rent === null || price.marginFrac === null) return null
  const told = toldOf(job)
  const known = sums.lines.filter((l) => l.money !== null)
  const sum = (test: (l: (typeof known)[number]) => boolean) => known.filter(test).reduce((a, l) => a + l.money!, 0)
  const turnRound = drafted.table.unit(policy.rent.turnRound, 'each', 'turn-round after a hire')
  const foreign = turnRound.price !== null && turnRound.price.currency !== job.money.currency
  if (foreign || turnRound.price === null)
    lacking.push({
      what: 'turn-round after a hire',
      why: foreign
        ? `priced in ${turnRound.price.currency}, never added`
        : `no price “${policy.rent.turnRound}” in the shop’s table`,
    })
  const hauls = sums.lines.filter((l) => l.group === 'haul')
  return rentFor({
    policy: policy.rent,
    costMoney: sum((l) => l.group !== 'haul' && l.group !== 'fees'),
    cordsMoney: sum((l) => l.id === 'material/cords'),
    haulMoney: hauls.some((l) => l.money === null) ? null : sum((l) => l.group === 'haul'),
    turnRoundMoney: foreign ? 0 : (turnRound.price?.money ?? 0) * inputs.shop.boxes.length,
    interestFrac: job.money.interestFrac ?? 0,
    marginFrac: price.marginFrac,
    periodDays: told.rentPeriodDays ?? DEFAULT_PERIOD_DAYS,
    stayMonths: job.needs.stayMonths,
    seasonDays: isBySeason(told.rentWanted) ? told.seasonDays : null,
    isFloor: price.isFloor || foreign || turnRound.price === null,
  })
}

/** A box that is wanted for 36 months stays there through the summer; only one that is wanted by the season comes back in between. */
const isBySeason = (rentWanted: string | null): boolean => rentWanted !== null && /season/i.test(rentWanted)
