import { cos, exp, Fault } from '../../kernel/index.ts'
import { PHYSICS } from '../constants.ts'
import { diffuseFrac, LEAST_UP_RATIO } from '../split.ts'
import type { SunPath } from '../sun-path.ts'
import type { Draws } from './draws.ts'
import { amount, listOf } from './figures.ts'
import { DAYS } from './months.ts'

type Four = readonly [number, number, number, number]
const terms = (symbol: string): Four => {
  const [a = 0, b = 0, c = 0, d = 0] = listOf('hourly-clearness', symbol, 'values')
  return [a, b, c, d]
}
const LAMBDA = terms('lambda')
const ETA = terms('eta')
const KAPPA = terms('kappa')
const SPREAD_A = terms('A')
const SPREAD_B = terms('B')
const MEMORY = terms('phi')
const CAP = terms('cap')
const HAURWITZ = listOf('clear-sky', 'global', 'values') as readonly [number, number]
const REDRAWS = amount('redraws of an hour')

/** What the hours of a day of one clearness have in common. */
export interface HourlyClearness {
  meanFrac(upRatio: number): number
  spreadFrac(upRatio: number): number
  readonly memoryRatio: number
}

/**
 * Mean and spread of the hourly clearness at a height of the sun, and its memory from hour to hour, on a day of clearness K.
 * @throws Fault `weather/clearness-range` unless 0 ≤ K ≤ 1
 * @source Aguiar & Collares-Pereira 1992, Solar Energy 49(3) (table `hourly-clearness`)
 */
export function hourlyClearness(dayFrac: number): HourlyClearness {
  if (!(dayFrac >= 0 && dayFrac <= 1)) throw new Fault('weather/clearness-range', dayFrac)
  const k = dayFrac
  const lambda = LAMBDA[0] + LAMBDA[1] * k + LAMBDA[2] * exp(LAMBDA[3] * k)
  const eta = ETA[0] + ETA[1] * (k - ETA[2]) * (k - ETA[2])
  const kappa = KAPPA[0] + KAPPA[1] * k * k + KAPPA[2] * k * k * k
  const a = SPREAD_A[0] * exp(SPREAD_A[1] * (k - SPREAD_A[2]) * (k - SPREAD_A[2]))
  const b = SPREAD_B[0] * (k - SPREAD_B[1]) * (k - SPREAD_B[1]) + SPREAD_B[2] * k * k * k * k * k
  return {
    meanFrac: (up) => lambda + eta * exp(-kappa / up),
    spreadFrac: (up) => a * exp(b * (1 - up)),
    memoryRatio: MEMORY[0] + MEMORY[1] * cos(MEMORY[2] * k + MEMORY[3]),
  }
}

/** Highest clearness of an hour, by the time of the sundial: 0.88 at noon. @source as `hourlyClearness` */
export const clearnessCapFrac = (solarH: number): number => CAP[0] * cos((Math.PI * (solarH - 12)) / CAP[1])

/**
 * Global light under a sky without cloud: 1098·s·exp(−0.057/s), s the sine of the sun's height. 0 without sun.
 * @source Haurwitz 1945, Journal of Meteorology 2 (table `clear-sky`)
 */
export const clearSkyWPerM2 = (upRatio: number): number => (upRatio > 0 ? HAURWITZ[0] * upRatio * exp(-HAURWITZ[1] / upRatio) : 0)

export interface LightColumns {
  readonly globalWPerM2: Float64Array
  readonly beamWPerM2: Float64Array
  readonly diffuseWPerM2: Float64Array
}

/** Light outside the air on the level, each day. Hours of the path in whole days. */
export function outsideByDayKWhPerM2(path: SunPath): Float64Array {
  const out = new Float64Array(path.stepsCount / 24)
  for (let h = 0; h < path.stepsCount; h++) {
    const day = Math.floor(h / 24)
    out[day] = (out[day] as number) + outsideWPerM2At(path, h) / 1000
  }
  return out
}

const outsideWPerM2At = (path: SunPath, h: number): number =>
  PHYSICS.solarWPerM2 * (path.distanceRatio[h] as number) * (path.meanUpRatio[h] as number)

/**
 * Fills the global light of 8760 hours from the clearness of the days. Each lit hour is drawn about its mean, remembering the hour before;
 * drawn again while outside 0 to the cap, at most twenty times, then cut. The hours of a day are scaled to its sum under the cap in at
 * most five passes; what is then still missing is spread over all of them by their light, most of it about noon.
 * @param sundialH sundial less clock, without the equation of time
 */
