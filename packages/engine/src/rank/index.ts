export { type Limit, type ModelLimits, modelLimits } from './limits.ts'
export { limitWords, type ModelMoved, type Moved, modelsMoved, movedOn } from './moved.ts'
export { type ModelPlaces, modelsInPlaces, type PlaceJudged, placesWork } from './places.ts'
export { byRank, type RankOptions, rankModels } from './rank.ts'
export {
  type ChangesNeeded,
  DOES,
  type Does,
  type Price,
  type PriceKind,
  type Ranked,
  type Ranking,
  REASONS,
  type Reason,
  type ReasonGiven,
} from './types.ts'
