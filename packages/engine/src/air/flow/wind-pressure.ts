import { cos, Fault, log, sin } from '../../kernel/index.ts'
import { numberIn, rowOf } from '../shelf.ts'

const DEGREE = Math.PI / 180

/**
 * Mean wind pressure on a wall, as a share of ½ρV²:
 *
 *   Cp = 0.6·ln[1.248 − 0.703 sin(a/2) − 1.175 sin²a + 0.131 sin³(2aG) + 0.769 cos(a/2) + 0.07 G² sin²(a/2) + 0.717 cos²(a/2)]
 *
 * a: angle of the wind from the wall's normal, either way, 0 to 180°; G = ln(length of this wall/length of the next). The sign of the 0.131 term is
 * printed both ways; off a square plan it matters at 60° only (0.18 or 0.07). Single points differ from the mean by up to 0.4.
 * @throws Fault `air/wind-pressure-range`
 * @source Swami & Chandra 1987, FSEC-CR-163-86. Provenance: memory; square plan read
 */
export function wallPressureRatio(offWindDeg: number, lengthRatio: number): number {
  const off = Math.abs(offWindDeg)
  if (!(off <= 180 && lengthRatio > 0)) throw new Fault('air/wind-pressure-range', { offWindDeg, lengthRatio })
  const a = off * DEGREE
  const g = log(lengthRatio)
  const [half, halfCos, full, slew] = [sin(a / 2), cos(a / 2), sin(a), sin(2 * a * g)]
  return (
    0.6 *
    log(
      1.248 -
        0.703 * half -
        1.175 * full * full +
        0.131 * slew * slew * slew +
        0.769 * halfCos +
        0.07 * g * g * half * half +
        0.717 * halfCos * halfCos,
    )
  )
}

/** `wallPressureRatio` at 0, 1, … 180°, for loops: read with `pressureAtRatio`. */
export const wallPressures = (lengthRatio: number): Float64Array =>
  Float64Array.from({ length: 181 }, (_, deg) => wallPressureRatio(deg, lengthRatio))

/** From such a list, straight between whole degrees; any difference of two bearings. @throws Fault `air/wind-pressure-range` */
export function pressureAtRatio(pressures: Float64Array, bearingDifferenceDeg: number): number {
  if (Number.isNaN(bearingDifferenceDeg)) throw new Fault('air/wind-pressure-range', bearingDifferenceDeg)
  const off = offNormalDeg(bearingDifferenceDeg)
  const low = Math.min(Math.floor(off), 179)
  return pressures[low]! + (off - low) * (pressures[low + 1]! - pressures[low]!)
}

/** Angle between two bearings, 0 to 180°. */
export function offNormalDeg(bearingDifferenceDeg: number): number {
  const turned = Math.abs(bearingDifferenceDeg) % 360
  return turned > 180 ? 360 - turned : turned
}

/**
 * Flat roof of a box twice as long as wide, in the open: −0.7 with the wind along either way, −0.8 across its length.
 * @source table `cp-low-rise`
 */
export function roofPressureRatio(offLongWallDeg: number): number {
  const off = offNormalDeg(offLongWallDeg)
  const row = rowOf('cp-low-rise', 'flat roof, L/W 2, exposed (0, 45, 90)')
  const [along, across] = [numberIn(row, '0'), numberIn(row, '90')]
  // 0 and 45° are alike; from there straight to 90° and back.
  const share = Math.max(0, 1 - Math.abs(off - 90) / 45)
  return along + share * (across - along)
}

/** Under a box on blocks. @source table `cp-low-rise` */
export const underPressureRatio = (): number => numberIn(rowOf('cp-low-rise', 'underside of a box on blocks'), '0')

/** Pressure of wind, Pa: ½ρV²·Cp. */
export const windPa = (pressureRatio: number, densityKgPerM3: number, windMPerS: number): number =>
  0.5 * densityKgPerM3 * windMPerS * windMPerS * pressureRatio
