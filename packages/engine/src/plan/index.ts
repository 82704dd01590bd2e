export { CHANGE_CAUTIONS, type ChangeLine, type ChangeList } from './change-list-types.ts'
export { applied, withMendsTried } from './mends.ts'
export { plan } from './plan.ts'
export type { Candidate, PlanResult } from './types.ts'
