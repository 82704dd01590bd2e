import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { parse } from 'yaml'
import { type PublishedCase, runCases } from '../../check/index.ts'
import { publishedNetworks } from '../network/index.ts'
import { reachCases } from './cases.ts'

const engine = join(import.meta.dirname, '../../..')
const cases = parse(readFileSync(join(engine, 'check/reach.yaml'), 'utf8')) as PublishedCase[]

for (const one of runCases(cases, reachCases)) {
  test(`${one.id} ${one.topic}: ${one.source}`, () => {
    expect(one.reason).toBeUndefined()
    expect(one.values.filter((v) => !v.ok)).toEqual([])
    expect(one.ok).toBe(true)
  })
}

test('every published case of this part has an adapter and every adapter a case', () => {
  expect(Object.keys(reachCases).sort()).toEqual(cases.map((c) => c.id).sort())
  expect(cases.length).toBe(26)
})

test('the published feeders in the engine are the files people read', () => {
  const folder = join(engine, 'data/network')
  for (const name of readdirSync(folder)) expect(publishedNetworks[name]).toBe(readFileSync(join(folder, name), 'utf8'))
})
