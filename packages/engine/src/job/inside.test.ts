import { expect, test } from 'vitest'
import { withInsideCold, withInsideHot } from './inside.ts'
import type { Job } from './types.ts'

function jobWith(insideHotC: Job['boxes'][number]['insideHotC']): Job {
  return { boxes: [{ id: 'yard', insideHotC }] } as unknown as Job
}
const bounded = { low: 30, high: 77, basis: 'bounded', told: false }
const hot = (job: Job) => job.boxes[0]!.insideHotC

test('air that nobody told is taken from the year, both ends of it', () => {
  const found = hot(withInsideHot(jobWith(bounded), new Map([['yard', 41]])))
  expect(found).toMatchObject({ low: 41, high: 41, told: true, computed: true })
  expect(found.basis).toContain('year of hours')
})

test('what a person told stays, whatever the year finds', () => {
  const job = jobWith({ low: 50, high: 50, basis: 'told', told: true })
  expect(withInsideHot(job, new Map([['yard', 62]]))).toBe(job)
})

test('another year takes the place of the one before, and the same one changes nothing', () => {
  const job = withInsideHot(jobWith(bounded), new Map([['yard', 41]]))
  expect(withInsideHot(job, new Map([['yard', 41]]))).toBe(job)
  expect(hot(withInsideHot(job, new Map([['yard', 45]]))).high).toBe(45)
})

test('a box that no year was run of keeps its bounds', () => {
  const job = jobWith(bounded)
  expect(withInsideHot(job, new Map([['other', 41]]))).toBe(job)
})

test('the coldest air is taken from the year at both its ends, and a told one stays', () => {
  const job = (insideColdC: Job['boxes'][number]['insideColdC']) => ({ boxes: [{ id: 'yard', insideColdC }] }) as unknown as Job
  const found = new Map([['yard', { low: -31, high: -27 }]])
  const taken = withInsideCold(job({ low: -38, high: 0, basis: 'bounded', told: false }), found)
  expect(taken.boxes[0]!.insideColdC).toMatchObject({ low: -31, high: -27, told: true, computed: true })
  expect(withInsideCold(taken, found)).toBe(taken)
  const colder = withInsideCold(taken, new Map([['yard', { low: -33, high: -27 }]]))
  expect(colder.boxes[0]!.insideColdC.low).toBe(-33)
  const told = job({ low: -5, high: -5, basis: 'told', told: true })
  expect(withInsideCold(told, found)).toBe(told)
})
