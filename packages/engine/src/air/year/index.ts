export { STEPS_PER_HOUR, type Surroundings, type SurroundingsOptions, surroundingsOf } from './surroundings.ts'
export type {
  BoxFace,
  BoxFan,
  BoxHeater,
  BoxModel,
  BoxOpening,
  FaceLayer,
  HourSeries,
  YearRun,
} from './types.ts'
export { FIRST_RUN_HOURS, type YearOptions, yearOf } from './year-of.ts'
