import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { readJob } from '../job/index.ts'
import { readPrices } from '../parts/index.ts'
import { builtInOverlays } from '../rules/index.ts'
import { plan } from './index.ts'

const root = new URL('../../../../', import.meta.url)
const text = (path: string) => readFileSync(new URL(path, root), 'utf8')
const prices = readPrices(text('shop/prices/invented-2026.yaml'))
if (!prices.ok) throw new Error('prices')
const shop = { name: 'test', prices: prices.value, overlays: builtInOverlays }

function planned(pins: Readonly<Record<string, string>> = {}) {
  const lines = Object.entries(pins).map(
    ([choice, value]) => `  air.yard.${choice}: { value: "${value}", by: me, why: a test }\n`,
  )
  const read = readJob(`${text('examples/two-machines.yaml')}${lines.length === 0 ? '' : `\nchoices:\n${lines.join('')}`}`)
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return plan(read.value, shop)
}

describe('pins of air through a plan', () => {
  const plain = planned()
  const pinned = planned({
    ...{ vents: '400 x 350 mm', 'roof-foam': '50 mm', 'second-roof': 'yes', fan: '12 W solar', heater: '150 W cabinet' },
    ...{ humidistat: 'yes', 'drip-hood': 'yes', 'floor-painted': 'yes', 'roof-paint': 'white', 'winter-open': '30 %' },
  })
  const build = (of: typeof plain) => of.design.builds[0]!

  test('the skin cuts vents of their size, and without a pin the pair of 300 mm that it always cut', () => {
    const vents = (of: typeof plain) =>
      build(of)
        .skin.openings.filter((o) => o.use === 'vent' || o.use === 'fan')
        .map((o) => [o.id, o.side, o.widthMm, o.heightMm, o.hood, o.meshMm])
    expect(vents(plain)).toEqual([
      ['vent low', 'right', 300, 300, true, 6],
      ['fan', 'left', 300, 300, true, 6],
    ])
    expect(vents(pinned)).toEqual([
      ['vent low', 'right', 400, 350, true, 6],
      ['fan', 'left', 400, 350, true, 6],
    ])
    // Across the box: the low one near the blind end, the high one near the cargo doors.
    const at = (of: typeof plain, id: string) => build(of).skin.openings.find((o) => o.id === id)!.atMm
    for (const of of [plain, pinned]) {
      expect(at(of, 'vent low')[0]).toBeLessThan(1000)
      expect(at(of, 'fan')[0]).toBeGreaterThan(4000)
      expect(at(of, 'fan')[2] - at(of, 'vent low')[2]).toBeGreaterThan(1500)
    }
  })

  test('the skin cuts vents where they are pinned', () => {
    const moved = planned({ 'vent-places': 'low left 600 mm, high right 1700 mm' })
    const floorMm = build(plain).skin.openings.find((o) => o.id === 'vent low')!.atMm[2] - build(plain).air.vents[0]!.upMm
    const at = build(moved).skin.openings.flatMap((o) =>
      o.use === 'vent' || o.use === 'fan' ? [[o.id, o.side, Math.round(o.atMm[2] - floorMm)]] : [],
    )
    expect(at).toEqual([
      ['vent low', 'left', 600],
      ['fan', 'right', 1700],
    ])
    expect(moved.assessment.findings.filter((f) => f.code === 'needs/pin-unknown')).toEqual([])
  })

  test('the box is wired for the heater that is pinned, and not for a fan in the sun', () => {
    const own = (of: typeof plain) => of.design.boxes[0]!.circuits.map((c) => [c.own, c.ownLoad?.powerW])
    expect(own(plain)).toContainEqual(['heater', 1500])
    expect(own(plain)).toContainEqual(['fan', 60])
    expect(own(pinned)).toContainEqual(['heater', 150])
    expect(own(pinned).some(([kind]) => kind === 'fan')).toBe(false)
    expect(build(pinned).fit.items.some((i) => i.kind === 'fan')).toBe(false)
  })

  test('a heater in the panel’s cabinet hangs on no wall, is led by no raceway, and is the one that is bought', () => {
    const hung = (of: typeof plain) => build(of).fit.items.filter((i) => i.kind === 'heater' || i.kind === 'thermostat').length
    const bought = (of: typeof plain) =>
      of.assessment.results.shop.boxes[0]!.bill.lines.filter((l) => l.id.startsWith('heater/')).map((l) => [l.id, l.quantity])
    expect([hung(plain), hung(pinned)]).toEqual([2, 0])
    expect(bought(plain)).toEqual([['heater/room 1500 W', 1]])
    expect(bought(pinned)).toEqual([['heater/cabinet 150 W', 1]])
    expect(build(pinned).fit.raceways.some((r) => r.circuits.includes('own-heater'))).toBe(false)
    const of = pinned.assessment.findings.filter((f) => f.subject.includes('own-heater'))
    expect(of.length).toBeGreaterThan(0)
    expect(of.filter((f) => /^(fit|circuits)\//.test(f.code) && f.verdict !== 'holds')).toEqual([])
    expect(pinned.assessment.findings.find((f) => f.code === 'shop/wires')!.verdict).toBe('holds')
  })

  test('foam and second roof are weighed, bought and done', () => {
    const { haul, shop: work } = pinned.assessment.results
    expect(haul.boxes[0]!.items.map((i) => i.id)).toEqual(expect.arrayContaining(['foam, roof', 'second roof']))
    expect(build(pinned).skin.finish.foam).toBe(true)
    const bought = work.boxes[0]!.bill.lines.map((l) => l.id)
    for (const id of ['foam/50 mm', 'second roof/coated sheet', 'paint/light', 'drip hood/sheet', 'paint/floor', 'vent/throttle'])
      expect(bought).toContain(id)
    for (const id of ['fan/solar 12 W', 'control/humidistat']) expect(bought).toContain(id)
    expect(work.boxes[0]!.bill.missing).toEqual(plain.assessment.results.shop.boxes[0]!.bill.missing)
    const without = plain.assessment.results.shop.boxes[0]!
    expect(without.bill.lines.some((l) => /^(foam|paint|second roof|vent|drip hood|control)\//.test(l.id))).toBe(false)
    expect(work.boxes[0]!.hours.total.middle).toBeGreaterThan(without.hours.total.middle)
  })

  test('no pin of air is passed over', () => {
    expect(pinned.assessment.findings.filter((f) => f.code === 'needs/pin-unknown')).toEqual([])
  })
}, 240_000)
