import { expect, test } from 'vitest'
import { inSeason, yearSeason } from '../../job/index.ts'
import { saturationPa, type WeatherHours } from '../../weather/index.ts'
import { monthShares, seasonDays, seasonShares } from '../model/months.ts'
import { driesFrac } from '../model/use.ts'
import { gearHours, hottestLoaded } from './gear.ts'
import { clockAt, whenAt } from './hours.ts'
import { hoursAfter } from './lead-in.ts'
import { spanWords } from './setting.ts'
import { seasonHours } from './standing.ts'

const winter = yearSeason('10 October', '28 April')!
const DAYS = [31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]

test('a season over new year holds both its days, and none between its end and its next beginning', () => {
  const day = (month: number, of: number) => inSeason(winter, { month, day: of })
  expect([day(10, 10), day(1, 1), day(4, 28)]).toEqual([true, true, true])
  expect([day(10, 9), day(4, 29), day(7, 1)]).toEqual([false, false, false])
  // 22 + 30 + 31 + 31 + 28 + 31 + 28 days by the calendar.
  expect(seasonDays(winter)).toBeCloseTo(201.25, 2)
  expect(yearSeason('31 June', '1 July')).toBeUndefined()
  expect(spanWords({ season: winter })).toBe('its season, 10 October to 28 April,')
})

test('days of a machine fall into its season, and what is left over on the rest of the year', () => {
  const sum = (shares: readonly number[]) => shares.reduce((s, share, m) => s + share * DAYS[m]!, 0)
  const half = monthShares(100, false, null, winter)
  expect(sum(half)).toBeCloseTo(100, 9)
  expect([half[6], half[0]]).toEqual([0, expect.closeTo(100 / seasonDays(winter), 9)])
  const beyond = monthShares(300, false, null, winter)
  expect(sum(beyond)).toBeCloseTo(300, 9)
  expect([beyond[0], beyond[6]]).toEqual([1, expect.closeTo((300 - seasonDays(winter)) / (365.25 - seasonDays(winter)), 9)])
  const means = [-10, -12, -5, 0, 5, 10, 15, 14, 9, 3, -4, -9]
  const cold = monthShares(40, true, means, yearSeason('1 March', '30 June')!)
  expect([sum(cold), cold[2], cold[1]]).toEqual([expect.closeTo(40, 9), 1, 0])
  expect(seasonShares(null).every((s) => s === 1)).toBe(true)
})

test('heat and cold of gear are counted in its season alone', () => {
  const hours = { firstDay: 1, firstHour: 0, year: null, hoursCount: 8760 } as WeatherHours
  const within = seasonHours(hours, yearSeason('5 January', '5 April')!)!
  expect(within.reduce((s, one) => s + one, 0)).toBe(91 * 24)
  const swing = Float64Array.from({ length: 8760 }, (_, h) =>
    Math.floor(h / 24) === 180 ? 60 : h === 30 * 24 ? -30 : h === 2 ? -50 : 10,
  )
  const at = { airC: swing, hotC: swing, coldC: swing }
  const part = {
    gear: 'x',
    name: 'panel',
    what: 'panel',
    derates: false,
    limit: { leastC: -5, mostC: 40, dayMeanMostC: null },
  } as never
  expect(gearHours(part, at)).toMatchObject({ hottestC: 60, aboveH: 24, coldestC: -50, belowH: 2 })
  expect(gearHours(part, at, at, within)).toMatchObject({ hottestC: 10, aboveH: 0, coldestC: -30, belowH: 1, coldestAtH: 720 })
  const run = { hoursCount: 8760, series: { gearHeatWh: new Float64Array(8760).fill(50) } } as never
  expect(hottestLoaded(run, at)?.airC).toBe(60)
  expect(hottestLoaded(run, at, within)?.airC).toBe(10)
  expect(seasonHours({ ...hours, firstDay: 180, hoursCount: 240 }, yearSeason('5 January', '5 April')!)).toBeNull()
})

test('snow on boots gives off vapour by the pressure of ice: all of it at 0 °C and above, a sixth at −20 °C', () => {
  // Murphy & Koop and the ASHRAE table print 103.2 Pa at −20 °C and 611.2 at 0 °C.
  expect(driesFrac(-20, null)).toBeCloseTo(103.2 / 611.2, 3)
  expect([driesFrac(5, null), driesFrac(undefined, null), driesFrac(0, null)]).toEqual([1, 1, 1])
  expect(driesFrac(-20, -5)).toBeCloseTo(saturationPa(-5) / saturationPa(0), 12)
  expect(driesFrac(-20, 5)).toBe(1)
})

test('found: hours of a leap year keep its days after February, with and without its 29th', () => {
  const hours = (year: number | null, hoursCount: number) =>
    ({ firstDay: 1, firstHour: 0, year, hoursCount, columns: {} }) as unknown as WeatherHours
  const at = (of: WeatherHours, month: number, day: number) =>
    Array.from({ length: of.hoursCount }, (_, h) => h).find((h) => {
      const clock = clockAt(of, h)
      return clock.month === month - 1 && clock.day === day
    })!
  for (const [year, hoursCount] of [
    [2024, 8784],
    [2024, 8760],
    [2023, 8760],
    [null, 8760],
  ] as const) {
    const whole = hours(year, hoursCount)
    for (const [month, day] of [
      [2, 20],
      [3, 1],
      [7, 4],
      [12, 31],
    ] as const) {
      const part = hoursAfter(whole, at(whole, month, day))
      expect(whenAt(part, 0), `${year} ${hoursCount}`).toBe(whenAt(whole, at(whole, month, day)))
      // And so on to its end.
      expect(whenAt(part, part.hoursCount - 1)).toBe(whenAt(whole, hoursCount - 1))
    }
  }
})
