import { Fault, log } from '../../kernel/index.ts'
import type { WeatherHours } from '../../weather/index.ts'
import { saturationPa } from '../stand-in.ts'
import { powerLaw, STEFAN_W_PER_M2K4 } from '../surface/index.ts'
import { sunOnFaces } from './sun-on-faces.ts'
import type { BoxModel } from './types.ts'
import { wallPressureRatios } from './wind-on-faces.ts'

/**
 * What stands around a box, step by step, worked out once and read by every variant of it: nothing here hangs on colours, vents or measures.
 * Arrays of `stepsCount + 1` hold readings at the ends of steps; arrays of `stepsCount` (or six times that, side by side) hold means of a step.
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
  /** Sun of all kinds that meets each side, means of the step: index `step * 6 + side`. */
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
  /** Mean relative humidity and temperature outside of the 60 days before the beginning (or the last of the record). */
  readonly earlierFrac: number
  readonly earlierC: number
}

export interface SurroundingsOptions {
  readonly stepsPerHour: number
  /** Height of the skyline in degrees, clockwise from north in equal parts; none: flat. */
  readonly skylineDeg?: readonly number[]
  /** Temperature of ground that a face of the box stands on, by step end; without it the ground face of the open. */
  readonly underC?: (dayOfYear: number) => number
}

export const STEPS_PER_HOUR = [2, 4, 12, 20, 60] as const
const KELVIN = 273.15
/** Share of wall radiation from sky, air and ground: half the dome, split by the root of a half. */
const WALL_SKY = 0.5 * Math.SQRT1_2
const WALL_AIR = 0.5 * (1 - Math.SQRT1_2)
const WALL_GROUND = 0.5
const RAIN_MM = 0.1
const SNOW_ON_GROUND_M = 0.01
/** Snow: settled density, melt by degree and day, wind that clears a smooth roof. @source common practice */
const MELT_M_PER_K_DAY = 0.004 / 0.2
const CLEARING_WIND_M_S = 6
const MONTH_STARTS = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334]

/** Depth of the wind's layer and exponent: mast in the open, box where it stands. @source table `wind-terrain` */
const TERRAIN = { open: [0.14, 270], country: [0.22, 370], town: [0.33, 460] } as const

/** Wind at a height over the box's ground as a share of the record's. */
export function windRatio(model: BoxModel, heightM: number): number {
  const [a, d] = TERRAIN[model.terrain]
  const pow = (x: number, n: number) => (x <= 0 ? 0 : powerLaw(n)(x))
  return pow(TERRAIN.open[1] / model.windHeightM, TERRAIN.open[0]) * pow(Math.max(heightM, 0.3) / d, a)
}

const filled = (hours: WeatherHours, name: keyof WeatherHours['columns'], must: boolean): Float64Array | null => {
  const column = hours.columns[name]
  if (column === null) {
    if (must) throw new Fault('air/weather-column', name)
    return null
  }
  if (name !== 'windFromDeg' && name !== 'snowM' && name !== 'rainMm' && name !== 'infraredWPerM2' && name !== 'cloudFrac')
    for (let h = 0; h < hours.hoursCount; h++)
      if (!Number.isFinite(column[h]!)) throw new Fault('air/weather-gap', { name, hour: h })
  return column
}

/** Readings of rows at `at` after the beginning of their hour, at the ends of all steps, straight between. */
function ends(column: Float64Array, hoursCount: number, at: number, n: number): Float64Array {
  const out = new Float64Array(hoursCount * n + 1)
  for (let k = 0; k < out.length; k++) {
    const x = Math.min(Math.max(k / n - at, 0), hoursCount - 1)
    const i = Math.min(Math.floor(x), hoursCount - 2 < 0 ? 0 : hoursCount - 2)
    const u = x - i
    out[k] = column[i]! + u * ((column[i + 1] ?? column[i]!) - column[i]!)
  }
  return out
}

/**
 * Surroundings of a box from a record of hours. Needs air, vapour, wind, and sun (global, beam, diffuse); takes standard pressure, Clark & Allen's sky
 * and no snow where those columns are not there.
 * @throws Fault `air/weather-column`, `air/weather-gap`, `air/steps-range`
 */
