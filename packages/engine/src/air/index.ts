export { BOX_UNKNOWNS, type BoxUnknown, boxUnknowns, leakM3PerHAt50Pa, modelWith } from './trial/box-unknowns.ts'
export { type SensorError, sensorErrors } from './trial/errors.ts'
export { surveyLines } from './trial/facts.ts'
export { type Fitted, fitted, type RunOf } from './trial/fit.ts'
export { type LoggerLog, type LogMapping, type LogSensor, SENSOR_PLACES, type SensorPlace } from './trial/log.ts'
export { readLogMapping } from './trial/mapping.ts'
export { type PairedLog, type PairedSensor, pairedLog, type RunHours } from './trial/pair.ts'
export { readLog } from './trial/read-log.ts'
export { type Told, toldUnknowns } from './trial/told.ts'
export type { Unknown } from './trial/unknown.ts'
export { errorSaid, hourEndText, toldSaid } from './trial/words.ts'
export type {
  BoxFace,
  BoxFan,
  BoxHeater,
  BoxModel,
  BoxOpening,
  FaceLayer,
  HourSeries,
  YearRun,
} from './year/types.ts'
