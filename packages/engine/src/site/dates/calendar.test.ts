import Holidays from 'date-holidays'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { HOLIDAY_PLACES as SCHEMA_PLACES } from '../../job/schema/dates.ts'
import { dayNumberD, isoDay, weekdayOf } from '../../kernel/index.ts'
import { beginsD, calendar, leftD, reachedD, workAtDays } from './calendar.ts'
import { frozenDays, frozenSpans } from './frost.ts'
import { HOLIDAY_PLACES, holidays } from './holidays.ts'
import { inYearD, nextD, yearDay, yearly } from './season.ts'

/** Days that one of the two has and the other has not, and why. Offices are shut on the first kind; the second is not kept by all of them. */
const APART: Readonly<Record<string, { readonly ours: readonly string[]; readonly theirs: readonly string[] }>> = {
  us: { ours: ['Veterans Day'], theirs: [] },
  ca: { ours: ['Victoria Day', 'Truth and Reconciliation', 'Thanksgiving', 'Remembrance Day', 'Boxing Day'], theirs: [] },
  'ca-bc': { ours: ['Truth and Reconciliation'], theirs: [] },
  'ca-on': { ours: [], theirs: ['Easter Monday'] },
  'ca-nt': { ours: ['Truth and Reconciliation'], theirs: ['Easter Monday', 'Boxing Day'] },
  'gb-eng': { ours: [], theirs: [] },
  'gb-sct': { ours: [], theirs: [] },
  de: { ours: [], theirs: [] },
}

describe('holidays beside a second library (date-holidays), each weekday of twenty years', () => {
  for (const [place, apart] of Object.entries(APART))
    test(place, () => {
      const [country = '', state] = place.toUpperCase().split('-')
      const second = state === undefined ? new Holidays(country) : new Holidays(country, state)
      for (let year = 2024; year <= 2043; year += 1) {
        const wrong: string[] = []
        const theirs = second.getHolidays(year).filter((h) => h.type === 'public')
        const weekday = (iso: string): boolean => weekdayOf(dayNumberD(iso)) < 5
        const ours = holidays(place, year).filter((h) => weekday(h.date))
        const their = theirs.map((h) => ({ date: h.date.slice(0, 10), name: h.name })).filter((h) => weekday(h.date))
        for (const h of ours)
          if (!their.some((t) => t.date === h.date) && !apart.ours.includes(h.name)) wrong.push(`ours alone ${h.date} ${h.name}`)
        for (const h of their)
          if (!ours.some((o) => o.date === h.date) && !apart.theirs.some((n) => h.name.startsWith(n)))
            wrong.push(`theirs alone ${h.date} ${h.name}`)
        // The library keeps no substitute in Canada nor of Veterans Day, and moves single years by proclamation.
        const moved = place.startsWith('ca') ? wrong.filter((w) => !isMovedInCanada(w)) : wrong
        expect(
          moved.filter((w) => !PROCLAIMED.test(w)),
          String(year),
        ).toEqual([])
      }
    })

  test('the schema names the places that the table knows', () => {
    expect([...SCHEMA_PLACES].toSorted()).toEqual([...HOLIDAY_PLACES].toSorted())
  })
})

/** A holiday on a weekend, which the Canada Labour Code moves to the next working day. */
const isMovedInCanada = (w: string): boolean =>
  w.startsWith('ours alone') && /New Year|Canada Day|Christmas|Boxing|Remembrance|Indigenous/.test(w)
/** Days given once by proclamation: no rule has them. */
const PROCLAIMED = /2026-06-15|2024-12-2[46]|2025-01-09/

test('29 February begins on 1 March and ends on 28 February in a year without it', () => {
  const leap = yearDay('29 February')!
  expect(isoDay(inYearD(leap, 2028))).toBe('2028-02-29')
  expect(isoDay(inYearD(leap, 2027))).toBe('2027-03-01')
  expect(isoDay(inYearD(leap, 2027, true))).toBe('2027-02-28')
  expect(yearDay('30 February')).toBeNull()
})

