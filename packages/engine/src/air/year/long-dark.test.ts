import { describe, expect, test } from 'vitest'
import {
  clearSkyWPerM2,
  cloudOfClearnessFrac,
  coverOfHumidityFrac,
  fillSunPath,
  newSunPath,
  saturationOverLiquidPa,
  type WeatherHours,
} from '../../weather/index.ts'
import { coverInLongDark } from './long-dark.ts'
import { sampleBox } from './sample-boxes.ts'
import { sampleHours } from './sample-hours.ts'
import { surroundingsOf } from './surroundings.ts'

const HOURS = 8760
const box = sampleBox()

/** Invented hours with light by the place's own sun and neither cloud nor infrared; every third day is dull. */
function litHours(
  latitudeDeg: number,
  change: Partial<Record<'globalWPerM2' | 'diffuseWPerM2' | 'vapourPa', Float64Array>> = {},
) {
  const plain = sampleHours(HOURS, -6)
  const place = { ...plain.place, latitudeDeg }
  const path = newSunPath(HOURS)
  fillSunPath(path, { place, year: null, firstDay: 1, firstHour: 0, stepH: 1 })
  const dull = (h: number) => Math.floor(h / 24) % 3 === 0
  const globalWPerM2 = Float64Array.from(path.upRatio, (up, h) => clearSkyWPerM2(up) * (dull(h) ? 0.12 : 0.9))
  const diffuseWPerM2 = globalWPerM2.map((g, h) => g * (dull(h) ? 1 : 0.2 + (Math.floor(h / 24) % 7) / 20))
  const beamWPerM2 = globalWPerM2.map((g, h) => (path.upRatio[h]! > 0.05 ? (g - diffuseWPerM2[h]!) / path.upRatio[h]! : 0))
  const columns = { ...plain.columns, globalWPerM2, diffuseWPerM2, beamWPerM2, cloudFrac: null, infraredWPerM2: null, ...change }
  return { ...plain, place, columns }
}
/** The rule for ordinary nights written once more: the last telling light is held, however long. */
function heldCover({ columns, hoursCount }: WeatherHours): Float64Array {
  let held = 0.5
  return Float64Array.from({ length: hoursCount }, (_, h) => {
    const global = columns.globalWPerM2![h]!
    if (global > 60) held = cloudOfClearnessFrac(0.9 - 0.7 * Math.min(1, columns.diffuseWPerM2![h]! / global))
    return held
  })
}
const farthest = (a: Float64Array, b: Float64Array, from = 0): number =>
  a.reduce((most, x, i) => (i < from ? most : Math.max(most, Math.abs(x - b[i]!))), 0)
const skyAt = (hours: WeatherHours) => surroundingsOf(box, hours, { stepsPerHour: 1 }).downWPerM2
const told = (hours: WeatherHours): WeatherHours => ({ ...hours, columns: { ...hours.columns, cloudFrac: heldCover(hours) } })

describe('far north, light without cloud', () => {
  const hours = litHours(78)
  const global = hours.columns.globalWPerM2
  const last = global.findLastIndex((g) => g > 60)
  const months = last + 24 * 61
  const begins = coverInLongDark(hours).findIndex((c, h) => h > 4380 && !Number.isNaN(c))

  test('the last telling day changes nothing of a night two months later', () => {
    expect(Math.floor(last / 24)).toBeGreaterThan(270)
    const diffuseWPerM2 = hours.columns.diffuseWPerM2.map((d, h) => (h > last - 24 && h <= last ? global[h]! : d))
    const [before, after] = [skyAt(hours), skyAt(litHours(78, { diffuseWPerM2 }))]
    expect(Math.abs(after[last + 6]! - before[last + 6]!)).toBeGreaterThan(5)
    expect(begins - last).toBeLessThan(24 * 5)
    expect(farthest(after, before, begins)).toBe(0)
    // Held, the sky of that night was another one.
    expect(Math.abs(skyAt(told(litHours(78, { diffuseWPerM2 })))[months]! - before[months]!)).toBeGreaterThan(5)
  })

  test('its cover is that of the day’s mean humidity, over liquid', () => {
    const cover = coverInLongDark(hours)
    const day = 24 * Math.floor(months / 24)
    const { airC, vapourPa } = hours.columns
    let sum = 0
    for (let h = day; h < day + 24; h++) sum += Math.min(1, vapourPa![h]! / saturationOverLiquidPa(airC![h]!))
    for (let h = day; h < day + 24; h++) expect(cover[h]).toBeCloseTo(coverOfHumidityFrac(sum / 24), 12)
    expect(coverInLongDark(litHours(78, { vapourPa: new Float64Array(HOURS).fill(0.5) }))[months]).toBe(0)
  })

  test('it begins after thirty hours, and ends with the first light that tells, not with the first that is there', () => {
    const cover = coverInLongDark(hours)
    const path = newSunPath(HOURS)
    fillSunPath(path, { place: hours.place, year: null, firstDay: 1, firstHour: 0, stepH: 1 })
    const couldTell = path.upRatio.findLastIndex((up) => clearSkyWPerM2(up) > 60)
    expect(begins).toBe(Math.max(last, couldTell) + 31)
    const first = global.findIndex((g) => g > 60)
    expect(global.slice(0, first).some((g) => g > 0)).toBe(true)
    expect(cover.slice(31, first).every((c) => c >= 0)).toBe(true)
    expect(cover.slice(first, first + 24 * 90).every(Number.isNaN)).toBe(true)
  })
})

test.each([0, 45, -45, 59.5])('at %i° every night is as it was, through dull weeks too', (latitudeDeg) => {
  const plain = litHours(latitudeDeg)
  expect(farthest(skyAt(plain), skyAt(told(plain)))).toBe(0)
  const globalWPerM2 = plain.columns.globalWPerM2.map((g, h) => (h < 24 * 40 || h > 24 * 330 ? Math.min(g, 50) : g))
  const dull = litHours(latitudeDeg, { globalWPerM2, diffuseWPerM2: globalWPerM2 })
  expect(coverInLongDark(dull).every(Number.isNaN)).toBe(true)
  expect(farthest(skyAt(dull), skyAt(told(dull)))).toBe(0)
})
