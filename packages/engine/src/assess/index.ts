export { assess, assessSizes, rulesOf, type SizesJudged } from './assess.ts'
export { overlayProblems } from './overlay-problems.ts'
export { readShop } from './read-shop.ts'
export type { Assessment, QuestionAnswer, Shop } from './types.ts'
