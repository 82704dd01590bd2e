export {
  type AirAtHand,
  type AirInputs,
  type AirWeather,
  airAtHand,
  airNotAsked,
  answerAir,
  type WeatherFound,
  type WeatherGiven,
  type WeekAsked,
  weatherFor,
} from './answer/index.ts'
export { type AirDesignJob, airAsCut, airWith, designAir } from './design.ts'
export { airAsBuilt, type BuiltAir, builtAirOf, type VentTold } from './facts/built.ts'
export { climateForYear } from './facts/climate.ts'
export type { AirNote, Noticed } from './facts/note.ts'
export { type Paints, paintsOf } from './facts/paint.ts'
export { type AirSite, type AirSiteJob, airSiteOf } from './facts/site.ts'
export { type MeasureAreas, measureAreas } from './measures/areas.ts'
export { type MeasuresTask, measuresCost } from './measures/cost.ts'
export { measuresOf } from './measures/of-design.ts'
export type { MeasureLine, MeasuresCost } from './measures/result.ts'
export { AIR_READS, type AirJob, boxModelOf, type ModelMade, type ModelTask } from './model/box-model.ts'
export { type EndName, MODEL_ENDS, type ModelEnd } from './model/ends.ts'
export { ventClearM2 } from './model/openings.ts'
export type { EnergyPaid } from './remedies/asking.ts'
export { airThatStands, chooseAdditions } from './remedies/choose-additions.ts'
export { type AirChoiceTask, chooseAir } from './remedies/choose-air.ts'
export {
  type DesignYear,
  type DesignYears,
  designYearsOf,
  designYearsStepwise,
  type YearsHeld,
} from './remedies/design-years.ts'
export {
  type Remedies,
  type RemedyPart,
  type RemedyStep,
  type RemedyTask,
  remediesOf,
  remediesStepwise,
} from './remedies/table.ts'
export { yearsHeld, yearsNotMade } from './remedies/years-held.ts'
export type {
  AirAnswer,
  AirBoxResult,
  AirCounts,
  AirEnd,
  AirFaceHours,
  AirFail,
  AirMap,
  AirMoment,
  AirMonth,
  AirReason,
  AirResult,
  AirShort,
  AirSpell,
  AirTried,
  AirWeatherUsed,
  AirYear,
  DripEvent,
  FaceWet,
  GearHours,
  RemedyAmounts,
  RemedyRow,
  RemedyTable,
  ShortRun,
  SteelLoss,
  Wetness,
} from './result.ts'
export {
  BOX_UNKNOWNS,
  type BoxUnknown,
  boxUnknowns,
  type Extreme,
  errorSaid,
  type Fitted,
  fitted,
  foundBy,
  type HeadingRead,
  type HourColumn,
  headingRead,
  hourColumns,
  hourEndText,
  hoursOfLog,
  type LoggerLog,
  type LogMapping,
  type LogSensor,
  lackingForRun,
  leakM3PerHAt50Pa,
  type Missed,
  missedSaid,
  missedSensors,
  modelWith,
  type PairedLog,
  type PairedSensor,
  pairedLog,
  partOfHours,
  type RunHours,
  type RunOf,
  type RunSummary,
  readLog,
  readLogMapping,
  runSummary,
  SENSOR_PLACES,
  type SensorError,
  type SensorPlace,
  type SurveyFound,
  sensorErrors,
  surveyFound,
  surveyLines,
  type Told,
  type Trial,
  timeHeading,
  toldSaid,
  toldUnknowns,
  trialOf,
  type Unknown,
} from './trial/index.ts'
export { DRIP_WARNING_KG_PER_M2, ROOF_HOLDS_KG_PER_M2 } from './water/index.ts'
export {
  type BoxFace,
  type BoxFan,
  type BoxHeater,
  type BoxModel,
  type BoxOpening,
  type FaceLayer,
  type HourSeries,
  STEPS_PER_HOUR,
  type Surroundings,
  type SurroundingsOptions,
  surroundingsOf,
  type YearOptions,
  type YearRun,
  yearOf,
} from './year/index.ts'
