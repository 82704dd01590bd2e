export { aboveDewK } from './dew.ts'
export {
  breakerHeatW,
  currentHeatW,
  GEAR_TO_AIR_W_PER_K,
  gearHeatJPerK,
  transformerHeatW,
} from './heat.ts'
export {
  cabinetHeaterW,
  cabinetWPerM2K,
  DRIER_KG_PER_KG,
  heaterWanted,
  outsideDries,
  roomHeaterW,
} from './heater.ts'
export {
  AT_SUN_WALL_K,
  breakerHolds,
  GEAR,
  type GearLimit,
  gearLimit,
  type Held,
  hotRoomFrac,
  hotShareFrac,
  OVER_TRANSFORMER_K,
} from './hot.ts'
