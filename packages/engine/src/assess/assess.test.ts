import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { type Circuit, type Design, type Job, readJob } from '../job/index.ts'
import { BUILT, type Finding, QUESTIONS, worst } from '../kernel/index.ts'
import { readPrices } from '../parts/index.ts'
import { type PlanResult, plan } from '../plan/index.ts'
import { builtInOverlays } from '../rules/index.ts'
import { type Assessment, assess, rulesOf, type Shop } from './index.ts'

const root = new URL('../../../../', import.meta.url)
const text = (path: string) => readFileSync(new URL(path, root), 'utf8')

const shop: Shop = (() => {
  const prices = readPrices(text('shop/prices/invented-2026.yaml'))
  if (!prices.ok) throw new Error(JSON.stringify(prices.problems))
  return { name: 'test', prices: prices.value, overlays: builtInOverlays }
})()

interface Made {
  readonly job: Job
  readonly design: Design
  readonly assessment: Assessment
  readonly beside: PlanResult['beside']
}

function made(name: string): Made {
  const read = readJob(text(`examples/${name}.yaml`), { file: `${name}.yaml` })
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  const { design, assessment, beside } = plan(read.value, shop)
  return { job: read.value, design, assessment, beside }
}

const MADE = {
  'groomer-yard-us': made('groomer-yard-us'),
  'winter-road-camp-ca': made('winter-road-camp-ca'),
  'fish-farm-shore-intl': made('fish-farm-shore-intl'),
  'moved-box-airstrip-ca': made('moved-box-airstrip-ca'),
}
const yard = MADE['groomer-yard-us']
const camp = MADE['winter-road-camp-ca']
const all = Object.entries(MADE)

