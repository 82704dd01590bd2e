import { expect, test } from 'vitest'
import { dayNumberD, daysBetween, isoDay, isoOrNull, plusDays, weekdayOf } from './index.ts'

test('13 weeks from 10 July is 9 October; 18 weeks from 2 May is 5 September; 26 weeks is 31 October', () => {
  expect(plusDays('2026-07-10', 13 * 7)).toBe('2026-10-09')
  expect(plusDays('2026-05-02', 18 * 7)).toBe('2026-09-05')
  expect(plusDays('2026-05-02', 26 * 7)).toBe('2026-10-31')
})

test('agrees with the civil-from-days algorithm on every tenth day of four hundred years', () => {
  // Richards, Explanatory Supplement to the Astronomical Almanac, 3rd ed., 15.11: Julian day number. Provenance: memory
  const julian = (y: number, m: number, d: number) =>
    Math.trunc((1461 * (y + 4800 + Math.trunc((m - 14) / 12))) / 4) +
    Math.trunc((367 * (m - 2 - 12 * Math.trunc((m - 14) / 12))) / 12) -
    Math.trunc((3 * Math.trunc((y + 4900 + Math.trunc((m - 14) / 12)) / 100)) / 4) +
    d -
    32075
  for (let day = dayNumberD('1900-01-01'); day < dayNumberD('2300-01-01'); day += 10) {
    const iso = isoDay(day)
    const [y, m, d] = iso.split('-').map(Number)
    expect(dayNumberD(iso)).toBe(day)
    expect(julian(y!, m!, d!) - 2_440_588).toBe(day)
    expect((julian(y!, m!, d!) % 7) - weekdayOf(day)).toBe(0)
  }
})

test('leap days count, and a date that does not exist is our own mistake', () => {
  expect(daysBetween('2028-02-28', '2028-03-01')).toBe(2)
  expect(daysBetween('2027-02-28', '2027-03-01')).toBe(1)
  expect(isoOrNull('14 weeks after order')).toBeNull()
  for (const bad of ['2027-02-29', '2027-13-01', '2027-00-10', '27-01-01', '']) {
    expect(isoOrNull(bad)).toBeNull()
    expect(() => dayNumberD(bad)).toThrowError(/kernel\/no-day/)
  }
})
