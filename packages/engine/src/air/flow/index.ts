export { BALANCE_STEPS, balanceByHalvingPa, balancePa, type FlowPaths, flowPaths, netFlowKgS } from './balance.ts'
export {
  crackFlowM3s,
  dischargeInSeriesRatio,
  GRAVITY_M_PER_S2,
  holeFlowM3s,
  LINEAR_BELOW_PA,
  screenLossRatio,
} from './holes.ts'
