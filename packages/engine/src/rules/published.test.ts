import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { parse } from 'yaml'
import { rulesCases } from './cases.ts'

interface Published {
  readonly id: string
  readonly given: unknown
  readonly expect: Readonly<Record<string, unknown>>
  readonly tolerance: { readonly relative?: number; readonly absolute?: number; readonly why: string }
  readonly source: string
}
const cases = parse(readFileSync(new URL('../../check/rules.yaml', import.meta.url), 'utf8')) as readonly Published[]

test('every published case of the rules has its adapter, and no adapter is without a case', () => {
  expect(Object.keys(rulesCases).sort()).toEqual(cases.map((c) => c.id).sort())
})

test.each(cases.map((c) => [c.id, c.source, c] as const))('%s: %s', (id, _source, c) => {
  const ours = rulesCases[id]!(c.given)
  const near = (mine: unknown, theirs: unknown): boolean => {
    if (Array.isArray(theirs))
      return Array.isArray(mine) && mine.length === theirs.length && theirs.every((t, i) => near(mine[i], t))
    if (typeof theirs !== 'number') return mine === theirs
    return (
      typeof mine === 'number' &&
      Math.abs(mine - theirs) <= Math.max(c.tolerance.absolute ?? 0, (c.tolerance.relative ?? 0) * Math.abs(theirs))
    )
  }
  const off = Object.entries(c.expect).filter(([key, theirs]) => !near(ours[key], theirs))
  expect(off.map(([key, theirs]) => `${key}: ours ${JSON.stringify(ours[key])}, theirs ${JSON.stringify(theirs)}`)).toEqual([])
})
