export type { Assessment, QuestionAnswer, Shop } from './types.ts'
