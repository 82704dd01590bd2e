import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { rulesOf, type Shop } from '../../assess/index.ts'
import { type Job, readJob, type Wire, wirewayPieces, wirewayRuns, wirewaySections } from '../../job/index.ts'
import { readPrices } from '../../parts/index.ts'
import { plan } from '../../plan/index.ts'
import { builtInOverlays, type RuleSet } from '../../rules/index.ts'

const root = new URL('../../../../../', import.meta.url)
const text = (path: string) => readFileSync(new URL(path, root), 'utf8')
const prices = readPrices(text('shop/prices/invented-2026.yaml'))
if (!prices.ok) throw new Error(JSON.stringify(prices.problems))
const shop: Shop = { name: 'test', prices: prices.value, overlays: builtInOverlays }
const read = readJob(text('examples/bus-pool-lot-ca.yaml'), { file: 'bus-pool-lot-ca' })
if (!read.ok) throw new Error(JSON.stringify(read.problems))
const job: Job = read.value
const planned = plan(job, shop)
const [{ fit }] = planned.design.builds as [(typeof planned.design.builds)[number]]
const [box] = planned.design.boxes as [(typeof planned.design.boxes)[number]]
const rules = rulesOf(job, shop)
const pieces = wirewayPieces(fit.items)

describe('bus lot, a full wall', () => {
  test('a wireway lies along three walls and every circuit is led', () => {
    expect(pieces.map((p) => p.side).toSorted()).toEqual(['blind end', 'left', 'right'])
    expect(planned.assessment.findings.filter((f) => f.code === 'fit/route')).toEqual([])
  })

  test('it passes through nothing that hangs', () => {
    const overlapMm = (a: (typeof pieces)[number], b: typeof a) =>
      Math.min(
        ...[0, 1, 2].map(
          (k) => Math.min(a.atMm[k]! + a.sizeMm[k]!, b.atMm[k]! + b.sizeMm[k]!) - Math.max(a.atMm[k]!, b.atMm[k]!),
        ),
      )
    for (const piece of pieces)
      for (const other of fit.items)
        if (other.kind !== 'wireway') expect(overlapMm(piece, other), `${piece.id} ${other.id}`).toBeLessThanOrEqual(1e-6)
  })

  test('it lies over the cabinets of its wall, nearer than a nipple counts', () => {
    const on = pieces.find((p) => fit.items.some((i) => i.kind === 'panel' && i.side === p.side))!
    const tops = fit.items
      .filter((i) => (i.kind === 'panel' || i.kind === 'contactors') && i.side === on.side && i.face === 'inside')
      .map((i) => i.atMm[2] + i.sizeMm[2])
    expect(tops.length).toBeGreaterThan(1)
    for (const top of tops) expect(on.atMm[2]).toBeGreaterThan(top)
    expect(on.atMm[2] - Math.max(...tops)).toBeLessThan(600)
  })

  // CE Code Rule 12-2104: 20 % of the section; NEC 376.22(A) the same. Provenance: memory
  test('wires take a fifth of its section at most, added up here conductor by conductor', () => {
    // Sides by the trade's sizes, in inches: the smallest of them that takes the wires.
    const inches = [4, 6, 8]
    const side = inches.find((n) => pieces[0]!.part === `wireway ${n}x${n}`)!
    const sectionMm2 = (25.4 * side) ** 2
    const area = (w: Wire | null, count: number) => (w === null ? 0 : count * rules.wireAreaMm2(w).value)
    const sections = wirewaySections(wirewayRuns(fit))
    expect(sections.length).toBeGreaterThan(5)
    const sums = sections.map((s) =>
      s.circuits.reduce((sum, id) => {
        const c = box.circuits.find((x) => x.id === id)!
        return sum + area(c.run.line, c.legs.length) + area(c.run.neutral, 1) + area(c.run.protective, 1)
      }, 0),
    )
    for (const p of pieces) expect(p.part).toBe(pieces[0]!.part)
    expect(Math.max(...sums)).toBeLessThanOrEqual(0.2 * sectionMm2)
    // The next smaller would not do.
    const smaller = inches[inches.indexOf(side) - 1] ?? 0
    expect(Math.max(...sums)).toBeGreaterThan(0.2 * (25.4 * smaller) ** 2)
  })

  test('no wire in it is judged as if it lay alone', () => {
    const most = wirewaySections(wirewayRuns(fit)).toSorted((a, b) => b.circuits.length - a.circuits.length)[0]!
    expect(most.circuits.length).toBeGreaterThan(20)
    expect(planned.assessment.findings.filter((f) => f.verdict === 'fails' && f.question === 'circuits')).toEqual([])
    // CE Code Table 5C: 43 and more conductors carry half of what three do. Provenance: memory
    const [id] = most.circuits
    const working = planned.assessment.workings.find((w) => w.id === `${id}/circuits-conditions`)!
    expect(working.steps.map((s) => s.result)).toContain(0.5)
  })

  test('the order of rows in the job changes nothing', () => {
    const turned = plan({ ...job, plugs: job.plugs.toReversed() }, shop)
    expect(turned.design.builds[0]!.fit).toEqual(fit)
  })
})

// NEC 376.22(A), CE Code 12-2104: 20 %; NEC 376.22(B): 30 conductors lie as if alone; guidance to BS 7671: space factor 45 %. Provenance: memory
test.each([
  ['us', 0.2, 30],
  ['ca', 0.2, 3],
  ['intl', 0.45, 0],
] as const)('%s: share of the section and how many lie as if alone', (id, share, uncounted) => {
  const set: RuleSet = rulesOf({ ...job, rules: { ...job.rules, set: id } } as Job, shop)
  expect(set.id).toBe(id)
  expect(set.wireway.fillFrac.value).toBe(share)
  expect(set.wireway.uncountedTo.value).toBe(uncounted)
})
