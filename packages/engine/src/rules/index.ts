export type { BuildRules } from './build-rules.ts'
export { adiabaticAreaMm2, adiabaticCurrentA } from './common/adiabatic.ts'
export { toEarthV } from './common/lists.ts'
export { builtInOverlays } from './overlay/built-in.ts'
export { readOverlay } from './overlay/read-overlay.ts'
export type {
  Cell,
  Cited,
  ConductorCheck,
  ConductorTask,
  DropLimit,
  Outlet,
  Overlaid,
  Overlay,
  RuleSet,
  Size,
  System,
  Table,
  TripBand,
  TripDemand,
} from './rule-set.ts'
export { ruleSets, rulesFor } from './rules.ts'
export { type TableId, tables } from './tables.generated.ts'
