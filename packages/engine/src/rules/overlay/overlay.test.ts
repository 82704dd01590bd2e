import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { type Fault, seeded } from '../../kernel/index.ts'
import { builtInOverlays, readOverlay, ruleSets, rulesFor } from '../index.ts'

const folder = new URL('../../../../../shop/overlays/', import.meta.url)
const larch = readFileSync(new URL('larch-county.yaml', folder), 'utf8')
const tamarack = readFileSync(new URL('tamarack-electric.yaml', folder), 'utf8')

const read = (text: string) => {
  const result = readOverlay(text)
  if (!result.ok) throw new Error(JSON.stringify(result.problems, null, 1))
  return result.value
}
const problems = (text: string) => {
  const result = readOverlay(text)
  if (result.ok) throw new Error('was read')
  return result.problems
}

test('the shop’s overlays are read, and say that they are invented', () => {
  for (const name of readdirSync(folder)) {
    const overlay = read(readFileSync(new URL(name, folder), 'utf8'))
    expect(overlay.invented, name).toBe(true)
    expect(`${overlay.id}.yaml`).toBe(name)
  }
})

test('a local amendment changes the answers of its set, and the changed rows are shown as its own', () => {
  const { us } = ruleSets
  const local = rulesFor('us', { overlays: [read(larch)] })
  const ask = (rules: typeof us) => {
    const outlet = rules.outlets.find((o) => o.id === '14-60R')!
    return rules.shockFor({
      outlet,
      system: rules.systems[0]!,
      use: 'general',
      kind: 'heater',
      temporary: false,
      outdoors: true,
      hardWired: false,
    }).value.kind
  }
  expect([ask(us), ask(local)]).toEqual(['none', 'class A'])
  expect([us.electrodes().value.rods, local.electrodes().value.rods]).toEqual([2, 3])
  expect(local.electrodes().steps[0]?.rests).toEqual({
    place: 'ordinance 26-4, section 7 (invented) (changes NEC 250.53(A)(2))',
    provenance: 'told',
    edition: 'Larch County electrical ordinance, 2026-02-17',
  })
  expect(local.tables['us-figures']?.overlaid?.find((o) => o.column === 'value' && o.was === 2)).toMatchObject({
    overlay: 'Larch County electrical ordinance',
    date: '2026-02-17',
  })
  expect(local.overlays.map((o) => o.id)).toEqual(['larch-county'])
  expect(us.tables['us-figures']?.overlaid).toBeUndefined()
})

test('a utility’s rule book changes a band, a limit, and adds a row', () => {
  const book = rulesFor('ca', { overlays: [read(tamarack)] })
  expect(book.systems.find((s) => s.id === 'split 120/240')?.bandLowFrac).toBe(-0.06)
  const dips = book.tables['dip-limits']!
  expect(dips.rows.find((row) => row[0] === 'utility point, rare')?.[1]).toBe(4)
  expect(dips.rows.at(-1)).toEqual(['utility point, welders', 2])
})

test('overlays stack in order, the later one counting', () => {
  const again = read(
    larch
      .replace('value: 3\n', 'value: 4\n')
      .replace('id: larch-county', 'id: larch-town')
      .replace('title: Larch County', 'title: Larch Town'),
  )
  const rules = rulesFor('us', { overlays: [read(larch), again] })
  expect(rules.electrodes().value.rods).toBe(4)
  expect(rules.electrodes().steps[0]?.rests.edition).toBe('Larch Town electrical ordinance, 2026-02-17')
})

test('an overlay of another set, or a name nobody knows, is our mistake by the time rules are made', () => {
  const code = (run: () => unknown) => {
    try {
      run()
    } catch (error) {
      return (error as Fault).code
    }
    return null
  }
  expect(code(() => rulesFor('intl', { overlays: [read(larch)] }))).toBe('rules/overlay-set')
  expect(code(() => rulesFor('intl', { overlays: ['ukk'] }))).toBe('rules/overlay-unknown')
  expect(Object.keys(builtInOverlays)).toEqual(['au-nz', 'uk'])
})

