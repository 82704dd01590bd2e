export { answerReach } from './answer.ts'
export {
  currentAt,
  exactLoadV,
  impedanceLoadV,
  longestM,
  openNeutralV,
  powerLoadV,
  type RunOfOneLoad,
  resistanceByArea,
  runDropV,
  tableDropV,
  threeWireV,
} from './drop.ts'
export { codeKVAPerHp, fullLoadA, phasorDipFrac, simpleDipFrac, startA, startByCode, wattsOfHp } from './motor-start.ts'
export { type MovedCord, reachMoved } from './moved-cords.ts'
export { type NetworkOf, networkOf, networkOfYard } from './network-of.ts'
export type { BoxReach, CordReach, LoadState, OpenNeutral, PlugVolts, ReachResult, StartDip, VoltageLimit } from './result.ts'
export { solveYard, type YardSolution, type YardState } from './solve-yard.ts'
export { plugVA, type Yard, type YardTask, yardOf } from './yard.ts'
