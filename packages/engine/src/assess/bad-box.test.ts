/**
 * What cannot be built is said with both numbers, never drawn as if it could. Each row spoils one thing of a small sound job; what the
 * same job says unspoilt is checked beside it.
 */
import { readFileSync } from 'node:fs'
import { beforeAll, describe, expect, test } from 'vitest'
import { type BoxBuild, type Design, type Job, type Opening, type PlacedItem, readJob } from '../job/index.ts'
import { readPrices } from '../parts/index.ts'
import { plan } from '../plan/index.ts'
import { builtInOverlays } from '../rules/index.ts'
import { cutPlan } from '../shop/index.ts'
import { assess } from './assess.ts'
import type { Assessment, Shop } from './types.ts'

const root = new URL('../../../../', import.meta.url)
const text = (path: string) => readFileSync(new URL(path, root), 'utf8')

let shop: Shop
let job: Job
let design: Design
let sound: Assessment

beforeAll(() => {
  const prices = readPrices(text('shop/prices/invented-2026.yaml'))
  const read = readJob(text('examples/two-machines.yaml'), { file: 'two-machines.yaml' })
  if (!prices.ok || !read.ok) throw new Error('the example cannot be read')
  shop = { name: 'test', prices: prices.value, overlays: builtInOverlays }
  job = read.value
  design = plan(job, shop).design
  sound = assess(job, design, shop)
})

function spoilt(change: (b: BoxBuild) => BoxBuild, more: Partial<Job> = {}, by: Shop = shop): Assessment {
  return assess({ ...job, ...more }, { ...design, builds: design.builds.map(change) }, by)
}

const found = (a: Assessment, code: string) => a.findings.filter((f) => f.code === code && f.verdict === 'fails')

const withItem = (b: BoxBuild, kind: PlacedItem['kind'], change: (i: PlacedItem) => PlacedItem): BoxBuild => ({
  ...b,
  fit: { ...b.fit, items: b.fit.items.map((i) => (i.kind === kind ? change(i) : i)) },
})

const withOpening = (b: BoxBuild, id: string, change: (o: Opening) => Opening): BoxBuild => ({
  ...b,
  skin: { ...b.skin, openings: b.skin.openings.map((o) => (o.id === id ? change(o) : o)) },
})

