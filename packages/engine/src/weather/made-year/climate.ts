import { Fault, firmness, type Source, source } from '../../kernel/index.ts'
import { type Months, type Normal, type NormalNear, normalsByDistance } from '../normals.ts'
import { dewC, saturationPa } from '../saturation.ts'
import { rowOf } from '../shelf.ts'
import { fillSunPath, newSunPath } from '../sun-path.ts'
import { tables } from '../tables.generated.ts'
import type { WeatherPlace } from '../types.ts'
import { amount, type FigureName } from './figures.ts'
import { outsideByDayKWhPerM2 } from './hourly-light.ts'
import type { Humidity } from './humidity.ts'
import { HOURS, monthMeans } from './months.ts'
import { snowByMean } from './snow.ts'

/** What is known of a site's climate. Null: not told. */
export interface ClimateTold {
  readonly name: string
  readonly latitudeDeg: number | null
  readonly longitudeDeg: number | null
  readonly elevationM: number | null
  readonly utcOffsetH: number | null
  readonly meanC: Months | null
  readonly rangeK: Months | null
  readonly relativeFrac: Months | null
  readonly over: 'liquid' | 'ice'
  readonly dewC: Months | null
  readonly windMPerS: Months | null
  /** Mean daily sum on the flat. */
  readonly sunKWhPerM2: Months | null
  readonly spreadK: Months | null
  readonly snowLies: readonly boolean[] | null
  /** Temperatures the place is designed for: exceeded in 99.6 % and in 0.4 % of all hours. */
  readonly coldC: number | null
  readonly hotC: number | null
  readonly winterFromDeg: number | null
  /** Shape of the wind's distribution. Null: that of open country. */
  readonly windShape: number | null
}

export const CLIMATE_PARTS = [
  'temperature',
  'range',
  'spread',
  'humidity',
  'wind',
  'sun',
  'snow',
  'cold',
  'heat',
  'height',
  'clock',
] as const
export type ClimatePart = (typeof CLIMATE_PARTS)[number]

/** One thing that nobody told, what stands in its place, and what that rests on. */
export interface Filled {
  readonly part: ClimatePart
  readonly said: string
  readonly rests: Source
  /** Of the place it was taken from: how far away, and how much higher the site lies. Temperature only. */
  readonly from?: { readonly distanceM: number; readonly higherM: number }
}

/** A climate with nothing left open. */
export interface Climate {
  readonly place: WeatherPlace
  readonly meanC: Months
  readonly rangeK: Months
  readonly spreadK: Months
  readonly humidity: Humidity
  readonly windMPerS: Months
  readonly sunKWhPerM2: Months
  /** Sum on the flat over that outside the air; 0 in months without sun. */
  readonly clearnessFrac: Months
  readonly snowLies: readonly boolean[]
  readonly coldC: number
  readonly hotC: number
  readonly windShape: number
  readonly winterFromDeg: number | null
  readonly filled: readonly Filled[]
  /** The nearest places of the table, with distance and height. */
  readonly nearest: NormalNear
}

/** Why no year can be made: what is not told and cannot be filled, in words. */
export type ClimateAnswer =
  | { readonly ok: true; readonly climate: Climate }
  | { readonly ok: false; readonly missing: readonly string[] }

const NEAR_M = 1000 * amount('nearest place that counts')

const ruleSource = (name: FigureName, words: string): Source =>
  source(words, firmness(tables['made-year-figures'], String(rowOf('made-year-figures', name).row_provenance)))

/** What table `climate-normals` knows of a place, as if it had been told. */
export const toldOfNormal = (normal: Normal): ClimateTold => ({
  name: normal.name,
  latitudeDeg: normal.latitudeDeg,
  longitudeDeg: normal.longitudeDeg,
  elevationM: normal.elevationM,
  utcOffsetH: normal.utcOffsetH,
  meanC: meanOf(normal),
  rangeK: rangeOf(normal),
  relativeFrac: relativeOf(normal),
  over: 'liquid',
  dewC: normal.dewPointC,
  windMPerS: windOf(normal),
  sunKWhPerM2: normal.sunKWhPerM2,
  spreadK: normal.dailyMeanSpreadK,
  snowLies: normal.snowLies,
  coldC: normal.design.heating_99_6_C?.value ?? null,
  hotC: normal.design.cooling_0_4_C?.value ?? null,
  winterFromDeg: null,
  windShape: null,
})

