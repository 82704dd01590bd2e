import { Fault } from '../../kernel/index.ts'
import type { HourSeries } from '../year/types.ts'
import { inverseOf, type Matrix, timesVector, zeros } from './matrix.ts'
import { type PairedLog, type PairedSensor, runReadings } from './pair.ts'
import { placeOf, type Unknown, valueAt } from './unknown.ts'
import { misfit, type Weighing, weighed, weighedWith, weightedMean } from './weighing.ts'

/** The run of the box for these values, in the order of the unknowns. */
export type RunOf = (values: readonly number[]) => HourSeries

/** Where the search ended, and what it saw there. */
export interface Fitted {
  readonly unknowns: readonly Unknown[]
  /** Places between the ends, 0 to 1. */
  readonly places: readonly number[]
  readonly values: readonly number[]
  readonly sensors: readonly FittedSensor[]
  /** Root of the mean square of what is left, each sensor’s constant error taken off, in that sensor’s spread. */
  readonly restRatio: number
  /** The same with one unknown at its low and at its high end and the others as found. */
  readonly ends: readonly { readonly lowRatio: number; readonly highRatio: number }[]
  readonly runsCount: number
}

export interface FittedSensor {
  readonly paired: PairedSensor
  readonly weighing: Weighing
  /** Logged less ours. */
  readonly rests: Float64Array
  /** Change of ours with the place of each unknown. */
  readonly slopes: readonly Float64Array[]
  /** Hours set aside: a fan, a heater or a thaw came on or went off within one step of an unknown, and the run jumps. */
  readonly asideCount: number
}

/** Rounds of the search, and dampings tried in each: counted, never timed. */
export const ROUNDS_COUNT = 6
const DAMPINGS = [0.01, 1, 100] as const
/** Step of a slope, in places: a hundredth of the way from end to end is far above the rounding of a run and below its curve. */
const SLOPE_STEP = 0.01
/** A bend of the run within two steps that is larger than this share of the sensor’s accuracy is a jump. */
const JUMP = 0.5

/** Runs of the search for so many unknowns that stay off their ends; one at its end takes one more a round. */
export const fitRunsCount = (unknownsCount: number): number =>
  1 + (ROUNDS_COUNT + 1) * 2 * unknownsCount + ROUNDS_COUNT * DAMPINGS.length + 2 * unknownsCount

/**
 * Unknowns between their ends that bring the run nearest to the log: least squares by Gauss–Newton steps, damped where they overshoot
 * (Levenberg), slopes by differences to both sides, a fixed number of rounds. A sensor’s constant error is taken off as far as its
 * accuracy lets it be; readings that lie far off pull no harder than near ones; hours in which the run jumps are set aside.
 * @throws Fault `air/fit-nothing` where no sensor is to be looked at; `air/fit-no-number` where the run gives none at the start
 * @source Levenberg, Quarterly of Applied Mathematics 2 (1944) 164; Marquardt, J. SIAM 11 (1963) 431. Provenance: memory
 */
export function fitted(unknowns: readonly Unknown[], runOf: RunOf, log: PairedLog): Fitted {
  const sensors = log.sensors.filter(({ fits }) => fits)
  if (sensors.length === 0 || unknowns.length === 0) throw new Fault('air/fit-nothing')
  let runsCount = 0
  const restsAt = (places: readonly number[]): readonly Float64Array[] => {
    runsCount += 1
    const series = runOf(unknowns.map((u, k) => valueAt(u, places[k] as number)))
    return sensors.map((paired) => runReadings(series, paired).map((v, i) => (paired.logged[i] as number) - v))
  }
  let places: readonly number[] = unknowns.map((u) => placeOf(u, u.start.value))
  let rests = restsAt(places)
  if (!rests.every((own) => own.every(Number.isFinite))) throw new Fault('air/fit-no-number', places)

  let local = localAt(sensors, places, rests, restsAt)
  for (let round = 0; round < ROUNDS_COUNT; round++) {
    const { slopes, kept } = local
    const weighings = sensors.map((paired, s) => weighed(paired, rests[s] as Float64Array, kept[s] as Float64Array))
    const costOf = (at: readonly Float64Array[]): number =>
      weighings.reduce((sum, { spread, accuracy }, s) => {
        const [own, keep] = [at[s] as Float64Array, kept[s] as Float64Array]
        return sum + misfit(weighedWith({ spread, accuracy }, own, keep), own, keep)
      }, 0)
    const { normal, pull } = normalOf(rests, slopes, weighings)
    let best = { places, rests, cost: costOf(rests) }
    for (const damping of DAMPINGS) {
      const next = stepped(places, normal, pull, damping)
      const tried = restsAt(next)
      const cost = costOf(tried)
      if (cost < best.cost) best = { places: next, rests: tried, cost }
    }
    places = best.places
    rests = best.rests
    local = localAt(sensors, places, rests, restsAt)
  }
  const { slopes, kept } = local
  const weighings = sensors.map((paired, s) => weighed(paired, rests[s] as Float64Array, kept[s] as Float64Array))
  const keptCount = kept.reduce((sum, own) => sum + own.reduce((a, b) => a + b, 0), 0)
  const ratioOf = (at: readonly Float64Array[]): number =>
    Math.sqrt(
      weighings.reduce((sum, { spread, accuracy }, s) => {
        const [own, keep] = [at[s] as Float64Array, kept[s] as Float64Array]
        return sum + misfit(weighedWith({ spread, accuracy }, own, keep), own, keep)
      }, 0) / Math.max(1, keptCount),
    )
  return {
    unknowns,
    places,
    values: unknowns.map((u, k) => valueAt(u, places[k] as number)),
    sensors: sensors.map((paired, s) => ({
      paired,
      weighing: weighings[s] as Weighing,
      rests: rests[s] as Float64Array,
      slopes: slopes[s] as readonly Float64Array[],
      asideCount: (kept[s] as Float64Array).reduce((count, keep) => count + (keep > 0 ? 0 : 1), 0),
    })),
    restRatio: ratioOf(rests),
    ends: unknowns.map((_, k) => ({
      lowRatio: ratioOf(restsAt(places.with(k, 0))),
      highRatio: ratioOf(restsAt(places.with(k, 1))),
    })),
    runsCount,
  }
}

