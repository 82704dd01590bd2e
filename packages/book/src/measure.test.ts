import { expect, test } from 'vitest'
import { columnsMm, inlineMm } from './measure.ts'

test('digits of the text face are half an em, as its metrics say', () => {
  // Source Sans 3: advance of the default figures 497 of 1000 units (hmtx of the shipped file, read).
  expect(inlineMm('0', 10) / (10 * (25.4 / 72))).toBeCloseTo(0.497, 3)
})

test('columns never take more than the sheet is wide', () => {
  const columns = [
    { title: 'a', widthMm: 0, align: 'left' as const },
    { title: 'b', widthMm: -1, align: 'left' as const },
    { title: 'c', widthMm: 20, align: 'right' as const },
  ]
  for (const long of [1, 40, 400]) {
    const widths = columnsMm(columns, [['x'.repeat(long), 'words and words', '1']], 9, 185)
    expect(widths.reduce((a, b) => a + b, 0)).toBeLessThanOrEqual(185.001)
    expect(Math.min(...widths)).toBeGreaterThan(3)
  }
})
