import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { designAir } from '../air/index.ts'
import { boxBody } from '../box/index.ts'
import { type BoxBuild, type BoxDesign, type Job, type Opening, readJob } from '../job/index.ts'
import { readPrices, TUBES } from '../parts/index.ts'
import { plan } from '../plan/index.ts'
import { builtInOverlays, rulesFor } from '../rules/index.ts'
import { answerSkin } from './answer.ts'
import { designSkin } from './design.ts'
import { ENTRIES, entriesInRow, entryFor } from './entry.ts'
import { tubeSection } from './frame.ts'
import { betweenMm, onSide, struckBy } from './opening.ts'
import { animalsThrough, reachThrough } from './passes.ts'
import { plateFor } from './plate.ts'

const root = new URL('../../../../', import.meta.url)
const text = (path: string) => readFileSync(new URL(path, root), 'utf8')
const prices = readPrices(text('shop/prices/invented-2026.yaml'))
if (!prices.ok) throw new Error('prices')
const shop = { name: 'test', prices: prices.value, overlays: builtInOverlays }

const noFit = { items: [], strut: [], raceways: [], bonds: [], search: null, clashes: [] }
const jobs = new Map<string, { readonly job: Job; readonly boxes: readonly BoxDesign[] }>()
function example(name: string) {
  const had = jobs.get(name)
  if (had !== undefined) return had
  const read = readJob(text(`examples/${name}.yaml`), { file: name })
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  const made = { job: read.value, boxes: plan(read.value, shop).design.boxes }
  jobs.set(name, made)
  return made
}

function judged(name: string, change: (o: readonly Opening[]) => readonly Opening[] = (o) => o, more: Partial<Job> = {}) {
  const { job: written, boxes } = example(name)
  const job = { ...written, ...more }
  const rules = rulesFor(job.rules.set, {})
  const bodies = Object.fromEntries(job.boxes.map((b) => [b.id, boxBody(b, null)]))
  const builds: BoxBuild[] = job.boxes.map((b) => {
    const own = { body: bodies[b.id]!, designs: boxes.filter((d) => d.box === b.id) }
    const air = designAir({ job, ...own })
    const skin = designSkin({
      ...own,
      rules: rules.build,
      pins: job.pins,
      vents: air.vents,
      foam: false,
      snowDepthM: job.yard.snow.depthM,
      racewayMm: () => 17.9,
      outletMm: () => ({ widthMm: 120, heightMm: 120 }),
    })
    return { box: b.id, fit: noFit, air, skin: { ...skin, openings: change(skin.openings) }, haul: {} as never }
  })
  return answerSkin({ job, design: { boxes, builds, pinned: [] }, rules, bodies })
}

describe('openings of a box, whatever its length', () => {
  const { boxes } = example('two-machines')
  const rules = rulesFor('us', {}).build
  const designed = (lengthFt: number, heightKind: 'standard' | 'high') => {
    const body = boxBody({ ...example('two-machines').job.boxes[0]!, lengthFt, heightKind }, null)
    return {
      body,
      skin: designSkin({
        body,
        designs: boxes,
        rules,
        pins: [],
        vents: designAir({ job: example('two-machines').job, body, designs: boxes }).vents,
        foam: false,
        snowDepthM: 0,
        racewayMm: () => 17.9,
        outletMm: () => ({ widthMm: 120, heightMm: 120 }),
      }),
    }
  }
  const any = fc.record({
    lengthFt: fc.integer({ min: 8, max: 53 }),
    heightKind: fc.constantFrom('standard' as const, 'high' as const),
  })

  test('none cuts a post, a rail or a header', () => {
    fc.assert(
      fc.property(any, ({ lengthFt, heightKind }) => {
        const { body, skin } = designed(lengthFt, heightKind)
        for (const o of skin.openings) expect(struckBy(body, o), `${o.id} of ${lengthFt} ft`).toEqual([])
      }),
    )
  })

  test('no two overlap', () => {
    fc.assert(
      fc.property(any, ({ lengthFt, heightKind }) => {
        const { skin } = designed(lengthFt, heightKind)
        skin.openings.forEach((a, i) => {
          for (const b of skin.openings.slice(i + 1))
            if (a.side === b.side) expect(betweenMm(onSide(a), onSide(b)), `${a.id} ${b.id}`).toBeGreaterThan(0)
        })
      }),
    )
  })
})