const meanOf = (n: Normal): Months => n.meanC ?? n.highestC.map((high, m) => (high + (n.lowestC[m] as number)) / 2)
const rangeOf = (n: Normal): Months => n.highestC.map((high, m) => high - (n.lowestC[m] as number))
const relativeOf = (n: Normal): Months | null =>
  n.relativePct?.map((pct) => pct / 100) ?? (n.yearRelativePct === null ? null : Array<number>(12).fill(n.yearRelativePct / 100))
const windOf = (n: Normal): Months | null =>
  n.windMPerS ?? (n.yearWindMPerS === null ? null : Array<number>(12).fill(n.yearWindMPerS))

/**
 * The climate with what is missing filled from the nearest place of the table that has it, or by a rule, each said; or what is missing and cannot be filled:
 * the latitude, and the temperature where no place of the table lies within 500 km.
 * @throws Fault `weather/climate-range` where a told number lies outside what can be
 */
export function climateFrom(told: ClimateTold): ClimateAnswer {
  inRange(told)
  const { latitudeDeg } = told
  if (latitudeDeg === null) return { ok: false, missing: ['the latitude of the site'] }
  const filled: Filled[] = []
  const fill = (part: ClimatePart, said: string, rests: Source) => filled.push({ part, said, rests })

  const longitudeDeg = told.longitudeDeg ?? (told.utcOffsetH === null ? null : 15 * told.utcOffsetH)
  if (longitudeDeg === null) return { ok: false, missing: ['the longitude of the site, or its hours from universal time'] }
  if (told.longitudeDeg === null)
    fill(
      'clock',
      `longitude taken as ${longitudeDeg}°, the middle of the time zone`,
      source('15° of longitude an hour', 'assumed'),
    )
  const utcOffsetH = told.utcOffsetH ?? Math.round(longitudeDeg / 15)
  if (told.utcOffsetH === null)
    fill(
      'clock',
      `clock taken as ${utcOffsetH} h from universal time, by the longitude`,
      source('15° of longitude an hour', 'assumed'),
    )

  const near = normalsByDistance({ latitudeDeg, longitudeDeg, elevationM: told.elevationM ?? 0 })
  const nearest = near[0] as NormalNear
  const nearWith = <T>(of: (n: Normal) => T | null): readonly [NormalNear, T] | null => {
    for (const one of near) {
      if (one.distanceM > NEAR_M) return null
      const value = of(one.normal)
      if (value !== null) return [one, value]
    }
    return null
  }
  const elevationM = told.elevationM ?? (nearest.distanceM <= NEAR_M ? nearest.normal.elevationM : 0)
  if (told.elevationM === null)
    fill(
      'height',
      nearest.distanceM <= NEAR_M
        ? `height taken as ${elevationM} m, that of ${nearest.normal.name}`
        : 'height taken as that of the sea',
      source('nearest place, or sea level', 'assumed'),
    )
  const higherM = (one: NormalNear) => elevationM - one.normal.elevationM
  const from = (one: NormalNear) => `${one.normal.name}, ${Math.round(one.distanceM / 1000)} km away`

  const missing: string[] = []
  let meanC = told.meanC
  if (meanC === null) {
    const found = nearWith<Months>(meanOf)
    if (found === null)
      missing.push(`how warm each month is (the nearest place known, ${nearest.said}, is too far to take it from)`)
    else {
      const shift = (amount('air by height') * higherM(found[0])) / 1000
      meanC = found[1].map((mean) => mean + shift)
      const words =
        Math.abs(shift) < 0.05 ? '' : `, ${Math.abs(shift).toFixed(1)} K ${shift < 0 ? 'less' : 'more'} for the height`
      filled.push({
        ...{ part: 'temperature', said: `monthly temperature of ${from(found[0])}${words}`, rests: found[0].normal.rests },
        from: { distanceM: found[0].distanceM, higherM: higherM(found[0]) },
      })
    }
  }
  let rangeK = told.rangeK
  if (rangeK === null) {
    const found = nearWith<Months>(rangeOf)
    if (found === null) missing.push('the daily range of temperature of the months')
    else {
      rangeK = found[1]
      fill('range', `daily range of ${from(found[0])}`, found[0].normal.rests)
    }
  }
  if (meanC === null || rangeK === null) return { ok: false, missing }

  const place: WeatherPlace = { name: told.name, latitudeDeg, longitudeDeg, elevationM, utcOffsetH }
  const outside = outsideOf(place)
  const sun = sunFor(told, nearWith, rangeK, outside, from, fill)
  const bright = sun.findIndex(
    (kWh, m) => kWh > 0.86 * (outside[m] as number) && (outside[m] as number) >= amount('even days below'),
  )
  if (bright >= 0)
    return {
      ok: false,
      missing: [
        `a sum of sun for month ${bright + 1} that can be: ${(sun[bright] as number).toFixed(2)} kWh/m2 a day is told, ${(outside[bright] as number).toFixed(2)} arrives outside the air`,
      ],
    }
  const clearnessFrac = sun.map((kWh, m) => {
    const all = outside[m] as number
    return all < amount('no sun below') ? 0 : Math.min(0.86, Math.max(0.035, kWh / all))
  })

  const climate: Climate = {
    place,
    meanC,
    rangeK,
    spreadK: spreadFor(told, nearWith, meanC, from, fill),
    humidity: humidityFor(told, nearWith, meanC, rangeK, from, fill),
    windMPerS: windFor(told, nearWith, from, fill),
    sunKWhPerM2: sun,
    clearnessFrac,
    snowLies: told.snowLies ?? snowByMean(meanC),
    coldC: coldFor(told, meanC, fill),
    hotC: hotFor(told, meanC, rangeK, fill),
    windShape: told.windShape ?? amount('wind, shape'),
    winterFromDeg: told.winterFromDeg,
    filled,
    nearest,
  }
  if (told.snowLies === null)
    fill('snow', 'snow lies in months of −2 °C and colder', ruleSource('snow comes and goes at', 'rule of thumb'))
  return { ok: true, climate }
}