interface Local {
  readonly slopes: readonly (readonly Float64Array[])[]
  /** 1; 0 where the run jumps. */
  readonly kept: readonly Float64Array[]
}

/** Slopes to both sides, and where both differ by more than a curve would: there the run jumps, and its slope says nothing. */
function localAt(
  sensors: readonly PairedSensor[],
  places: readonly number[],
  rests: readonly Float64Array[],
  restsAt: (places: readonly number[]) => readonly Float64Array[],
): Local {
  const slopes: Float64Array[][] = sensors.map(() => [])
  const kept = sensors.map(({ hours }) => new Float64Array(hours.length).fill(1))
  for (let k = 0; k < places.length; k++) {
    // At an end both steps go inward: the middle one is then the nearer of the two.
    const middle = Math.min(1 - SLOPE_STEP, Math.max(SLOPE_STEP, places[k] as number))
    const [low, high] = [restsAt(places.with(k, middle - SLOPE_STEP)), restsAt(places.with(k, middle + SLOPE_STEP))]
    const mid = middle === places[k] ? rests : restsAt(places.with(k, middle))
    for (const [s, { sensor }] of sensors.entries()) {
      const [a, b, c] = [low[s], mid[s], high[s]] as readonly Float64Array[] as readonly [
        Float64Array,
        Float64Array,
        Float64Array,
      ]
      slopes[s]?.push(a.map((r, i) => (r - (c[i] as number)) / (2 * SLOPE_STEP)))
      for (let i = 0; i < a.length; i++)
        if (Math.abs((a[i] as number) - 2 * (b[i] as number) + (c[i] as number)) > JUMP * sensor.accuracy.value)
          (kept[s] as Float64Array)[i] = 0
    }
  }
  return { slopes, kept }
}

/**
 * Weight of a sensor’s mean beside that of its deviations: what is known of a mean of n readings of spread σ that share an offset of
 * spread τ is 1/(σ² + n·τ²) each, not 1/σ².
 */
export const meanWeight = ({ weightCount, spread, accuracy }: Weighing): number =>
  1 / (spread * spread + weightCount * accuracy * accuracy)

/** JᵀWJ and JᵀWr, the constant error of each sensor taken out. */
function normalOf(
  rests: readonly Float64Array[],
  slopes: readonly (readonly Float64Array[])[],
  weighings: readonly Weighing[],
): { readonly normal: Matrix; readonly pull: readonly number[] } {
  const size = slopes[0]?.length ?? 0
  const normal = zeros(size)
  const pull = new Array<number>(size).fill(0)
  for (const [s, weighing] of weighings.entries()) {
    const { weights, weightCount, spread } = weighing
    const own = rests[s] as Float64Array
    const shared = meanWeight(weighing)
    const even = 1 / (spread * spread)
    const means = (slopes[s] as readonly Float64Array[]).map((a) => weightedMean(a, weighing))
    const mean = weightedMean(own, weighing)
    for (let k = 0; k < size; k++) {
      const a = slopes[s]?.[k] as Float64Array
      const meanA = means[k] as number
      let sum = 0
      for (let i = 0; i < own.length; i++) sum += (weights[i] as number) * ((a[i] as number) - meanA) * (own[i] as number)
      pull[k] = (pull[k] as number) + even * sum + shared * weightCount * meanA * mean
      for (let m = 0; m <= k; m++) {
        const b = slopes[s]?.[m] as Float64Array
        let cross = 0
        for (let i = 0; i < own.length; i++) cross += (weights[i] as number) * ((a[i] as number) - meanA) * (b[i] as number)
        const value = even * cross + shared * weightCount * meanA * (means[m] as number)
        ;(normal[k] as number[])[m] = (normal[k]?.[m] as number) + value
        if (m !== k) (normal[m] as number[])[k] = normal[k]?.[m] as number
      }
    }
  }
  return { normal, pull }
}

/** One damped step, held between the ends; an unknown that stands at an end and is pulled outward stays and leaves the step to the others. */
function stepped(places: readonly number[], normal: Matrix, pull: readonly number[], damping: number): readonly number[] {
  const free = places.flatMap((at, k) => {
    const out = (at <= 0 && (pull[k] as number) < 0) || (at >= 1 && (pull[k] as number) > 0)
    return out || (normal[k]?.[k] as number) <= 0 ? [] : [k]
  })
  if (free.length === 0) return places
  const damped = free.map((k) => free.map((m) => (normal[k]?.[m] as number) * (k === m ? 1 + damping : 1)))
  const inverse = inverseOf(damped)
  if (inverse === null) return places
  const step = timesVector(
    inverse,
    free.map((k) => pull[k] as number),
  )
  const next = [...places]
  for (const [f, k] of free.entries()) next[k] = Math.min(1, Math.max(0, (places[k] as number) + (step[f] as number)))
  return next
}
