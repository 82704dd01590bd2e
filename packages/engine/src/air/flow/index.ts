export {
  BALANCE_STEPS,
  balanceByHalvingPa,
  balancePa,
  type FlowPaths,
  flowPaths,
  netFlowKgS,
} from './balance.ts'
export {
  dischargeOf,
  type OpeningParts,
  openingDischargeRatio,
  SHARP_HOLE,
} from './discharge.ts'
export {
  type FanCurve,
  type FanMotor,
  type FanPanel,
  fanCoefficientM3s,
  fanDrivePa,
  fanFlowM3s,
  fanLaws,
  fanWithNaturalM3s,
  motorA,
  motorRpm,
  panelA,
  panelKneeV,
  STALL_FRAC,
  solarFanAt,
  solarSpeeds,
  speedAtFrac,
} from './fan.ts'
export {
  crackFlowM3s,
  dischargeInSeriesRatio,
  GRAVITY_M_PER_S2,
  holeFlowM3s,
  LINEAR_BELOW_PA,
  screenLossRatio,
} from './holes.ts'
export {
  changesAtPerH,
  columnPa,
  decayLeakM3s,
  LEAK_CHANGES_PER_H,
  LEAK_EXPONENT_RATIO,
  leakageAreaFlowM3s,
  leakHoleM2,
  leakOfChangesM3s,
  type PressureDecay,
} from './leakage.ts'
export {
  carryingFlowM3s,
  crossWindFlowM3s,
  doorFlowM3s,
  inRowM2,
  levelFlowM3s,
  neededOpeningM2,
  neutralLevelM,
  oneSidedFlowM3s,
  type StackPair,
  stackFlowM3s,
  stackPa,
  togetherFlowM3s,
  twoWayDischargeRatio,
} from './openings.ts'
export {
  type RoomFlow,
  type RoomInWind,
  type RoomOpening,
  roomFlow,
} from './room.ts'
export {
  offNormalDeg,
  pressureAtRatio,
  roofPressureRatio,
  underPressureRatio,
  wallPressureRatio,
  wallPressures,
  windPa,
} from './wind-pressure.ts'
