export { type AirDesignJob, airAsCut, designAir } from './design.ts'
export type { AirNote } from './facts/note.ts'
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
