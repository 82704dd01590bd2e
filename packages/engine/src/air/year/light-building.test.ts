import { existsSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { gunzipSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { readWeather } from '../../weather/files/index.ts'
import { LIGHT_CASES, lightBuilding } from './light-building.ts'
import { surroundingsOf } from './surroundings.ts'
import { yearOf } from './year-of.ts'

const shared = (path: string) => fileURLToPath(new URL(`../../../../../../shared/${path}`, import.meta.url))
const weatherPath = shared('data/weather/denver-co_725650TYCST.epw.gz')
const referencePath = shared('reference/air.yaml')

/** Year results of six programs, MWh and kW: heating, cooling, peak heating, peak cooling. @source ANSI/ASHRAE 140-2020 example results. Provenance: read, github.com/JasonGlazer/ashrae-140-automation */
const RANGES = {
  '195': [3.951, 4.217, 0.592, 0.712, 1.791, 1.802, 0.944, 1.118],
  '200': [4.813, 5.226, 0.788, 0.839, 2.226, 2.353, 1.198, 1.307],
  '210': [5.627, 6.531, 0.459, 0.688, 2.374, 2.75, 0.877, 1.193],
  '220': [6.377, 7.178, 0.498, 0.803, 2.631, 2.879, 0.968, 1.336],
  '230': [9.812, 10.417, 0.897, 1.184, 4.133, 4.316, 1.694, 1.994],
  '240': [5.116, 5.944, 0.834, 1.287, 2.431, 2.693, 1.15, 1.534],
  '395': [4.565, 5.145, 0.004, 0.021, 1.948, 2.161, 0.265, 0.547],
  '400': [5.906, 7.047, 0.013, 0.063, 2.559, 2.879, 0.372, 0.798],
  '420': [6.399, 7.433, 0.109, 0.228, 3.138, 3.411, 0.814, 1.208],
} as const
/** Inside the range, or up to 8 % of its middle outside it: the reference's own grace. */
const GRACE = 0.08

describe.skipIf(!existsSync(weatherPath))('years of the published light building, needs ../shared/data/weather', () => {
  test.each(Object.keys(RANGES) as (keyof typeof RANGES)[])('box-year-%s', (name) => {
    const read = readWeather(gunzipSync(readFileSync(weatherPath)).toString('latin1'))
    if (!read.ok) throw new Error(read.problems.map((one) => one.code).join('; '))
    const box = lightBuilding(LIGHT_CASES[name]!)
    // The published programs let walls see ground at the temperature of the air.
    const run = yearOf(box, surroundingsOf(box, read.value.runs[0]!, { stepsPerHour: 4, groundAsAir: true }))
    const got = [
      run.heaterKWh / 1000,
      run.coolerKWh / 1000,
      Math.max(...run.series.heaterWh) / 1000,
      Math.max(...run.series.coolerWh) / 1000,
    ]
    const range = RANGES[name]
    got.forEach((value, i) => {
      const [low, high] = [range[2 * i]!, range[2 * i + 1]!]
      const grace = (GRACE * (low + high)) / 2
      expect(value, `${name} ${i}`).toBeGreaterThanOrEqual(low - grace)
      expect(value, `${name} ${i}`).toBeLessThanOrEqual(high + grace)
    })
    expect(run.energyResidualFrac).toBeLessThan(1e-9)
  })
})

describe.skipIf(!existsSync(referencePath))('the ranges above, needs ../shared/reference', () => {
  test('are those of the reference', () => {
    const { cases } = parse(readFileSync(referencePath, 'utf8')) as { cases: { id: string; expect: Record<string, number[]> }[] }
    for (const [name, range] of Object.entries(RANGES)) {
      const one = cases.find((c) => c.id === `box-year-${name}`)!
      expect(Object.values(one.expect).flat()).toEqual([...range])
    }
  })
})
