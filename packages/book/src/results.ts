import type { AirUnits, RemediesMade } from '@plugstead/drawings'
import type { Assessment } from '@plugstead/engine/assess'
import type { Design, Job } from '@plugstead/engine/job'
import type { RuleSet } from '@plugstead/engine/rules'

/** What every sheet is written from. */
export interface BookInput {
  readonly job: Job
  readonly design: Design
  readonly assessment: Assessment
  readonly rules: RuleSet
  /**
   * Set where sheets are laid out for glass: a drawing takes this much width and the height it needs, and what was found hangs on the tag
   * instead of standing below. Absent: the block of the paper.
   */
  readonly glass?: { readonly widthMm: number }
  /** What each measure against heat and damp buys, by box; absent where nobody asked. */
  readonly airRemedies?: Readonly<Record<string, RemediesMade>>
  /** Units that pictures of the air are read in; metric unless said. */
  readonly units?: AirUnits
}

/** Width of the block that Letter and A4 share. */
const PAPER_MM = 185
/** Narrower than this a chart says nothing any more: it is then moved under the finger. */
const LEAST_CHART_MM = 104
/** The same for a drawing of steel: its letters keep their size, so on less width the drawing would shrink to a dot among its words. */
const LEAST_DRAWING_MM = 170

export const widthOf = ({ glass }: { readonly glass?: BookInput['glass'] | undefined }): number => glass?.widthMm ?? PAPER_MM

type Results = Assessment['results']
export type BoxNeeds = Results['needs']['boxes'][number]
export type BoxSupply = Results['supply']['boxes'][number]
export type OfferRow = BoxSupply['offers'][number]
export type BoxCircuits = Results['circuits']['boxes'][number]
export type CircuitRow = BoxCircuits['circuits'][number]
export type BoxReach = Results['reach']['boxes'][number]
export type PlugVolts = BoxReach['states'][number]['plugs'][number]
export type BoxFaults = Results['faults']['boxes'][number]
export type BusFault = BoxFaults['sources'][number]['buses'][number]
export type FaultChart = BoxFaults['charts'][number]
export type BoxFit = Results['fit']['boxes'][number]
export type BoxSkin = Results['skin']['boxes'][number]
export type BoxAir = NonNullable<Results['air']>['boxes'][number]
export type HaulBox = Results['haul']['boxes'][number]
export type BoxShop = Results['shop']['boxes'][number]

export const chartWidth = (input: Pick<BookInput, 'glass'>): number => Math.max(LEAST_CHART_MM, widthOf(input))

export const drawingWidth = (input: { readonly glass?: BookInput['glass'] | undefined }): number =>
  Math.max(LEAST_DRAWING_MM, widthOf(input))
