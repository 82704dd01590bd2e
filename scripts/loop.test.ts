import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { double, signed, unsigned } from './loop/bytes.ts'
import { kernelModule, modulePath } from './loop.ts'

test('the compiled loop is that of the text of kernel.ts, to the byte', () => {
  expect(readFileSync(modulePath, 'utf8') === kernelModule(), 'not current. Run: npm run loop').toBe(true)
})

// @source WebAssembly Core Specification 1.0, 5.2.2: LEB128; the examples of DWARF 4, figures 22 and 23, that it stands on. Provenance: memory
test('whole numbers are written as LEB128', () => {
  expect([2, 127, 128, 129, 12857].map(unsigned)).toEqual([[2], [0x7f], [0x80, 1], [0x81, 1], [0xb9, 0x64]])
  expect([2, -2, 127, -127, 128, -128, 129, -129].map(signed)).toEqual([
    [2],
    [0x7e],
    [0xff, 0],
    [0x81, 0x7f],
    [0x80, 1],
    [0x80, 0x7f],
    [0x81, 1],
    [0xff, 0x7e],
  ])
  expect(double(1)).toEqual([0, 0, 0, 0, 0, 0, 0xf0, 0x3f])
})