export function surroundingsOf(model: BoxModel, hours: WeatherHours, options: SurroundingsOptions): Surroundings {
  const n = options.stepsPerHour
  const hoursCount = hours.hoursCount
  if (!(Number.isInteger(n) && n >= 1 && n <= 120)) throw new Fault('air/steps-range', n)
  if (!(hoursCount >= 2)) throw new Fault('air/hours-range', hoursCount)
  const stepsCount = hoursCount * n
  const at = hours.readingAtH
  const air = filled(hours, 'airC', true)!
  const airC = ends(air, hoursCount, at, n)
  const vapourPa = ends(filled(hours, 'vapourPa', true)!, hoursCount, at, n)
  const pressure = filled(hours, 'pressurePa', false)
  const standardPa = 101325 * heightFactor(hours.place.elevationM)
  const pressurePa = pressure === null ? new Float64Array(stepsCount + 1).fill(standardPa) : ends(pressure, hoursCount, at, n)
  const wind = filled(hours, 'windMPerS', true)!
  const windEnds = ends(wind, hoursCount, at, n)
  const from = hours.columns.windFromDeg
  const global = filled(hours, 'globalWPerM2', true)!
  const beam = filled(hours, 'beamWPerM2', true)!
  const diffuse = filled(hours, 'diffuseWPerM2', true)!
  const infrared = hours.columns.infraredWPerM2
  const cloud = hours.columns.cloudFrac
  const rain = hours.columns.rainMm
  const snow = hours.columns.snowM

  const month = new Uint8Array(hoursCount)
  const hour = new Uint8Array(hoursCount)
  const leap = hours.year !== null && hours.year % 4 === 0 && hoursCount > 8760
  const day = new Uint16Array(hoursCount)
  for (let h = 0; h < hoursCount; h++) {
    const total = hours.firstHour + h
    hour[h] = total % 24
    let d = hours.firstDay - 1 + Math.floor(total / 24)
    d %= leap ? 366 : 365
    day[h] = d
    let m = 11
    while (m > 0 && d < MONTH_STARTS[m]! + (leap && m >= 2 ? 1 : 0)) m--
    month[h] = m
  }

  const snowy = (h: number) => snow !== null && snow[h]! > SNOW_ON_GROUND_M
  const reflectance = Float64Array.from({ length: hoursCount }, (_, h) =>
    snowy(h) ? model.snowReflectanceFrac : model.groundReflectanceFrac,
  )
  const sunWPerM2 = sunOnFaces({
    place: hours.place,
    day,
    hour,
    stepsPerHour: n,
    beam,
    diffuse,
    global,
    reflectance,
    doorFacesDeg: model.doorFacesDeg,
    modelled: hours.lightSplit,
    skylineDeg: options.skylineDeg ?? null,
  })

  // Sky: the record's infrared, else Clark & Allen with opaque cover; no cover either: from the light of the day, held through the night.
  const skyHour = new Float64Array(hoursCount)
  let held = 0.5
  for (let h = 0; h < hoursCount; h++) {
    const told = infrared === null ? Number.NaN : infrared[h]!
    if (told > 0) {
      skyHour[h] = told
      continue
    }
    let cover = cloud === null ? Number.NaN : cloud[h]!
    if (!(cover >= 0)) {
      if (global[h]! > 60) {
        const share = diffuse[h]! / Math.max(global[h]!, 1)
        held = Math.min(Math.max((share - 0.2) / 0.75, 0), 1)
      }
      cover = held
    }
    skyHour[h] = clarkAllenWPerM2(air[h]!, hours.columns.vapourPa![h]!, cover)
  }
  const downWPerM2 = ends(skyHour, hoursCount, infrared === null ? at : 0.5, n)
  const wallWPerM2 = new Float64Array(stepsCount + 1)
  const groundC = new Float64Array(stepsCount + 1)
  const waterRatio = new Float64Array(stepsCount + 1)
  for (let k = 0; k <= stepsCount; k++) {
    const h = Math.min(Math.floor(k / n), hoursCount - 1)
    const a = airC[k]! + KELVIN
    const ground = snowy(h) ? Math.min(0, airC[k]!) : airC[k]! + 0.02 * global[h]!
    const g = ground + KELVIN
    wallWPerM2[k] = WALL_SKY * downWPerM2[k]! + STEFAN_W_PER_M2K4 * (WALL_AIR * a * a * a * a + WALL_GROUND * g * g * g * g)
    groundC[k] = options.underC === undefined ? ground : options.underC(day[h]! + 1)
    const pv = vapourPa[k]!
    waterRatio[k] = (0.621945 * pv) / (pressurePa[k]! - pv)
  }

  const windMPerS = new Float64Array(stepsCount)
  const windPa = new Float64Array(stepsCount * 6)
  const windward = new Uint8Array(stepsCount * 6)
  const raining = new Uint8Array(stepsCount)
  const wetBulb = new Float64Array(stepsCount)
  const roofSnowM = new Float64Array(stepsCount)
  const local = windRatio(model, model.insideHeightM + 0.15)
  const long = Math.max(model.faces[0]!.areaM2, model.faces[1]!.areaM2)
  const short = Math.max(model.faces[2]!.areaM2, model.faces[3]!.areaM2)
  const table = wallPressureRatios(long / short)
  const cp = new Float64Array(6)
  let depth = 0
  let snowBefore = 0
  for (let h = 0; h < hoursCount; h++) {
    const bearing = from === null ? Number.NaN : from[h]!
    table.fill(cp, Number.isNaN(bearing) ? Number.NaN : bearing - model.doorFacesDeg)
    const wet = rain !== null && rain[h]! > RAIN_MM && air[h]! > 0.5 ? 1 : 0
    const onGround = snow === null || Number.isNaN(snow[h]!) ? snowBefore : snow[h]!
    depth += Math.max(0, onGround - snowBefore)
    snowBefore = onGround
    depth = Math.min(depth, onGround)
    if (air[h]! > 0) depth = Math.max(0, depth - (MELT_M_PER_K_DAY * air[h]!) / 24)
    if (wind[h]! > CLEARING_WIND_M_S) depth = 0
    for (let j = 0; j < n; j++) {
      const k = h * n + j
      const speed = Math.max(0, (windEnds[k]! + windEnds[k + 1]!) / 2)
      windMPerS[k] = speed
      const t = (airC[k]! + airC[k + 1]!) / 2
      const rho = (pressurePa[k]! + pressurePa[k + 1]!) / 2 / (287.042 * (t + KELVIN))
      const q = 0.5 * rho * speed * speed * local * local
      for (let s = 0; s < 6; s++) {
        windPa[k * 6 + s] = q * cp[s]!
        windward[k * 6 + s] = table.windward[s]!
      }
      raining[k] = wet
      wetBulb[k] = wet === 1 ? wetBulbOf(t, (waterRatio[k]! + waterRatio[k + 1]!) / 2, pressurePa[k]!) : t
      roofSnowM[k] = depth < 0.005 ? 0 : depth
    }
  }

  const tail = Math.min(hoursCount, 60 * 24)
  let sumRh = 0
  let sumT = 0
  for (let h = hoursCount - tail; h < hoursCount; h++) {
    sumRh += Math.min(1, hours.columns.vapourPa![h]! / saturationPa(air[h]!))
    sumT += air[h]!
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
    month,
    hour,
    earlierFrac: sumRh / tail,
    earlierC: sumT / tail,
  }
}

