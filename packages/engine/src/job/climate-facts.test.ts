import { describe, expect, test } from 'vitest'
import { UNTOLD_CLIMATE, writtenOffsetH } from './climate-facts.ts'
import { readJob } from './read.ts'

describe('place and climate', () => {
  test('every value of the document is carried, in the engine’s units', () => {
    const months = (n: number) => Array.from({ length: 12 }, (_, i) => n + i).join(' ')
    const read = readJob(`plugstead: 1
rules: { set: us }
facts:
  site: { latitude: 47.5 deg, longitude: -114.6 deg, elevation: 2450 m, time-zone: UTC-7, kind: open hill }
  climate:
    design-min: -30 C
    extreme-min: -41 C
    design-max: 27 C
    extreme-max: 33 C
    mean-by-month: ${months(-9)} C
    range-by-month: ${months(5)} K
    humidity-by-month: ${months(60)} %
    humidity-over: ice
    wind-by-month: ${months(3)} m/s
    sun-by-month: ${months(0)} kWh/m2
`)
    if (!read.ok) throw new Error(JSON.stringify(read.problems))
    const { climate } = read.value
    expect(climate).toEqual({
      ...{ latitudeDeg: 47.5, longitudeDeg: -114.6, elevationM: 2450, timeZone: 'UTC-7', kind: 'open hill' },
      ...{ designMinC: -30, extremeMinC: -41, designMaxC: 27, extremeMaxC: 33, humidityOver: 'ice' },
      meanCByMonth: Array.from({ length: 12 }, (_, i) => -9 + i),
      rangeKByMonth: Array.from({ length: 12 }, (_, i) => 5 + i),
      humidityFracByMonth: Array.from({ length: 12 }, (_, i) => expect.closeTo((60 + i) / 100, 12)),
      windMPerSByMonth: Array.from({ length: 12 }, (_, i) => 3 + i),
      sunKWhPerM2ByMonth: Array.from({ length: 12 }, (_, i) => i),
    })
  })

  test('nobody said: nothing is made up', () => {
    const read = readJob('plugstead: 1\nrules: { set: us }\n')
    expect(read.ok && read.value.climate).toEqual(UNTOLD_CLIMATE)
    expect(Object.values(UNTOLD_CLIMATE).every((v) => v === null)).toBe(true)
  })

  test.each([
    ['UTC-7', -7],
    ['utc+05:30', 5.5],
    ['-03:30', -3.5],
    ['\u22124', -4],
    ['UTC', 0],
    ['GMT+14', 14],
    ['UTC+15', null],
    ['UTC+5:75', null],
    ['Europe/Oslo', null],
    [null, null],
  ])('zone “%s” is %s h from UTC', (zone, hours) => expect(writtenOffsetH(zone)).toBe(hours))
})
