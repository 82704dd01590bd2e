export { agedRows, dayAfterDays } from './ages.ts'
export { answerMoney, type MoneyAnswer, type MoneyInputs } from './answer.ts'
export { partsInCents, roundedMoney, wholeCents } from './cents.ts'
export type { Flow } from './flows.ts'
export { presentFrac } from './interest.ts'
export type { MoneyPolicy, PricedOption, RentPolicy, Risk, Service } from './policy.ts'
export { type Asked, askedParts } from './price.ts'
export { nothingDecided, readMoneyPolicy } from './read-policy.ts'
export { rentFor } from './rent.ts'
export type {
  AgedRow,
  Alternate,
  Comparison,
  CostGroup,
  CostLine,
  MoneyResult,
  Price,
  Rent,
  Way,
} from './result.ts'
export { spreadOf } from './simulate.ts'
export { marginWords, moneyWords, percentWords } from './words.ts'
