/** What the shop has decided about money, once for all jobs; a job's own figures win. Prices stand in the price table, here only their names. */
export interface MoneyPolicy {
  /** Share of the price that is left; null: the shop has not said. */
  readonly marginFrac: number | null
  /** Paint, screws, wire nuts, marks: share of the material on the bill. */
  readonly consumablesFrac: number
  /** Low and high beside the likely, as shares of it: material −0.05 and 0.12. */
  readonly spread: Readonly<Record<SpreadOf, { readonly lowFrac: number; readonly highFrac: number }>>
  /** Set aside for repairs under warranty: share of box, material, work and bought services. */
  readonly warrantyFrac: number
  /** An older price is flagged. */
  readonly oldAfterDays: number
  readonly validDays: number
  /** Chance of a loss that the shop takes. */
  readonly lossChanceFrac: number
  /** Of the price, paid with the order; null: the shop has not said. */
  readonly depositFrac: number | null
  /** null: nobody told; then prices are without tax and say so. */
  readonly tax: { readonly name: string; readonly frac: number } | null
  readonly services: readonly Service[]
  readonly risks: readonly Risk[]
  readonly options: readonly PricedOption[]
  /** null: this shop does not rent. */
  readonly rent: RentPolicy | null
  /** Paths of the shop's page that were not written and for which a usual figure stands. */
  readonly assumed: readonly string[]
}

export const SPREADS = ['material', 'bought', 'haul'] as const
export type SpreadOf = (typeof SPREADS)[number]

/** What a bought service is counted by. */
export const SERVICE_PER = ['box', 'job', 'paint m2', 'crane call'] as const
export type ServicePer = (typeof SERVICE_PER)[number]

export interface Service {
  /** Row of the price table. */
  readonly id: string
  readonly what: string
  readonly per: ServicePer
}

/** When a risk is there: anyway, or only where something was not looked at, or only with a crane. */
export const RISK_WHEN = ['always', 'not measured', 'crane'] as const
export type RiskWhen = (typeof RISK_WHEN)[number]

export interface Risk {
  readonly what: string
  readonly when: RiskWhen
  readonly chanceFrac: number
  readonly currency: string
  readonly lowMoney: number
  readonly likelyMoney: number
  readonly highMoney: number
}

/** Something offered beside the job, at its own price, in no sum. */
export interface PricedOption {
  readonly what: string
  readonly rows: readonly { readonly id: string; readonly count: number }[]
  readonly hours: Readonly<Partial<Record<'welder' | 'electrician' | 'helper' | 'painter', number>>>
}

export interface RentPolicy {
  readonly lifeYears: number
  /** Of the cost, at the end of that life. */
  readonly residualFrac: number
  /** Insurance, storage and taxes on the thing, a year, of the cost. */
  readonly insuranceFrac: number
  /** Paint, seals, cords, a year, of the cost. */
  readonly upkeepFrac: number
  /** Share of the periods of a year that it is out. */
  readonly useFrac: number
  /** Share of the periods outside the season of a seasonal hire that it is out elsewhere. */
  readonly offSeasonFrac: number
  /** Row of the price table: check, clean and make ready after each hire. */
  readonly turnRound: string
  readonly depositPeriodsCount: number
  readonly minimumPeriodsCount: number
}
