import { expect, test } from 'vitest'
import { shopKey } from './days.ts'

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text)

test('a shop is another one when a file of it is, in whatever order its files were read', () => {
  const one = { name: 'Yard', files: { 'prices/a.csv': bytes('1'), 'shop.yaml': bytes('x') } }
  expect(shopKey({ name: 'Yard', files: { 'shop.yaml': bytes('x'), 'prices/a.csv': bytes('1') } })).toBe(shopKey(one))
  expect(shopKey({ ...one, files: { ...one.files, 'prices/a.csv': bytes('2') } })).not.toBe(shopKey(one))
  expect(shopKey({ ...one, name: 'Other' })).not.toBe(shopKey(one))
  expect(shopKey(undefined)).toBe('')
})

/** @source test vectors of FNV-1a, 32 bits: “a” is e40c292c, “foobar” is bf9cf968; a path ends in a zero byte. Provenance: memory */
test('the sum over the bytes is FNV-1a', () => {
  const step = (hash: number, text: string): number => [...bytes(text)].reduce((h, b) => Math.imul(h ^ b, 0x01000193) >>> 0, hash)
  expect(step(0x811c9dc5, 'a').toString(16)).toBe('e40c292c')
  expect(shopKey({ name: 'n', files: { foo: bytes('bar') } })).toBe(`n ${step(0x811c9dc5, 'foo\0bar').toString(16)}`)
})
