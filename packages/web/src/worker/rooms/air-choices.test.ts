import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { airPinsOf } from '@plugstead/engine/job'
import { expect, test } from 'vitest'
import { worked } from '../at-work.ts'
import { shopNow } from '../shop.ts'
import { airChoices } from './air-choices.ts'

test('what is offered for air, and what is built, are words that a pin takes', () => {
  const shop = shopNow()
  if (!shop.ok) throw new Error('no shop')
  const file = 'two-machines.yaml'
  const at = worked({ file, text: readFileSync(join(import.meta.dirname, '../../../../../examples', file), 'utf8') }, shop.value)
  if (!at.ok) throw new Error('not read')
  const choices = airChoices(at.value)
  expect(choices).toHaveLength(14)
  for (const { path, value, options } of choices) {
    expect(path).toMatch(/^air\.yard\./)
    for (const option of [value, ...options!]) {
      const pin = { path: path!, value: option, by: 'me', why: 'a test' }
      expect(airPinsOf([pin], 'yard').unread, `${path} ${option}`).toEqual([])
    }
  }
}, 240_000)
