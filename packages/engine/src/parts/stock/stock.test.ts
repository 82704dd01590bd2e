import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import type { Problem, Result } from '../../kernel/index.ts'
import { readHire, readModel, readModule, readStock, readYardBox, withModule } from '../index.ts'

const root = new URL('../../../../../', import.meta.url)
const text = (path: string) => readFileSync(new URL(path, root), 'utf8')
const problems = (read: Result<unknown>): readonly Problem[] => (read.ok ? [] : read.problems)

const MODULES = readdirSync(new URL('shop/modules/', root)).map((name) => `shop/modules/${name}`)
const modules = MODULES.map((path) => readModule(text(path))).flatMap((read) => (read.ok ? [read.value] : []))
const board = text('shop/modules/board-200-split.yaml')
const model = text('shop/models/yard-20.yaml')
const yard = text('examples/shops/four-box-yard-us/yard/BX4.yaml')

test('ten modules and four models, all said to be invented', () => {
  expect(modules).toHaveLength(10)
  const models = readdirSync(new URL('shop/models/', root)).map((name) => readModel(text(`shop/models/${name}`), modules))
  expect(models.map((m) => m.ok)).toEqual([true, true, true, true])
  for (const m of [...modules, ...models.flatMap((one) => (one.ok ? [one.value] : []))]) expect(m.invented, m.id).toBe(true)
})

describe('what cannot be read is refused with its line, and a mend', () => {
  const cases: readonly (readonly [string, Result<unknown>, Partial<Problem>])[] = [
    [
      'a later version',
      readModule(board.replace('plugstead-module: 1', 'plugstead-module: 2')),
      { code: 'stock/newer-version', line: 2 },
    ],
    ['another kind of sheet', readModule(yard), { code: 'stock/not-a-sheet' }],
    [
      'a word that is no key',
      readModule(board.replace('priced:', 'invent: yes\npriced:')),
      { code: 'job/unknown-key', line: 11 },
    ],
    ['a mass without a unit', readModule(board.replace('mass: 38 kg', 'mass: 38')), { code: 'job/unit-missing', line: 9 }],
    ['a board without ratings', readModule(board.replace(/board: .*/, '')), { code: 'stock/board' }],
    ['ratings on a vent', readModule(board.replace('kind: board', 'kind: vent')), { code: 'stock/board' }],
    [
      'a module that the shop has not',
      readModel(model.replace('module: vent-low', 'module: vent-lo'), modules),
      { code: 'stock/module-unknown' },
    ],
    [
      'two boards',
      readModel(model.replace('board-200-split, revision: C, count: 1', 'board-200-split, revision: C, count: 2'), modules),
      { code: 'stock/one-board' },
    ],
    ['a lead time in words', readModel(model.replace('5 weeks', 'soon'), modules), { code: 'stock/lead-time', line: 10 }],
    ['a booking that ends before it begins', readYardBox(yard.replace('2025-02-28', '2024-02-28')), { code: 'stock/booking' }],
    [
      'a test told twice',
      readYardBox(yard.replace('built:\n', 'built:\n  last-full-test: 3 months ago\n')),
      { code: 'stock/tested-twice' },
    ],
    ['a way to set down that is none', readYardBox(yard.replace('[crane]', '[helicopter]')), { code: 'job/not-a-choice' }],
    ['two currencies', readHire('plugstead-hire: 1\ncrane-call: 700 USD\nturn-round: 300 CAD\n'), { code: 'stock/currencies' }],
    ['no text at all', readYardBox(''), { code: 'job/empty' }],
  ]
  test.each(cases)('%s', (_name, read, wanted) => {
    const [first] = problems(read)
    expect(first).toMatchObject(wanted)
    expect(first?.mend.length).toBeGreaterThan(10)
  })
})

test('two sheets of one name are refused, and the file is named', () => {
  const paths = { modules: ['a', 'b'], models: [], yard: [], hire: [] }
  expect(problems(readStock(paths, () => ({ ok: true, value: board })))[0]).toMatchObject({
    code: 'stock/twice',
    path: 'modules',
  })
  const lost = readStock({ ...paths, modules: ['gone.yaml'] }, () => ({
    ok: false,
    problems: [{ code: 'x', found: '', wanted: '', mend: '' }],
  }))
  expect(problems(lost)[0]?.file).toBe('gone.yaml')
})

describe('what was measured rules over what was drawn', () => {
  const read = (change: (t: string) => string) => {
    const out = readModule(change(board))
    if (!out.ok) throw new Error(JSON.stringify(out.problems))
    return out.value
  }
  test('mass by the scale; of two temperatures the narrower', () => {
    expect(read((t) => t)).toMatchObject({ massKg: 41.5, massMeasured: true, airMaxC: 38, airMinC: -40 })
    expect(read((t) => t.replace(/measured: .*/, ''))).toMatchObject({ massKg: 38, massMeasured: false, airMaxC: 40 })
    expect(read((t) => t.replace('air-max: 38 C', 'air-max: 45 C')).airMaxC).toBe(40)
  })
})

test('a model is as heavy as its container, its modules and the rest; the sum by hand', () => {
  const made = readModel(model, modules)
  if (!made.ok) throw new Error(JSON.stringify(made.problems))
  // board 41.5, door 49.2, 2 frames 9.9, 2 vents 3.2, 2 vents 3.6, 24 feet 0.62, 8 plates 2.1, other 620
  expect(made.value.body.fitOutKg).toBeCloseTo(41.5 + 49.2 + 19.8 + 6.4 + 7.2 + 14.88 + 16.8 + 620, 9)
  expect(made.value.built).toMatchObject({
    system: 'split 120/240',
    serviceA: 200,
    interruptingKA: 22,
    ways: 42,
    outletDeviceMinC: -33,
  })
  const heavier = withModule(made.value, { ...modules.find((m) => m.id === 'vent-low')!, massKg: 4.2 })
  expect(heavier.body.fitOutKg! - made.value.body.fitOutKg!).toBeCloseTo(2, 9)
})
