import { acos, atan2, cos, sin } from '../../kernel/index.ts'
import type { WeatherPlace } from '../../weather/index.ts'
import { powerOf } from '../surface/index.ts'
import { SIDE_TURN_DEG } from './wind-on-faces.ts'

export interface SunOnFaces {
  readonly place: WeatherPlace
  /** By hour: day of the year from 0, hour of the day at its beginning; means of the hour, W/m². */
  readonly day: Uint16Array
  readonly hour: Uint8Array
  readonly stepsPerHour: number
  readonly beam: Float64Array
  readonly diffuse: Float64Array
  readonly global: Float64Array
  readonly reflectance: Float64Array
  readonly doorFacesDeg: number
  /** Beam or diffuse light is worked out, not measured: Hay & Davies' sky; else that of Perez. */
  readonly modelled: boolean
  readonly skylineDeg: readonly number[] | null
}

const SOLAR_W_PER_M2 = 1361
const RAD = Math.PI / 180
const COS_85 = 0.08715574274765817
/** @source Perez and others 1990, table `perez-1990` */
const PEREZ_EDGES = [1.065, 1.23, 1.5, 1.95, 2.8, 4.5, 6.2]
const PEREZ = [
  [-0.008, 0.588, -0.062, -0.06, 0.072, -0.022],
  [0.13, 0.683, -0.151, -0.019, 0.066, -0.029],
  [0.33, 0.487, -0.221, 0.055, -0.064, -0.026],
  [0.568, 0.187, -0.295, 0.109, -0.152, -0.014],
  [0.873, -0.392, -0.362, 0.226, -0.462, 0.001],
  [1.132, -1.237, -0.412, 0.288, -0.823, 0.056],
  [1.06, -1.6, -0.359, 0.264, -1.127, 0.131],
  [0.678, -0.327, -0.25, 0.156, -1.377, 0.251],
] as const

/** Declination, equation of time and distance factor of a day by Spencer's series. */
function dayOfSun(day: number): readonly [decRad: number, eotMin: number, distance: number] {
  const b = (2 * Math.PI * day) / 365
  const [c1, s1, c2, s2, c3, s3] = [cos(b), sin(b), cos(2 * b), sin(2 * b), cos(3 * b), sin(3 * b)]
  return [
    0.006918 - 0.399912 * c1 + 0.070257 * s1 - 0.006758 * c2 + 0.000907 * s2 - 0.002697 * c3 + 0.00148 * s3,
    229.2 * (0.000075 + 0.001868 * c1 - 0.032077 * s1 - 0.014615 * c2 - 0.04089 * s2),
    1.00011 + 0.034221 * c1 + 0.00128 * s1 + 0.000719 * c2 + 0.000077 * s2,
  ]
}

/**
 * Sun that meets each of the six sides, means of every step, W/m²: beam, sky and what the ground throws back. The sun stands where it is in the
 * middle of the step; light of an hour in which it rises or sets belongs to the steps in which it is up. Under the box there is none.
 */
export function sunOnFaces(of: SunOnFaces): Float64Array {
  const { place, stepsPerHour: n } = of
  const hoursCount = of.beam.length
  const out = new Float64Array(hoursCount * n * 6)
  const sinLat = sin(place.latitudeDeg * RAD)
  const cosLat = cos(place.latitudeDeg * RAD)
  const normals = SIDE_TURN_DEG.map((turn) => {
    const bearing = (((of.doorFacesDeg + turn) % 360) + 360) % 360
    return [sin(bearing * RAD), cos(bearing * RAD)] as const
  })
  const upOf = new Float64Array(n)
  const eastOf = new Float64Array(n)
  const northOf = new Float64Array(n)
  let known = -1
  let dec: readonly [number, number, number] = [0, 0, 1]
  let sinDec = 0
  let cosDec = 1
  for (let h = 0; h < hoursCount; h++) {
    const dni = of.beam[h]! > 0 ? of.beam[h]! : 0
    const dhi = of.diffuse[h]! > 0 ? of.diffuse[h]! : 0
    if (dni === 0 && dhi === 0) continue
    if (of.day[h] !== known) {
      known = of.day[h]!
      dec = dayOfSun(known)
      sinDec = sin(dec[0])
      cosDec = cos(dec[0])
    }
    const shift = (4 * (place.longitudeDeg - 15 * place.utcOffsetH) + dec[1]) / 60
    let ups = 0
    for (let j = 0; j < n; j++) {
      const w = 15 * (of.hour[h]! + (j + 0.5) / n + shift - 12) * RAD
      const cosW = cos(w)
      upOf[j] = sinLat * sinDec + cosLat * cosDec * cosW
      eastOf[j] = -cosDec * sin(w)
      northOf[j] = cosLat * sinDec - sinLat * cosDec * cosW
      if (upOf[j]! > 0) ups++
    }
    // Light with the sun under the skyline of the record all the hour: from the sky alone.
    const share = ups === 0 ? 1 : n / ups
    const rho = of.reflectance[h]!
    for (let j = 0; j < n; j++) {
      const up = upOf[j]!
      if (up <= 0 && ups > 0) continue
      const k = (h * n + j) * 6
      const cosZ = up > 0 ? up : 0
      const d = dhi * share
      let b = up > 0 ? dni * share : 0
      const open = b === 0 ? 1 : skyOpen(of.skylineDeg, eastOf[j]!, northOf[j]!, up)
      b *= open
      const extra = SOLAR_W_PER_M2 * dec[2]
      let around = 0
      let rim = 0
      if (d > 0 && up > 0) {
        if (of.modelled) {
          around = Math.min(Math.max(b / extra, 0), 1)
        } else {
          const z = acos(Math.min(1, cosZ))
          const kappa = 1.041 * z * z * z
          const clear = ((d + b) / d + kappa) / (1 + kappa)
          let bin = 0
          while (bin < 7 && clear >= PEREZ_EDGES[bin]!) bin++
          const f = PEREZ[bin]!
          const mass = 1 / (cosZ + 0.50572 / powerOf(96.07995 - z / RAD, 1.6364))
          const bright = (d * mass) / extra
          around = Math.min(Math.max(f[0] + f[1] * bright + f[2] * z, 0), 1)
          rim = f[3] + f[4] * bright + f[5] * z
        }
      }
      const base = of.modelled ? Math.max(cosZ, 0.0175) : Math.max(cosZ, COS_85)
      const thrown = rho * (b * cosZ + d)
      for (let side = 0; side < 4; side++) {
        const [e, nn] = normals[side]!
        const cosI = up > 0 ? Math.max(0, eastOf[j]! * e + northOf[j]! * nn) : 0
        const sky = d * ((1 - around) * 0.5 + (around * cosI) / base + rim)
        out[k + side] = b * cosI + Math.max(0, sky) + 0.5 * thrown
      }
      out[k + 4] = b * cosZ + d * (1 - around + (around * cosZ) / base)
    }
  }
  return out
}

function skyOpen(skyline: readonly number[] | null, east: number, north: number, up: number): number {
  if (skyline === null || skyline.length === 0) return 1
  const bearing = (atan2(east, north) / RAD + 360) % 360
  const height = 90 - acos(Math.min(1, up)) / RAD
  const i = Math.floor((bearing / 360) * skyline.length) % skyline.length
  return height > skyline[i]! ? 1 : 0
}
