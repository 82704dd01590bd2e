export { type Answer, type Answered, answerOf, jsonText, type QuestionLine } from './answer.ts'
export { outputName } from './output-name.ts'
export { assessAnswer, planAnswer } from './results.ts'
export { VERSION } from './version.ts'
