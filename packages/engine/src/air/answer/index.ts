export { type AirBox, answerRuns } from './answer.ts'
export { breakerHoldsFrac } from './gear.ts'
export { mouldAfterHour, mouldCriticalPct, mouldMost, steelCategory, steelLossUm, wetness, wetnessClass } from './harm.ts'
export { type AirLack, type BoxAir, type BoxRuns, ENDS, type EndRuns, SHORT_RUNS } from './runs.ts'
