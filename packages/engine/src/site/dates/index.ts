export { answerDates, type DatesAnswer, type DatesInputs, DRAWS_COUNT } from './answer.ts'
export { chained } from './chain.ts'
export { isLeadName } from './figures.ts'
export { HOLIDAY_PLACES, holidays } from './holidays.ts'
