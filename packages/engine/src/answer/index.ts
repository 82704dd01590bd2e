export { type Answer, type Answered, answerOf, jsonText, type QuestionLine } from './answer.ts'
export { assessAnswer, planAnswer } from './results.ts'
export { VERSION } from './version.ts'
