export {
  codeFilmWPerM2K,
  insideFilmWPerM2K,
  mcAdamsFilmWPerM2K,
  naturalFilmWPerM2K,
  RAIN_FILM_W_PER_M2K,
  STIRRED_FILM_W_PER_M2K,
  windFilmWPerM2K,
  windwardRatio,
} from './films.ts'
export {
  airLayerM2KPerW,
  type Bridge,
  bridgedUWPerM2K,
  codeFilmM2KPerW,
  type HeatWay,
  layeredUWPerM2K,
  layerM2KPerW,
  material,
} from './layers.ts'
export {
  nodeAfter,
  nodeByEuler,
  nodeByTwoStages,
  sheetTimeS,
  TWO_STAGE_RATIO,
} from './node.ts'
export {
  COAT_UNTOLD,
  emittanceFrac,
  type Optics,
  OUTSIDE_COATS,
  opticsOf,
  roughnessRatio,
} from './optics.ts'
export {
  adjacentViewFrac,
  type BoxInside,
  boxAreasM2,
  boxExchangeM2,
  boxViews,
  exactHeatW,
  opposedViewFrac,
} from './radiosity.ts'
export {
  reflectanceIndex,
  type SteadySheet,
  solAirC,
  standardSunC,
  steadySheetC,
} from './roof.ts'
export {
  cubeRoot,
  powerLaw,
  powerOf,
} from './roots.ts'
export {
  platesFrac,
  shadeC,
  underShadeFrac,
} from './shade.ts'
export {
  radiantBetweenWPerM2K,
  radiantWPerM2K,
  STEFAN_W_PER_M2K4,
  starAreaM2,
} from './star.ts'
export {
  type Terrain,
  type TerrainWord,
  terrainOf,
  windAtHeightRatio,
} from './terrain.ts'
export {
  type WallChain,
  type WallEdges,
  type WallLayer,
  wallChain,
  wallRunC,
} from './wall.ts'
