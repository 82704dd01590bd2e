import { sin } from '../../kernel/index.ts'
import { pressureAtPa } from '../moist-air.ts'
import { saturationOverLiquidPa } from '../saturation.ts'
import { fillSunPath, newSunPath, type SunPath } from '../sun-path.ts'
import type { ColumnOrigin, WeatherColumn, WeatherHours } from '../types.ts'
import { dailyClearness } from './clearness.ts'
import type { Climate } from './climate.ts'
import { fillCover } from './cloud.ts'
import { drawsOf } from './draws.ts'
import { amount } from './figures.ts'
import { fillGlobal, fillSplit, outsideByDayKWhPerM2 } from './hourly-light.ts'
import { fillVapour, monthlyDewC } from './humidity.ts'
import { DAYS, FIRST_OF_MONTH, HOURS, MONTH_DAYS, MONTH_OF_DAY, monthMeans } from './months.ts'
import { dailyResiduals } from './residuals.ts'
import { snowDays } from './snow.ts'
import { temperature } from './temperature.ts'
import { wandered } from './wandered.ts'
import { fillWind } from './wind.ts'

export interface YearAsked {
  /** Whole number, 0 to 2³² − 1. Same seed, same bytes. */
  readonly seed: number
  /** A normal year has the normals as its means and spreads; another wanders off them, month by month. */
  readonly normal: boolean
}

const MOMENT_H = 0.5

/**
 * A year of 8760 hours from twelve monthly values: sun day by day from Markov chains and hour by hour from a remembering Gaussian, cloud from the sun,
 * temperature by daily residuals tied to the sun, then vapour, wind, pressure and snow. Readings at the middle of the hour. No rain, no infrared.
 * @throws Fault `weather/seed-range`
 */
export function madeYear(climate: Climate, { seed, normal }: YearAsked): WeatherHours {
  const draws = drawsOf(seed)
  const column = () => new Float64Array(HOURS)
  const { place } = climate
  const path = newSunPath(HOURS)
  fillSunPath(path, { place, year: null, firstDay: 1, firstHour: 0, stepH: 1 })
  const sundialH = (place.longitudeDeg - 15 * place.utcOffsetH) / 15

  const { meanC, clearnessFrac } = normal ? climate : wandered(climate, draws.months)
  const clearness = dailyClearness(clearnessFrac, outsideByDayKWhPerM2(path), draws.clearness)
  const light = { globalWPerM2: column(), beamWPerM2: column(), diffuseWPerM2: column() }
  fillGlobal(light.globalWPerM2, { path, clearness, sundialH, draws: draws['hourly light'] })
  fillSplit(light, path)

  const cloudFrac = column()
  const dew = monthlyDewC(climate.humidity, climate.meanC)
  const relativeByMonth = dew.map((d, m) =>
    Math.min(1, saturationOverLiquidPa(d) / saturationOverLiquidPa(climate.meanC[m] as number)),
  )
  fillCover(cloudFrac, { path, globalWPerM2: light.globalWPerM2, relativeByMonth, draws: draws.cloud })

  const off = clearness.map((k, d) => k - (clearnessFrac[MONTH_OF_DAY[d] as number] as number))
  const clearnessRatio = clearness.map((k, d) => {
    const mean = clearnessFrac[MONTH_OF_DAY[d] as number] as number
    return mean > 0 ? k / mean : 1
  })
  const air = temperature({
    meanC,
    rangeK: climate.rangeK,
    spreadK: climate.spreadK,
    clearnessRatio,
    sun: standardised(off),
    residuals: dailyResiduals(standardised(off), draws.temperature),
    sundialH,
    daylightH: daylight(path),
    hotC: hotOf(climate, meanC),
    settled: normal,
  })

  const vapourPa = column()
  fillVapour(vapourPa, {
    humidity: climate.humidity,
    meanC,
    temperature: air,
    clearnessRatio,
    draws: draws.humidity,
  })

  const windMPerS = column()
  const windFromDeg = column()
  fillWind(windMPerS, windFromDeg, {
    meanMPerS: climate.windMPerS,
    shapeRatio: climate.windShape,
    winterFromDeg: climate.winterFromDeg,
    cloudFrac,
    litFrac: path.litFrac,
    residual: air.residual,
    latitudeDeg: place.latitudeDeg,
    sundialH,
    draws: draws.wind,
    directionDraws: draws.direction,
  })

  const pressurePa = column()
  const standardPa = pressureAtPa(place.elevationM)
  const [swingPa, periodH, beginH] = [
    amount('pressure, swing'),
    24 * amount('pressure, period'),
    24 * 365 * draws.pressure.even(),
  ]
  for (let h = 0; h < HOURS; h++) pressurePa[h] = standardPa + swingPa * sin(2 * Math.PI * (((h + beginH) % periodH) / periodH))

  const snow = snowDays(climate.snowLies, air.seasonC)
  const depth = amount('snow that lies')
  const snowM = column().map((_, h) => (snow[Math.floor(h / 24)] === true ? depth : 0))

  return {
    place,
    firstDay: 1,
    firstHour: 0,
    year: null,
    hoursCount: HOURS,
    readingAtH: MOMENT_H,
    columns: {
      airC: air.airC,
      vapourPa,
      pressurePa,
      windMPerS,
      windFromDeg,
      cloudFrac,
      snowM,
      ...light,
      infraredWPerM2: null,
      rainMm: null,
    },
    origins: originsOf(climate),
    lightSplit: true,
  }
}

