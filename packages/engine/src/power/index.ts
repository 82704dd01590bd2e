export type { Answer } from './answer.ts'
export type { Inputs } from './inputs.ts'
export {
  type ConductorZ, type ElectricalTree, electricalTree, loopsAt, modesOf, type PathContext, pathIn, pathTo, type RunSegment, type Segment,
  type SourceSegment, systemOf, type Target, type TransformerSegment,
} from './path.ts'
export {
  lineVolts, type Loops, type SetReactances, type SourceEnd, type SourceImpedance, type SourceState, setReactances, sourceImpedance,
  terminalLoops, withXOverR,
} from './source-impedance.ts'
export type { BoxReach, CordReach, LoadState, OpenNeutral, PlugVolts, ReachResult, StartDip } from './reach/result.ts'
export { type CaseAnswer, type NetworkAnswer, networkAnswer, type NetworkFile, readNetwork } from './network/index.ts'
export { answerReach, type NetworkOf, networkOf, type YardTask } from './reach/index.ts'
export {
  answerNeeds, type BoxDemand, type BoxNeeds, type ColdRestart, demandFor, type DemandTask, type LegDemand, type NeedsResult, type PlugNeed,
  type ServiceDemand, type Sums,
} from './needs/index.ts'
export {
  answerSupply, type Bill, type BondPosition, type BoxSupply, type GeneratorSizing, type Interim, type OfferRow, type OffersTask, rankOffers,
  type SupplyResult,
} from './supply/index.ts'
export { boxLoads, type PeakProof, stageBox, type StageBoxTask, type StagingResult } from './staging/index.ts'
export { answerFaults, type BoxFaults, type Chart, faultBoundA, type FaultsResult, setFaultBoundA, type SourceFaults } from './faults/index.ts'
