import type { PairedSensor } from './pair.ts'

/** Beyond so many spreads a reading pulls no harder: a door that stood open, a fan that ran an hour longer. */
const PULLS_MOST = 2.5
/** Of the middle of |r| to its spread, for the bell curve. */
const MIDDLE_TO_SPREAD = 1.4826
const OFFSET_ROUNDS = 4

/** How the readings of one sensor weigh. */
export interface Weighing {
  /** Of its coming and going, K or fraction: never below half its accuracy. */
  readonly spread: number
  /** Of its constant error. */
  readonly accuracy: number
  /** 0: set aside; 1: whole; between: it lies far off. */
  readonly weights: Float64Array
  readonly weightCount: number
  /** What is taken as its constant error, of logged less ours. */
  readonly offset: number
}

/**
 * Weights of one sensor’s readings, and its constant error, from what is left of them: Huber’s, with the spread from the middle of |r|.
 * `kept`: 0 where the run jumps and the reading is set aside.
 * @source Huber, Annals of Mathematical Statistics 35 (1964) 73. Provenance: memory
 */
export function weighed({ sensor }: PairedSensor, rests: Float64Array, kept: Float64Array): Weighing {
  const accuracy = sensor.accuracy.value
  const there = rests.filter((_, i) => (kept[i] as number) > 0)
  const middle = medianOf(there)
  const spread = Math.max(accuracy / 2, MIDDLE_TO_SPREAD * medianOf(there.map((r) => Math.abs(r - middle))))
  return weighedWith({ spread, accuracy }, rests, kept)
}

/** The same for a spread that is told, so that two places can be compared. */
export function weighedWith(
  { spread, accuracy }: Pick<Weighing, 'spread' | 'accuracy'>,
  rests: Float64Array,
  kept: Float64Array,
): Weighing {
  const weights = new Float64Array(rests.length)
  let offset = medianOf(rests.filter((_, i) => (kept[i] as number) > 0))
  let weightCount = 0
  for (let round = 0; round < OFFSET_ROUNDS; round++) {
    let sum = 0
    weightCount = 0
    for (let i = 0; i < rests.length; i++) {
      const off = Math.abs((rests[i] as number) - offset) / spread
      const weight = (kept[i] as number) * (off > PULLS_MOST ? PULLS_MOST / off : 1)
      weights[i] = weight
      weightCount += weight
      sum += weight * (rests[i] as number)
    }
    offset = sum / (weightCount + (spread * spread) / (accuracy * accuracy))
  }
  return { spread, accuracy, weights, weightCount, offset }
}

/** What is left, in squares of the spread; far ones count as their distance, not its square. */
export function misfit({ spread, accuracy, offset }: Weighing, rests: Float64Array, kept: Float64Array): number {
  let sum = (offset / accuracy) * (offset / accuracy)
  for (let i = 0; i < rests.length; i++) {
    const off = Math.abs((rests[i] as number) - offset) / spread
    sum += (kept[i] as number) * (off > PULLS_MOST ? PULLS_MOST * (2 * off - PULLS_MOST) : off * off)
  }
  return sum
}

export function medianOf(values: Float64Array): number {
  if (values.length === 0) return 0
  const sorted = values.slice().sort()
  const half = Math.floor(sorted.length / 2)
  return sorted.length % 2 === 1 ? (sorted[half] as number) : ((sorted[half - 1] as number) + (sorted[half] as number)) / 2
}

export function weightedMean(values: Float64Array, { weights, weightCount }: Weighing): number {
  let sum = 0
  for (let i = 0; i < values.length; i++) sum += (weights[i] as number) * (values[i] as number)
  return weightCount > 0 ? sum / weightCount : 0
}
