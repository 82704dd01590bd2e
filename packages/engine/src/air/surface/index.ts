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
export { cubeRoot, powerLaw, powerOf } from './roots.ts'
export { radiantBetweenWPerM2K, radiantWPerM2K, STEFAN_W_PER_M2K4, starAreaM2 } from './star.ts'
export { type Terrain, windAtHeightRatio } from './terrain.ts'