describe('what cannot be built', () => {
  test('a panel of 4 m in a box of 3 m', () => {
    const a = spoilt((b) => withItem(b, 'panel', (i) => ({ ...i, sizeMm: [4000, i.sizeMm[1], i.sizeMm[2]] })), {
      boxes: job.boxes.map((b) => ({ ...b, lengthFt: 10 })),
    })
    expect(found(sound, 'fit/inside-box')).toEqual([])
    const [first] = found(a, 'fit/inside-box').filter((f) => /panel/.test(f.subject))
    expect(first!.said).toMatch(/takes 4000 mm along the box, .* has 28\d\d mm/)
  })

  test('two things in one place', () => {
    const a = spoilt((b) => {
      const panel = b.fit.items.find((i) => i.kind === 'panel')!
      return withItem(b, 'controls', (i) => ({ ...i, atMm: panel.atMm }))
    })
    expect(found(sound, 'fit/overlap')).toEqual([])
    expect(found(a, 'fit/overlap')[0]!.said).toMatch(/controls and panel stand \d+ mm in each other/)
  })

  test('a thing that hangs on nothing', () => {
    const a = spoilt((b) => withItem(b, 'panel', (i) => ({ ...i, hangsOn: [] })))
    expect(found(sound, 'fit/strut-held')).toEqual([])
    expect(found(a, 'fit/strut-held').map((f) => f.subject)).toContainEqual(expect.stringContaining('panel'))
  })

  test('an opening through a post', () => {
    const a = spoilt((b) => withOpening(b, 'door 1', (o) => ({ ...o, atMm: [150, o.atMm[1], o.atMm[2]] })))
    expect(found(sound, 'skin/member-cut')).toEqual([])
    expect(found(a, 'skin/member-cut')[0]!.said).toMatch(/would cut the corner post .* by \d+ mm/)
  })

  test('two openings in one another', () => {
    const a = spoilt((b) => {
      const door = b.skin.openings.find((o) => o.id === 'door 1')!
      return withOpening(b, 'vent low', (o) => ({ ...o, side: door.side, atMm: door.atMm }))
    })
    expect(found(sound, 'skin/between')).toEqual([])
    expect(found(a, 'skin/between')[0]!.said).toMatch(/overlap by \d+ mm/)
  })

  test('a cord thicker than any gland', () => {
    const pins = [{ path: `skin.${job.boxes[0]!.id}.way`, value: 'gland plate', by: 'test', why: 'test' }]
    const boxes = design.boxes.map((b) => ({
      ...b,
      circuits: b.circuits.map((c) => ({
        ...c,
        cords: c.cords.map((cord) => ({ ...cord, size: '2 AWG' })),
        connection: 'LLLN' as const,
      })),
    }))
    const plugs = Object.fromEntries(Object.keys(design.builds[0]!.skin.exitWays).map((p) => [p, 'gland plate' as const]))
    const builds = design.builds.map((b) => ({ ...b, skin: { ...b.skin, exitWays: plugs } }))
    const a = assess({ ...job, pins }, { ...design, boxes, builds }, shop)
    const gland = a.findings.find((f) => f.code === 'skin/gland')!
    expect(['fails', 'unknown']).toContain(gland.verdict)
    expect(gland.said).toMatch(/2 AWG|the widest gland clamps 45 mm/)
    // Its network has no solution: the heat of its gear is not known, and nothing of the air is taken for granted.
    expect(a.questions.find((q) => q.id === 'air')?.verdict).toBe('unknown')
  })

  test('a raceway shorter on paper than on the wall', () => {
    const boxes = design.boxes.map((b) => ({
      ...b,
      circuits: b.circuits.map((c) => ({ ...c, run: { ...c.run, lengthM: 0.5 } })),
    }))
    const a = assess(job, { ...design, boxes }, shop)
    expect(found(sound, 'fit/run-length')).toEqual([])
    expect(found(a, 'fit/run-length')[0]!.said).toMatch(/[\d.]+ m are laid; volts and faults were judged by 0\.5 m/)
  })

  test('a circuit that no raceway leads', () => {
    const a = spoilt((b) => ({ ...b, fit: { ...b.fit, raceways: b.fit.raceways.slice(1) } }))
    expect(found(sound, 'fit/route')).toEqual([])
    expect(found(a, 'fit/route').length + found(a, 'shop/wires').length).toBeGreaterThan(0)
  })

  test('a saw whose cut somebody typed as 0', () => {
    const a = spoilt((b) => b, {}, { ...shop, factors: { kerfMm: 0 } })
    expect(sound.findings.map((f) => f.code)).not.toContain('shop/cut-no-kerf')
    expect(a.findings.find((f) => f.code === 'shop/cut-no-kerf')!.said).toMatch(/0 mm/)
  })

  test('stock shorter than a part', () => {
    const cut = cutPlan({
      stocks: [{ id: 'bar', lengthMm: 3048, costMoney: null, count: null }],
      kerfMm: 3,
      trimMm: 0,
      pieces: [{ id: 'rail', label: 'rail', lengthMm: 3100, count: 1 }],
    })
    expect(cut.outcome).not.toBe('whole')
    expect(JSON.stringify(cut.lacks)).toMatch(/3100/)
    expect(JSON.stringify(cut.lacks)).toMatch(/3048/)
  })

  test('a rib pitch that somebody measured as 0', () => {
    const document = `${text('examples/two-machines.yaml')}`.replace(
      'facts:',
      'facts:\n  surveys: [{ box: yard, rib-pitch: 0 mm }]',
    )
    const read = readJob(document, { file: 'x.yaml' })
    expect(read.ok).toBe(false)
    if (!read.ok) expect(JSON.stringify(read.problems)).toMatch(/rib-pitch.*0 mm.*50 to 600 mm|50 to 600 mm/)
  })
})