test('a season over new year runs on; one day before a season the next is sought in this year, one day after in the next', () => {
  const [from, to] = [yearDay('15 November')!, yearDay('20 April')!]
  const spans = yearly(from, to, { fromD: dayNumberD('2027-01-01'), toD: dayNumberD('2028-12-31') })
  expect(spans.map((s) => `${isoDay(s.fromD)} ${isoDay(s.toD)}`)).toEqual([
    '2027-01-01 2027-04-20',
    '2027-11-15 2028-04-20',
    '2028-11-15 2028-12-31',
  ])
  expect(isoDay(nextD(from, dayNumberD('2027-11-14')))).toBe('2027-11-15')
  expect(isoDay(nextD(from, dayNumberD('2027-11-16')))).toBe('2028-11-15')
})

const arbitrary = fc.record({
  closed: fc.array(fc.tuple(fc.integer({ min: 0, max: 300 }), fc.integer({ min: 0, max: 40 })), { maxLength: 4 }),
  share: fc.constantFrom(0, 0.25, 0.5, 0.9),
})
const made = ({ closed, share }: { closed: [number, number][]; share: number }) =>
  calendar({
    name: 'test',
    within: { fromD: 0, toD: 400 },
    weekdays: [0, 1, 2, 3, 4],
    free: new Set([31, 60]),
    closed: closed.map(([at, long]) => ({ fromD: at, toD: at + long })),
    booked: [{ fromD: 50, toD: 90, shareFrac: share }],
  })

test('counting work to a moment and seeking the moment of so much work undo each other, as a plain loop over days has it', () => {
  fc.assert(
    fc.property(
      arbitrary,
      fc.double({ min: 0, max: 380, noNaN: true }),
      fc.double({ min: 0.01, max: 60, noNaN: true }),
      (a, at, n) => {
        const cal = made(a)
        const end = reachedD(cal, workAtDays(cal, at) + n)
        if (end === Infinity) return
        expect(workAtDays(cal, end)).toBeCloseTo(workAtDays(cal, at) + n, 6)
        // Plain loop: hundredths of a day until the work is done.
        let work = 0
        let t = at
        while (work < n - 1e-9 && t < 401) {
          const day = Math.floor(t)
          const rate = cal.doneDays[day + 1]! - cal.doneDays[day]!
          const step = Math.min(day + 1 - t, rate > 0 ? (n - work) / rate : 9)
          work += step * rate
          t += step
        }
        expect(end).toBeCloseTo(t, 5)
        expect(leftD(cal, workAtDays(cal, end) - n)).toBeGreaterThanOrEqual(at - 1e-6)
        expect(beginsD(cal, at)).toBeGreaterThanOrEqual(at)
      },
    ),
    { seed: 11, numRuns: 300 },
  )
})

test('ground freezes deeper after a colder month, thaws in spring, and never where no month freezes', () => {
  const alpine = [-9.5, -8.8, -5.6, -1.2, 4.1, 9, 13.4, 12.8, 8.1, 2.2, -5.1, -9.6]
  const dug = { meanCByMonth: alpine, depthM: 1.5, crustM: 0.15, thawM: 0.6 }
  const [first] = frozenSpans(dug, { fromD: dayNumberD('2027-07-01'), toD: dayNumberD('2028-07-01') })
  expect(isoDay(first!.fromD).slice(0, 7)).toBe('2027-11')
  expect(['2028-05', '2028-06']).toContain(isoDay(first!.toD).slice(0, 7))
  const count = (of: Parameters<typeof frozenDays>[0]) => frozenDays(of).reduce((a, b) => a + b, 0)
  expect(count({ ...dug, meanCByMonth: alpine.map((c) => c - 3) })).toBeGreaterThan(count(dug))
  expect(count({ ...dug, depthM: 0.3 })).toBeLessThan(count(dug))
  expect(count({ ...dug, meanCByMonth: alpine.map((c) => c + 12) })).toBe(0)
  expect(count({ ...dug, meanCByMonth: alpine.map((c) => c - 30) })).toBe(365)
})
