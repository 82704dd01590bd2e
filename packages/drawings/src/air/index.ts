export { type AirBoxSize, type AirFaces, airFaces } from './faces.ts'
export { type AirLog, airLog, type LogCurve } from './log.ts'
export { type AirReasons, airReasons } from './reasons.ts'
export {
  airRemedies,
  REMEDY_QUANTITIES,
  REMEDY_WORDS,
  type RemedyAmounts,
  type RemedyQuantity,
  type RemedyRow,
  type RemedyTable,
  remedyAmount,
  remedyUnit,
} from './remedies.ts'
export { type RemediesMade, remedyParts, shownAmounts } from './remedy-parts.ts'
export { type AirSection, type AirSectionScene, airSection, neutralLevelM, type VentPlace } from './section.ts'
export {
  type AirUnits,
  degreesSaid,
  filmSaid,
  flowSaid,
  kelvinSaid,
  lengthSaid,
  reasonSaid,
  waterSaid,
  windSaid,
} from './units.ts'
export { type AirWeek, type AirWeekScene, airWeek, type WeekPlot } from './week.ts'
export { airYearMap, type MapPlot, mapHourAt, type YearMap, type YearMapScene } from './year-map.ts'
export {
  hotFromC,
  MAP_QUANTITIES,
  MAP_QUANTITY_WORDS,
  type MapAsked,
  type MapQuantity,
  spellId,
  spellTitle,
  yearMapOf,
} from './year-map-of.ts'
