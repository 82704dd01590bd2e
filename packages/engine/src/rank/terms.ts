import type { Shop } from '../assess/index.ts'
import type { Job } from '../job/index.ts'
import { hireTimeOf } from '../keep/index.ts'
import type { RentPolicy } from '../money/index.ts'
import { type Hire, NO_HIRE } from '../parts/index.ts'
import type { PriceKind } from './types.ts'

/** What every candidate of a call is priced by: one kind of price, the same rates, the same way, the same days. */
export interface Terms {
  readonly currency: string
  readonly kind: PriceKind
  readonly kindBecause: string
  readonly hire: Hire
  /** Loaded hour of an electrician, shop overhead in it; null: no rate is known. */
  readonly ratePerHMoney: number | null
  readonly marginFrac: number | null
  readonly interestFrac: number
  readonly rent: RentPolicy | null
  readonly periodDays: number
  /** Periods paid over the call; null: nobody said from when or how long. */
  readonly periodsCount: number | null
  /** Haul to the place, one way, as asked; null: not known. */
  readonly oneWayMoney: number | null
  readonly craneMoney: number | null
  readonly withCrane: boolean
  readonly turnRoundMoney: number | null
}

const DAY_MS = 86_400_000
export const HIRE_DAYS = 28

export function termsOf(job: Job, shop: Shop): Terms {
  const { currency } = shop.prices
  const told = job.money.currency === currency ? job.money.told : undefined
  const hire = shop.stock?.hire ?? NO_HIRE
  const known = hire.currency === null || hire.currency === currency ? hire : NO_HIRE
  // Shares have no currency.
  const marginFrac = job.money.told?.marginFrac ?? shop.money?.marginFrac ?? null
  const rent = shop.money?.rent ?? null
  const row = (id: string, per: string): number | null => {
    const price = Object.hasOwn(shop.prices.rows, id) ? shop.prices.rows[id] : undefined
    return price === undefined || price.per !== per || (price.currency ?? currency) !== currency ? null : price.money
  }
  const asked = (cost: number | null): number | null => (cost === null || marginFrac === null ? null : cost / (1 - marginFrac))
  const own = told === undefined ? null : job.money.electricianPerHMoney
  const hour = own ?? row('hour/electrician', 'h')
  const overhead = told?.overheadPerHMoney ?? row('hour/shop', 'h') ?? 0
  const periodDays = job.money.told?.rentPeriodDays ?? HIRE_DAYS
  return {
    ...{ currency, hire: known, marginFrac, rent, periodDays, interestFrac: job.money.interestFrac ?? 0 },
    ...kindOf(job),
    ratePerHMoney: hour === null ? known.electricianPerHMoney : hour + overhead,
    periodsCount: periodsOf(job, rent, periodDays),
    oneWayMoney: asked(told?.haulMoney ?? row('haul/one way', 'each')),
    craneMoney: known.craneCallMoney ?? asked(row('service/crane call', 'each')),
    withCrane: (job.yard.access.unload ?? '').includes('crane'),
    turnRoundMoney: known.turnRoundMoney ?? (rent === null ? null : asked(row(rent.turnRound, 'each'))),
  }
}

/** One kind for all: where nobody said, rent, for that is how a box in the yard too can be had. */
function kindOf(job: Job): { readonly kind: PriceKind; readonly kindBecause: string } {
  const told = job.money.told?.buyOrRent ?? 'both'
  if (told === 'buy') return { kind: 'sale', kindBecause: 'needs.money.buy-or-rent: buy' }
  return told === 'rent'
    ? { kind: 'rent over the call', kindBecause: 'needs.money.buy-or-rent: rent' }
    : { kind: 'rent over the call', kindBecause: 'nobody said buy or rent; each of them can be had for rent' }
}

/** As the shop counts hires: started periods, at least the least; where it has said nothing of that, by the day. */
function periodsOf(job: Job, rent: RentPolicy | null, periodDays: number): number | null {
  const time = hireTimeOf(job)
  if (time === null) return null
  const periods = (Date.parse(time.to) - Date.parse(time.from)) / DAY_MS / periodDays
  return rent === null ? periods : Math.max(rent.minimumPeriodsCount, Math.ceil(periods - SLACK))
}
/** A whole period although a quotient is a last bit over it. */
const SLACK = 1e-9