type Fill = (part: ClimatePart, said: string, rests: Source) => void
type NearWith = <T>(of: (n: Normal) => T | null) => readonly [NormalNear, T] | null
type From = (one: NormalNear) => string

/** Mean daily sum of light outside the air, by month. */
function outsideOf(place: WeatherPlace): number[] {
  const path = newSunPath(HOURS)
  fillSunPath(path, { place, year: null, firstDay: 1, firstHour: 0, stepH: 1 })
  return monthMeans(outsideByDayKWhPerM2(path))
}

/** By clearness, not by sum: the days of the other place are longer or shorter. */
function sunFor(told: ClimateTold, nearWith: NearWith, rangeK: Months, outside: Months, from: From, fill: Fill): Months {
  if (told.sunKWhPerM2 !== null) return told.sunKWhPerM2
  const found = nearWith((n) => n.sunKWhPerM2)
  const byRange = rangeK.map((range, m) => amount('sun by range') * Math.sqrt(range) * (outside[m] as number))
  if (found === null) {
    fill(
      'sun',
      'sun from the daily range of temperature: 0.16 √range of what arrives outside the air, worth ±15 %',
      ruleSource('sun by range', 'Hargreaves & Samani 1982, as in FAO Irrigation and Drainage Paper 56, equation 50'),
    )
    return byRange
  }
  const there = outsideOf({ ...found[0].normal })
  fill('sun', `clearness of the air of ${from(found[0])}`, found[0].normal.rests)
  return outside.map((all, m) => {
    const theirs = there[m] as number
    return theirs < amount('even days below') ? (byRange[m] as number) : (all * (found[1][m] as number)) / theirs
  })
}

function spreadFor(told: ClimateTold, nearWith: NearWith, meanC: Months, from: From, fill: Fill): Months {
  if (told.spreadK !== null) return told.spreadK
  const found = nearWith((n) => n.dailyMeanSpreadK)
  if (found !== null) {
    fill('spread', `spread of the days about their month of ${from(found[0])}`, found[0].normal.rests)
    return found[1]
  }
  const low = Math.min(...meanC)
  const swing = Math.max(...meanC) - low
  const half = Math.min(amount('spread of days, half swing at most'), swing / 2)
  const spreadK = meanC.map((mean) => {
    const warmth = swing > 0 ? (mean - low) / swing : 0.5
    const cold = amount('spread of days, start') + amount('spread of days, by half swing') * half
    const less = (amount('spread of days, by warmth') + amount('spread of days, by both') * half) * warmth
    return Math.max(amount('spread of days, least'), cold + less)
  })
  fill(
    'spread',
    `spread of the days about their month ${Math.max(...spreadK).toFixed(1)} K in the coldest month, ${Math.min(...spreadK).toFixed(1)} K in the warmest, by the swing of the year; misses by 1.3 K`,
    ruleSource('spread of days, start', 'fitted to the places of climate-normals that have one'),
  )
  return spreadK
}

