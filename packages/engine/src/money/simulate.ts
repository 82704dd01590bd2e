import { Fault, seeded } from '../kernel/index.ts'
import { checkedTriangle, type Triangle, triangleDraw, triangleMean, triangleVariance } from './triangle.ts'

/** One thing that is drawn: comes with this chance, and then costs so much. */
export interface Drawn {
  readonly what: string
  /** 0–1; 1: it comes anyway. */
  readonly chanceFrac: number
  readonly triangle: Triangle
}

export interface Spread {
  readonly drawsCount: number
  readonly seed: number
  readonly meanMoney: number
  readonly deviationMoney: number
  /** One in ten is below `low`, one in ten above `high`; half are below `middle`. */
  readonly lowMoney: number
  readonly middleMoney: number
  readonly highMoney: number
  /** Of the same sum without a draw. */
  readonly closedMeanMoney: number
  readonly closedDeviationMoney: number
  /** Share of draws above each amount asked for, in its order. */
  readonly aboveFrac: readonly number[]
}

const ONE_IN_TEN = 0.1

/**
 * Spread of a sum of things drawn apart from each other. Seeded: the same things and seed give the same answer. Beside it what needs no
 * draw: mean p·m and variance p·(v + m²) − (p·m)² of each, added.
 * @throws Fault `money/draws`, `money/triangle`
 */
export function spreadOf(
  things: readonly Drawn[],
  of: { readonly drawsCount: number; readonly seed: number; readonly above?: readonly number[] },
): Spread {
  const { drawsCount, seed, above = [] } = of
  if (!(Number.isInteger(drawsCount) && drawsCount >= 10)) throw new Fault('money/draws', drawsCount)
  for (const { triangle, chanceFrac } of things) {
    checkedTriangle(triangle)
    if (!(chanceFrac >= 0 && chanceFrac <= 1)) throw new Fault('money/draws', chanceFrac)
  }
  const random = seeded(seed)
  const sums = new Float64Array(drawsCount)
  for (const { triangle, chanceFrac } of things)
    for (let i = 0; i < drawsCount; i += 1)
      if (chanceFrac === 1 || random.next() < chanceFrac) sums[i]! += triangleDraw(triangle, random)
  sums.sort()
  const mean = sums.reduce((a, b) => a + b, 0) / drawsCount
  const variance = sums.reduce((a, b) => a + (b - mean) ** 2, 0) / drawsCount
  const means = things.map((t) => t.chanceFrac * triangleMean(t.triangle))
  const variances = things.map(
    ({ chanceFrac: p, triangle }, i) => p * (triangleVariance(triangle) + triangleMean(triangle) ** 2) - means[i]! ** 2,
  )
  return {
    drawsCount,
    seed,
    meanMoney: mean,
    deviationMoney: Math.sqrt(variance),
    lowMoney: quantile(sums, ONE_IN_TEN),
    middleMoney: quantile(sums, 0.5),
    highMoney: quantile(sums, 1 - ONE_IN_TEN),
    closedMeanMoney: means.reduce((a, b) => a + b, 0),
    closedDeviationMoney: Math.sqrt(
      Math.max(
        0,
        variances.reduce((a, b) => a + b, 0),
      ),
    ),
    aboveFrac: above.map((money) => (drawsCount - firstAbove(sums, money)) / drawsCount),
  }
}

/** Between the two nearest of the sorted draws. */
function quantile(sorted: Float64Array, frac: number): number {
  const at = frac * (sorted.length - 1)
  const low = Math.floor(at)
  const [a, b] = [sorted[low]!, sorted[Math.min(low + 1, sorted.length - 1)]!]
  return a + (at - low) * (b - a)
}

function firstAbove(sorted: Float64Array, money: number): number {
  let [low, high] = [0, sorted.length]
  while (low < high) {
    const middle = (low + high) >> 1
    if (sorted[middle]! > money) high = middle
    else low = middle + 1
  }
  return low
}
