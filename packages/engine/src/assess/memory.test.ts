import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { boxBody } from '../box/index.ts'
import { answerFit } from '../fit/index.ts'
import { type BoxDesign, type Design, type Job, jobAsDesigned, type Plug, readJob } from '../job/index.ts'
import { type Memory, newMemory } from '../kernel/index.ts'
import { plan } from '../plan/index.ts'
import { answerSkin } from '../skin/index.ts'
import { assess, readShop, rulesOf, type Shop } from './index.ts'

const root = new URL('../../../../', import.meta.url)
const text = (path: string) => readFileSync(new URL(path, root), 'utf8')
const shop: Shop = (() => {
  const read = readShop((path) => ({ ok: true, value: text(`shop/${path}`) }))
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return read.value
})()
const jobOf = (name: string): Job => {
  const read = readJob(text(`examples/${name}.yaml`), { file: name })
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return read.value
}

const inBoxes = (design: Design, change: (box: BoxDesign) => BoxDesign): Design => ({
  ...design,
  boxes: design.boxes.map(change),
})

const withPlugs = (job: Job, change: (plug: Plug) => Partial<Plug>): Job => ({
  ...job,
  plugs: job.plugs.map((p) => ({ ...p, ...change(p) })),
})

/** One thing after another, as a person changes them; each from what the one before left. */
const ACTS: readonly (readonly [string, (job: Job, design: Design) => readonly [Job, Design]])[] = [
  ['nothing', (job, design) => [job, structuredClone(design)]],
  [
    'a cord longer by 20 m',
    (job, design) => [
      job,
      inBoxes(design, (b) => ({
        ...b,
        circuits: b.circuits.map((c) => ({
          ...c,
          cords: c.cords.map((k, i) => (i === 0 ? { ...k, lengthM: k.lengthM + 20 } : k)),
        })),
      })),
    ],
  ],
  ['another place', (job, design) => [{ ...job, yard: { ...job.yard, snow: { ...job.yard.snow, groundLoadPa: 1000 } } }, design]],
  [
    'a larger breaker',
    (job, design) => [
      job,
      inBoxes(design, (b) => ({
        ...b,
        circuits: b.circuits.map((c, i) => (i === 0 ? { ...c, device: { ...c.device, ratingA: 63 } } : c)),
      })),
    ],
  ],
  [
    'a raceway out of the wall',
    (job, design) => [
      job,
      { ...design, builds: design.builds.map((b) => ({ ...b, fit: { ...b.fit, raceways: b.fit.raceways.slice(1) } })) },
    ],
  ],
  [
    'a machine that takes more',
    (job, design) => [withPlugs(job, (p) => ({ powerW: p.powerW * 1.1, currentA: p.currentA * 1.1 })), design],
  ],
  ['longer days', (job, design) => [withPlugs(job, (p) => ({ hoursPerDay: p.hoursPerDay + 1 })), design]],
  ['wet soil', (job, design) => [{ ...job, site: { ...job.site, frostDepthM: { ...job.site.frostDepthM, high: 2 } } }, design]],
  ['growth', (job, design) => [{ ...job, needs: { ...job.needs, growthFrac: job.needs.growthFrac + 0.1 } }, design]],
  ['a box without a build', (job, design) => [job, { ...design, builds: design.builds.slice(1) }]],
]

describe.each(['groomer-yard-us', 'two-machines', 'desert-quarry-intl'])('%s', (name) => {
  const planned = jobOf(name)
  const { design: first } = plan(planned, shop)

  test('with a memory every act ends in the same answers, to the byte, as without', () => {
    const memory = newMemory()
    let [job, design] = [planned, first]
    for (const [act, change] of ACTS) {
      ;[job, design] = change(job, design)
      const [fresh, kept] = [assess(job, design, shop), assess(job, design, shop, { memory })]
      expect(JSON.stringify(kept), act).toBe(JSON.stringify(fresh))
    }
    // Each act is answered twice, a year of hours among it.
  }, 300_000)

  test('no length of a cord is seen by what hangs on the wall or what is cut in it', () => {
    const job = jobAsDesigned(planned, first)
    const bodies = Object.fromEntries(job.boxes.map((b) => [b.id, boxBody(b, job.surveys.find((s) => s.box === b.id) ?? null)]))
    const inputs = { job, design: first, rules: rulesOf(job, shop), prices: shop.prices, bodies }
    const { results } = assess(planned, first, shop)
    expect(JSON.stringify(answerFit(inputs).result)).toBe(JSON.stringify(results.fit))
    expect(JSON.stringify(answerSkin(inputs).result)).toBe(JSON.stringify(results.skin))
  })
})

/** A memory, and the names of what it had to answer anew. */
function watchedMemory(): { readonly memory: Memory; readonly answered: string[] } {
  const kept = newMemory()
  const answered: string[] = []
  const recall: Memory['recall'] = (name, reads, answer) =>
    kept.recall(name, reads, (r) => {
      answered.push(name)
      return answer(r)
    })
  return { memory: { settle: kept.settle, recall }, answered }
}

test('in whatever order acts are done and undone, a memory gives what none gives', () => {
  const job = jobOf('two-machines')
  const { design } = plan(job, shop)
  fc.assert(
    fc.property(fc.array(fc.subarray([...ACTS.keys()], { maxLength: 3 }), { minLength: 2, maxLength: 4 }), (turns) => {
      const memory = newMemory()
      for (const acts of turns) {
        let [j, d] = [job, design]
        for (const n of acts) [j, d] = ACTS[n]![1](j, d)
        expect(JSON.stringify(assess(j, d, shop, { memory }))).toBe(JSON.stringify(assess(j, d, shop)))
      }
    }),
    { numRuns: 12, seed: 7 },
  )
})

test('a machine that takes more moves neither what is cut in the wall nor how the box is hauled', () => {
  const job = jobOf('two-machines')
  const { design } = plan(job, shop)
  const { memory, answered } = watchedMemory()
  assess(job, design, shop, { memory })
  answered.length = 0
  assess(
    withPlugs(job, (p) => ({ hoursPerDay: p.hoursPerDay + 1 })),
    design,
    shop,
    { memory },
  )
  expect(answered).toContain('needs')
  expect(answered.filter((name) => /^(bodies|fit|skin|haul|shop|cuts)/.test(name))).toEqual([])
})

test('a machine moved in the yard answers again what its cord reaches, and leaves the wall and its cutting plans alone', () => {
  const job = jobOf('groomer-yard-us')
  const { design } = plan(job, shop)
  const { memory, answered } = watchedMemory()
  assess(job, design, shop, { memory })
  answered.length = 0
  assess(job, structuredClone(design), shop, { memory })
  expect(answered).toEqual([])
  const longer = inBoxes(design, (b) => ({
    ...b,
    circuits: b.circuits.map((c) => ({ ...c, cords: c.cords.map((k) => ({ ...k, lengthM: k.lengthM + 1 })) })),
  }))
  assess(job, longer, shop, { memory })
  expect(answered).toContain('reach')
  expect(answered.filter((name) => /^(rules|bodies|steel|fit|skin|cuts)/.test(name))).toEqual([])
})