describe('what is said of the examples', () => {
  test('an outside receptacle for every cord, where the rule set lets it', () => {
    const { result } = judged('groomer-yard-us')
    const exits = result.boxes[0]!.exits
    expect(exits.filter((e) => e.way === 'outside receptacle')).toHaveLength(27)
    expect(exits.filter((e) => e.opening === 'none')).toEqual([])
  })

  test('snow of 2.8 m over exits that a hand reaches is not known to be clear, until somebody ploughs', () => {
    const before = judged('groomer-yard-us').findings.find((f) => f.code === 'skin/exit-height')!
    expect(before.verdict).toBe('unknown')
    expect(before.said).toContain('2.8 m')
    const pin = { path: 'skin.yard.ploughed', value: true, by: 'test', why: 'test' }
    const after = judged('groomer-yard-us', undefined, { pins: [pin] }).findings.filter((f) => f.code === 'skin/exit-height')
    expect(after.map((f) => f.verdict)).toEqual(['holds'])
  })

  test('the box that stands on the airstrip has its exits under the snow', () => {
    const found = judged('moved-box-airstrip-ca').findings.find((f) => f.code === 'skin/built-exit-height')!
    expect(found.verdict).toBe('fails')
    expect(found.said).toMatch(/0\.45 m up; snow lies 1\.1 m deep/)
  })

  test('a door moved into the corner post is named with its millimetres', () => {
    const moved = judged('groomer-yard-us', (all) =>
      all.map((o) => (o.id === 'door 1' ? { ...o, atMm: [o.atMm[0] + 1300, o.atMm[1], o.atMm[2]] as const } : o)),
    )
    const cut = moved.findings.find((f) => f.code === 'skin/member-cut' && f.verdict === 'fails')!
    expect(cut.said).toMatch(/would cut the corner post .* by \d+ mm/)
    expect(moved.findings.find((f) => f.code === 'skin/post-clear' && f.verdict === 'fails')).toBeDefined()
  })

  test('a vent without its mesh lets mice in and a hand reach', () => {
    const open = judged('groomer-yard-us', (all) => all.map((o) => (o.use === 'vent' ? { ...o, meshMm: null } : o)))
    expect(open.findings.find((f) => f.code === 'skin/pests' && f.verdict === 'fails')!.said).toContain('mouse')
    expect(open.findings.find((f) => f.code === 'skin/tightness')!.verdict).toBe('fails')
  })

  test('a hole that is larger than a flat must say so', () => {
    const wide = judged('groomer-yard-us', (all) =>
      all.map((o) => (o.id === 'exit G1C' ? { ...o, widthMm: 90, heightMm: 90 } : o)),
    )
    expect(wide.findings.find((f) => f.code === 'skin/class' && f.verdict === 'fails')!.said).toMatch(/90 mm .* needs collar/)
  })

  test('cords through glands wait for written acceptance in us', () => {
    const pin = { path: 'skin.yard.way', value: 'gland plate', by: 'test', why: 'test' }
    const found = judged('groomer-yard-us', undefined, { pins: [pin] })
    expect(found.findings.find((f) => f.code === 'skin/cord-rule')!.verdict).toBe('unknown')
    expect(found.findings.filter((f) => f.code === 'skin/exit-missing')).toEqual([])
    const entries = found.result.boxes[0]!.exits.filter((e) => e.way === 'gland plate')
    expect(entries.every((e) => e.thread !== null)).toBe(true)
  })

  test('a box whose build was not worked out answers unknown', () => {
    const { job, boxes } = example('two-machines')
    const found = answerSkin({ job, design: { boxes, builds: [], pinned: [] }, rules: rulesFor('us', {}), bodies: {} }).findings
    expect(found.map((f) => [f.code, f.verdict])).toEqual([['skin/not-designed', 'unknown']])
  })
})

describe('entries', () => {
  test('a cord thicker than any gland finds none', () => {
    expect(entryFor({ low: 46, high: 50 }).value.chosen).toBeNull()
    expect(plateFor([{ plug: 'X', cordMm: { low: 46, high: 50, basis: '', told: false } }])).toEqual({
      plate: null,
      without: [{ plug: 'X', cordMm: { low: 46, high: 50, basis: '', told: false }, widestMm: 45 }],
    })
  })

  test('entries of a plate keep 3 mm between locknuts and 15 mm from the edge, for any cords', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 5, max: 40 }), { minLength: 1, maxLength: 20 }), (ods) => {
        const { plate } = plateFor(
          ods.map((od, i) => ({ plug: `P${i}`, cordMm: { low: od * 0.98, high: od * 1.02, basis: '', told: false } })),
        )
        if (plate === null) return
        const round = plate.entries.map((e) => ({ ...e, r: 0.625 * ENTRIES.find((s) => s.thread === e.thread)!.threadMm }))
        round.forEach((a, i) => {
          expect(
            Math.min(a.uMm - a.r, a.vMm - a.r, plate.widthMm - a.uMm - a.r, plate.heightMm - a.vMm - a.r),
          ).toBeGreaterThanOrEqual(15 - 1e-9)
          for (const b of round.slice(i + 1))
            expect(Math.hypot(a.uMm - b.uMm, a.vMm - b.vMm)).toBeGreaterThanOrEqual(a.r + b.r + 3 - 1e-9)
        })
      }),
    )
  })

  test('a row too narrow for one entry holds none', () => {
    expect(entriesInRow({ widthMm: 60, edgeMm: 15, acrossMm: 40, gapMm: 3 }).value.count).toBe(0)
    expect(entriesInRow({ widthMm: 70, edgeMm: 15, acrossMm: 40, gapMm: 3 }).value.count).toBe(1)
  })
})

describe('frames and gaps', () => {
  test('the stiffness of a tube is the difference of two squares by the closed form of a solid one', () => {
    for (const t of TUBES) {
      const solid = (b: number) => b ** 4 / 12
      expect(tubeSection(t).value.inertiaMm4).toBeCloseTo(solid(t.bMm) - solid(t.bMm - 2 * t.tMm), 6)
    }
  })

  test('a wider gap lets at least as much through', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 200 }), fc.integer({ min: 0, max: 200 }), (a, b) => {
        const [small, large] = a <= b ? [a, b] : [b, a]
        expect(animalsThrough(large).length).toBeGreaterThanOrEqual(animalsThrough(small).length)
        expect(reachThrough(large).farMm).toBeGreaterThanOrEqual(reachThrough(small).farMm)
      }),
    )
  })
})
