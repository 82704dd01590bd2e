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
export { loopsAt, terminalLoops } from './loops.ts'
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
export { type ElectricalTree, electricalTree, modesOf, type PathContext, pathIn, pathTo, type Target } from './path.ts'
export { withXOverR } from './plates.ts'
export { answerReach, type MovedCord, type NetworkOf, networkOf, reachMoved, type YardTask } from './reach/index.ts'
export type { BoxReach, CordReach, LoadState, OpenNeutral, PlugVolts, ReachResult, StartDip } from './reach/result.ts'
export type { ConductorZ, RunSegment, Segment, SourceSegment, TransformerSegment } from './segments.ts'
export { type SetReactances, setReactances } from './set-impedance.ts'
export { sourceImpedance } from './source-impedance.ts'
export type { Loops, SourceEnd, SourceImpedance, SourceState } from './source-task.ts'
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
export { lineVolts, systemOf } from './systems.ts'
