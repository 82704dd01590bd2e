import { expect, test } from 'vitest'
import type { AirResult } from '../air/index.ts'
import type { Job } from '../job/index.ts'
import { yearsColdestC } from './inside.ts'

const site = (extremeMinC: number | null, designMinC: number | null = null) => ({ site: { extremeMinC, designMinC } }) as Job
const year = (tightC: readonly number[], leakyC: readonly number[], outsideC: readonly number[]) => {
  const end = (cs: readonly number[]) => ({ gear: cs.map((coldestC) => ({ coldestC })) })
  return { boxes: [{ box: 'yard', outsideC, ends: { tight: end(tightC), leaky: end(leakyC) } }] } as unknown as AirResult
}

test('the coldest at the gear is that of the worse end, and as much colder as the record is colder than the year', () => {
  expect(yearsColdestC(site(-38), year([-20.2, -21], [-24.4], [-10, -33.5, 5])).get('yard')).toEqual({ low: -30, high: -25 })
})

test('a year that is colder than the record warms nothing', () => {
  expect(yearsColdestC(site(-30), year([-20.2], [-24.4], [-33])).get('yard')).toEqual({ low: -25, high: -25 })
})

test('without a record the coldest of the design goes, without both nothing is known', () => {
  expect(yearsColdestC(site(null, -35), year([-20], [-20], [-33])).get('yard')).toEqual({ low: -22, high: -20 })
  expect(yearsColdestC(site(null), year([-20], [-20], [-33])).size).toBe(0)
})

test('no gear, or none that has an hour that counts: nothing is known', () => {
  expect(yearsColdestC(site(-38), year([], [], [-33])).size).toBe(0)
  expect(yearsColdestC(site(-38), year([1000], [-20], [-33])).size).toBe(0)
})
