import { describe, expect, test } from 'vitest'
import { yardOf } from '../power/circuits/yards.fixture.ts'
import { rulesFor } from '../rules/index.ts'
import { partById, partFor, transformerPart } from './shelf.ts'
import { shelfItems, wholeBuild } from './shelf-items.ts'
import { tables } from './tables.generated.ts'

describe('parts shelf', () => {
  /** @source planning masses of the trade, plus or minus 25 %. Provenance: memory */
  test.each([
    ['load centre', 100, 6, 11],
    ['load centre', 200, 13, 22],
    ['panelboard', 225, 40, 60],
    ['panelboard', 400, 80, 130],
    ['meter base', 200, 4, 9],
    ['instrument-transformer cabinet', 400, 25, 45],
    ['interlocked receptacle', 60, 6, 12],
    ['light strip', 30, 1.8, 4],
  ] as const)('%s of %i weighs %f to %f kg', (name, need, low, high) => {
    expect(partFor(name, need).massKg).toMatchObject({ low, high })
  })

  /** @source data table of dry-type transformers, single phase: 246, 359, 374, 555, 740, 841, 1610 lb. Provenance: memory */
  test.each([
    [15, 246],
    [25, 359],
    [37.5, 374],
    [50, 555],
    [75, 740],
    [100, 841],
    [167, 1610],
  ])('a single-phase transformer of %f kVA weighs %f lb within its band of 10 %%', (kVA, lb) => {
    const { low, high } = transformerPart({ kVA, phases: 1 }).massKg
    const kg = lb * 0.45359237
    expect(low).toBeGreaterThan(kg * 0.89)
    expect(low).toBeLessThan(kg)
    expect(high).toBeGreaterThan(kg)
    expect(high).toBeLessThan(kg * 1.11)
  })

  test('rows of a part rise in rating, and a larger one is never smaller or lighter', () => {
    const { rows } = tables['item-sizes']
    rows.slice(1).forEach((row, i) => {
      const before = rows[i]!
      if (before[0] !== row[0]) return
      expect(row[1], row[0]).toBeGreaterThan(before[1])
      expect(row[5], row[0]).toBeGreaterThanOrEqual(before[5])
    })
  })

  test('a part is found again by the id it was placed with', () => {
    for (const [name, upto] of tables['item-sizes'].rows) expect(partById(`${name} ${upto}`)).toEqual(partFor(name, upto))
    for (const [phases, kVA] of tables['transformer-bodies'].rows)
      expect(partById(`transformer ${phases} ph ${kVA} kVA`)?.massKg.low).toBeGreaterThan(0)
    expect(partById('anvil')).toBeNull()
  })

  test('beyond the largest row is a fault, not a guess', () => {
    expect(() => partFor('panelboard', 900)).toThrow('parts/no-such-size')
    expect(() => partFor('panelboard', Number.NaN)).toThrow('parts/no-such-size')
    expect(() => transformerPart({ kVA: 900, phases: 3 })).toThrow('parts/no-such-size')
  })
})

describe('what a design asks to be hung', () => {
  const { job, box } = yardOf()
  const rules = rulesFor('us')
  const items = shelfItems([box], job, rules)
  const ids = items.map((i) => i.id)

  test('one box for each plug, none twice, all circuits reach something', () => {
    expect(new Set(ids).size).toBe(ids.length)
    for (const plug of job.plugs)
      expect(ids.includes(`receptacle ${plug.tag}`) || ids.includes(`junction box ${plug.tag}`), plug.tag).toBe(true)
    for (const c of box.circuits)
      if (c.own !== 'spare') expect(items.filter((i) => i.circuits.includes(c.id)).length, c.id).toBeGreaterThanOrEqual(2)
  })

  test('a meter on a utility, none on an own set or behind another box', () => {
    expect(ids).toContain('meter')
    const offers = job.offers.map((o) => ({ ...o, kind: 'generator' as const }))
    expect(shelfItems([box], { offers }, rules).map((i) => i.id)).not.toContain('meter')
    const fed = { ...box, fedFrom: { box: 'BX0', run: box.panel.feed, device: box.panel.main } }
    expect(shelfItems([fed], job, rules).map((i) => i.id)).not.toContain('meter')
  })

  test('96 ways hang as three sections of 32, and every circuit ends in exactly one', () => {
    const big = { ...box, panel: { ...box.panel, ways: 96, busA: 400 } }
    const panels = shelfItems([big], job, rules).filter((i) => i.kind === 'panel')
    expect(panels.map((p) => p.id)).toEqual(['panel', 'panel 2', 'panel 3'])
    expect(panels[0]!.what).toContain('32 ways')
    for (const c of box.circuits) expect(panels.filter((p) => p.circuits.includes(c.id))).toHaveLength(1)
  })

  test('staged circuits pass a contactor, each exactly one', () => {
    const staged = { ...box, staging: { ...box.staging, control: 'timers' as const } }
    const boxes = shelfItems([staged], job, rules).filter((i) => i.kind === 'contactors')
    const fed = box.circuits.filter((c) => c.plugs.length > 0)
    expect(boxes.flatMap((b) => b.circuits).toSorted()).toEqual(fed.map((c) => c.id).toSorted())
    for (const b of boxes) expect(b.circuits.length).toBeLessThanOrEqual(24)
  })

  test('a circuit that is spare in one phase and used in another is built', () => {
    const spare = { ...box, phase: 'P0', circuits: box.circuits.map((c) => ({ ...c, plugs: [], own: 'spare' as const })) }
    expect(wholeBuild([spare, box])!.circuits.map((c) => c.plugs)).toEqual(wholeBuild([box])!.circuits.map((c) => c.plugs))
    expect(shelfItems([spare, box], job, rules).map((i) => i.id)).toEqual(shelfItems([box, spare], job, rules).map((i) => i.id))
  })
})
