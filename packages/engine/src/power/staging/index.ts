export {
  type BoundRule, type LegProfiles, type LowerBound, type PeakProof, type ProofState, SLOTS_PER_DAY, type StagingResult,
} from './result.ts'
