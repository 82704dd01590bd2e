import type { WeatherHours } from '../../weather/index.ts'
import type { LoggerLog } from './log.ts'

/** Columns without which no box can be run, in words. */
const NEEDED = [
  ['airC', 'the temperature of the air'],
  ['vapourPa', 'its humidity'],
  ['windMPerS', 'the wind'],
  ['globalWPerM2', 'the sun on the level'],
  ['beamWPerM2', 'the direct sun'],
  ['diffuseWPerM2', 'the light of the sky'],
] as const

/** What these hours lack for the run of a box, in words; empty: nothing. */
export const lackingForRun = (all: readonly WeatherHours[]): readonly string[] =>
  NEEDED.flatMap(([name, what]) => {
    if (all.some((one) => one.columns[name] === null)) return [`${what} is not there`]
    const gap = all.some((one) => one.columns[name]?.some((v) => !Number.isFinite(v)) === true)
    return gap ? [`hours without ${what}`] : []
  })

/** Of several years, the one in which most of the log lies; at least one is given. */
export function hoursOfLog(log: LoggerLog, all: readonly WeatherHours[]): WeatherHours {
  const readingsIn = (one: WeatherHours): number => {
    if (one.year === null) return 0
    const from = Date.UTC(one.year, 0, one.firstDay) / 60_000 + one.firstHour * 60
    return log.atMin.reduce((count, t) => count + (t >= from && t < from + one.hoursCount * 60 ? 1 : 0), 0)
  }
  return all.reduce((best, one) => (readingsIn(one) > readingsIn(best) ? one : best))
}
