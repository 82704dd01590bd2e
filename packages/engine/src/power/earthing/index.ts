export { type ElectrodeEnds, electrodeEnds, RING_DEPTH_M } from './electrode.ts'
export { rodInFrostOhm, soilRatio } from './frozen.ts'
export { buriedWireOhm, ringOhm } from './ring.ts'
export {
  coverRatio,
  type Rod,
  type RodGroup,
  type Rows,
  rodFactorRatio,
  rodOhm,
  rodsByFactorOhm,
  rodsByLambda,
  shapeFactorOhm,
  twoRodsOhm,
} from './rods.ts'
export { CIRCUIT_SHARE_FRAC, parallelMOhm, touchTimeS, touchTnV, touchTtV, UNLIMITED_V, WET_V } from './touch.ts'
