export { type AirDesignJob, airAsCut, designAir, PAINT_UNTOLD } from './design.ts'
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
