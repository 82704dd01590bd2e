import { describe, expect, test } from 'vitest'
import { readJob } from '../../job/index.ts'
import type { SensorError } from './errors.ts'
import { surveyLines } from './facts.ts'
import type { Told } from './told.ts'
import { errorSaid, toldSaid } from './words.ts'

const RUN = { firstDay: 1, firstHour: 0, year: 2027, hoursCount: 8760 }
const error: SensorError = {
  sensor: { name: 'roof', place: 'roof', unit: 'C', accuracy: { value: 0.5, told: true } },
  ...{ unit: 'K', hoursCount: 504, bias: 1.24, rms: 2.1 },
  worst: { hour: 12 + 13 * 24, logged: 21.5, ours: -27 },
  swing: { correlationRatio: 0.97, sizeRatio: 1.08, daysCount: 21 },
}
const unknown = {
  id: 'leakage',
  said: 'air let through at 50 Pa',
  unit: 'm3/h',
  spread: 'ratio',
  low: 3,
  high: 2600,
  start: { value: 160 },
  toldWithin: { value: 2 },
} as const
const leak: Told = { unknown, value: 182.34, low: 150.1, high: 221.5, told: true, why: '', effectiveCount: 311.4, with: null }
const absorptance: Told = {
  ...leak,
  unknown: { ...unknown, id: 'roof-absorptance', unit: '1' },
  value: 0.7212,
  low: 0.7,
  high: 0.745,
}
const gear: Told = {
  ...leak,
  unknown: { ...unknown, id: 'gear-mass', said: 'gear', unit: 'kg' },
  told: false,
  why: 'The curve is flat.',
  with: { id: 'leakage', correlationRatio: 0.97 },
}

describe('words', () => {
  test('of an error say which way, how far, when it is worst, and how the swing goes', () => {
    expect(errorSaid(error, RUN)).toBe(
      'roof: ours is 1.2 K warmer on average, and 2.1 K off as a rule (root of the mean square, 504 hours). Worst at 2027-01-14 13:00: logged 21.5 °C, ours −27.0 °C. Its daily swing goes with the logger’s (correlation 0.97, 21 days) and is 8 % larger.',
    )
    expect(errorSaid({ ...error, unit: '%', bias: -3, swing: null }, { ...RUN, year: null })).toContain(
      '3.0 points drier on average',
    )
    expect(errorSaid({ ...error, bias: 0.01, swing: { ...error.swing!, correlationRatio: -0.3, sizeRatio: 0.5 } }, RUN)).toMatch(
      /neither above.*goes against.*−0\.30.*50 % smaller/,
    )
    expect(
      errorSaid({ ...error, swing: { ...error.swing!, correlationRatio: 0.7, sizeRatio: 1 } }, { ...RUN, year: null }),
    ).toMatch(/Worst at 01-14 13:00.*loosely.*same size/)
  })
  test('of an unknown give value and band, or that it cannot be told and why', () => {
    expect(toldSaid(leak)).toMatch(/182 m3\/h, in 95 of 100 cases between 150 and 222 m3\/h.*count as 311/)
    expect(toldSaid(absorptance)).toContain('72.1 %')
    expect(toldSaid(gear)).toBe(
      'gear: cannot be told from this log. The curve is flat. It can hardly be told from leakage: one up, the other with it fits as well.',
    )
  })
})

test('the lines for the survey are read back by the job as they were found, and what was not told is a comment', () => {
  const lines = surveyLines([leak, absorptance, gear], { box: 'B1', by: 'fitted to “yard.csv”: 4 sensors', on: '2027-02-20' })
  expect(lines.at(-1)).toBe('      # gear-mass: not told. The curve is flat.')
  const read = readJob(`plugstead: 1\nrules: { set: us }\nboxes: [{ id: B1 }]\n${lines.join('\n')}\n`)
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  const { air } = read.value.surveys[0]!
  expect(air?.leakM3SAt50Pa?.value).toBeCloseTo(182 / 3600, 12)
  expect(air?.roofAbsorptanceFrac).toMatchObject({
    value: 0.721,
    low: expect.closeTo(0.7, 12),
    high: expect.closeTo(0.745, 12),
    by: 'fitted to “yard.csv”: 4 sensors',
  })
  expect(air?.gearKg).toBeNull()
  expect(surveyLines([leak], { box: 'B1', by: 'x', on: '2027-02-20', missed: ['wall (C)'] })[4]).toBe('      # wall (C).')
  expect(surveyLines([], { box: 'B1', by: '', on: '' })).toEqual([])
})
