export { answerDates, type DatesAnswer, type DatesInputs, DRAWS_COUNT } from './dates/index.ts'