test('every problem is told at once, with place, line, what is wanted and a mend', () => {
  const found = problems(
    larch
      .replace('table: us-figures', 'table: us-figurs')
      .replace('row: next-up-to', 'row: next-upto')
      .replace('value: 3\n', 'value: three\n')
      .replace('"2026-02-17"', '17 Feb')
      .replace('invented: true', 'invented: yes please'),
  )
  expect(found.map((p) => p.code)).toEqual(['overlay/flag', 'overlay/date', 'overlay/table', 'overlay/row', 'overlay/value'])
  expect(found[2]).toMatchObject({ path: 'changes[0].table', found: '“us-figurs”', mend: 'Did you mean “us-figures”?', line: 12 })
  expect(found[3]?.mend).toMatch(/Did you mean “next-up-to”\?/)
  expect(found[4]?.wanted).toMatch(/2/)
  for (const p of found) expect(p.line).toBeGreaterThan(0)
})

test.each([
  ['empty', '', 'overlay/shape'],
  ['a list', '- 1', 'overlay/shape'],
  ['no YAML', 'a: [1, 2', 'overlay/yaml'],
  ['a key twice', `${larch}id: again\n`, 'overlay/yaml'],
  ['an alias bomb', 'a: &a [1,1]\nb: &b [*a,*a,*a]\nc: [*b,*b]\n', 'overlay/yaml'],
  ['very deep', '['.repeat(150_000), 'overlay/yaml'],
  ['very many dashes', `a: 1\n${'- '.repeat(90_000)}`, 'overlay/yaml'],
  ['very many question marks', '? '.repeat(90_000), 'overlay/yaml'],
  ['another version', larch.replace('plugstead-overlay: 1', 'plugstead-overlay: 2'), 'overlay/version'],
  ['an unknown key', larch.replace('kind:', 'kindly: yes\nkind:'), 'overlay/key'],
  ['a table of another set', larch.replace('table: us-figures', 'table: intl-figures'), 'overlay/table'],
  ['no reason given', larch.replace(/ {4}why: three rods.*\n/, ''), 'overlay/text'],
  ['a figure that turns to zero', larch.replace('value: 3\n', 'value: 0\n'), 'overlay/value'],
  ['not a number', larch.replace('value: 3\n', 'value: .nan\n'), 'overlay/value'],
  [
    'a list that falls',
    `${head('us')}changes: [{ table: standard-ratings, row: us, column: ratings, value: [20, 15], why: x }]\n`,
    'overlay/value',
  ],
  [
    'a size nobody sells',
    `${head('us')}changes: [{ table: us-figures, row: parallel-from, column: value, value: 5/0, why: x }]\n`,
    'overlay/value',
  ],
  [
    'a row that stands twice',
    `${head('us')}changes: [{ table: us-conduit, row: EMT, column: area100, value: 1, why: x }]\n`,
    'overlay/row',
  ],
  [
    'a row that is there already',
    `${head('us')}adds: [{ table: dip-limits, cells: ["utility point, rare", 2], why: x }]\n`,
    'overlay/row-there',
  ],
  ['a row too short', `${head('us')}adds: [{ table: dip-limits, cells: [there], why: x }]\n`, 'overlay/cells'],
  ['nothing in it', head('us'), 'overlay/empty'],
  ['a megabyte', `#${'x'.repeat(1_000_001)}`, 'overlay/too-long'],
])('refused: %s', (_what, text, code) => {
  const found = problems(text)
  expect(found.map((p) => p.code)).toContain(code)
  for (const p of found) {
    expect(p.mend.length).toBeGreaterThan(5)
    expect(p.wanted).not.toBe('')
  }
})

test('a row with two names is found by both', () => {
  const text = `${head('us')}changes: [{ table: us-conduit, row: { kind: EMT, trade: 3/4 }, column: area100, value: 0.5, why: x }]\n`
  const table = rulesFor('us', { overlays: [read(text)] }).tables['us-conduit']!
  expect(table.rows.filter((row) => row[3] === 0.5).map((row) => [row[0], row[1]])).toEqual([['EMT', '3/4']])
})

test('a thousand seeded manglings: read or refused, never thrown', () => {
  const random = seeded(11)
  let refused = 0
  for (let i = 0; i < 1000; i++) {
    const at = random.below(larch.length)
    const bit = random.pick(['', '\n', ':', '[', '{', '- ', '"', '*a', '&a', '!!x', '0', '\t', 'é', '\u0000'])
    const result = readOverlay(larch.slice(0, at) + bit + larch.slice(at + random.below(6)))
    if (!result.ok) refused += 1
    else expect(() => rulesFor(result.value.set, { overlays: [result.value] })).not.toThrow()
  }
  expect(refused).toBeGreaterThan(300)
})

function head(set: string): string {
  return `plugstead-overlay: 1\nid: x\ntitle: X\nkind: local amendment\nset: ${set}\ninvented: true\nsource: S (invented)\ndate: "2026-01-01"\n`
}
