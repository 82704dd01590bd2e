import { describe, expect, test } from 'vitest'
import { sampleBox } from './sample-boxes.ts'
import { sampleHours } from './sample-hours.ts'
import { surroundingsOf } from './surroundings.ts'
import { yearOf } from './year-of.ts'

describe('a box through the hours', () => {
  test('the books of energy and water close in every step, bare and foamed, from 2 to 60 steps an hour', () => {
    const hours = sampleHours(24 * 30)
    for (const foam of [0, 0.05]) {
      const box = sampleBox(foam)
      for (const stepsPerHour of [2, 4, 12, 20, 60]) {
        const run = yearOf(box, surroundingsOf(box, hours, { stepsPerHour }))
        expect(run.energyResidualFrac).toBeLessThan(1e-9)
        expect(run.waterResidualFrac).toBeLessThan(1e-9)
      }
    }
  })
})
