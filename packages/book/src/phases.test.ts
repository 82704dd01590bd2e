import { expect, test } from 'vitest'
import type { Sheet } from './content.ts'
import { onceForPhases } from './phases.ts'

const sheet = (head: string, sub: string, words: string): Sheet => ({
  part: 'circuits',
  head,
  sub,
  scale: 'not to scale',
  key: true,
  blocks: [{ k: 'para', text: words }],
})
const phases = ['first', 'second']

test('a sheet that says the same of both phases stands once and names both', () => {
  const once = onceForPhases(
    [
      sheet('Cords', 'box yard, first: to the machine', 'C1@yard·first'),
      sheet('Cords', 'box yard, second: to the machine', 'C1@yard·second'),
    ],
    phases,
  )
  expect(once.map((s) => s.sub)).toEqual(['box yard, first and second: to the machine'])
})

test('sheets that differ in a value, a box or a heading, and sheets of no phase, all stay', () => {
  const all = [
    sheet('Cords', 'box yard, first', '5 A'),
    sheet('Cords', 'box yard, second', '6 A'),
    sheet('Cords', 'box tower, second', '5 A'),
    sheet('Labels', 'box yard, second', '5 A'),
    sheet('Symbols', 'of the first and the second kind', '5 A'),
    sheet('Symbols', 'of the first and the second kind', '5 A'),
  ]
  expect(onceForPhases(all, phases)).toEqual(all)
  expect(onceForPhases(all.slice(0, 2), ['first'])).toEqual(all.slice(0, 2))
})