const heightFactor = (elevationM: number): number => {
  const x = 1 - 2.25577e-5 * elevationM
  // x^5.2559 = x⁵·x^0.2559
  return x * x * x * x * x * powerLaw(0.2559)(x)
}

/** σT⁴ of the sky by Clark & Allen with opaque cover of 0 to 1. @source table `sky-models` */
function clarkAllenWPerM2(airC: number, vapourPa: number, cover: number): number {
  const t = airC + KELVIN
  // Dew point by Magnus' form is within 0.1 K, 0.03 % of the radiation.
  const y = log(Math.max(vapourPa, 0.1) / 611.2)
  const dewK = (243.12 * y) / (17.62 - y) + KELVIN
  const tenths = 10 * cover
  const clear = 0.787 + 0.764 * log(dewK / 273)
  const e = clear * (1 + tenths * (0.0224 + tenths * (-0.0035 + tenths * 0.00028)))
  return e * STEFAN_W_PER_M2K4 * t * t * t * t
}

/** Wet bulb above freezing, by halving. */
function wetBulbOf(airC: number, ratio: number, pressurePa: number): number {
  let low = airC - 30
  let high = airC
  for (let i = 0; i < 30; i++) {
    const t = (low + high) / 2
    const ps = saturationPa(t)
    const ws = (0.621945 * ps) / (pressurePa - ps)
    const w = ((2501 - 2.326 * t) * ws - 1.006 * (airC - t)) / (2501 + 1.86 * airC - 4.186 * t)
    if (w > ratio) high = t
    else low = t
  }
  return (low + high) / 2
}
