import type { Source } from '../kernel/index.ts'
import type { Flow } from './flows.ts'
import type { Spread } from './simulate.ts'

/** Groups of the cost in the order of the sheet. `fees`: passed through at cost, with no margin on them. */
export const COST_GROUPS = ['box', 'material', 'labour', 'overhead', 'bought', 'haul', 'risk', 'warranty', 'fees'] as const
export type CostGroup = (typeof COST_GROUPS)[number]

export interface CostLine {
  readonly id: string
  readonly group: CostGroup
  /** null: of the whole job. */
  readonly box: string | null
  readonly what: string
  readonly quantity: number
  readonly per: string
  /** null: no price is known; then what stands below is in no sum. */
  readonly unitMoney: number | null
  readonly currency: string
  /** quantity × unit, unrounded. null: not known. */
  readonly likelyMoney: number | null
  readonly lowMoney: number | null
  readonly highMoney: number | null
  /** Whole cents in the sum; null: in another currency, or not known. */
  readonly money: number | null
  /** Where the quantity comes from. */
  readonly from: string
  readonly rests: Source
  /** Day of the price; empty: nobody wrote it. */
  readonly date: string
  /** What moves together when it is drawn: all hours of a trade; null: firm, or a share of others. */
  readonly drawnWith: string | null
  /** Comes with this chance; 1: anyway. */
  readonly chanceFrac: number
}

/** Money in another currency, beside and never added. */
export interface Beside {
  readonly currency: string
  readonly money: number
  readonly what: readonly string[]
}

export interface Lacking {
  readonly what: string
  readonly why: string
}

/** What must be changed on a box that stands, as the plan found it: the cheapest changes after which nothing fails. */
export interface ChangesCost {
  readonly box: string
  readonly partsMoney: number
  readonly currency: string
  /** What has no price, by name. */
  readonly lacking: readonly string[]
  /** Of an electrician. */
  readonly hours: { readonly low: number; readonly middle: number; readonly high: number }
  /** Work of which nobody can count the hours before somebody looked. */
  readonly uncounted: readonly string[]
}

/** A row that was used and is older than the shop lets prices be, or that nobody dated. */
export interface AgedRow {
  readonly id: string
  readonly date: string
  readonly days: number | null
}

export interface Price {
  readonly costMoney: number
  /** Of the cost: what bears a margin, and what is passed through. */
  readonly bearingMoney: number
  readonly passedMoney: number
  /** Of the price without what is passed through; null: nobody told, and there is no price. */
  readonly marginFrac: number | null
  readonly marginFrom: 'the job' | 'the shop' | null
  /** Of the cost: m/(1 − m). */
  readonly markUpFrac: number | null
  readonly marginMoney: number | null
  readonly priceMoney: number | null
  readonly tax: { readonly name: string; readonly frac: number; readonly money: number } | null
  readonly totalMoney: number | null
  /** Something has no price, or stands in another currency: it will not be less. */
  readonly isFloor: boolean
}

/** One option at its own price, in no sum. */
export interface Alternate {
  readonly what: string
  readonly costMoney: number | null
  readonly priceMoney: number | null
  readonly why: string
}

export interface Rent {
  readonly periodDays: number
  readonly periodsPerYearCount: number
  readonly costMoney: number
  readonly residualMoney: number
  readonly interestFrac: number
  readonly lifeYears: number
  readonly recoveryMoney: number
  readonly insuranceMoney: number
  readonly upkeepMoney: number
  readonly hiresPerYearCount: number
  readonly turnRoundMoney: number
  readonly yearMoney: number
  /** Of a year, and whether a season or the shop's usual use says so. */
  readonly periodsOutCount: number
  readonly outBecause: string
  readonly marginFrac: number
  /** What is asked for one period, before tax. */
  readonly rateMoney: number
  readonly depositMoney: number
  readonly minimumPeriodsCount: number
  readonly haulEachWayMoney: number | null
  /** Of the stay of the job: started periods, at least the minimum. */
  readonly periodsAskedCount: number
  readonly stayMoney: number
  /** Rent of a year over first cost, and days out over days of the year. */
  readonly moneyUseFrac: number
  readonly timeUseFrac: number
  /** 5 % of the cost a period: the rule of thumb. */
  readonly thumbMoney: number
  /** Interest a year that the rent earns on the cost; null: none makes it even. */
  readonly returnFrac: number | null
  readonly isFloor: boolean
}

/** One way for the customer to go, as one list of flows. */
export interface Way {
  readonly id: string
  readonly what: string
  readonly flows: readonly Flow[]
  readonly paidMoney: number
  readonly presentMoney: number
  /** Worth today in each winter, from the same flows; null: nobody said how winters differ. */
  readonly winters: { readonly mildMoney: number; readonly middleMoney: number; readonly hardMoney: number } | null
  /** Why it may not do, in words; empty: nothing is known against it. */
  readonly but: string
  readonly isFloor: boolean
}

export interface Pair {
  readonly dear: string
  readonly other: string
  /** From that month on the first has cost no more; null: not within the stay. */
  readonly paybackMonths: number | null
}

/** What a change of habit is worth on the bill, a month of full days and a year. */
export interface Habit {
  readonly id: 'timers' | 'staging'
  /** Of its working. */
  readonly working: string
  readonly box: string
  readonly said: string
  readonly energyKWh: number
  readonly peakKW: number
  readonly otherEnergyKWh: number
  readonly otherPeakKW: number
  readonly monthMoney: number
  readonly yearMoney: number
}

export interface Comparison {
  readonly stayMonths: number
  readonly interestFrac: number
  readonly interestTold: boolean
  /** Hours that heaters run in a mild, a usual and a hard winter; null: nobody said, or not in that order. */
  readonly winters: { readonly mildH: number; readonly middleH: number; readonly hardH: number } | null
  readonly ways: readonly Way[]
  readonly pairs: readonly Pair[]
  readonly habits: readonly Habit[]
  readonly lacking: readonly Lacking[]
}

export interface MoneyResult {
  readonly currency: string
  /** Day by which the age of prices is judged; null: nobody told the day of the order. */
  readonly day: string | null
  readonly lines: readonly CostLine[]
  readonly groups: readonly { readonly group: CostGroup; readonly money: number }[]
  readonly beside: readonly Beside[]
  readonly lacking: readonly Lacking[]
  readonly rows: readonly { readonly id: string; readonly date: string; readonly supplier: string }[]
  readonly aged: readonly AgedRow[]
  readonly price: Price
  /** Of the cost; null: nothing is known. */
  readonly spread: Spread | null
  /** Chance that the cost is above the counted cost, and above the price before tax. */
  readonly overCostFrac: number | null
  readonly lossFrac: number | null
  readonly options: readonly Alternate[]
  readonly rent: Rent | null
  readonly comparison: Comparison | null
  readonly validDays: number
  /** False: the shop has not said, and a usual figure stands. */
  readonly validTold: boolean
  readonly oldAfterDays: number
  /** null: the shop has not said. */
  readonly orderDepositFrac: number | null
}
