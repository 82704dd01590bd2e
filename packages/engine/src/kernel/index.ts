export { abs, add, angleRad, type Complex, conj, cx, div, mul, polar, scale, sub } from './complex.ts'
export { dayNumberD, daysBetween, isLeapYear, isoDay, isoOrNull, plusDays, weekdayOf, yearOf } from './day.ts'
export { Fault } from './fault.ts'
export {
  type Basis,
  BUILT,
  type Finding,
  judgeEnds,
  judgeLower,
  judgeUpper,
  type Mend,
  QUESTION_WORDS,
  QUESTIONS,
  type QuestionId,
  type Verdict,
  worst,
} from './finding.ts'
export {
  type FormattedPair,
  formatHour,
  formatNumber,
  formatPair,
  formatQuantity,
  type NumberStyle,
  THIN,
  unitForPeople,
} from './format.ts'
export { acos, atan, atan2, cos, exp, log, log10, power, sin, tan } from './functions.ts'
export { gathered } from './gathered.ts'
export { type Memory, newMemory, noMemory } from './memory.ts'
export { type Provenance, type Source, source, weakest } from './provenance.ts'
export {
  type Dimension,
  examplesOf,
  type Money,
  parseMoney,
  parseQuantity,
  parseSeries,
  parseSize,
  patternOf,
  type Quantity,
  type QuantityCode,
  unitsOf,
} from './quantity.ts'
export { type Random, seeded } from './random.ts'
export { ok, type Problem, problems, type Result } from './result.ts'
export { type Cell, type Figure, firmness, type Row, type ShelfTable, shelfOf } from './shelf-table.ts'
export { UNIT_ENDINGS } from './units.ts'
export { type Judgement, type Put, put, type Step, step, type Worked, type Working } from './working.ts'
