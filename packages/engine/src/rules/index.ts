export { type TableId, tables } from './tables.generated.ts'
export type { ConductorCheck, ConductorTask, DropLimit, Outlet, RuleSet, Size, System, Table, TripBand, TripDemand } from './rule-set.ts'
