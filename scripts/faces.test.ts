import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { facesModule, facesPath } from './faces.ts'

test('the widths by which the book measures are those of the font files that it is set in', () => {
  expect(readFileSync(facesPath, 'utf8')).toBe(facesModule())
})
