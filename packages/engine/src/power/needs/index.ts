export type { BoxNeeds, ColdRestart, Ends, LegDemand, NeedsResult, PlugNeed, ServiceDemand, Sums } from './result.ts'
