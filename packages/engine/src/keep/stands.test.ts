import { describe, expect, test } from 'vitest'
import { type Job, readJob } from '../job/index.ts'
import { hireTimeOf, monthsBetween, standsFindings } from './index.ts'

const job = (more: string): Job => {
  const read = readJob(`plugstead: 1\nrules: { set: us }\n${more}`)
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return read.value
}
const built = {
  ...{
    rulesWhenBuilt: 'us' as const,
    system: 'split 120/240',
    serviceA: 200,
    interruptingKA: 22,
    ways: 30,
    circuits: [],
    cords: [],
  },
  ...{
    outletDeviceMinC: null,
    electrodeOhm: null,
    neutralBond: 'panel',
    approval: 'label',
    lastFullTestMonthsAgo: 1,
    defects: [],
  },
}
const body = {
  ...{
    lengthFt: 20,
    heightKind: null,
    tareKg: null,
    fitOutKg: null,
    weighedKg: null,
    transportPlate: null,
    vents: null,
    lowestExitM: null,
  },
  ...{ setDown: ['crane' as const], airMaxC: 38 },
}
const asked = { id: 'B1', built, body, bookings: [], turnRoundDays: 0 }
const verdict = (code: string, more: Partial<Parameters<typeof standsFindings>[0]> & { readonly job: Job }) =>
  standsFindings({ ...asked, ...more }).find((f) => f.code === code)?.verdict

describe('months between two days', () => {
  test('the same day of the next year is exactly 12, leap year or not', () => {
    expect(monthsBetween('2023-10-01', '2024-10-01')).toBe(12)
    expect(monthsBetween('2024-10-01', '2025-10-01')).toBe(12)
    expect(monthsBetween('2023-10-01', '2024-10-02')).toBeGreaterThan(12)
    expect(monthsBetween('2023-10-02', '2024-10-01')).toBeLessThan(12)
  })
})

describe('what nobody told is unknown, never held', () => {
  const bare = job('')
  test.each(['keep/heat', 'keep/set-down', 'keep/length'])('%s', (code) => {
    expect(verdict(code, { job: bare, body: null })).toBe('unknown')
  })
  test('a box with bookings and a call without a day', () => {
    const bookings = [{ from: '2025-01-01', to: '2025-02-01', for: 'x' }]
    expect(verdict('keep/booked', { job: bare, bookings })).toBe('unknown')
    expect(verdict('keep/booked', { job: bare })).toBe('holds')
  })
  test('a box longer than the one wanted, where nobody said what there is room for', () => {
    expect(verdict('keep/length', { job: bare, body: { ...body, lengthFt: 40 } })).toBe('unknown')
    expect(verdict('keep/length', { job: bare })).toBe('holds')
    const room = job('facts: { site: { access: { longest-box: 20 ft } } }')
    expect(verdict('keep/length', { job: room, body: { ...body, lengthFt: 40 } })).toBe('fails')
    expect(verdict('keep/length', { job: room })).toBe('holds')
  })
})

test('heat: holds, tight within 3 K, fails beyond', () => {
  const at = (c: number) => verdict('keep/heat', { job: job(`facts: { climate: { design-max: ${c} C } }`) })
  expect([35, 36, 38, 39].map(at)).toEqual(['holds', 'tight', 'tight', 'fails'])
})

test('the way it is set down: as told, tilt-bed where nobody said, and then it says that it assumed so', () => {
  const crane = job('facts: { site: { access: { unload: crane } } }')
  expect(verdict('keep/set-down', { job: crane })).toBe('holds')
  expect(verdict('keep/set-down', { job: job('') })).toBe('fails')
  const found = standsFindings({ ...asked, job: job('') }).find((f) => f.code === 'keep/set-down')
  expect(found?.assumed).toEqual(['facts.site.access.unload'])
})

test('bookings against counting day by day, turn-round days on both sides: every small case', () => {
  const day = (n: number) => new Date(Date.UTC(2025, 0, 1) + n * 86_400_000).toISOString().slice(0, 10)
  for (const stay of [4, 5])
    for (let start = 0; start < 24; start++) {
      const asks = job(`needs: { needed-by: ${day(start)}, stay: ${stay} days }`)
      const time = hireTimeOf(asks)!
      const last = (Date.parse(time.to) - Date.UTC(2025, 0, 1)) / 86_400_000
      expect(last).toBe(start + stay)
      for (const [from, to] of [
        [10, 10],
        [10, 12],
      ] as const)
        for (const turnRoundDays of [0, 1, 3]) {
          let clash = false
          for (let d = start; d <= last; d++) if (d >= from - turnRoundDays && d <= to + turnRoundDays) clash = true
          const bookings = [{ from: day(from), to: day(to), for: 'x' }]
          expect(verdict('keep/booked', { job: asks, bookings, turnRoundDays }), `${start} ${stay} ${to} ${turnRoundDays}`).toBe(
            clash ? 'fails' : 'holds',
          )
        }
    }
})
