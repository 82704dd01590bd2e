export {
  type CorrosionYear,
  corrosivity,
  countsAsWet,
  firstYearLossUm,
  WET_FRAC,
  wetnessClass,
} from './corrosion.ts'
export {
  depositKgPerM2S,
  FUSION_J_PER_KG,
  heldKgPerM2S,
  latentJPerKg,
  massFilmMPerS,
  meltedKgPerM2,
  SUBLIMATION_J_PER_KG,
  thawedC,
  VAPORISATION_J_PER_KG,
  vapourFilmKgPerM2SPa,
} from './film.ts'
export {
  frostKgPerM3,
  frostM,
  frostWPerMK,
  type Thaw,
  thawS,
} from './frost.ts'
export {
  criticalHumidityPct,
  type MouldClass,
  mostMould,
  mouldAfterHour,
  mouldClass,
  mouldGrows,
  weeksToTraces,
} from './mould.ts'
export {
  steadyRatioKgPerKg,
  volumeOfExchangeM3,
} from './room.ts'
export {
  WATER_SOURCES,
  waterSource,
} from './sources.ts'
export {
  DRIP_WARNING_KG_PER_M2,
  fallsKgPerM2,
  nightsUntil,
  ROOF_HOLDS_KG_PER_M2,
  STRUT_HOLDS_FRAC,
  sweatStage,
  WALL_HOLDS_KG_PER_M2,
} from './sweat.ts'
export {
  type FloorVapour,
  floorInnerKgPerM2SPa,
  floorTopKgPerM2SPa,
  woodHumidityFrac,
  woodMoisturePct,
  woodMoistureSlopePct,
  woodWaterKg,
} from './wood.ts'
