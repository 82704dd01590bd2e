export type { Candidate, PlanResult } from './types.ts'
