export { answerFaults } from './answer.ts'
export { faultCases } from './cases.ts'
export { faultBoundA, setFaultBoundA } from './fault-bound.ts'
export type {
  BoxFaults,
  BusFault,
  Chart,
  ChartCurve,
  Clearing,
  Coordination,
  Decrement,
  ElectrodeValue,
  FaultKind,
  FaultsResult,
  HighestFault,
  LowestFault,
  SourceFaults,
  Touch,
  TripTime,
  Withstand,
} from './result.ts'
