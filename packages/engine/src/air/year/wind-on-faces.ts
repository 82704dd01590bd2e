import { cos, log, sin } from '../../kernel/index.ts'

const ROOF = -0.7
const UNDER = -0.3
/** Bearings of the outward normals of left, right, blind end and door end, clockwise from where the doors look. */
export const SIDE_TURN_DEG = [90, 270, 180, 0] as const

/**
 * Mean wind pressure of a wall: 0.6·ln[1.248 − 0.703 sin(a/2) − 1.175 sin²a + 0.131 sin³(2aG) + 0.769 cos(a/2) + 0.07 G² sin²(a/2) + 0.717 cos²(a/2)],
 * a from its normal, G = ln(this wall/next wall).
 * @source Swami & Chandra 1987. Provenance: memory; square case read in a public library
 */
export function wallPressureRatio(offDeg: number, lengthRatio: number): number {
  let off = Math.abs(offDeg) % 360
  if (off > 180) off = 360 - off
  const a = (off * Math.PI) / 180
  const G = log(lengthRatio)
  const s2 = sin(a / 2)
  const c2 = cos(a / 2)
  const s = sin(a)
  const t = sin(2 * a * G)
  return 0.6 * log(1.248 - 0.703 * s2 - 1.175 * s * s + 0.131 * t * t * t + 0.769 * c2 + 0.07 * G * G * s2 * s2 + 0.717 * c2 * c2)
}

/** Pressure ratios of the six sides by bearing of the wind from the door's bearing, from a table of whole degrees. */
export function wallPressureRatios(longOverShort: number): {
  readonly windward: Uint8Array
  fill(out: Float64Array, fromDoorDeg: number): void
} {
  const long = Float64Array.from({ length: 181 }, (_, d) => wallPressureRatio(d, longOverShort))
  const short = Float64Array.from({ length: 181 }, (_, d) => wallPressureRatio(d, 1 / longOverShort))
  const mean = (one: Float64Array) => one.reduce((sum, x) => sum + x, 0) / 181
  const means = [mean(long), mean(short)]
  const windward = new Uint8Array(6)
  return {
    windward,
    fill(out, fromDoorDeg) {
      out[4] = ROOF
      out[5] = UNDER
      windward.fill(1)
      for (let side = 0; side < 4; side++) {
        const table = side < 2 ? long : short
        if (Number.isNaN(fromDoorDeg)) {
          // Not told from where: every wall at its mean over all winds.
          out[side] = means[side < 2 ? 0 : 1]!
          continue
        }
        let off = Math.abs((((fromDoorDeg - SIDE_TURN_DEG[side]!) % 360) + 360) % 360)
        if (off > 180) off = 360 - off
        windward[side] = off > 90 ? 0 : 1
        const i = Math.min(Math.floor(off), 179)
        out[side] = table[i]! + (off - i) * (table[i + 1]! - table[i]!)
      }
    },
  }
}
