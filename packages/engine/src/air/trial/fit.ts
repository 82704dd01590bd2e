import { Fault } from '../../kernel/index.ts'
import type { HourSeries } from '../year/types.ts'
import { inverseOf, type Matrix, timesVector, zeros } from './matrix.ts'
import { type PairedLog, type PairedSensor, runReadings } from './pair.ts'
import { placeOf, type Unknown, valueAt } from './unknown.ts'

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
  /** Weight of its readings is 1/spread²; K or fraction. */
  readonly spread: { readonly value: number }
  /** Logged less ours. */
  readonly rests: Float64Array
  /** Change of ours with the place of each unknown. */
  readonly slopes: readonly Float64Array[]
}

/** Rounds of the search, and dampings tried in each: counted, never timed. */
export const ROUNDS_COUNT = 8
const DAMPINGS = [0.01, 0.3, 10, 300] as const
/** Step of a slope, in places: a hundredth of the way from end to end is far above the rounding of a run and below its curve. */
const SLOPE_STEP = 0.01
/** From this round on a sensor weighs by what is left of it, not by its maker’s word. */
const REWEIGHED_FROM = 4

/**
 * Unknowns between their ends that bring the run nearest to the log: least squares by Gauss–Newton steps, damped where they overshoot
 * (Levenberg), slopes by differences, a fixed number of rounds. A sensor’s constant error is no part of the misfit beyond its accuracy:
 * residuals are whitened for a common offset of that spread.
 * @throws Fault `air/fit-nothing` where no sensor is to be looked at; `air/fit-no-number` where the run gives none at the start
 * @source Levenberg, Quarterly of Applied Mathematics 2 (1944) 164; Marquardt, J. SIAM 11 (1963) 431. Provenance: memory
 */
export function fitted(unknowns: readonly Unknown[], runOf: RunOf, log: PairedLog): Fitted {
  const sensors = log.sensors.filter(({ fits }) => fits)
  if (sensors.length === 0 || unknowns.length === 0) throw new Fault('air/fit-nothing')
  let spreads = sensors.map(({ sensor }) => sensor.accuracy.value)
  let runsCount = 0
  const restsAt = (places: readonly number[]): readonly Float64Array[] => {
    runsCount += 1
    const series = runOf(unknowns.map((u, k) => valueAt(u, places[k] as number)))
    return sensors.map((paired) => runReadings(series, paired).map((v, i) => (paired.logged[i] as number) - v))
  }
  const slopesAt = (
    places: readonly number[],
    rests: readonly Float64Array[],
    both: boolean,
  ): readonly (readonly Float64Array[])[] => {
    const slopes: Float64Array[][] = sensors.map(() => [])
    for (let k = 0; k < unknowns.length; k++) {
      const at = places[k] as number
      const [down, up] = [Math.max(0, at - SLOPE_STEP), Math.min(1, at + SLOPE_STEP)]
      // One side does while searching; both where the answer’s band rests on it.
      const from = both ? down : up > at ? at : down
      const to = both || up > at ? up : at
      const there = (place: number) => (place === at ? rests : restsAt(places.with(k, place)))
      const [low, high] = [there(from), there(to)]
      for (const [s, own] of slopes.entries())
        own.push((low[s] as Float64Array).map((r, i) => (r - (high[s]?.[i] as number)) / (to - from)))
    }
    return slopes
  }

  let places: readonly number[] = unknowns.map((u) => placeOf(u, u.start.value))
  let rests = restsAt(places)
  if (!Number.isFinite(costOf(sensors, rests, spreads))) throw new Fault('air/fit-no-number', places)
  for (let round = 0; round < ROUNDS_COUNT; round++) {
    if (round === REWEIGHED_FROM)
      spreads = sensors.map(({ sensor }, s) => Math.max(sensor.accuracy.value / 2, scatterOf(rests[s] as Float64Array)))
    const slopes = slopesAt(places, rests, false)
    const { normal, pull } = normalOf(sensors, rests, slopes, spreads)
    let best = { places, rests, cost: costOf(sensors, rests, spreads) }
    for (const damping of DAMPINGS) {
      const next = stepped(places, normal, pull, damping)
      const tried = restsAt(next)
      const cost = costOf(sensors, tried, spreads)
      if (cost < best.cost) best = { places: next, rests: tried, cost }
    }
    places = best.places
    rests = best.rests
  }
  const slopes = slopesAt(places, rests, true)
  const count = sensors.reduce((sum, { hours }) => sum + hours.length, 0)
  const ratioOf = (at: readonly Float64Array[]) => Math.sqrt(costOf(sensors, at, spreads) / count)
  return {
    unknowns,
    places,
    values: unknowns.map((u, k) => valueAt(u, places[k] as number)),
    sensors: sensors.map((paired, s) => ({
      paired,
      spread: { value: spreads[s] as number },
      rests: rests[s] as Float64Array,
      slopes: slopes[s] as readonly Float64Array[],
    })),
    restRatio: ratioOf(rests),
    ends: unknowns.map((_, k) => ({
      lowRatio: ratioOf(restsAt(places.with(k, 0))),
      highRatio: ratioOf(restsAt(places.with(k, 1))),
    })),
    runsCount,
  }
}

