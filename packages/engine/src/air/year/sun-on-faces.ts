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
 * Sun that meets each of the six sides, means of every step, W/m², index `step * 6 + side`: beam, sky and what the ground throws back. The sun
 * stands where it is in the middle of the lit part of the step; an hour's light is shared among its steps as they are lit. Under the box none.
 */
export function sunOnFaces(of: SunOnFaces): Float64Array {
  const n = of.stepsPerHour
  const hoursCount = of.beam.length
  const path = newSunPath(hoursCount * n)
  fillSunPath(path, { place: of.place, year: of.year, firstDay: of.firstDay, firstHour: of.firstHour, stepH: 1 / n })
  const { eastRatio, northRatio, upRatio, litFrac, distanceRatio } = path
  const out = new Float64Array(hoursCount * n * 6)
  const normalEast = Float64Array.from(SIDE_TURN_DEG, (turn) => sin(((of.doorFacesDeg + turn) % 360) * DEGREE))
  const normalNorth = Float64Array.from(SIDE_TURN_DEG, (turn) => cos(((of.doorFacesDeg + turn) % 360) * DEGREE))
  const bright: Brightness = { sunRatio: 0, horizonRatio: 0 }
  for (let h = 0; h < hoursCount; h++) {
    const dni = Math.max(0, of.beam[h]!)
    const dhi = Math.max(0, of.diffuse[h]!)
    if (dni === 0 && dhi === 0) continue
    let lit = 0
    for (let j = 0; j < n; j++) lit += litFrac[h * n + j]!
    const rho = of.groundReflectance[h]!
    for (let j = 0; j < n; j++) {
      const step = h * n + j
      const k = step * 6
      // Twilight before the sun is over the level: sky light alone, the same all the hour.
      const share = lit > 0 ? (litFrac[step]! * n) / lit : 1
      if (share === 0) continue
      const d = dhi * share
      const up = upRatio[step]!
      const east = eastRatio[step]!
      const north = northRatio[step]!
      const b = lit > 0 && overSkyline(of.skylineDeg, east, north, up) ? dni * share : 0
      const outside = PHYSICS.solarWPerM2 * distanceRatio[step]!
      bright.sunRatio = 0
      bright.horizonRatio = 0
      if (!of.modelled && d > 0 && up > 0) {
        const zenithRad = acos(Math.min(1, up))
        fillBrightness(bright, b, d, outside, zenithRad, airMassRatio(zenithRad / DEGREE))
      }
      const level = b * up + d
      for (let side = 0; side < 4; side++) {
        const cosI = east * normalEast[side]! + north * normalNorth[side]!
        const sky = of.modelled ? hayDaviesWPerM2(b, d, outside, cosI, up, 0) : perezWPerM2(bright, d, cosI, up, 0, 1)
        out[k + side] = beamOnPlaneWPerM2(b, cosI) + sky + groundOnPlaneWPerM2(level, rho, 0)
      }
      out[k + 4] =
        beamOnPlaneWPerM2(b, up) +
        (of.modelled ? hayDaviesWPerM2(b, d, outside, up, up, 1) : perezWPerM2(bright, d, up, up, 1, 0))
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
