export {
  answerDates,
  chained,
  type DatesAnswer,
  type DatesInputs,
  DRAWS_COUNT,
  HOLIDAY_PLACES,
  isLeadName,
} from './dates/index.ts'
