export { type AirDesignJob, airAsCut, designAir } from './design.ts'
export type { AirNote } from './facts/note.ts'
export { PAINT_UNTOLD } from './facts/paint.ts'
export type {
  AirAnswer,
  AirBoxResult,
  AirCounts,
  AirEnd,
  AirFaceHours,
  AirMap,
  AirMoment,
  AirMonth,
  AirReason,
  AirResult,
  AirShort,
  AirSpell,
  AirWeatherUsed,
  AirYear,
  DripEvent,
  FaceWet,
  GearHours,
  ShortRun,
  SteelLoss,
  Wetness,
} from './result.ts'
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
