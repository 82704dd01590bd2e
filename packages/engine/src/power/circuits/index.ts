export { answerCircuits } from './answer.ts'
export { type Balanced, type BalanceItem, type BalanceTask, balancedLegs } from './balance.ts'
export { type Bunch, besideIn } from './beside.ts'
export { designCircuits } from './design.ts'
export { deviceFamilyFor } from './device.ts'
export type { CircuitsDesign, CircuitsRequest, Grown } from './request.ts'
export type {
  Balance,
  BoxCircuits,
  CheckRow,
  CircuitRow,
  CircuitsResult,
  CordRow,
  FeedRow,
  Label,
  LegLoad,
  MaterialLine,
  MaterialMoney,
  PanelSchedule,
  RacewayCount,
  WayRow,
  WireCount,
} from './result.ts'
