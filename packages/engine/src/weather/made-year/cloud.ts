import { acos, exp } from '../../kernel/index.ts'
import { PHYSICS } from '../constants.ts'
import { airMassRatio } from '../sun.ts'
import type { SunPath } from '../sun-path.ts'
import type { Draws } from './draws.ts'
import { amount, listOf } from './figures.ts'
import { MONTH_OF_DAY } from './months.ts'

const FREED = listOf('clear-sky', "kt'", 'values') as readonly [number, number, number, number, number]
const CLOUDLESS = amount('cloudless clearness')
const SPAN = amount('clearness from cloudless to covered')
const SLOPE = amount('cloud by humidity, slope')
const START = amount('cloud by humidity, start')
const SPREAD = amount('cloud in the dark, spread')
const MEMORY = amount('cloud in the dark, memory of an hour')

/** Sun lower than this (sine of its height) tells nothing of the cloud, unless it never stands higher that day. */
const TELLS_FROM = 0.1
const TELLS_AT_ALL = 0.02
/** Dark for longer: the cloud is no longer drawn straight from one daylight to the next, nor held. @source common practice */
export const LONG_DARK_H = 30

/**
 * Clearness of an hour freed from the height of the sun: kt' = kt/(1.031·exp(−1.4/(0.9 + 9.4/m)) + 0.1), m the length of the light's way.
 * @source Perez, Ineichen, Seals & Zelenka 1990, Solar Energy 45(2) (table `clear-sky`)
 */
export function freedClearnessFrac(clearnessFrac: number, zenithDeg: number): number {
  const m = airMassRatio(zenithDeg)
  return clearnessFrac / (FREED[0] * exp(-FREED[1] / (FREED[2] + FREED[3] / m)) + FREED[4])
}

/**
 * Opaque cover from the freed clearness: n = (0.75 − kt')/0.30 within 0 and 1. Taken for the plain clearness, low sun would pass for cloud,
 * and every night between two low suns for a cloudy one.
 * Common practice, fitted to five stations' observed opaque cover (docs/made-year.md).
 */
export const coverOfClearnessFrac = (freedFrac: number): number => Math.min(1, Math.max(0, (CLOUDLESS - freedFrac) / SPAN))

/** Mean cover of a month or day without sun, from its mean relative humidity: 1.5·φ − 0.6 within 0 and 1. Common practice. */
export const coverOfHumidityFrac = (relativeFrac: number): number => Math.min(1, Math.max(0, SLOPE * relativeFrac - START))

/**
 * Fills the opaque cover of every hour: from the light by day, straight from the last telling daylight to the next at night, wandering
 * about the mean of the month's humidity where the dark lasts.
 */
export function fillCover(
  out: Float64Array,
  of: {
    readonly path: SunPath
    readonly globalWPerM2: Float64Array
    readonly relativeByMonth: readonly number[]
    readonly draws: Draws
  },
): void {
  const { path, globalWPerM2, draws } = of
  const count = path.stepsCount
  out.fill(Number.NaN)
  let first = -1
  for (let day = 0; day < count / 24; day++) {
    let most = 0
    for (let h = 24 * day; h < 24 * day + 24; h++) most = Math.max(most, path.upRatio[h] as number)
    if (most < TELLS_AT_ALL) continue
    const from = Math.min(TELLS_FROM, 0.7 * most)
    for (let h = 24 * day; h < 24 * day + 24; h++) {
      const up = path.upRatio[h] as number
      const outside = PHYSICS.solarWPerM2 * (path.distanceRatio[h] as number) * (path.meanUpRatio[h] as number)
      if (up < from || outside <= 0 || (globalWPerM2[h] as number) <= 0) continue
      const zenithDeg = (acos(up) * 180) / Math.PI
      out[h] = coverOfClearnessFrac(freedClearnessFrac((globalWPerM2[h] as number) / outside, zenithDeg))
      if (first < 0) first = h
    }
  }
  const byMonth = of.relativeByMonth.map(coverOfHumidityFrac)
  const rest = Math.sqrt(1 - MEMORY * MEMORY)
  let y = draws.normal()
  const wander = (h: number): number => {
    y = MEMORY * y + rest * draws.normal()
    const mean = byMonth[MONTH_OF_DAY[Math.floor(h / 24) % 365] as number] as number
    return Math.min(1, Math.max(0, mean + SPREAD * y))
  }
  if (first < 0) {
    for (let h = 0; h < count; h++) out[h] = wander(h)
    return
  }
  // From one telling hour to the next, round the end of the year.
  let last = first
  for (let i = first + 1; i <= first + count; i++) {
    const h = i % count
    if (i < first + count && Number.isNaN(out[h] as number)) continue
    const gap = i - last
    const [before, after] = [out[last % count] as number, out[h] as number]
    if (gap > LONG_DARK_H) for (let j = last + 1; j < i; j++) out[j % count] = wander(j % count)
    else for (let j = last + 1; j < i; j++) out[j % count] = before + ((after - before) * (j - last)) / gap
    last = i
  }
}
