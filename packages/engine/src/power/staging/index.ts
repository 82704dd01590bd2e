export { type Bounded, lowerBounds, spanBounds, surelyInsideH } from './bounds.ts'
export { stagingCases } from './cases.ts'
export { type BoxLoad, boxesBehind, boxLoads, isStageable, type LoadTask, ownTag } from './loads.ts'
export {
  type BoundRule,
  type LegProfiles,
  type LowerBound,
  type PeakProof,
  type ProofState,
  SLOTS_PER_DAY,
  type StagingResult,
} from './result.ts'
export type { Objective } from './search.ts'
export { type Staged, stagedTasks } from './stage.ts'
export { dutyBound, type StageBoxTask, stageBox, stagingOf } from './stage-box.ts'
export { DAY_H, modDayH, type StagingTask, windowLengthH } from './task.ts'