export function fillGlobal(
  out: Float64Array,
  of: { readonly path: SunPath; readonly clearness: Float64Array; readonly sundialH: number; readonly draws: Draws },
): void {
  const { path, clearness, draws } = of
  const kt = new Float64Array(24)
  const weight = new Float64Array(24)
  const cap = new Float64Array(24)
  for (let d = 0; d < DAYS; d++) {
    const day = clearness[d] as number
    out.fill(0, 24 * d, 24 * d + 24)
    if (day === 0) continue
    const hourly = hourlyClearness(day)
    const rest = Math.sqrt(1 - hourly.memoryRatio * hourly.memoryRatio)
    let y = draws.normal()
    let wanted = 0
    for (let h = 0; h < 24; h++) {
      const w = outsideWPerM2At(path, 24 * d + h)
      weight[h] = w
      kt[h] = 0
      if (w === 0) continue
      wanted += day * w
      const up = path.upRatio[24 * d + h] as number
      cap[h] = clearnessCapFrac((h + 0.5 + of.sundialH + 24) % 24)
      const most = cap[h] as number
      const mean = hourly.meanFrac(up)
      const spread = hourly.spreadFrac(up)
      let drawn = y
      let value = Number.NaN
      for (let n = 0; n <= REDRAWS; n++) {
        drawn = hourly.memoryRatio * y + rest * draws.normal()
        value = mean + spread * drawn
        if (value >= 0 && value <= most) break
      }
      value = Math.min(most, Math.max(0, value))
      y = spread > 1e-9 ? (value - mean) / spread : drawn
      kt[h] = value
    }
    scaleDay(kt, weight, cap, wanted, day)
    for (let h = 0; h < 24; h++) out[24 * d + h] = (kt[h] as number) * (weight[h] as number)
  }
}

function scaleDay(kt: Float64Array, weight: Float64Array, cap: Float64Array, wanted: number, even: number): void {
  let total = 0
  for (let h = 0; h < 24; h++) total += (kt[h] as number) * (weight[h] as number)
  if (total <= 0) {
    for (let h = 0; h < 24; h++) kt[h] = (weight[h] as number) > 0 ? even : 0
    return
  }
  for (let pass = 0; pass < 5; pass++) {
    let free = 0
    let held = 0
    for (let h = 0; h < 24; h++) {
      const part = (kt[h] as number) * (weight[h] as number)
      if ((kt[h] as number) < (cap[h] as number)) free += part
      else held += part
    }
    if (free <= 0) break
    const scale = (wanted - held) / free
    if (scale < 0) break
    for (let h = 0; h < 24; h++)
      if ((weight[h] as number) > 0 && (kt[h] as number) < (cap[h] as number))
        kt[h] = Math.min(cap[h] as number, (kt[h] as number) * scale)
  }
  let sum = 0
  let all = 0
  for (let h = 0; h < 24; h++) {
    sum += (kt[h] as number) * (weight[h] as number)
    all += weight[h] as number
  }
  const lift = (wanted - sum) / all
  for (let h = 0; h < 24; h++) if ((weight[h] as number) > 0) kt[h] = Math.max(0, (kt[h] as number) + lift)
}

/**
 * Splits global light into beam and sky by rule. Means over the hour: in hours of rise and set the beam is that of the lit part times its share,
 * so that global = beam·(sine of the lit part's middle) + diffuse. No beam with the sun below 3.7°, never more than outside the air.
 */
export function fillSplit(light: LightColumns, path: SunPath): void {
  for (let h = 0; h < path.stepsCount; h++) {
    const global = light.globalWPerM2[h] as number
    const mean = path.meanUpRatio[h] as number
    const lit = path.litFrac[h] as number
    light.beamWPerM2[h] = 0
    light.diffuseWPerM2[h] = global
    if (global <= 0 || mean <= 0 || (path.upRatio[h] as number) < LEAST_UP_RATIO) continue
    const outside = PHYSICS.solarWPerM2 * (path.distanceRatio[h] as number)
    const clear = Math.min(1, global / (outside * mean))
    const beam = Math.min(outside * lit, (global * (1 - diffuseFrac(clear)) * lit) / mean)
    light.beamWPerM2[h] = beam
    light.diffuseWPerM2[h] = global - (beam * mean) / lit
  }
}