describe.each(all)('%s', (_name, { job, design, assessment, beside }) => {
  test('sixteen questions in their order; those that are built have the worst verdict of their findings', () => {
    expect(assessment.questions.map((q) => q.id)).toEqual([...QUESTIONS])
    for (const q of assessment.questions) {
      const own = assessment.findings.filter((f) => f.question === q.id)
      expect(q.verdict).toBe(BUILT.has(q.id) ? worst(own.map((f) => f.verdict)) : 'not built')
      expect(q.findings).toEqual([...new Set(own.map((f) => f.code))])
      expect(own.length > 0).toBe(BUILT.has(q.id))
    }
  })

  test('every code begins with its question', () => {
    expect(assessment.findings.filter((f) => !f.code.startsWith(`${f.question}/`)).map((f) => f.code)).toEqual([])
  })

  test('no two workings have one id, and every working that a finding rests on is there', () => {
    const ids = assessment.workings.map((w) => w.id)
    expect(new Set(ids).size).toBe(ids.length)
    const there = new Set(ids)
    expect(assessment.findings.flatMap((f) => f.workings.filter((w) => !there.has(w)).map((w) => `${f.code}: ${w}`))).toEqual([])
  })

  test('every working has lines, and each line says what it rests on', () => {
    for (const w of assessment.workings) {
      expect(w.steps.length + (w.judgement === undefined ? 0 : 1), w.id).toBeGreaterThan(0)
      for (const s of w.steps) expect(s.rests.place.trim(), `${w.id} ${s.symbol}`).not.toBe('')
    }
  })

  test('what a finding assumes is a value of this job, by a path that names a thing which is there', () => {
    const unknown = assessment.findings.flatMap((f) =>
      f.assumed.filter((path) => !isInput(job, assessment, path)).map((path) => `${f.code}: ${path}`),
    )
    expect([...new Set(unknown)]).toEqual([])
  })

  test('nothing holds or is tight by a number that is not one', () => {
    const bad = assessment.findings.filter(
      (f) =>
        (f.verdict === 'holds' || f.verdict === 'tight') &&
        [f.demand, f.limit].some((p) => typeof p?.value === 'number' && Number.isNaN(p.value)),
    )
    expect(bad.map((f) => `${f.code} ${f.subject}`)).toEqual([])
    expect(assessment.findings.filter((f) => /NaN|undefined|null|\[object|Infinity/.test(f.said)).map((f) => f.said)).toEqual([])
  })

  test('never gives leave to switch on', () => {
    const leave = /\b(safe to|is safe|may be (energi[sz]ed|switched on)|approved for use|go ahead)\b/i
    expect(assessment.findings.filter((f) => leave.test(f.said)).map((f) => f.said)).toEqual([])
  })

  test('the same design twice gives the same bytes, and neither job nor design is touched', () => {
    const before = JSON.stringify([job, design])
    const again = assess(job, design, shop, beside)
    expect(JSON.stringify(again)).toBe(JSON.stringify(assessment))
    expect(JSON.stringify([job, design])).toBe(before)
  })
})

/** Is it an input of this job? Either an assumption as recorded, or a field of a box, offer, row of machines or the site that is there. */
function isInput(job: Job, { assumed, results }: Assessment, path: string): boolean {
  if (assumed.some((a) => a.path === path)) return true
  if (path.startsWith('shop.')) return standsOnShopPage(path.slice('shop.'.length))
  // What a task takes is told under `facts.tasks`, by the name that the chain gives it.
  const task = /^facts\.tasks\.(.+)$/.exec(path)?.[1]
  if (task !== undefined) return results.dates.chain.some((t) => t.id === task)
  const placed = [
    [/^boxes\[(\d+)\]\.(light|heater|fan|control|receptacle|inside-hot|inside-cold|paint)$/, job.boxes.length],
    [
      /^facts\.supply\.offers\[(\d+)\]\.(transformer|generator)\.(x-over-r|impedance|subtransient|boost-excitation|neutral-bond|turbo)$/,
      job.offers.length,
    ],
  ] as const
  for (const [form, count] of placed) {
    const at = form.exec(path)?.[1]
    if (at !== undefined) return Number(at) < count
  }
  const row = /^needs\.machines\.(.+)\.(powerFactor|power-factor|line-neutral-share|leaks-dc)$/.exec(path)?.[1]
  if (row !== undefined) return job.plugs.some((p) => p.row === row)
  return /^facts\.site\.(temporary|frost-depth|ground\.frost-depth|soil\.(resistivity|frozen)|wind\.(pressure-is|level|coefficient|height)|access\.unload)$/.test(
    path,
  )
}

/** What belongs to the shop is a value of its page, `shop/shop.yaml`. */
function standsOnShopPage(path: string): boolean {
  let at: unknown = parse(text('shop/shop.yaml'))
  for (const key of path.split('.')) {
    if (typeof at !== 'object' || at === null || !(key in at)) return false
    at = (at as Record<string, unknown>)[key]
  }
  return true
}

type Box = Design['boxes'][number]
const inBoxes = (design: Design, change: (box: Box) => Box): Design => ({ ...design, boxes: design.boxes.map(change) })
const inCircuits = (design: Design, id: string, change: (circuit: Circuit) => Circuit): Design =>
  inBoxes(design, (b) => ({ ...b, circuits: b.circuits.map((c) => (c.id === id ? change(c) : c)) }))
const circuitOf = (design: Design, plug: string): Circuit => {
  const found = design.boxes.flatMap((b) => b.circuits).find((c) => c.plugs.includes(plug))
  if (found === undefined) throw new Error(plug)
  return found
}

/** What fails in a changed design that did not fail before: `code subject`. */
function newlyFails(
  { job, assessment }: Made,
  changed: Design,
): { readonly keys: readonly string[]; readonly findings: readonly Finding[] } {
  const key = (f: Finding) => `${f.code} ${f.subject}`
  const before = new Set(assessment.findings.filter((f) => f.verdict === 'fails').map(key))
  const findings = assess(job, changed, shop).findings.filter((f) => f.verdict === 'fails' && !before.has(key(f)))
  return { keys: findings.map(key), findings }
}

describe('a design changed by hand', () => {
  const g1c = circuitOf(yard.design, 'G1C')

  test('a cord made thin fails by its ampacity, and no other cord with it', () => {
    const { keys, findings } = newlyFails(
      yard,
      inCircuits(yard.design, g1c.id, (c) => ({ ...c, cords: c.cords.map((cord) => ({ ...cord, size: '18 AWG' })) })),
    )
    expect(keys).toContain('reach/cord-ampacity G1C')
    expect(keys.filter((k) => k.startsWith('reach/cord-ampacity'))).toEqual(['reach/cord-ampacity G1C'])
    // 1500 W on 120 V is 12.5 A; 18 AWG with two loaded conductors carries 10 A in 30 °C (NEC 400.5(A)(1)).
    const found = findings.find((f) => f.code === 'reach/cord-ampacity')
    expect(found?.demand?.value).toBeCloseTo(12.5, 0)
    expect(Number(found?.limit?.value)).toBeLessThanOrEqual(10.4)
    expect(found?.mends[0]?.path).toBe('cords.G1C.size')
  })

  test('a breaker made large no longer protects its wire', () => {
    const { keys } = newlyFails(
      yard,
      inCircuits(yard.design, g1c.id, (c) => ({ ...c, device: { ...c.device, ratingA: 60 } })),
    )
    expect(
      keys.some((k) => k.startsWith('circuits/') && k.endsWith(` ${g1c.id}`)),
      keys.join('; '),
    ).toBe(true)
  })

  test('a breaker made small does not hold its heater', () => {
    const { keys } = newlyFails(
      yard,
      inCircuits(yard.design, g1c.id, (c) => ({ ...c, device: { ...c.device, ratingA: 10 } })),
    )
    expect(
      keys.some((k) => /^circuits\/device-(need|holds)/.test(k)),
      keys.join('; '),
    ).toBe(true)
  })

  test('a wire of 14 AWG behind 20 A fails: 15 A is the most for it', () => {
    expect([g1c.device.ratingA, g1c.run.line.size]).toEqual([20, '12 AWG'])
    const { keys } = newlyFails(
      yard,
      inCircuits(yard.design, g1c.id, (c) => ({ ...c, run: { ...c.run, line: { ...c.run.line, size: '14 AWG' } } })),
    )
    expect(
      keys.some((k) => k.startsWith('circuits/') && k.endsWith(` ${g1c.id}`)),
      keys.join('; '),
    ).toBe(true)
  })

  test('a circuit without a protective conductor fails', () => {
    const { keys } = newlyFails(
      yard,
      inCircuits(yard.design, g1c.id, (c) => ({ ...c, run: { ...c.run, protective: null } })),
    )
    expect(keys).toContain(`circuits/protective ${g1c.id}`)
  })

  test('an outlet without the residual device that the rules ask for fails', () => {
    expect(g1c.shock.kind).toBe('class A')
    const { keys } = newlyFails(
      yard,
      inCircuits(yard.design, g1c.id, (c) => ({ ...c, shock: { kind: 'none', sensitivityMA: null, form: null } })),
    )
    expect(keys).toContain(`circuits/shock ${g1c.id}`)
  })

  test('gear that interrupts less than may flow fails, main, branch and busbar', () => {
    const weak = inBoxes(yard.design, (b) => ({
      ...b,
      panel: { ...b.panel, interruptingKA: 5, main: { ...b.panel.main, interruptingKA: 5 } },
      circuits: b.circuits.map((c) => ({ ...c, device: { ...c.device, interruptingKA: 5 } })),
    }))
    const { keys, findings } = newlyFails(yard, weak)
    expect(keys).toContain('faults/interrupting yard')
    expect(keys).toContain('faults/bus-withstand yard bus')
    expect(keys).toContain('faults/interrupting yard LN 5 kA')
    expect(Number(findings.find((f) => f.code === 'faults/interrupting')?.mends[0]?.value)).toBeGreaterThan(5)
  })

  test('only a panel that interrupts less fails where its main stays strong', () => {
    const { keys } = newlyFails(
      yard,
      inBoxes(yard.design, (b) => ({ ...b, panel: { ...b.panel, interruptingKA: 5 } })),
    )
    expect(keys).toEqual(['faults/bus-withstand yard bus'])
  })

  test('both elements of one groomer on one 20 A way fail', () => {
    const g1h = circuitOf(yard.design, 'G1H')
    const both = inBoxes(yard.design, (b) => ({
      ...b,
      circuits: b.circuits
        .map((c) =>
          c.id === g1c.id
            ? { ...c, plugs: [...c.plugs, 'G1H'], cords: [...c.cords, ...g1h.cords.filter((k) => k.plug === 'G1H')] }
            : c,
        )
        .map((c) =>
          c.id === g1h.id
            ? { ...c, plugs: c.plugs.filter((p) => p !== 'G1H'), cords: c.cords.filter((k) => k.plug !== 'G1H') }
            : c,
        ),
    }))
    const { keys, findings } = newlyFails(yard, both)
    expect(
      keys.some((k) => /^circuits\/(element-sharing|device-holds|device-need)/.test(k) || k === 'needs/two-elements G1'),
      keys.join('; '),
    ).toBe(true)
    expect(
      findings.some((f) => /20\.8/.test(f.said)),
      findings.map((f) => f.said).join('\n'),
    ).toBe(true)
  })

  test('a cord struck out by hand is missed: the machine beyond it is not judged better for it', () => {
    const bare = inCircuits(yard.design, circuitOf(yard.design, 'G4C').id, (c) => ({ ...c, cords: [] }))
    const missed = assess(yard.job, bare, shop).findings.find((f) => f.code === 'circuits/cord-missing')
    expect(missed?.verdict).toBe('unknown')
    expect(missed?.said).toContain('G4C (30 m)')
    expect(yard.assessment.findings.some((f) => f.code === 'circuits/cord-missing')).toBe(false)
  })

  test('a machine on no circuit is found', () => {
    const { keys } = newlyFails(
      yard,
      inCircuits(yard.design, g1c.id, (c) => ({ ...c, plugs: [], cords: [] })),
    )
    expect(keys).toContain('circuits/plugs-fed yard')
  })

  test('a main smaller than what may be on at once fails', () => {
    const { keys } = newlyFails(
      yard,
      inBoxes(yard.design, (b) => ({ ...b, serviceA: 100, panel: { ...b.panel, main: { ...b.panel.main, ratingA: 100 } } })),
    )
    expect(keys).toContain('needs/service-demand yard')
    expect(keys).toContain('circuits/main-holds yard')
  })

  test('a cord for the valley fails in the cold, and the mend is a jacket', () => {
    const { keys } = newlyFails(
      yard,
      inCircuits(yard.design, g1c.id, (c) => ({ ...c, cords: c.cords.map((cord) => ({ ...cord, jacketMinC: -20 })) })),
    )
    expect(keys).toContain('reach/cord-cold G1C')
  })

  test('two neutral bonds on a set fail, in the panel or at the first disconnect', () => {
    const panel = inBoxes(camp.design, (b) => ({ ...b, panel: { ...b.panel, bond: 'neutral bonded here' } }))
    const disconnect = inBoxes(camp.design, (b) => ({ ...b, setBond: 'at the first disconnect' }))
    for (const changed of [panel, disconnect]) {
      const { keys, findings } = newlyFails(camp, changed)
      expect(keys).toContain('supply/neutral-bond camp')
      expect(findings.find((f) => f.code === 'supply/neutral-bond')?.demand?.value).toBe(2)
    }
  })

  test('a panel without the bond wants a protective conductor in its feed, and the bond is looked for at the service', () => {
    const changed = inBoxes(yard.design, (b) => ({ ...b, panel: { ...b.panel, bond: 'neutral not bonded here' } }))
    expect(newlyFails(yard, changed).keys).toEqual(['circuits/feed-protective yard'])
    const bond = assess(yard.job, changed, shop).findings.find((f) => f.code === 'supply/neutral-bond')
    expect(bond?.said).toMatch(/at the service, 1 that count/)
  })

  test('two circuits in one way, or a way that the panel does not have, fail', () => {
    const other = yard.design.boxes[0]!.circuits.find((c) => c.id !== g1c.id && c.ways.length === 1)!
    expect(
      newlyFails(
        yard,
        inCircuits(yard.design, g1c.id, (c) => ({ ...c, ways: other.ways })),
      ).keys.some((k) => k.startsWith('circuits/')),
    ).toBe(true)
    expect(
      newlyFails(
        yard,
        inCircuits(yard.design, g1c.id, (c) => ({ ...c, ways: [999] })),
      ).keys.some((k) => k.startsWith('circuits/')),
    ).toBe(true)
  })
})

describe('what nobody said', () => {
  const verdicts = (job: Job, code: string, design = yard.design) =>
    new Set(
      assess(job, design, shop)
        .findings.filter((f) => f.code === code)
        .map((f) => f.verdict),
    )

  test('no cold of the place: neither cords nor residual devices are said to stand it', () => {
    const job: Job = { ...yard.job, site: { ...yard.job.site, designMinC: null, extremeMinC: null } }
    for (const code of ['reach/cord-cold', 'faults/residual-cold'])
      expect(
        [...verdicts(job, code)].filter((v) => v === 'holds' || v === 'tight'),
        code,
      ).toEqual([])
  })

  test('no transformer and no fault level in writing: gear is judged by more than with one, and the assumption is named', () => {
    const offers = yard.job.offers.map(({ transformer: _, faultA: __, ...offer }) => offer)
    const untold = assess({ ...yard.job, offers }, yard.design, shop).findings.filter((f) => f.code === 'faults/interrupting')
    expect(untold.length).toBeGreaterThan(0)
    for (const f of untold) {
      const told = yard.assessment.findings.find((other) => other.code === f.code && other.subject === f.subject)
      expect(f.assumed, f.subject).toContain('facts.supply.offers[0].transformer')
      expect(Number(f.demand?.value), f.subject).toBeGreaterThan(Number(told?.demand?.value))
    }
  })

  test('no date of order: whether the supply comes in time is unknown', () => {
    const job: Job = { ...yard.job, needs: { ...yard.job.needs, orderDate: null, daysToNeed: null } }
    expect([...verdicts(job, 'supply/ready')]).toEqual(['unknown'])
  })

  test('no lead time: whether the supply comes in time is unknown', () => {
    const job: Job = { ...yard.job, offers: yard.job.offers.map((o) => ({ ...o, leadDays: null })) }
    expect([...verdicts(job, 'supply/ready')]).toEqual(['unknown'])
  })
})

describe('overlays', () => {
  const code = (make: () => unknown): string => {
    try {
      make()
    } catch (thrown) {
      return (thrown as { code: string }).code
    }
    return 'nothing thrown'
  }
  const under = (job: Job, ...overlays: string[]): Job => ({ ...job, rules: { ...job.rules, overlays } })

  test('one that the shop does not have is refused, before anything is answered', () => {
    expect(code(() => assess(under(yard.job, 'nobody-knows'), yard.design, shop))).toBe('assess/overlay-unknown')
    expect(code(() => rulesOf(under(yard.job, 'nobody-knows'), shop))).toBe('assess/overlay-unknown')
  })

  test('one of another set of rules is refused', () => {
    expect(code(() => assess(under(yard.job, 'uk'), yard.design, shop))).toBe('rules/overlay-set')
  })

  test('one that belongs changes the rules that are asked', () => {
    const fish = MADE['fish-farm-shore-intl']
    const [plain, uk] = [rulesOf(fish.job, shop), rulesOf(under(fish.job, 'uk'), shop)]
    expect(uk).not.toBe(plain)
    expect(JSON.stringify(assess(under(fish.job, 'uk'), fish.design, shop))).not.toBe(JSON.stringify(fish.assessment))
  })
})
