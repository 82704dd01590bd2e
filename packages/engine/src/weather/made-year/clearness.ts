import { Fault } from '../../kernel/index.ts'
import { numberIn, rowOf, rowsOf } from '../shelf.ts'
import type { Draws } from './draws.ts'
import { amount, listOf } from './figures.ts'
import { DAYS, FIRST_OF_MONTH, MONTH_DAYS } from './months.ts'

const CLASSES = 10

interface Matrix {
  readonly leastFrac: number
  readonly mostFrac: number
  /** Sums of the chances up to each class, as printed: the last is near 1. */
  readonly sums: readonly (readonly number[])[]
}

const MATRICES: readonly Matrix[] = rowsOf('markov-clearness-ranges').map((range) => ({
  leastFrac: numberIn(range, 'kt_min'),
  mostFrac: numberIn(range, 'kt_max'),
  sums: Array.from({ length: CLASSES }, (_, today) => {
    let sum = 0
    return listOf('markov-clearness', { matrix: numberIn(range, 'matrix'), today: today + 1 }, 'chances').map((p) => {
      sum += p
      return sum
    })
  }),
}))
const UPPER = Array.from({ length: MATRICES.length - 1 }, (_, i) =>
  numberIn(rowOf('markov-clearness-ranges', { matrix: i + 1 }), 'mean_below'),
)

/** Which matrix, 1 to 10, serves a month of this mean clearness. */
export const matrixOf = (meanFrac: number): number => UPPER.filter((bound) => meanFrac > bound).length + 1

export interface ClearnessStep {
  /** Classes from 1, ten equal parts of the span of the matrix. */
  readonly todayClass: number
  readonly nextClass: number
  readonly rowSumFrac: number
  readonly nextFrac: number
}

/**
 * Clearness of tomorrow from that of today. The row of today's class is walked with the random number, after the row is made to sum to 1;
 * inside the class what is left of the number places the value straight.
 * @throws Fault `weather/clearness-range` unless the matrix is 1 to 10, the number 0 to 1 and today's clearness a number
 * @source Aguiar, Collares-Pereira & Conde 1988, Solar Energy 40(3) (tables `markov-clearness`, `markov-clearness-ranges`)
 */
export function clearnessStep(of: {
  readonly matrix: number
  readonly todayFrac: number
  readonly random: number
}): ClearnessStep {
  const matrix = MATRICES[of.matrix - 1]
  if (matrix === undefined || !(of.random >= 0 && of.random <= 1) || !Number.isFinite(of.todayFrac))
    throw new Fault('weather/clearness-range', of)
  const { leastFrac, mostFrac, sums } = matrix
  const width = (mostFrac - leastFrac) / CLASSES
  const today = Math.min(CLASSES - 1, Math.max(0, Math.floor((of.todayFrac - leastFrac) / width)))
  const row = sums[today] as readonly number[]
  const rowSumFrac = row[CLASSES - 1] as number
  const walked = of.random * rowSumFrac
  let next = 0
  while (next < CLASSES - 1 && walked >= (row[next] as number)) next++
  const below = next === 0 ? 0 : (row[next - 1] as number)
  const chance = (row[next] as number) - below
  const inside = chance > 0 ? Math.min(1, (walked - below) / chance) : 0
  return { todayClass: today + 1, nextClass: next + 1, rowSumFrac, nextFrac: leastFrac + width * (next + inside) }
}

const LEAST = amount('least clearness of a day')
const MOST = amount('most clearness of a day')
const DARK_KWH = amount('no sun below')
const EVEN_KWH = amount('even days below')

/**
 * Clearness of each day of a year, whose sums over the months are the ones given. Months with hardly any light outside the air are even or dark.
 * @param means clearness of each month: its sum on the level over that outside the air
 * @param outsideKWhPerM2 light outside the air on the level, each day
 */
export function dailyClearness(means: readonly number[], outsideKWhPerM2: Float64Array, draws: Draws): Float64Array {
  const out = new Float64Array(DAYS)
  let today = means[0] as number
  for (let m = 0; m < 12; m++) {
    const mean = means[m] as number
    const from = FIRST_OF_MONTH[m] as number
    const to = from + (MONTH_DAYS[m] as number)
    const matrix = matrixOf(mean)
    let outside = 0
    for (let d = from; d < to; d++) {
      // One number a day, lit or not: the months after a dark one do not hang on how dark it is.
      const { nextFrac } = clearnessStep({ matrix, todayFrac: today, random: draws.even() })
      today = nextFrac
      out[d] = nextFrac
      outside += outsideKWhPerM2[d] as number
    }
    const perDay = outside / (to - from)
    if (perDay < DARK_KWH) out.fill(0, from, to)
    else if (perDay < EVEN_KWH) out.fill(mean, from, to)
    else settle(out, outsideKWhPerM2, from, to, mean)
  }
  return out
}

/** Shifts and, where a bound is met, draws together the days of a month until their sum is right. */
function settle(days: Float64Array, outside: Float64Array, from: number, to: number, wanted: number): void {
  let weight = 0
  for (let d = from; d < to; d++) weight += outside[d] as number
  for (let round = 0; round < 50; round++) {
    let mean = 0
    for (let d = from; d < to; d++) mean += ((days[d] as number) * (outside[d] as number)) / weight
    if (Math.abs(mean - wanted) < 1e-12) return
    for (let d = from; d < to; d++) days[d] = Math.min(MOST, Math.max(LEAST, (days[d] as number) + wanted - mean))
  }
}
