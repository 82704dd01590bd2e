export { type RankOptions, rankModels } from './rank.ts'
export { type ChangesNeeded, DOES, type Does, type Ranked, type Ranking, REASONS, type Reason, type ReasonGiven } from './types.ts'