/** Design heat where it was told, moved with the hottest month of a year that is off the normals. */
function hotOf(climate: Climate, meanC: readonly number[]): number | null {
  if (climate.filled.some((f) => f.part === 'heat')) return null
  return climate.hotC + Math.max(...meanC) - Math.max(...climate.meanC)
}

function daylight(path: SunPath): Float64Array {
  const out = new Float64Array(DAYS)
  for (let h = 0; h < HOURS; h++) out[Math.floor(h / 24)] = (out[Math.floor(h / 24)] as number) + (path.litFrac[h] as number)
  return out
}

/** Less the mean of the month and over its spread. Months without spread: 0. */
function standardised(off: Float64Array): Float64Array {
  const out = new Float64Array(DAYS)
  const means = monthMeans(off)
  for (let m = 0; m < 12; m++) {
    const from = FIRST_OF_MONTH[m] as number
    const to = from + (MONTH_DAYS[m] as number)
    let square = 0
    for (let d = from; d < to; d++) square += ((off[d] as number) - (means[m] as number)) ** 2
    const spread = Math.sqrt(square / (to - from - 1))
    if (spread < 1e-9) continue
    for (let d = from; d < to; d++) out[d] = ((off[d] as number) - (means[m] as number)) / spread
  }
  return out
}

function originsOf(climate: Climate): Partial<Record<WeatherColumn, ColumnOrigin>> {
  const of = (...parts: readonly string[]) => {
    const words = climate.filled.filter((f) => parts.includes(f.part)).map((f) => f.said)
    return words.length === 0 ? '' : `; not told: ${words.join('; ')}`
  }
  const made = (how: string): ColumnOrigin => ({ from: 'generated', how })
  const split: ColumnOrigin = { from: 'worked out', how: 'split from the made global light by rule' }
  return {
    airC: made(`made from the months’ means and ranges${of('temperature', 'range', 'spread')}`),
    vapourPa: made(`made from the months’ humidity${of('humidity')}`),
    pressurePa: made(`standard air at the height of the site and a swing of 6 hPa in five days${of('height')}`),
    windMPerS: made(`made from the months’ wind${of('wind')}`),
    windFromDeg: made('a slow walk round the compass: it says nothing of the site'),
    cloudFrac: made('read off the made light; at night straight between daylights'),
    snowM: made(`yes or no by month: 0.1 m stands for “lies”, no depth is made${of('snow')}`),
    globalWPerM2: made(`made from the months’ sums${of('sun')}`),
    beamWPerM2: split,
    diffuseWPerM2: split,
  }
}
