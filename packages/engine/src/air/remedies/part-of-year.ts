import type { Surroundings } from '../year/index.ts'

/** Some hours of the surroundings of a year, read where they lie: nothing is copied. */
export function hoursOf(of: Surroundings, fromH: number, toH: number): Surroundings {
  const n = of.stepsPerHour
  const from = Math.max(0, fromH)
  const to = Math.min(of.hoursCount, toH)
  const ends = (values: Float64Array, each = 1) => values.subarray(from * n * each, (to * n + 1) * each)
  const steps = <T extends Float64Array | Uint8Array>(values: T, each = 1): T =>
    values.subarray(from * n * each, to * n * each) as T
  return {
    ...of,
    ...{ hoursCount: to - from, stepsCount: (to - from) * n },
    ...{ airC: ends(of.airC), waterRatio: ends(of.waterRatio), vapourPa: ends(of.vapourPa), pressurePa: ends(of.pressurePa) },
    ...{ downWPerM2: ends(of.downWPerM2), wallWPerM2: ends(of.wallWPerM2), groundC: ends(of.groundC) },
    ...{ sunWPerM2: ends(of.sunWPerM2, 6), windMPerS: steps(of.windMPerS), windPa: steps(of.windPa, 6) },
    ...{
      windward: steps(of.windward, 6),
      raining: steps(of.raining),
      wetBulbC: steps(of.wetBulbC),
      roofSnowM: steps(of.roofSnowM),
    },
    ...{ month: of.month.subarray(from, to), hour: of.hour.subarray(from, to) },
  }
}
