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
