import { Fault } from '../../kernel/index.ts'
import {
  berdahlMartinFrac,
  blackWPerM2,
  clarkAllenWPerM2,
  cloudedFrac,
  cloudOfClearnessFrac,
  dewC,
  diffusivityM2PerD,
  groundC as groundAtC,
  groundFaceC,
  humidityRatio,
  longWaveShares,
  pressureAtPa,
  relativeFrac,
  type WeatherHours,
  waveOfMonths,
  wetBulbC,
  ZERO_C_K,
} from '../../weather/index.ts'
import { pressureAtRatio, roofPressureRatio, underPressureRatio, wallPressures } from '../flow/index.ts'
import { rowOf } from '../shelf.ts'
import { windAtHeightRatio } from '../surface/index.ts'
import { coverInLongDark, TELLS_W_PER_M2 } from './long-dark.ts'
import { SIDE_TURN_DEG, skySeenRatios, sunOnFaces } from './sun-on-faces.ts'
import type { BoxModel } from './types.ts'

/**
 * What stands around a box, step by step, worked out once and read by every variant of it: nothing here hangs on colours, vents or measures.
 * Arrays of `stepsCount + 1` (sun: six times that) hold values at the ends of steps; arrays of `stepsCount` (or six times that, side by side) hold means of a step.
 */
export interface Surroundings {
  readonly hoursCount: number
  readonly stepsPerHour: number
  readonly stepsCount: number
  readonly airC: Float64Array
  /** Water in the outside air, kg per kg of dry air. */
  readonly waterRatio: Float64Array
  readonly vapourPa: Float64Array
  readonly pressurePa: Float64Array
  /** Heat radiation that comes down on a level plate, and on a wall from sky, air and ground: σT⁴, W/m². */
  readonly downWPerM2: Float64Array
  readonly wallWPerM2: Float64Array
  readonly groundC: Float64Array
  /** Sun of all kinds that meets each side at the ends of steps: index `end * 6 + side`. */
  readonly sunWPerM2: Float64Array
  /** Wind of the record. */
  readonly windMPerS: Float64Array
  /** ½ρV²·Cp of each side at the height of the box. */
  readonly windPa: Float64Array
  /** 1: the wind meets this side or passes over it; 0: the lee. */
  readonly windward: Uint8Array
  readonly raining: Uint8Array
  readonly wetBulbC: Float64Array
  /** On the roof. */
  readonly roofSnowM: Float64Array
  /** Wind at the height of the box as a share of the record's. */
  readonly boxWindRatio: number
  /** By hour. */
  readonly month: Uint8Array
  readonly hour: Uint8Array
  /** Means outside of the last 60 days of the record: what the floor's wood begins with. */
  readonly earlierFrac: number
  readonly earlierC: number
}

export interface SurroundingsOptions {
  /** 2, 4, 12, 20 or 60 in use; any whole number that divides a day into equal parts. */
  readonly stepsPerHour: number
  /** Height of the skyline, degrees, clockwise from north in equal parts; none: flat. */
  readonly skylineDeg?: readonly number[]
  /** Where the sky's heat comes from: the record's infrared and else cloud by Clark & Allen, or the colder second opinion. */
  readonly sky?: 'record' | 'clark-allen' | 'berdahl-martin'
  /** The ground that walls see: warmed by the sun over the air (0.02 K per W/m²) unless told to stand at air temperature. */
  readonly groundAsAir?: boolean
  /** Added to the opaque cover where the sky is worked out from it: one end of what is uncertain. */
  readonly cloudAddedFrac?: number
}

export const STEPS_PER_HOUR = [2, 4, 12, 20, 60] as const
const RAIN_MM = 0.1
const SNOW_ON_GROUND_M = 0.01
/** Snow on a roof: 200 kg/m³; 4 mm of water melt a degree and day; wind that clears a smooth roof; less than this is none. @source common practice */
const MELT_M_PER_K_DAY = 0.004 * (1000 / 200)
const CLEARING_WIND_M_S = 6
const LEAST_SNOW_M = 0.005
/** Ground under a box that stands in it or is skirted: depth that its underside follows, moist loam. @source common practice */
const UNDER_DEPTH_M = 0.3
const WALL_SEES = longWaveShares(0)
const MONTH_STARTS = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334]
const EARLIER_HOURS = 60 * 24

const TERRAIN_ROWS = { open: 'open, airport', country: 'rough, wooded, suburb', town: 'town centre' } as const
const profile = (name: BoxModel['terrain']) => {
  const row = rowOf('wind-terrain', TERRAIN_ROWS[name])
  return { exponentRatio: Number(row.a), layerM: Number(row.d) }
}

