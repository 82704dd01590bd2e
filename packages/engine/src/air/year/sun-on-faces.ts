import { acos, atan2, cos, sin } from '../../kernel/index.ts'
import {
  airMassRatio,
  type Brightness,
  beamOnPlaneWPerM2,
  fillBrightness,
  fillSunPath,
  groundOnPlaneWPerM2,
  hayDaviesWPerM2,
  newSunPath,
  PHYSICS,
  perezWPerM2,
  type WeatherPlace,
} from '../../weather/index.ts'

export interface SunOnFaces {
  readonly place: WeatherPlace
  readonly year: number | null
  readonly firstDay: number
  readonly firstHour: number
  readonly stepsPerHour: number
  /** Means of each hour, W/m²: beam facing the sun, sky light on the level. */
  readonly beam: Float64Array
  readonly diffuse: Float64Array
  /** Of each hour. */
  readonly groundReflectance: Float64Array
  readonly doorFacesDeg: number
  /** Beam or diffuse light is worked out, not measured: Hay & Davies' sky; else that of Perez. */
  readonly modelled: boolean
  /** Height of the skyline, degrees, clockwise from north in equal parts; none: flat. */
  readonly skylineDeg: readonly number[]
}

const DEGREE = Math.PI / 180
/** Bearings of the outward normals of left, right, blind end and door end, clockwise from where the doors look: left is that of who looks in. */
export const SIDE_TURN_DEG = [90, 270, 180, 0] as const

/**
 * Sun that meets each of the six sides at the ends of all steps, W/m², index `end * 6 + side`: beam, sky and what the ground throws back. Light of an
 * hour runs straight from its beginning over its middle to its end, without a step between hours and with the hour's mean; in hours of rise and set
 * over the lit part alone. A box's skin follows in minutes: steps of light that are not in nature would be its largest error. Under the box none.
 */
export function sunOnFaces(of: SunOnFaces): Float64Array {
  const n = of.stepsPerHour
  const hoursCount = of.beam.length
  const { place, year, firstDay, firstHour } = of
  const hourly = newSunPath(hoursCount)
  fillSunPath(hourly, { place, year, firstDay, firstHour, stepH: 1 })
  const count = hoursCount * n + 1
  const path = newSunPath(count)
  fillSunPath(path, { place, year, firstDay, firstHour: firstHour - 0.5 / n, stepH: 1 / n })
  const beam = lightOf(of.beam, hourly.litFrac, n)
  const diffuse = lightOf(of.diffuse, hourly.litFrac, n)
  const { eastRatio, northRatio, upRatio, litFrac, distanceRatio } = path
  const out = new Float64Array(count * 6)
  const normalEast = Float64Array.from(SIDE_TURN_DEG, (turn) => sin(((of.doorFacesDeg + turn) % 360) * DEGREE))
  const normalNorth = Float64Array.from(SIDE_TURN_DEG, (turn) => cos(((of.doorFacesDeg + turn) % 360) * DEGREE))
  const bright: Brightness = { sunRatio: 0, horizonRatio: 0 }
  for (let end = 0; end < count; end++) {
    const d = diffuse[end]!
    if (beam[end] === 0 && d === 0) continue
    const k = end * 6
    const up = upRatio[end]!
    const east = eastRatio[end]!
    const north = northRatio[end]!
    const b = up > 0 && overSkyline(of.skylineDeg, east, north, up) ? beam[end]! * litFrac[end]! : 0
    const outside = PHYSICS.solarWPerM2 * distanceRatio[end]!
    bright.sunRatio = 0
    bright.horizonRatio = 0
    if (!of.modelled && d > 0 && up > 0) {
      const zenithRad = acos(Math.min(1, up))
      fillBrightness(bright, b, d, outside, zenithRad, airMassRatio(zenithRad / DEGREE))
    }
    const level = b * up + d
    const rho = of.groundReflectance[Math.min(Math.floor(end / n), hoursCount - 1)]!
    for (let side = 0; side < 4; side++) {
      const cosI = east * normalEast[side]! + north * normalNorth[side]!
      const sky = of.modelled ? hayDaviesWPerM2(b, d, outside, cosI, up, 0) : perezWPerM2(bright, d, cosI, up, 0, 1)
      out[k + side] = beamOnPlaneWPerM2(b, cosI) + sky + groundOnPlaneWPerM2(level, rho, 0)
    }
    out[k + 4] =
      beamOnPlaneWPerM2(b, up) + (of.modelled ? hayDaviesWPerM2(b, d, outside, up, up, 1) : perezWPerM2(bright, d, up, up, 1, 0))
  }
  return out
}

/**
 * Light at the ends of steps from means of hours: straight from knot to knot, each hour's mean kept. Knots stand at the beginning, middle and end of its lit
 * part. Between two lit hours: their mean, no more than twice the lesser, so that no middle falls under nothing.
 */
function lightOf(means: Float64Array, litFrac: Float64Array, n: number): Float64Array {
  const hoursCount = means.length
  // Mean over the lit part; of an hour without sun (twilight) over all of it. No more than half as much again as the hour beside it: a clock that is
  // minutes off would else press the light of an hour into one minute of it.
  const lit = Float64Array.from(means, (one, h) => {
    const mean = Math.max(0, one)
    const beside = 1.5 * Math.max(means[h - 1] ?? 0, means[h + 1] ?? 0)
    return Math.min(mean / (litFrac[h]! > 0.02 ? litFrac[h]! : 1), Math.max(mean, beside))
  })
  const edge = new Float64Array(hoursCount + 1)
  for (let h = 1; h < hoursCount; h++) {
    const [one, two] = [lit[h - 1]!, lit[h]!]
    edge[h] = Math.min((one + two) / 2, 2 * one, 2 * two)
  }
  edge[0] = Math.min(lit[0]!, 2 * lit[0]!)
  edge[hoursCount] = lit[hoursCount - 1]!
  const out = new Float64Array(hoursCount * n + 1)
  for (let h = 0; h < hoursCount; h++) {
    if (lit[h] === 0) continue
    const share = litFrac[h]! > 0.02 ? litFrac[h]! : 1
    // Rising: the lit part is the later one.
    const rises = share < 1 && (h + 1 < hoursCount ? litFrac[h + 1]! > litFrac[h - 1]! || h === 0 : litFrac[h - 1] === 0)
    const from = rises ? 1 - share : 0
    const left = rises ? 0 : edge[h]!
    const right = share < 1 && !rises ? 0 : edge[h + 1]!
    const middle = 2 * lit[h]! - (left + right) / 2
    for (let j = h === 0 ? 0 : 1; j <= n; j++) {
      const x = (j / n - from) / share
      if (x < 0 || x > 1) continue
      out[h * n + j] = x < 0.5 ? left + 2 * x * (middle - left) : middle + (2 * x - 1) * (right - middle)
    }
  }
  return out
}

function overSkyline(skylineDeg: readonly number[], east: number, north: number, up: number): boolean {
  if (skylineDeg.length === 0) return true
  const bearing = (atan2(east, north) / DEGREE + 360) % 360
  const heightDeg = 90 - acos(Math.min(1, up)) / DEGREE
  return heightDeg > skylineDeg[Math.floor((bearing / 360) * skylineDeg.length) % skylineDeg.length]!
}
