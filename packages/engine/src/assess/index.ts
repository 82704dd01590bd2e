export { assess, rulesOf } from './assess.ts'
export { readShop } from './read-shop.ts'
export type { Assessment, QuestionAnswer, Shop } from './types.ts'
