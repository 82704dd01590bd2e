import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { worked } from './at-work.ts'
import { dayAnswer, dayOfPlanned } from './day.ts'
import { plannedOf } from './judge.ts'
import { shopNow } from './shop.ts'

const file = 'groomer-yard-us.yaml'
const text = readFileSync(join(import.meta.dirname, '../../../../examples', file), 'utf8')

test('what was planned on one day says on another what a new plan would', () => {
  const shop = shopNow()
  if (!shop.ok) throw new Error('no shop')
  const at = worked({ file, text }, shop.value)
  if (!at.ok) throw new Error('not read')
  const planned = structuredClone(plannedOf(at.value))
  const days = ['2026-06-30', '2027-10-20'].map((day) => {
    const answer = dayOfPlanned({ file, text }, planned, shop.value, day)
    expect(answer).toEqual({ ok: true, value: dayAnswer(at.value, day) })
    return JSON.stringify(answer)
  })
  expect(days[0]).not.toBe(days[1])
  expect(dayOfPlanned({ file, text: 'rows: [' }, planned, shop.value, '2026-01-05').ok).toBe(false)
}, 240_000)
