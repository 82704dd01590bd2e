export { type ClearnessStep, clearnessStep, matrixOf } from './clearness.ts'
export {
  CLIMATE_PARTS,
  type Climate,
  type ClimateAnswer,
  type ClimatePart,
  type ClimateTold,
  climateFrom,
  type Filled,
  toldOfNormal,
} from './climate.ts'
export { coverOfHumidityFrac, LONG_DARK_H } from './cloud.ts'
export { clearnessCapFrac, clearSkyWPerM2, hourlyClearness } from './hourly-light.ts'
export type { Humidity } from './humidity.ts'
export { DESIGN_SEED, designYear, oneOfThirty, YEARS } from './many.ts'
export { type DesignRun, designRuns, RUNS, type RunName } from './runs.ts'
export { meanDayShape } from './temperature.ts'
export { toldOfJob } from './told-of-job.ts'
export { monthSpreadK } from './wandered.ts'
export { madeYear, type YearAsked } from './year.ts'