/** Wind at a height over the box's ground as a share of the record's, whose mast stands in the open. */
export const windRatio = (model: Pick<BoxModel, 'terrain' | 'windHeightM'>, heightM: number): number =>
  windAtHeightRatio(profile('open'), model.windHeightM, profile(model.terrain), Math.max(heightM, 0.3))

/** @throws Fault `air/weather-column` where a needed column is not there, `air/weather-gap` with the first hour that is not known */
function column(hours: WeatherHours, name: keyof WeatherHours['columns']): Float64Array {
  const found = hours.columns[name]
  if (found === null) throw new Fault('air/weather-column', name)
  for (let h = 0; h < hours.hoursCount; h++)
    if (!Number.isFinite(found[h]!)) throw new Fault('air/weather-gap', { name, hour: h })
  return found
}

/** Readings of rows, `atH` after the beginning of their hour, at the ends of all steps: straight between, held at both ends of the record. */
function ends(rows: Float64Array, hoursCount: number, atH: number, stepsPerHour: number): Float64Array {
  const out = new Float64Array(hoursCount * stepsPerHour + 1)
  for (let k = 0; k < out.length; k++) {
    const x = Math.min(Math.max(k / stepsPerHour - atH, 0), hoursCount - 1)
    const i = Math.min(Math.floor(x), hoursCount - 2)
    out[k] = rows[i]! + (x - i) * (rows[i + 1]! - rows[i]!)
  }
  return out
}

interface Calendar {
  readonly month: Uint8Array
  readonly hour: Uint8Array
  /** Day of the year, from 1. */
  readonly day: Uint16Array
}

function calendarOf(hours: WeatherHours): Calendar {
  const month = new Uint8Array(hours.hoursCount)
  const hour = new Uint8Array(hours.hoursCount)
  const day = new Uint16Array(hours.hoursCount)
  const leap = hours.year !== null && hours.year % 4 === 0 && (hours.year % 100 !== 0 || hours.year % 400 === 0)
  const days = leap ? 366 : 365
  for (let h = 0; h < hours.hoursCount; h++) {
    const total = hours.firstHour + h
    hour[h] = total % 24
    const d = (hours.firstDay - 1 + Math.floor(total / 24)) % days
    day[h] = d + 1
    let m = 11
    while (m > 0 && d < MONTH_STARTS[m]! + (leap && m >= 2 ? 1 : 0)) m--
    month[h] = m
  }
  return { month, hour, day }
}

/** What the sky sends down in each hour, W/m². */
function skyOf(hours: WeatherHours, calendar: Calendar, options: SurroundingsOptions, standardPa: number): Float64Array {
  const { infraredWPerM2, cloudFrac, airC, vapourPa, globalWPerM2, diffuseWPerM2, pressurePa } = hours.columns
  const out = new Float64Array(hours.hoursCount)
  const choice = options.sky ?? 'record'
  const added = options.cloudAddedFrac ?? 0
  let held = 0.5
  let dark: Float64Array | null = null
  for (let h = 0; h < hours.hoursCount; h++) {
    const told = choice === 'record' && infraredWPerM2 !== null ? infraredWPerM2[h]! : Number.NaN
    if (told > 0) {
      out[h] = told
      continue
    }
    let cover = cloudFrac === null ? Number.NaN : cloudFrac[h]!
    if (!(cover >= 0)) {
      // No cover told: from how much of the light is the sky's, held through the night; in a long dark from humidity.
      if (globalWPerM2![h]! > TELLS_W_PER_M2)
        held = cloudOfClearnessFrac(0.9 - 0.7 * Math.min(1, diffuseWPerM2![h]! / globalWPerM2![h]!))
      dark ??= coverInLongDark(hours)
      cover = dark[h]! >= 0 ? dark[h]! : held
    }
    cover = Math.min(1, Math.max(0, cover + added))
    const dew = dewC(Math.max(vapourPa![h]!, 0.5))
    if (choice === 'berdahl-martin') {
      const p = pressurePa?.[h] ?? standardPa
      const clear = berdahlMartinFrac({ dewC: dew, midnightH: calendar.hour[h]! + 0.5, pressurePa: p })
      out[h] = cloudedFrac(clear, cover, 0.784) * blackWPerM2(airC![h]!)
    } else out[h] = clarkAllenWPerM2({ airC: airC![h]!, dewC: dew, cloudFrac: cover })
  }
  return out
}

/** Depth of snow on a smooth roof in each hour: what fell, less what melts by the air and what wind of 6 m/s takes. */
function roofSnow(hours: WeatherHours): Float64Array {
  const { snowM, airC, windMPerS } = hours.columns
  const out = new Float64Array(hours.hoursCount)
  if (snowM === null) return out
  let depth = 0
  let before = Number.NaN
  for (let h = 0; h < hours.hoursCount; h++) {
    const ground = Number.isFinite(snowM[h]!) ? snowM[h]! : before
    if (ground > before) depth += ground - before
    before = ground
    if (airC![h]! > 0) depth -= (MELT_M_PER_K_DAY * airC![h]!) / 24
    if (windMPerS![h]! > CLEARING_WIND_M_S) depth = 0
    depth = Math.max(0, Math.min(depth, Number.isFinite(ground) ? ground : 0))
    out[h] = depth < LEAST_SNOW_M ? 0 : depth
  }
  return out
}

