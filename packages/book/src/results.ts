import type { Assessment } from '@plugstead/engine/assess'
import type { Design, Job } from '@plugstead/engine/job'
import type { RuleSet } from '@plugstead/engine/rules'

/** What every sheet is written from. */
export interface BookInput {
  readonly job: Job
  readonly design: Design
  readonly assessment: Assessment
  readonly rules: RuleSet
}

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
export type HaulBox = Results['haul']['boxes'][number]
export type BoxShop = Results['shop']['boxes'][number]
