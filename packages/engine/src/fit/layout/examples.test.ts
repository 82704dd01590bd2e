import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { designAir } from '../../air/index.ts'
import { rulesOf, type Shop } from '../../assess/index.ts'
import { boxBody } from '../../box/index.ts'
import { readJob } from '../../job/index.ts'
import { readPrices, receptaclePart } from '../../parts/index.ts'
import { designOf } from '../../plan/design.ts'
import { NOTHING_GROWN } from '../../plan/grow.ts'
import { optionsOf } from '../../plan/options.ts'
import { builtInOverlays } from '../../rules/index.ts'
import { designSkin } from '../../skin/index.ts'
import { outsideMm } from '../routes/outside.ts'
import { type FitRequest, layoutFor } from './design.ts'
import { routesMoney, type Tariff } from './money.ts'
import type { Spot } from './plan-of.ts'
import { overlapMm } from './solid.ts'

const root = new URL('../../../../../', import.meta.url)
const text = (path: string) => readFileSync(new URL(path, root), 'utf8')
const prices = readPrices(text('shop/prices/invented-2026.yaml'))
if (!prices.ok) throw new Error(JSON.stringify(prices.problems))
const shop: Shop = { name: 'test', prices: prices.value, overlays: builtInOverlays }

const EXAMPLES = [
  'bus-pool-lot-ca',
  'desert-quarry-intl',
  'fish-farm-shore-intl',
  'groomer-yard-us',
  'moved-box-airstrip-ca',
  'two-machines',
  'waterworks-extension-us',
  'winter-road-camp-ca',
]

/** Every box of an example as its first supply asks for it, with and without its openings. */
function requests(name: string): readonly FitRequest[] {
  const read = readJob(text(`examples/${name}.yaml`), { file: name })
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  const job = read.value
  const rules = rulesOf(job, shop)
  const system = rules.systems.find((x) => x.id === job.system)!
  const [option] = optionsOf(job, rules, system).options
  const design = designOf(job, shop, rules, option!, NOTHING_GROWN)
  return job.boxes.flatMap((box) => {
    const designs = design.boxes.filter((b) => b.box === box.id)
    if (designs.length === 0) return []
    const body = boxBody(box, job.surveys.find((s) => s.box === box.id) ?? null)
    const skin = designSkin({
      body,
      designs,
      rules: rules.build,
      pins: job.pins,
      vents: designAir({ job, body, designs }).vents,
      foam: false,
      snowDepthM: null,
      racewayMm: outsideMm,
      outletMm: (c) => receptaclePart(c, rules),
    })
    return [null, skin].map((s) => ({ job, designs, body, skin: s, rules, prices: shop.prices }))
  })
}

test.each(EXAMPLES)('%s: outside receptacles stand clear of each other, of any width', (name) => {
  for (const request of requests(name)) {
    const outside = layoutFor(request).items.filter((i) => i.kind === 'receptacle' && i.face === 'outside')
    outside.forEach((a, n) => {
      for (const b of outside.slice(n + 1)) expect(overlapMm(a, b, 0), `${a.id} ${b.id}`).toBe(0)
    })
  }
})

test('the estimate of a route counts 2.5 m past an enclosure between, and 3 m round one over the hole', () => {
  const [, cut] = requests('winter-road-camp-ca')
  const body = cut!.body
  const part = { id: 'x', widthMm: 400, heightMm: 600, depthMm: 200 }
  const spot = (kind: string, uMm: number, face: 'inside' | 'outside' = 'inside') =>
    ({ item: { id: `${kind} ${uMm}`, kind, part }, side: 'left', face, uMm, zMm: 1400, pinned: false }) as unknown as Spot
  const [panel, outlet] = [spot('panel', 1000), spot('receptacle', 4000, 'outside')]
  const tariff: Tariff = {
    joins: [{ from: panel.item.id, to: outlet.item.id, moneyPerM: 1 }],
    strutMoneyPerM: () => 0,
    missing: [],
  }
  const bare = routesMoney(body, tariff, [panel, outlet])
  const more = (kind: string, uMm: number) => routesMoney(body, tariff, [panel, outlet, spot(kind, uMm)]) - bare
  expect(more('contactors', 2500)).toBeCloseTo(2.5, 9)
  expect(more('contactors', 3900)).toBeCloseTo(3, 9)
  expect(more('contactors', 5000)).toBe(0)
  expect(more('stub', 2500)).toBe(0)
})

describe.each(EXAMPLES)('%s', (name) => {
  test('everything finds its place, with the openings and without', { timeout: 240_000 }, () => {
    for (const request of requests(name)) {
      const { clashes, items, search } = layoutFor(request)
      expect(clashes).toEqual([])
      expect(items.length).toBeGreaterThan(15)
      expect(search!.money).toBeLessThanOrEqual(search!.plainClashesCount > 0 ? Infinity : search!.plainMoney)
    }
  })
})
