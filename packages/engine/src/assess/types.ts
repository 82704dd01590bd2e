import type { AirResult } from '../air/result.ts'
import type { FitResult } from '../fit/result.ts'
import type { HaulResult } from '../haul/result.ts'
import type { Assumption } from '../job/index.ts'
import type { Finding, QuestionId, Verdict, Working } from '../kernel/index.ts'
import type { MoneyPolicy } from '../money/index.ts'
import type { MoneyResult } from '../money/result.ts'
import type { Prices, Stock } from '../parts/index.ts'
import type { CircuitsResult } from '../power/circuits/result.ts'
import type { FaultsResult } from '../power/faults/result.ts'
import type { NeedsResult } from '../power/needs/result.ts'
import type { ReachResult } from '../power/reach/result.ts'
import type { SupplyResult } from '../power/supply/result.ts'
import type { Overlay } from '../rules/index.ts'
import type { ShopFactors, ShopResult } from '../shop/result.ts'
import type { DatesResult, ShopCrew } from '../site/dates/result.ts'
import type { SkinResult } from '../skin/result.ts'

/** What belongs to the shop and not to one job. */
export interface Shop {
  readonly name: string
  readonly prices: Prices
  /** Local amendments and a utility's rule book, by name, as the job's `rules.overlays` names them. */
  readonly overlays: Readonly<Record<string, Overlay>>
  /** Saw, hours and rack of the shop; absent: the usual ones, recorded as assumed. */
  readonly factors?: ShopFactors
  /** People, days and lead times of the shop; absent: the usual ones, recorded as assumed. */
  readonly crew?: ShopCrew
  /** House models, modules, and boxes in the yard; absent: none. */
  readonly stock?: Stock
  /** Margin, services, risks, tax, rent; absent: the shop has said nothing of them. */
  readonly money?: MoneyPolicy
}

export interface QuestionAnswer {
  readonly id: QuestionId
  /** `not built` counts for nothing in totals and exit codes. */
  readonly verdict: Verdict | 'not built'
  /** Codes of its findings, once each, in order. */
  readonly findings: readonly string[]
}

/** Every question answered for one design. */
export interface Assessment {
  /** Always sixteen, in the order of the design. */
  readonly questions: readonly QuestionAnswer[]
  readonly findings: readonly Finding[]
  readonly workings: readonly Working[]
  readonly assumed: readonly Assumption[]
  readonly results: {
    readonly needs: NeedsResult
    readonly supply: SupplyResult
    readonly circuits: CircuitsResult
    readonly reach: ReachResult
    readonly faults: FaultsResult
    readonly fit: FitResult
    readonly skin: SkinResult
    /** Null while `air` is not built: nothing is run for it. */
    readonly air: AirResult | null
    readonly haul: HaulResult
    readonly shop: ShopResult
    readonly dates: DatesResult
    readonly money: MoneyResult
  }
}