function humidityFor(told: ClimateTold, nearWith: NearWith, meanC: Months, rangeK: Months, from: From, fill: Fill): Humidity {
  if (told.relativeFrac !== null) return { is: 'relative', frac: told.relativeFrac, over: told.over }
  if (told.dewC !== null) return { is: 'dew point', dewC: told.dewC }
  const found = nearWith(relativeOf)
  if (found !== null) {
    fill('humidity', `relative humidity of ${from(found[0])}`, found[0].normal.rests)
    return { is: 'relative', frac: found[1], over: 'liquid' }
  }
  fill(
    'humidity',
    'dew point from the lowest temperature of the day, the range and the mean; misses by 3 K, in deserts by 10 K and more on the damp side',
    ruleSource('dew point by the lowest, start', 'fitted to the places of climate-normals that have both'),
  )
  return {
    is: 'dew point',
    dewC: meanC.map((mean, m) => {
      const range = rangeK[m] as number
      const rule =
        mean -
        range / 2 +
        amount('dew point by the lowest, start') +
        amount('dew point by the lowest, by range') * range +
        amount('dew point by the lowest, by mean') * mean
      // In deep cold the rule would stand over what air can hold over ice.
      return Math.min(rule, dewC(amount('humidity of cold air at most') * saturationPa(mean)))
    }),
  }
}

function windFor(told: ClimateTold, nearWith: NearWith, from: From, fill: Fill): Months {
  if (told.windMPerS !== null) return told.windMPerS
  const found = nearWith(windOf)
  if (found !== null) {
    fill('wind', `wind of ${from(found[0])}`, found[0].normal.rests)
    return found[1]
  }
  const v = amount('wind where none is known')
  fill(
    'wind',
    `wind ${v} m/s all year: none is known within 500 km`,
    ruleSource('wind where none is known', 'middle of the places known'),
  )
  return Array<number>(12).fill(v)
}

function coldFor(told: ClimateTold, meanC: Months, fill: Fill): number {
  if (told.coldC !== null) return told.coldC
  const low = Math.min(...meanC)
  const cold =
    amount('cold by the coldest month, start') +
    amount('cold by the coldest month, by mean') * low +
    amount('cold by the coldest month, by swing') * (Math.max(...meanC) - low)
  fill(
    'cold',
    `design cold taken as ${cold.toFixed(1)} °C from the coldest month; misses by 4 K, at worst 11 K`,
    ruleSource('cold by the coldest month, start', 'fitted to the places of climate-design'),
  )
  return cold
}

function hotFor(told: ClimateTold, meanC: Months, rangeK: Months, fill: Fill): number {
  if (told.hotC !== null) return told.hotC
  const highest = Math.max(...meanC.map((mean, m) => mean + (rangeK[m] as number) / 2))
  const hot =
    amount('heat by the hottest month, start') +
    amount('heat by the hottest month, by highest') * highest +
    amount('heat by the hottest month, by swing') * (Math.max(...meanC) - Math.min(...meanC))
  fill(
    'heat',
    `design heat taken as ${hot.toFixed(1)} °C from the hottest month; misses by 1 K`,
    ruleSource('heat by the hottest month, start', 'fitted to the places of climate-design'),
  )
  return hot
}

/** What a month, a place or a share can be. Wider than any weather, narrower than a slip of a unit. */
const RANGES = {
  latitudeDeg: [-90, 90],
  longitudeDeg: [-180, 180],
  elevationM: [-450, 6000],
  utcOffsetH: [-14, 14],
  coldC: [-75, 60],
  hotC: [-75, 60],
  winterFromDeg: [0, 360],
  windShape: [1, 4],
  meanC: [-60, 45],
  rangeK: [0, 40],
  relativeFrac: [0.01, 1],
  dewC: [-75, 35],
  windMPerS: [0, 40],
  sunKWhPerM2: [0, 13],
  spreadK: [0, 20],
} as const satisfies Partial<Record<keyof ClimateTold, readonly [number, number]>>

function inRange(told: ClimateTold): void {
  for (const [key, [low, high]] of Object.entries(RANGES) as [keyof typeof RANGES, readonly [number, number]][]) {
    const value = told[key]
    if (value === null) continue
    const all = typeof value === 'number' ? [value] : value
    if (typeof value !== 'number' && value.length !== 12) throw new Fault('weather/climate-range', { [key]: value })
    if (!all.every((v) => v >= low && v <= high)) throw new Fault('weather/climate-range', { [key]: value })
  }
  if (told.snowLies !== null && told.snowLies.length !== 12) throw new Fault('weather/climate-range', { snowLies: told.snowLies })
}
