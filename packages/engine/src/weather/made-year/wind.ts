import { cos, exp, log } from '../../kernel/index.ts'
import type { Months } from '../normals.ts'
import type { Draws } from './draws.ts'
import { amount } from './figures.ts'
import { FIRST_OF_MONTH, HOURS, MONTH_DAYS } from './months.ts'

const MEMORY = amount('wind, memory of an hour')
const SUMMER = amount('wind, swing of a summer day')
const WINTER = amount('wind, swing of a winter day')
const STRONGEST_H = amount('wind, hour of the strongest')
const CALM_M_S = amount('calm below')
const STILL = amount('wind of cold clear nights')
const COLD = amount('cold night below')
const STEP_DEG = amount('direction, step of an hour')
const TOLD_DEG = amount('direction, spread about the told one')
/** Cover under which a night counts as clear. */
const CLEAR = 0.3
const DIRECTION_MEMORY = 0.97

export interface WindIn {
  readonly meanMPerS: Months
  /** Shape of the distribution: 1.8; 2.2 on open sea and ridges, 1.5 in valleys. */
  readonly shapeRatio: number
  /** Bearing it comes from in the cold half of the year; null: not told. */
  readonly winterFromDeg: number | null
  readonly cloudFrac: Float64Array
  readonly litFrac: Float64Array
  /** Residual of the day's temperature over its spread. */
  readonly residual: Float64Array
  readonly latitudeDeg: number
  readonly sundialH: number
  readonly draws: Draws
  readonly directionDraws: Draws
}

/**
 * Wind speed and where it comes from. A normal score with memory, laid on a Weibull distribution; more by day and in summer, less in clear
 * cold nights, which are still: it is those that frost roofs. The months have the means given. Under 0.3 m/s: calm, no direction.
 */
export function fillWind(speed: Float64Array, from: Float64Array, of: WindIn): void {
  const quantile = weibullByScore(of.shapeRatio)
  const rest = Math.sqrt(1 - MEMORY * MEMORY)
  let y = of.draws.normal()
  const swing = Float64Array.from({ length: 24 }, (_, h) => cos((2 * Math.PI * (h + 0.5 + of.sundialH - STRONGEST_H)) / 24))
  for (let h = 0; h < HOURS; h++) {
    y = MEMORY * y + rest * of.draws.normal()
    const day = Math.floor(h / 24)
    const summer = highSun(day, of.latitudeDeg)
    const cloud = of.cloudFrac[h] as number
    const still = (of.litFrac[h] as number) === 0 && cloud < CLEAR && (of.residual[day] as number) < COLD
    const factor = (1 + (summer ? SUMMER : WINTER) * (swing[h % 24] as number) * (1 - cloud)) * (still ? STILL : 1)
    speed[h] = quantile(y) * factor
  }
  for (let m = 0; m < 12; m++) {
    const begin = 24 * (FIRST_OF_MONTH[m] as number)
    scaleMonth(speed.subarray(begin, begin + 24 * (MONTH_DAYS[m] as number)), of.meanMPerS[m] as number)
  }
  fillDirection(from, speed, of)
}

/** From 21 March to 22 September in the north, the other half of the year in the south. */
const highSun = (day: number, latitudeDeg: number): boolean => (day >= 79 && day < 265) === latitudeDeg >= 0

/** Scaled to the mean with what is calm counted as nothing. A mean that is itself near calm: the strongest hours carry it. */
function scaleMonth(month: Float64Array, wanted: number): void {
  const raw = Float64Array.from(month)
  let scale = 1
  for (let round = 0; round < 40; round++) {
    let sum = 0
    for (let i = 0; i < raw.length; i++) {
      const v = (raw[i] as number) * scale
      month[i] = v < CALM_M_S ? 0 : v
      sum += month[i] as number
    }
    const mean = sum / raw.length
    if (wanted <= 0) scale = 0
    else if (Math.abs(mean / wanted - 1) < 1e-6) return
    else scale *= mean > 0 ? Math.min(2, Math.max(0.5, wanted / mean)) : 2
  }
}

function fillDirection(from: Float64Array, speed: Float64Array, of: WindIn): void {
  const draws = of.directionDraws
  let free = 360 * draws.even()
  let about = draws.normal()
  const rest = Math.sqrt(1 - DIRECTION_MEMORY * DIRECTION_MEMORY)
  for (let h = 0; h < HOURS; h++) {
    free += STEP_DEG * draws.normal()
    about = DIRECTION_MEMORY * about + rest * draws.normal()
    const day = Math.floor(h / 24)
    const winter = !highSun(day, of.latitudeDeg)
    const bearing = winter && of.winterFromDeg !== null ? of.winterFromDeg + TOLD_DEG * about : free
    from[h] = (speed[h] as number) === 0 ? Number.NaN : ((bearing % 360) + 360) % 360
  }
}

/** Speed over the scale of the distribution, by normal score: (−ln(1 − Φ(y)))^(1/k), straight between knots of 1/32 from −5 to 5. */
function weibullByScore(shape: number): (y: number) => number {
  const PER = 32
  const END = 5
  const knots = new Float64Array(2 * END * PER + 2)
  for (let i = 0; i < knots.length; i++) {
    const above = upperTail(i / PER - END)
    // 1 − above loses the far tail, so −ln of what is above is taken, and of a tiny share below by its series.
    const below = 1 - above
    const hazard = below < 1e-6 ? below : -log(above)
    knots[i] = hazard <= 0 ? 0 : exp(log(hazard) / shape)
  }
  return (y) => {
    const x = (Math.min(END - 1e-9, Math.max(-END, y)) + END) * PER
    const i = Math.floor(x)
    const [a, b] = [knots[i] as number, knots[i + 1] as number]
    return a + (b - a) * (x - i)
  }
}

/** Share of a normal distribution above y. @source Abramowitz & Stegun 26.2.17, 7.5e-8. Provenance: memory */
function upperTail(y: number): number {
  const x = Math.abs(y)
  const t = 1 / (1 + 0.2316419 * x)
  const poly = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))))
  const tail = (exp((-x * x) / 2) / Math.sqrt(2 * Math.PI)) * poly
  return y >= 0 ? tail : 1 - tail
}
