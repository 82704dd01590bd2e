export { assess, rulesOf } from './assess.ts'
export type { Assessment, QuestionAnswer, Shop } from './types.ts'
