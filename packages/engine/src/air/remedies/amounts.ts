import { type FitDesign, SIDES } from '../../job/index.ts'
import type { WeatherHours } from '../../weather/index.ts'
import { ON_GEAR_KG_PER_M2, SEEN_KG_PER_M2 } from '../answer/counts.ts'
import { dripped } from '../answer/drips.ts'
import { amount } from '../answer/figures.ts'
import { airAtGear, type GearPart } from '../answer/gear.ts'
import type { RemedyAmounts } from '../result.ts'
import type { BoxModel, YearRun } from '../year/types.ts'

const ROOF = SIDES.indexOf('roof')
const FACES = 6

/** What one year comes to. */
export function amountsOf(of: {
  readonly model: BoxModel
  readonly run: YearRun
  readonly weather: WeatherHours
  readonly parts: readonly GearPart[]
  readonly fit: Pick<FitDesign, 'items'> | null
}): RemedyAmounts {
  const { model, run, weather, parts, fit } = of
  const at = airAtGear(model, run, fit)
  const { filmKgPerM2, frostKgPerM2, gearFilmKgPerM2, fellOnGearKg } = run.series
  const limits = parts.map((part) => ({
    free: part.name === 'transformer',
    mostC: part.derates ? amount('breaker-most') : (part.limit.mostC ?? Number.POSITIVE_INFINITY),
    leastC: part.limit.leastC ?? Number.NEGATIVE_INFINITY,
  }))
  const warning = amount('roof-warning') / 1000
  const sums = { wrongH: 0, hotH: 0, coldH: 0, dewH: 0, wetH: 0, frostH: 0 }
  let mostKg = 0
  for (let h = 0; h < run.hoursCount; h += 1) {
    const film = filmKgPerM2[h * FACES + ROOF]!
    const ice = frostKgPerM2[h * FACES + ROOF]!
    const air = at.airC[h]!
    const hot = limits.some((l) => (l.free ? air : at.hotC[h]!) > l.mostC)
    const cold = limits.some((l) => (l.free ? air : at.coldC[h]!) < l.leastC)
    const dew = gearFilmKgPerM2[h]! > ON_GEAR_KG_PER_M2
    if (hot) sums.hotH += 1
    if (cold) sums.coldH += 1
    if (dew) sums.dewH += 1
    if (film > SEEN_KG_PER_M2) sums.wetH += 1
    if (ice > SEEN_KG_PER_M2) sums.frostH += 1
    if (hot || cold || dew || film > warning || fellOnGearKg[h]! > 0) sums.wrongH += 1
    mostKg = Math.max(mostKg, film)
  }
  const drops = dripped({ model, run, weather })
  return {
    ...sums,
    ...{ mostGPerM2: mostKg * 1000, fellL: drops.fellKg, onGearL: drops.onGearKg, heaterKWh: run.heaterKWh, fanKWh: run.fanKWh },
  }
}

/** Mean of several years; the most under the roof is the most of them all. */
export function meanAmounts(of: readonly RemedyAmounts[]): RemedyAmounts {
  const keys = Object.keys(of[0] ?? {}) as (keyof RemedyAmounts)[]
  return Object.fromEntries(
    keys.map((k) => [
      k,
      k === 'mostGPerM2' ? Math.max(...of.map((a) => a[k])) : of.reduce((sum, a) => sum + a[k], 0) / of.length,
    ]),
  ) as unknown as RemedyAmounts
}
