import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { parse } from 'yaml'
import { type PublishedCase, runCases } from '../../check/index.ts'
import { faultCases } from './cases.ts'

const cases = parse(readFileSync(join(import.meta.dirname, '../../../check/faults.yaml'), 'utf8')) as PublishedCase[]

for (const one of runCases(cases, faultCases)) {
  test(`${one.id} ${one.topic}: ${one.source}`, () => {
    expect(one.reason).toBeUndefined()
    expect(one.values.filter((v) => !v.ok)).toEqual([])
    expect(one.ok).toBe(true)
  })
}

test('every published case of this part has an adapter and every adapter a case', () => {
  expect(Object.keys(faultCases).sort()).toEqual(cases.map((c) => c.id).sort())
  expect(cases.length).toBe(25)
})
