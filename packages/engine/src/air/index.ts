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
