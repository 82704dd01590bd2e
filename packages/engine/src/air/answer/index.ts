export { type AirBox, answerRuns } from './answer.ts'
export { type AirLack, type BoxAir, type BoxRuns, ENDS, type EndRuns, SHORT_RUNS } from './runs.ts'
