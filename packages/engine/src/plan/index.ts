export { type AirChosen, designYearsFor, type MadeYearsAsked, REMEDY_YEARS, remediesFor, type YearsLack } from './air.ts'
export { type PlannedAir, plannedAir } from './air-at-hand.ts'
export {
  type AsBuilt,
  asBuilt,
  changesFor,
  comesAlong,
  freshPlaceMoney,
  judgedAsItStands,
  placeMoney,
  type Stands,
} from './as-built.ts'
export { builtDesign } from './build.ts'
export type { ChangeHours } from './change-hours.ts'
export type { Changes } from './change-list.ts'
export { CHANGE_CAUTIONS, type ChangeLine, type ChangeList } from './change-list-types.ts'
export { choicesOf } from './choices.ts'
export { type BesideLog, besideLog, type JudgedBox, LOG_STEPS_PER_HOUR, modelOfJudged, unknownsBefore } from './logger.ts'
export { applied, triedWith, tryMend, withMendsTried } from './mends.ts'
export { bars, plan } from './plan.ts'
export { noSupply, plannedJob } from './planned-job.ts'
export type { Candidate, PlanResult } from './types.ts'
export type { Watch } from './work.ts'
export { type BoxYears, withYearsHeld, type YearsAsked } from './years-held.ts'
