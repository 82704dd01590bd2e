export type { Answer } from './answer.ts'
export {
  answerFaults,
  type BoxFaults,
  type Chart,
  type FaultsResult,
  faultBoundA,
  type SourceFaults,
  setFaultBoundA,
} from './faults/index.ts'
export type { Inputs } from './inputs.ts'
export {
  answerNeeds,
  type BoxDemand,
  type BoxNeeds,
  type ColdRestart,
  type DemandTask,
  demandFor,
  type LegDemand,
  type NeedsResult,
  type PlugNeed,
  type ServiceDemand,
  type Sums,
} from './needs/index.ts'
export { type CaseAnswer, type NetworkAnswer, type NetworkFile, networkAnswer, readNetwork } from './network/index.ts'
export {
  type ConductorZ,
  type ElectricalTree,
  electricalTree,
  loopsAt,
  modesOf,
  type PathContext,
  pathIn,
  pathTo,
  type RunSegment,
  type Segment,
  type SourceSegment,
  systemOf,
  type Target,
  type TransformerSegment,
} from './path.ts'
export { answerReach, type NetworkOf, networkOf, type YardTask } from './reach/index.ts'
export type { BoxReach, CordReach, LoadState, OpenNeutral, PlugVolts, ReachResult, StartDip } from './reach/result.ts'
export {
  type Loops,
  lineVolts,
  type SetReactances,
  type SourceEnd,
  type SourceImpedance,
  type SourceState,
  setReactances,
  sourceImpedance,
  terminalLoops,
  withXOverR,
} from './source-impedance.ts'
export { boxLoads, type PeakProof, type StageBoxTask, type StagingResult, stageBox } from './staging/index.ts'
export {
  answerSupply,
  type Bill,
  type BondPosition,
  type BoxSupply,
  type GeneratorSizing,
  type Interim,
  type OfferRow,
  type OffersTask,
  rankOffers,
  type SupplyResult,
} from './supply/index.ts'
