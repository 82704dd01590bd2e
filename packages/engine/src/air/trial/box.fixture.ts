import type { WeatherHours } from '../../weather/index.ts'
import { sampleHours } from '../year/sample-hours.ts'

/** For tests: invented hours of a spring, cut out of an invented year and given a year, so that a log can be of it. */
export function springHours(daysCount: number, firstDay = 100): WeatherHours {
  const all = sampleHours((firstDay - 1 + daysCount) * 24)
  const from = (firstDay - 1) * 24
  const columns = Object.fromEntries(Object.entries(all.columns).map(([name, column]) => [name, column?.slice(from) ?? null]))
  return { ...all, firstDay, year: 2027, hoursCount: daysCount * 24, columns: columns as WeatherHours['columns'] }
}
