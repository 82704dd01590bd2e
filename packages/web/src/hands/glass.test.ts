import { expect, test } from 'vitest'
import { glassFrom, gloveTargetPx, measured } from './glass.ts'

// Lines an inch of usual screens, by 25.4 mm an inch: a desk screen of 96 px/in has 3.78 px/mm, a tablet of 132 px/in 5.20, a phone of 160 px/in 6.30. Provenance: computed
test('15 mm of glass are so many pixels as the card says', () => {
  for (const [pxPerInch, target] of [
    [96, 57],
    [132, 78],
    [160, 95],
  ] as const)
    expect(gloveTargetPx(measured((85.6 * pxPerInch) / 25.4, 1), 1)).toBe(target)
})

test('a page zoomed to twice has half the pixels on the same millimetre, and never less than a finger takes', () => {
  const phone = measured(539, 2)
  expect(gloveTargetPx(phone, 2)).toBe(95)
  expect(gloveTargetPx(phone, 4)).toBe(48)
  expect(gloveTargetPx(phone, 6)).toBe(44)
})

test('what was kept is taken over where it can be a screen', () => {
  expect(glassFrom({ pxPerMm: 5.2, dotsPerPx: 2 })).toEqual({ pxPerMm: 5.2, dotsPerPx: 2 })
  for (const wrong of [
    null,
    'x',
    {},
    { pxPerMm: 0.1, dotsPerPx: 1 },
    { pxPerMm: 5.2, dotsPerPx: 0 },
    { pxPerMm: 400, dotsPerPx: 1 },
  ])
    expect(glassFrom(wrong)).toBe(null)
})
