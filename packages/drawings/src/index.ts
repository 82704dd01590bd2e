export {
  type AirBoxSize,
  type AirFaces,
  type AirLog,
  type AirReasons,
  type AirSection,
  type AirUnits,
  type AirWeek,
  airFaces,
  airLog,
  airReasons,
  airRemedies,
  airSection,
  airWeek,
  airYearMap,
  degreesSaid,
  filmSaid,
  flowSaid,
  hotFromC,
  kelvinSaid,
  type LogCurve,
  lengthSaid,
  MAP_QUANTITIES,
  MAP_QUANTITY_WORDS,
  type MapAsked,
  type MapPlot,
  type MapQuantity,
  mapHourAt,
  neutralLevelM,
  REMEDY_QUANTITIES,
  REMEDY_WORDS,
  type RemediesMade,
  type RemedyAmounts,
  type RemedyQuantity,
  type RemedyRow,
  type RemedyTable,
  reasonSaid,
  remedyAmount,
  remedyParts,
  remedyUnit,
  shownAmounts,
  spellId,
  spellTitle,
  type VentPlace,
  type WeekPlot,
  waterSaid,
  windSaid,
  type YearMap,
  type YearMapScene,
  yearMapOf,
} from './air/index.ts'
export {
  boxDrawings,
  type Drawable,
  type DrawnBox,
  drawnBoxes,
  type GlassMachine,
  type GlassPlace,
  type GlassSheet,
  type GlassSidePlace,
  glassNet,
  glassSide,
  glassYard,
  patternDrawings,
} from './box/index.ts'
export { type ChainBar, type DatedChain, datedChain } from './dated-chain.ts'
export { type DemandDay, type DemandLane, demandDay } from './demand-day.ts'
export { dxf } from './dxf.ts'
export { BAND_HATCHES, GROUP_HATCHES, HATCHES, type Hatch } from './hatches.ts'
export { LINES, type LineMeaning } from './lines.ts'
export { type ThingCover, thingCovers } from './model/covers.ts'
export type { Drawing } from './model/drawing.ts'
export { bareScene, paperScene, sceneAt, sheetScene } from './model/paper.ts'
export { type OfferBar, offersDrawing } from './offers.ts'
export { type OneLine, type OneLineBranch, type OneLineEnd, oneLine } from './one-line.ts'
export { type PriceStack, priceStack } from './price-stack.ts'
export { type RodsDrawing, rodsDrawing } from './rods.ts'
export { arc, area, box, circle, type Item, line, many, mark, type Point, type Renderer, type Scene, text } from './scene.ts'
export { glb } from './solid/glb.ts'
export { boxParts } from './solid/parts.ts'
export { svg } from './svg.ts'
export { symbolSheet } from './symbol-sheet.ts'
export { SYMBOL_SETS, type SymbolName, type SymbolSet } from './symbols/index.ts'
export { type CurvePoint, type TimeCurrent, timeCurrent } from './time-current.ts'
export { MARK_PATHS, markSvg } from './verdict-marks.ts'
export {
  cordName,
  type MachineCord,
  type MachineKind,
  machineKind,
  machineName,
  machineWords,
  type YardMachine,
} from './yard/index.ts'
