import { Fault, log } from '../../kernel/index.ts'

/**
 * Ring of bare wire.
 *
 *   R = ρ/(2π²D) · (ln(8D/d) + ln(4D/s)),   s = 2 × depth,  D = perimeter/π
 *
 * @throws Fault `earthing/ring-range`
 * @source Dwight 1936, as in IEEE 142 Table 4-5. Provenance: memory
 */
export function ringOhm(ring: {
  readonly soilOhmM: number
  readonly perimeterM: number
  readonly wireM: number
  readonly depthM: number
}): number {
  const { soilOhmM, perimeterM, wireM, depthM } = ring
  const across = perimeterM / Math.PI
  if (!(soilOhmM > 0 && wireM > 0 && depthM > wireM && 4 * across > 2 * depthM)) throw new Fault('earthing/ring-range', ring)
  return (soilOhmM / (2 * Math.PI * Math.PI * across)) * (log((8 * across) / wireM) + log((4 * across) / (2 * depthM)))
}

/**
 * Straight bare wire laid in a trench.
 *
 *   R = ρ/(πL) · (ln(2L/√(2·a·h)) − 1),   a radius, h depth
 *
 * L well above h. @throws Fault `earthing/ring-range`
 * @source Sunde 1949. Provenance: memory
 */
export function buriedWireOhm(wire: {
  readonly soilOhmM: number
  readonly lengthM: number
  readonly wireM: number
  readonly depthM: number
}): number {
  const { soilOhmM, lengthM, wireM, depthM } = wire
  if (!(soilOhmM > 0 && wireM > 0 && depthM > wireM && lengthM > 2 * depthM)) throw new Fault('earthing/ring-range', wire)
  return (soilOhmM / (Math.PI * lengthM)) * (log((2 * lengthM) / Math.sqrt(wireM * depthM)) - 1)
}
