export {
  AIR_CHOICES,
  type AirChoice,
  type AirPins,
  airPath,
  airPinsOf,
  type HeaterPin,
  type VentSide,
  ventPlacesSaid,
} from './air-pins.ts'
export { allOnByHand } from './all-on.ts'
export { type AssumedWords, assumedWords } from './assumed-words.ts'
export type { Beside, BoxAirFacts, Rise } from './box-air.ts'
export {
  type AirDesign,
  type BondPoint,
  type BoxBuild,
  type Entry,
  type EntryPlate,
  EXIT_WAYS,
  type ExitWay,
  type FitDesign,
  type Fixing,
  type HaulDesign,
  type ItemKind,
  type LayoutSearch,
  type LiftMethod,
  type Opening,
  type OpeningClass,
  type OpeningUse,
  type PlacedItem,
  type PointMm,
  type RacewayBend,
  type RacewayRoute,
  SIDES,
  type Side,
  type SkinDesign,
  type SnowFrame,
  type StrutPiece,
  type StrutUse,
  type VentWanted,
} from './build.ts'
export { builtOf } from './built-box.ts'
export { CALL_DEFAULTS, type CallAnswers } from './call.ts'
export { CALL, type CallQuestion } from './call-questions.ts'
export { type ClimateFacts, UNTOLD_CLIMATE, writtenOffsetH } from './climate-facts.ts'
export { consistency, consistencyFindings } from './consistency.ts'
export { type ClosedFact, type DatesFacts, type TaskFact, UNTOLD_DATES } from './dates.ts'
export type {
  BoxDesign,
  Circuit,
  Cord,
  Design,
  Device,
  Electrode,
  Leg,
  OwnTransformer,
  Panel,
  Run,
  Shock,
  SizeName,
  SourceMode,
  Staging,
  StagingControl,
  Wire,
} from './design.ts'
export { checkBytes, type Opened } from './document.ts'
export { documentPath } from './document-path.ts'
export { type DocumentEdit, editDocument, type Plain, valueIn } from './edit-document.ts'
export { distanceM, distanceUntold, jobAsDesigned, pinnedFeeders, withFeeders, withWired } from './feeders.ts'
export {
  choice,
  count,
  group,
  type MoneyRead,
  money,
  plain,
  quantity,
  range,
  special,
  system,
  tag,
  text,
  texts,
  yesNo,
} from './fields.ts'
export { type Coldest, withInsideCold, withInsideHot } from './inside.ts'
export { pinnedStrips, stripsPath } from './lights.ts'
export { type CallDays, newJob } from './new-job.ts'
export { PAINTS, type Paint, paintsSaid } from './paint.ts'
export { JOB_VERSION, LIMIT_BYTES, nearest, PROBLEMS, type ProblemCode, shown } from './problems.ts'
export { axisLengthMm, legLengthMm, NIPPLE_MOST_M } from './raceway.ts'
export { type ReadOptions, readJob } from './read.ts'
export { LEAK_CLASSES, type LeakClass } from './schema/boxes.ts'
export { built, circuit, cord, SET_DOWN, type SetDown } from './schema/built.ts'
export { type FieldRow, fieldRows, jobJsonSchema, sheetJsonSchema } from './schema/json-schema.ts'
export { readSheet } from './sheet.ts'
export type { BoxSurvey, MeasuredAir, MeasuredFigure, SurveyedDent } from './survey.ts'
export { SYSTEMS, type SystemName, systemById, systemNamed, USUAL_SYSTEM } from './systems.ts'
export { date } from './times.ts'
export type {
  Assumption,
  BoxWanted,
  BuiltBox,
  Job,
  LoadKind,
  Missing,
  MoneyTold,
  MotorPlate,
  MotorStart,
  Offer,
  OfferKind,
  Phase,
  Pin,
  Plug,
  RuleSetId,
  Site,
  Span,
  SystemId,
  Tariff,
  TransformerOffered,
  WiredAir,
} from './types.ts'
export {
  alongWirewayMm,
  tapMm,
  type WirewayRun,
  type WirewaySection,
  wirewayPieces,
  wirewayRuns,
  wirewaySections,
} from './wireway.ts'
export { writePins } from './write-pins.ts'
export { type BuiltBody, builtBodyOf, UNTOLD_YARD, type Worth, type YardFacts } from './yard.ts'
export { inSeason, MONTH_LAST, MONTH_NAMES, type YearDay, type YearSeason, yearDay, yearSeason } from './year-day.ts'
