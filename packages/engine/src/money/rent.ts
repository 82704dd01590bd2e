import { roundedMoney } from './cents.ts'
import { capitalRecoveryFrac, presentFrac, recoveryMoney, returnFrac } from './interest.ts'
import { priceFrom } from './margin.ts'
import type { RentPolicy } from './policy.ts'
import type { Rent } from './result.ts'

export interface RentInputs {
  readonly policy: RentPolicy
  /** What the box stood the shop in, without haul and fees. */
  readonly costMoney: number
  readonly cordsMoney: number
  readonly haulMoney: number | null
  readonly turnRoundMoney: number
  readonly interestFrac: number
  readonly marginFrac: number
  readonly periodDays: number
  readonly stayMonths: number
  /** null: all year. */
  readonly seasonDays: number | null
  readonly isFloor: boolean
}

const YEAR_DAYS = 365.25
const MONTHS = 12
/** The trade's rule of thumb: 5 % of the cost for 28 days. Provenance: read. */
const THUMB_FRAC = 0.05
const THUMB_DAYS = 28
/** Twelve months of a year although 365.25/30.4375 falls short of it by a last bit. */
const SLACK = 1e-9

/** Whole periods of a year: 13 of 28 days, 12 months. */
export const periodsPerYear = (periodDays: number): number => Math.max(1, Math.floor(YEAR_DAYS / periodDays + SLACK))

/**
 * What a period must bring so that a year pays for the thing.
 *
 *   (CR + (insurance + upkeep) · P + hires · turn-round) / periods out = cost of a period;   rate = that / (1 − margin)
 *
 * Idle periods are carried by those that are out: a season of five periods pays for thirteen.
 * @source trade practice; CR: engineering economy. Provenance: memory
 */
export function rentFor(of: RentInputs): Rent {
  const { policy, costMoney, interestFrac, marginFrac, periodDays } = of
  const residualMoney = policy.residualFrac * costMoney
  const term = { interestFrac, periodsCount: policy.lifeYears }
  const recovery = recoveryMoney({ ...term, costMoney, residualMoney })
  const inYear = periodsPerYear(periodDays)
  const { periodsOut, hires, why } = outOf(of, inYear)
  const insurance = policy.insuranceFrac * costMoney
  const upkeep = policy.upkeepFrac * costMoney
  const turnRound = hires * of.turnRoundMoney
  const yearMoney = recovery + insurance + upkeep + turnRound
  const rateMoney = roundedMoney(priceFrom(yearMoney / periodsOut, marginFrac))
  const asked = periodsAsked(of)
  const kept = rateMoney * periodsOut - insurance - upkeep - turnRound
  return {
    ...{ periodDays, periodsPerYearCount: inYear, costMoney, residualMoney, interestFrac, lifeYears: policy.lifeYears },
    ...{ recoveryMoney: recovery, insuranceMoney: insurance, upkeepMoney: upkeep, turnRoundMoney: turnRound, yearMoney },
    ...{ hiresPerYearCount: hires, periodsOutCount: periodsOut, outBecause: why, marginFrac, rateMoney },
    depositMoney: roundedMoney(policy.depositPeriodsCount * rateMoney + of.cordsMoney + (of.haulMoney ?? 0)),
    minimumPeriodsCount: policy.minimumPeriodsCount,
    haulEachWayMoney: of.haulMoney === null ? null : roundedMoney(priceFrom(of.haulMoney, marginFrac)),
    periodsAskedCount: asked,
    stayMoney: roundedMoney(asked * rateMoney),
    moneyUseFrac: costMoney > 0 ? (rateMoney * periodsOut) / costMoney : 0,
    timeUseFrac: periodsOut / inYear,
    thumbMoney: THUMB_FRAC * costMoney * (periodDays / THUMB_DAYS),
    returnFrac: lifeReturn(costMoney, kept, residualMoney, policy.lifeYears),
    isFloor: of.isFloor || of.haulMoney === null,
  }
}

/** Periods a year that it is out, and hires a year. */
function outOf(of: RentInputs, inYear: number): { readonly periodsOut: number; readonly hires: number; readonly why: string } {
  const { policy, seasonDays, periodDays, stayMonths } = of
  if (seasonDays !== null && seasonDays < YEAR_DAYS - 1) {
    const season = Math.min(inYear, seasonDays / periodDays)
    const rest = policy.offSeasonFrac * (inYear - season)
    return {
      periodsOut: season + rest,
      hires: 1 + (rest > 0 ? 1 : 0),
      why: `a season of ${seasonDays} days${rest > 0 ? ', and some of the rest elsewhere' : ', and idle for the rest'}`,
    }
  }
  const periodsOut = policy.useFrac * inYear
  const stayPeriods = (stayMonths * (YEAR_DAYS / MONTHS)) / periodDays
  return { periodsOut, hires: periodsOut / stayPeriods, why: `the shop’s usual use, ${Math.round(policy.useFrac * 100)} %` }
}

/** Started periods of the stay; of a seasonal hire those of its seasons; never fewer than the minimum. */
function periodsAsked({ policy, periodDays, stayMonths, seasonDays }: RentInputs): number {
  const days = stayMonths * (YEAR_DAYS / MONTHS)
  const seasonal = seasonDays !== null && seasonDays < YEAR_DAYS - 1
  const used = seasonal ? Math.min(days, (stayMonths / MONTHS) * seasonDays) : days
  return Math.max(policy.minimumPeriodsCount, Math.ceil(used / periodDays - SLACK))
}

/** Interest that the payments of a life earn on the cost; a life of broken years is taken to whole ones. */
function lifeReturn(costMoney: number, keptMoney: number, residualMoney: number, lifeYears: number): number | null {
  const years = Math.max(1, Math.round(lifeYears))
  const payments = [-costMoney, ...Array.from({ length: years }, () => keptMoney)]
  payments[years] = payments[years]! + residualMoney
  return returnFrac(payments)
}

/**
 * Rent of a thing over a fixed term, by periods of their own interest: the present residual taken off, what service costs on top, idle
 * time spread over the periods out.
 */
export function termRent(of: {
  readonly costMoney: number
  readonly residualMoney: number
  readonly interestFrac: number
  readonly periodsCount: number
  readonly servicePerPeriodMoney: number
  readonly useFrac: number
}): { readonly recoveryMoney: number; readonly rateMoney: number } {
  const recovery = (of.costMoney - of.residualMoney * presentFrac(of.interestFrac, of.periodsCount)) * capitalRecoveryFrac(of)
  return { recoveryMoney: recovery, rateMoney: (recovery + of.servicePerPeriodMoney) / of.useFrac }
}