/**
 * Weight of a sensor’s mean beside that of its deviations: what is known of a mean of n readings of spread σ that share an offset of
 * spread τ is 1/(σ² + n·τ²) each, not 1/σ².
 */
export const meanWeight = (count: number, spread: number, accuracy: number): number =>
  1 / (spread * spread + count * accuracy * accuracy)

export function meanOf(values: Float64Array): number {
  let sum = 0
  for (const v of values) sum += v
  return sum / values.length
}

function scatterOf(values: Float64Array): number {
  const mean = meanOf(values)
  let sum = 0
  for (const v of values) sum += (v - mean) * (v - mean)
  return Math.sqrt(sum / values.length)
}

function costOf(sensors: readonly PairedSensor[], rests: readonly Float64Array[], spreads: readonly number[]): number {
  let cost = 0
  for (const [s, { sensor }] of sensors.entries()) {
    const own = rests[s] as Float64Array
    const spread = spreads[s] as number
    const mean = meanOf(own)
    const scatter = scatterOf(own) / spread
    cost += own.length * (scatter * scatter + mean * mean * meanWeight(own.length, spread, sensor.accuracy.value))
  }
  return cost
}

/** JᵀWJ and JᵀWr. */
function normalOf(
  sensors: readonly PairedSensor[],
  rests: readonly Float64Array[],
  slopes: readonly (readonly Float64Array[])[],
  spreads: readonly number[],
): { readonly normal: Matrix; readonly pull: readonly number[] } {
  const size = slopes[0]?.length ?? 0
  const normal = zeros(size)
  const pull = new Array<number>(size).fill(0)
  for (const [s, { sensor }] of sensors.entries()) {
    const own = rests[s] as Float64Array
    const spread = spreads[s] as number
    const shared = meanWeight(own.length, spread, sensor.accuracy.value)
    const even = 1 / (spread * spread)
    const means = (slopes[s] as readonly Float64Array[]).map(meanOf)
    const mean = meanOf(own)
    for (let k = 0; k < size; k++) {
      const a = slopes[s]?.[k] as Float64Array
      let sum = 0
      for (let i = 0; i < own.length; i++) sum += ((a[i] as number) - (means[k] as number)) * (own[i] as number)
      pull[k] = (pull[k] as number) + even * sum + shared * own.length * (means[k] as number) * mean
      for (let m = 0; m <= k; m++) {
        const b = slopes[s]?.[m] as Float64Array
        let cross = 0
        for (let i = 0; i < own.length; i++) cross += ((a[i] as number) - (means[k] as number)) * (b[i] as number)
        const value = even * cross + shared * own.length * (means[k] as number) * (means[m] as number)
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