/** Temperature of the ground under the box by day of the year (from 1): the year's wave at a small depth; of a short record its mean. */
function underOf(hours: WeatherHours, calendar: Calendar): (day: number) => number {
  const sums = new Float64Array(12)
  const counts = new Float64Array(12)
  const air = hours.columns.airC!
  let total = 0
  for (let h = 0; h < hours.hoursCount; h++) {
    sums[calendar.month[h]!]! += air[h]!
    counts[calendar.month[h]!]! += 1
    total += air[h]!
  }
  if (counts.some((count) => count < 24 * 20)) return () => total / hours.hoursCount
  const wave = waveOfMonths(Array.from(sums, (sum, m) => sum / counts[m]!))
  const diffusivity = diffusivityM2PerD('moist loam')
  const table = Float64Array.from({ length: 367 }, (_, dayD) =>
    groundAtC({ ...wave, depthM: UNDER_DEPTH_M, diffusivityM2PerD: diffusivity, dayD }),
  )
  return (day) => table[day]!
}

/**
 * Surroundings of a box from a record of hours. Needs air, vapour, wind, and the sun's global, beam and diffuse light; takes the standard pressure, a
 * worked-out sky, no rain and no snow where the record has none.
 * @throws Fault `air/weather-column`, `air/weather-gap`, `air/steps-range`, `air/hours-range`
 */
