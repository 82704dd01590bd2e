import type { Surroundings } from './surroundings.ts'

/** The same surroundings in steps `parts` times as short: what runs straight stays straight, what is held stays held. */
export function finer(s: Surroundings, parts: number): Surroundings {
  const ends = (a: Float64Array, width = 1) => {
    const count = a.length / width
    return Float64Array.from({ length: ((count - 1) * parts + 1) * width }, (_, i) => {
      const at = Math.floor(i / width)
      const k = Math.min(Math.floor(at / parts), count - 2)
      const one = a[k * width + (i % width)]!
      return one + ((at - k * parts) / parts) * (a[(k + 1) * width + (i % width)]! - one)
    })
  }
  const held = <A extends Float64Array | Uint8Array>(a: A, width = 1): A =>
    (a.constructor as unknown as { from(of: object, f: (x: unknown, i: number) => number): A }).from(
      { length: a.length * parts },
      (_, i) => a[Math.floor(i / width / parts) * width + (i % width)]!,
    )
  return {
    ...s,
    stepsPerHour: s.stepsPerHour * parts,
    stepsCount: s.stepsCount * parts,
    airC: ends(s.airC),
    waterRatio: ends(s.waterRatio),
    vapourPa: ends(s.vapourPa),
    pressurePa: ends(s.pressurePa),
    downWPerM2: ends(s.downWPerM2),
    wallWPerM2: ends(s.wallWPerM2),
    groundC: ends(s.groundC),
    sunWPerM2: ends(s.sunWPerM2, 6),
    windMPerS: held(s.windMPerS),
    windPa: held(s.windPa, 6),
    windward: held(s.windward, 6),
    raining: held(s.raining),
    wetBulbC: held(s.wetBulbC),
    roofSnowM: held(s.roofSnowM),
  }
}
