import { Fault } from '../../kernel/index.ts'
import type { WeatherHours } from '../../weather/index.ts'

/** Hours `fromHour` up to `toHour` of a record, the first of them at its own day and hour. @throws Fault `air/hours-range` */
export function partOfHours(hours: WeatherHours, fromHour: number, toHour: number): WeatherHours {
  if (!(Number.isInteger(fromHour) && fromHour >= 0 && toHour > fromHour && toHour <= hours.hoursCount))
    throw new Fault('air/hours-range', { fromHour, toHour })
  const first = (hours.firstDay - 1) * 24 + hours.firstHour + fromHour
  const columns = Object.fromEntries(
    Object.entries(hours.columns).map(([name, column]) => [name, column?.subarray(fromHour, toHour) ?? null]),
  )
  return {
    ...hours,
    ...{ firstDay: Math.floor(first / 24) + 1, firstHour: first % 24, hoursCount: toHour - fromHour },
    columns: columns as WeatherHours['columns'],
  }
}