export function surroundingsOf(model: BoxModel, hours: WeatherHours, options: SurroundingsOptions): Surroundings {
  const n = options.stepsPerHour
  const { hoursCount, readingAtH } = hours
  if (!(Number.isInteger(n) && n >= 1 && n <= 60)) throw new Fault('air/steps-range', n)
  if (!(hoursCount >= 2)) throw new Fault('air/hours-range', hoursCount)
  const stepsCount = hoursCount * n
  const [air, vapour, wind] = [column(hours, 'airC'), column(hours, 'vapourPa'), column(hours, 'windMPerS')]
  const [global, beam, diffuse] = [column(hours, 'globalWPerM2'), column(hours, 'beamWPerM2'), column(hours, 'diffuseWPerM2')]
  const standardPa = pressureAtPa(hours.place.elevationM)
  const airC = ends(air, hoursCount, readingAtH, n)
  const vapourPa = ends(vapour, hoursCount, readingAtH, n)
  const windEnds = ends(wind, hoursCount, readingAtH, n)
  const pressurePa =
    hours.columns.pressurePa === null
      ? new Float64Array(stepsCount + 1).fill(standardPa)
      : ends(column(hours, 'pressurePa'), hoursCount, readingAtH, n)
  const calendar = calendarOf(hours)
  const snow = hours.columns.snowM
  const rain = hours.columns.rainMm
  const from = hours.columns.windFromDeg
  const white = Uint8Array.from({ length: hoursCount }, (_, h) => (snow !== null && snow[h]! > SNOW_ON_GROUND_M ? 1 : 0))
  const sunWPerM2 = sunOnFaces({
    place: hours.place,
    year: hours.year,
    firstDay: hours.firstDay,
    firstHour: hours.firstHour,
    stepsPerHour: n,
    beam,
    diffuse,
    groundReflectance: Float64Array.from(white, (yes) => (yes === 1 ? model.snowReflectanceFrac : model.groundReflectanceFrac)),
    doorFacesDeg: model.doorFacesDeg,
    modelled: hours.lightSplit,
    skylineDeg: options.skylineDeg ?? [],
    ...(model.skylinesDeg === undefined ? {} : { skylinesDeg: model.skylinesDeg }),
  })
  const infrared = (options.sky ?? 'record') === 'record' && hours.columns.infraredWPerM2 !== null
  const downWPerM2 = ends(skyOf(hours, calendar, options, standardPa), hoursCount, infrared ? 0.5 : readingAtH, n)
  const under = underOf(hours, calendar)
  const wallWPerM2 = new Float64Array(stepsCount + 1)
  // What stands on the skyline is as warm as the air: of the sky's heat there is as much less as it hides.
  const seen = model.skylinesDeg === undefined ? null : skySeenRatios(model.skylinesDeg, model.doorFacesDeg)
  const wallsSee = seen === null ? 1 : (seen[0]! + seen[1]! + seen[2]! + seen[3]!) / 4
  const roofSees = seen?.[4] ?? 1
  const groundC = new Float64Array(stepsCount + 1)
  const waterRatio = new Float64Array(stepsCount + 1)
  for (let k = 0; k <= stepsCount; k++) {
    const h = Math.min(Math.floor(k / n), hoursCount - 1)
    const face = groundFaceC(airC[k]!, options.groundAsAir === true ? 0 : global[h]!, white[h] === 1)
    wallWPerM2[k] =
      WALL_SEES.skyFrac * (wallsSee * downWPerM2[k]! + (1 - wallsSee) * blackWPerM2(airC[k]!)) +
      WALL_SEES.airFrac * blackWPerM2(airC[k]!) +
      WALL_SEES.groundFrac * blackWPerM2(face)
    if (roofSees < 1) downWPerM2[k] = roofSees * downWPerM2[k]! + (1 - roofSees) * blackWPerM2(airC[k]!)
    groundC[k] = under(calendar.day[h]!)
    waterRatio[k] = humidityRatio(vapourPa[k]!, pressurePa[k]!)
  }

  const windMPerS = new Float64Array(stepsCount)
  const windPa = new Float64Array(stepsCount * 6)
  const windward = new Uint8Array(stepsCount * 6)
  const raining = new Uint8Array(stepsCount)
  const wetBulb = new Float64Array(stepsCount)
  const roofSnowM = new Float64Array(stepsCount)
  const roofHeightM = model.insideHeightM + 0.2
  const local = windRatio(model, roofHeightM)
  const long = wallPressures(sideRatio(model))
  const short = wallPressures(1 / sideRatio(model))
  const mean = (list: Float64Array) => list.reduce((sum, one) => sum + one, 0) / list.length
  const depth = roofSnow(hours)
  const cp = new Float64Array(6)
  const meets = new Uint8Array(6)
  cp[5] = underPressureRatio()
  for (let h = 0; h < hoursCount; h++) {
    const bearing = from === null ? Number.NaN : from[h]! - model.doorFacesDeg
    meets.fill(1)
    for (let side = 0; side < 4; side++) {
      const list = side < 2 ? long : short
      // Not told from where: every wall at its mean over all winds, none in the lee.
      if (Number.isNaN(bearing)) cp[side] = mean(list)
      else {
        const off = bearing - SIDE_TURN_DEG[side]!
        cp[side] = pressureAtRatio(list, off)
        meets[side] = Math.abs(off - 360 * Math.round(off / 360)) > 90 ? 0 : 1
      }
    }
    cp[4] = roofPressureRatio(Number.isNaN(bearing) ? 0 : bearing - 90)
    const wet = rain !== null && rain[h]! > RAIN_MM && air[h]! > 0.5 ? 1 : 0
    for (let k = h * n; k < (h + 1) * n; k++) {
      const speed = Math.max(0, (windEnds[k]! + windEnds[k + 1]!) / 2)
      const middleC = (airC[k]! + airC[k + 1]!) / 2
      const density = pressurePa[k]! / (287.042 * (middleC + ZERO_C_K))
      const q = 0.5 * density * speed * speed * local * local
      windMPerS[k] = speed
      for (let s = 0; s < 6; s++) {
        windPa[k * 6 + s] = q * cp[s]!
        windward[k * 6 + s] = meets[s]!
      }
      raining[k] = wet
      wetBulb[k] = wet === 1 ? wetBulbC({ airC: middleC, ratio: waterRatio[k]!, pressurePa: pressurePa[k]! }) : middleC
      roofSnowM[k] = depth[h]!
    }
  }

  const earlier = Math.min(hoursCount, EARLIER_HOURS)
  let [sumRh, sumC] = [0, 0]
  for (let h = hoursCount - earlier; h < hoursCount; h++) {
    sumRh += Math.min(1, relativeFrac({ airC: air[h]!, vapourPa: vapour[h]!, over: 'ice' }))
    sumC += air[h]!
  }
  return {
    hoursCount,
    stepsPerHour: n,
    stepsCount,
    airC,
    waterRatio,
    vapourPa,
    pressurePa,
    downWPerM2,
    wallWPerM2,
    groundC,
    sunWPerM2,
    windMPerS,
    windPa,
    windward,
    raining,
    wetBulbC: wetBulb,
    roofSnowM,
    boxWindRatio: local,
    month: calendar.month,
    hour: calendar.hour,
    earlierFrac: sumRh / earlier,
    earlierC: sumC / earlier,
  }
}

/** Long side over short, by the areas of walls of one height. */
function sideRatio(model: BoxModel): number {
  const whole = (side: number) =>
    model.faces[side]!.areaM2 +
    (model.parts ?? []).reduce((sum, part) => (part.side === model.faces[side]!.side ? sum + part.areaM2 : sum), 0)
  return whole(0) / whole(2)
}
