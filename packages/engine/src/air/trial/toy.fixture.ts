import { exp, seeded, sin } from '../../kernel/index.ts'
import type { HourSeries } from '../year/types.ts'
import type { LoggerLog, LogSensor, SensorPlace } from './log.ts'
import { runReading } from './pair.ts'
import type { Unknown } from './unknown.ts'

/** For tests: a box of three lumps (roof, air, gear) whose truth is known. Invented; its shape is what matters, not its numbers. */
export const TOY_UNKNOWNS: readonly Unknown[] = [
  {
    id: 'leakage',
    said: 'leakage',
    unit: 'm3/s at 1 Pa',
    spread: 'ratio',
    low: 0.0005,
    high: 0.05,
    start: { value: 0.004 },
    toldWithin: { value: 2 },
  },
  {
    id: 'absorptance',
    said: 'absorptance',
    unit: '1',
    spread: 'even',
    low: 0.1,
    high: 0.98,
    start: { value: 0.5 },
    toldWithin: { value: 0.2 },
  },
  { id: 'gear', said: 'gear', unit: 'kg', spread: 'ratio', low: 30, high: 3000, start: { value: 200 }, toldWithin: { value: 2 } },
]

/** Outside of it: a day's wave, slow weather, sun with clouds. Same seed, same weather. */
export function toyOutside(
  hours: number,
  seed: number,
): { readonly airC: Float64Array; readonly sunWPerM2: Float64Array; readonly windMPerS: Float64Array } {
  const random = seeded(seed)
  const [airC, sun, wind] = [new Float64Array(hours), new Float64Array(hours), new Float64Array(hours)]
  let slow = 0
  let cloud = 0.5
  for (let h = 0; h < hours; h++) {
    slow = 0.98 * slow + 1.2 * (random.next() - 0.5)
    cloud = Math.min(1, Math.max(0, 0.9 * cloud + 0.4 * (random.next() - 0.45)))
    const day = ((h % 24) - 6) / 12
    airC[h] = 5 + 6 * sin((Math.PI * ((h % 24) - 9)) / 12) + slow * 4
    sun[h] = day > 0 && day < 1 ? 800 * sin(Math.PI * day) * (1 - 0.8 * cloud) : 0
    wind[h] = 1 + 4 * random.next()
  }
  return { airC, sunWPerM2: sun, windMPerS: wind }
}

export function toyRun(outside: ReturnType<typeof toyOutside>, [leak, absorptance, gearKg]: readonly number[]): HourSeries {
  const hours = outside.airC.length
  const of = (per = 1) => new Float64Array(hours * per)
  // What a log is laid beside; the rest of a run is not there.
  const out = { airC: of(), vapourPa: of(), relativeFrac: of(), gearC: of(), faceC: of(6) }
  let [air, gear, vapour] = [outside.airC[0] as number, outside.airC[0] as number, 600]
  const steps = 12
  for (let h = 0; h < hours; h++) {
    let roof = 0
    for (let s = 0; s < steps; s++) {
      const t = outside.airC[h] as number
      const through = 1200 * (leak as number) * (1 + (outside.windMPerS[h] as number))
      const heat = h % 24 > 7 && h % 24 < 17 ? 900 : 100
      roof = (12 * t + 4 * air + (absorptance as number) * (outside.sunWPerM2[h] as number) - 60) / 16
      const [c, g] = [120_000, (gearKg as number) * 480]
      const dt = 3600 / steps
      const sum = 15 * 4 + 60 + through + 40
      const steady = (15 * 4 * roof + 60 * t + through * t + 40 * gear) / sum
      air = steady + (air - steady) * exp((-sum * dt) / c)
      const gearTo = air + heat / 40
      gear = gearTo + (gear - gearTo) * exp((-40 * dt) / g)
      const rate = through / 1200 / 33
      const wet = 600 + 20 * t + 0.4 * 60
      const vapourTo = wet + 0.08 / rate
      vapour = vapourTo + (vapour - vapourTo) * exp(-rate * dt)
    }
    out.airC[h] = air
    out.gearC[h] = gear
    out.vapourPa[h] = vapour
    out.relativeFrac[h] = Math.min(1, vapour / (611 * exp((17.5 * air) / (241 + air))))
    for (let f = 0; f < 6; f++) out.faceC[h * 6 + f] = f === 4 ? roof : (outside.airC[h] as number) * 0.7 + air * 0.3
  }
  return out as Partial<HourSeries> as HourSeries
}

/** Two uniform numbers as one of the bell curve, near enough: the sum of twelve. */
const bell = (random: ReturnType<typeof seeded>): number =>
  Array.from({ length: 12 }, () => random.next()).reduce((a, b) => a + b, -6)

/**
 * What loggers would have written in a run: each with a constant error of its stated spread, noise, and steps of half a degree (humidity:
 * of 1 %). `rest`: a slow error of the run itself beside it, in K. The run begins on 1 January 2027, 00:00.
 */
export function madeLog(
  series: HourSeries,
  places: readonly SensorPlace[],
  given: {
    readonly seed: number
    readonly fromHour: number
    readonly hours: number
    readonly firstDay?: number
    readonly stepMin?: number
    readonly noiseK?: number
    readonly stepK?: number
    readonly offsets?: boolean
    readonly restK?: number
  },
): LoggerLog {
  const { seed, fromHour, hours, firstDay = 1, stepMin = 60, noiseK = 0.2, stepK = 0.5, offsets = true, restK = 0 } = given
  const random = seeded(seed)
  const count = Math.floor((hours * 60) / stepMin)
  const atMin = Float64Array.from({ length: count }, (_, i) => Date.UTC(2027, 0, firstDay) / 60_000 + fromHour * 60 + i * stepMin)
  const sensors: LogSensor[] = places.map((place, i) => ({
    name: `${place} ${i}`,
    place,
    unit: place === 'humidity' ? '%' : 'C',
    accuracy: { value: place === 'humidity' ? 0.03 : 0.5, told: true },
  }))
  const values = sensors.map(({ place, accuracy }) => {
    const damp = place === 'humidity'
    const offset = offsets ? accuracy.value * bell(random) : 0
    const step = damp ? 0.01 : stepK
    let slow = 0
    return Float64Array.from({ length: count }, (_, i) => {
      const at = fromHour + (i * stepMin) / 60
      const hour = Math.floor(at)
      const [a, b] = [runReading(series, place, Math.max(0, hour - 1)), runReading(series, place, hour)]
      slow = 0.95 * slow + 0.31 * restK * bell(random)
      const value = a + (at - hour) * (b - a) + offset + (damp ? 0.1 : 1) * (noiseK * bell(random) + slow)
      return step > 0 ? Math.round(value / step) * step : value
    })
  })
  return { sensors, atMin, values, stepMin, notes: [] }
}
