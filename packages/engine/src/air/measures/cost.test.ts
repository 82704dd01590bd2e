import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { boxBody } from '../../box/index.ts'
import { tables as haulTables } from '../../haul/tables.generated.ts'
import { AIR_CHOICES, type AirDesign, readJob } from '../../job/index.ts'
import { type Prices, readPrices } from '../../parts/index.ts'
import { designAir } from '../design.ts'
import { rowsOf } from '../shelf.ts'
import { type MeasureAreas, measureAreas } from './areas.ts'
import { measuresCost } from './cost.ts'

const root = new URL('../../../../../', import.meta.url)
const read = readPrices(readFileSync(new URL('shop/prices/invented-2026.yaml', root), 'utf8'))
if (!read.ok) throw new Error('prices')
const prices = read.value
const job = readJob('plugstead: 1\nrules: { set: us }\nboxes:\n  - { id: yard, length: 20 ft }\n')
if (!job.ok) throw new Error('job')
const body = boxBody(job.value.boxes[0]!, null)
const none = { ...designAir({ job: job.value, body, designs: [] }), vents: [], fan: null, heater: null }
const painted = { roof: 'red oxide, brown', walls: 'red oxide, brown' } as const
const areas: MeasureAreas = {
  ...{ roofOutM2: 16, wallsOutM2: 45, roofInM2: 15, wallsInM2: 40, roofBareM2: 0.5, wallsBareM2: 3, roofPlanM2: 14.77 },
  ...{ floorM2: 13.9, gearM: 2.5 },
}
const cost = (air: Partial<AirDesign>, at: Prices = prices) =>
  measuresCost({ box: 'yard', air: { ...none, ...air }, areas, painted, prices: at })
const vent = { id: 'vent low', side: 'right', widthMm: 300, heightMm: 300, upMm: 450, fan: false } as const
const heater = { at: 'room', powerW: 1500, onBelowC: 5, humidistat: false } as const
const fan = { powerW: 60, solar: false, onAboveC: 30, byHumidity: false }

describe('what measures cost', () => {
  test('none taken costs nothing', () => {
    expect(cost({}).value).toEqual({
      ...{ box: 'yard', currency: 'USD', lines: [], totalMoney: 0, massKg: { low: 0, high: 0 }, missing: [] },
    })
  })

  test('a white roof by hand: 16 m² at its coat and the painter’s hours', () => {
    const { lines, totalMoney } = cost({ roofPaint: 'white epoxy, clean' }).value
    const rate = prices.rows['hour/painter']!.money
    expect(lines.map((l) => [l.measure, l.id, l.quantity])).toEqual([['roof-paint', 'paint/light', 16]])
    expect(totalMoney).toBeCloseTo(16 * 5.9 + 16 * 0.1 * rate, 2)
    expect(cost({ roofPaint: 'white TiO2 coating, clean' }).value.lines[0]!.id).toBe('paint/reflecting')
  })

  test('foam goes by its thickness, the next larger that is priced, and weighs by its own', () => {
    const { lines } = cost({ roofFoamM: 0.04 }).value
    expect(lines.map((l) => [l.id, l.quantity])).toEqual([['foam/50 mm', 15]])
    expect(lines[0]!.massKg.low).toBeCloseTo((15 * 1.6 * 40) / 50, 9)
    const both = cost({ roofFoamM: 0.05, wallFoamM: 0.025, bridgesFoamed: true }).value.lines
    expect(both.map((l) => [l.measure, l.quantity])).toEqual([
      ['roof-foam', 15],
      ['wall-foam', 40],
      ['bridges-foamed', 3.5],
    ])
    expect(cost({ bridgesFoamed: true }).value.lines).toEqual([])
  })

  test.each<[string, Partial<AirDesign>, string]>([
    ['wall-paint', { wallPaint: 'black' }, 'paint/colour'],
    ['second-roof', { secondRoof: true }, 'second roof/coated sheet'],
    ['vents', { vents: [vent] }, 'vent/0.1 m2'],
    ['fan', { fan }, 'fan/60 W'],
    ['fan-solar', { fan: { ...fan, powerW: 20, solar: true } }, 'fan/solar 25 W'],
    ['fan-by-humidity', { fan: { ...fan, byHumidity: true } }, 'control/humidity of two airs'],
    ['heater-room', { heater }, 'heater/room 1500 W'],
    ['heater-cabinet', { heater: { ...heater, at: 'cabinet', powerW: 120 } }, 'heater/cabinet 150 W'],
    ['humidistat', { heater: { ...heater, humidistat: true } }, 'control/humidistat'],
    ['drip-hood', { dripHood: true }, 'drip hood/sheet'],
    ['floor-painted', { floorPainted: true }, 'paint/floor'],
    ['winter-open', { vents: [vent], winterOpenFrac: 0.2 }, 'vent/throttle'],
  ])('%s is priced, and every line adds up to the cent', (measure, air, id) => {
    const { value, working } = cost(air)
    expect(value.lines.map((l) => [l.measure, l.id])).toContainEqual([measure, id])
    expect(value.missing).toEqual([])
    const sum = value.lines.reduce((cents, l) => cents + Math.round(100 * (l.materialMoney! + l.labourMoney!)), 0)
    expect(Math.round(value.totalMoney * 100)).toBe(sum)
    expect(value.totalMoney).toBeGreaterThan(0)
    expect(working.steps.at(-1)!.result).toBe(value.totalMoney)
    expect(value.massKg.high).toBeGreaterThanOrEqual(value.massKg.low)
  })

  test('what has no price is named, and the total is a floor', () => {
    const { 'paint/floor': _, ...rows } = prices.rows
    const { value, working } = cost({ floorPainted: true, dripHood: true }, { ...prices, rows })
    expect(value.missing).toEqual([{ id: 'paint/floor', why: 'no price in the table' }])
    expect(value.lines.find((l) => l.measure === 'floor-painted')!.money).toBeNull()
    expect(value.totalMoney).toBe(value.lines.find((l) => l.measure === 'drip-hood')!.money)
    expect(working.notes?.[0]).toContain('floor')
  })

  test('what the bill counts otherwise is marked', () => {
    const { lines } = cost({ vents: [vent], fan, heater, floorPainted: true }).value
    expect(lines.map((l) => [l.measure, l.billedAlready])).toEqual([
      ['vents', true],
      ['fan', true],
      ['heater-room', true],
      ['floor-painted', false],
    ])
  })

  test('every choice of air has its measure in the table', () => {
    const measures = rowsOf('air-measures').map((r) => String(r.measure))
    const named = { fan: 'fan', heater: 'heater-room' } as Readonly<Record<string, string>>
    // Where a vent stands costs nothing beyond the vent.
    for (const choice of AIR_CHOICES.filter((c) => c !== 'vent-places'))
      expect(measures, choice).toContain(named[choice] ?? choice)
  })
})

describe('areas that measures are bought by', () => {
  test('of a 20 ft box: roof and walls outside as the painter counts them, inside without rails and posts', () => {
    const found = measureAreas(body, { items: [] } as never)
    // 6.058 × 2.438 m plan; walls 2·6.058·2.591 and 2·2.438·2.591, developed 1.064, 1.248 and flat.
    expect(found.roofPlanM2).toBeCloseTo(14.77, 2)
    expect(found.roofOutM2).toBeCloseTo(14.77 * 1.1017, 1)
    expect(found.wallsOutM2).toBeCloseTo(2 * 6.058 * 2.591 * 1.0643 + 2.438 * 2.591 * (1.2482 + 1), 1)
    expect(found.roofInM2 / 1.1017 + found.roofBareM2).toBeCloseTo(5.896 * 2.35, 2)
    expect(found.gearM).toBe(0)
    const thing = (side: string, atMm: number, wideMm: number) => ({
      ...{ kind: 'panel', face: 'inside', side, atMm: [atMm, 100, 900], sizeMm: [wideMm, 120, 400] },
    })
    // Two over one another count once: 400 to 900 and 800 to 1000 are 0.6 m, and 0.12 m on the end wall.
    const fit = { items: [thing('left', 400, 500), thing('left', 800, 200), thing('blind end', 0, 300)] } as never
    expect(measureAreas(body, fit).gearM).toBeCloseTo(0.72, 9)
  })
})

test('a second roof and foam weigh here what they weigh when the box is lifted', () => {
  const figures = Object.fromEntries(haulTables['haul-figures'].rows.map(([name, value]) => [name, value]))
  const { lines } = cost({ secondRoof: true, roofFoamM: 0.05 }).value
  const each = (measure: string) => {
    const line = lines.find((l) => l.measure === measure)!
    return [line.massKg.low / line.quantity, line.massKg.high / line.quantity]
  }
  const [roofLow, roofHigh] = each('second-roof')
  expect(roofLow).toBeCloseTo(figures['second-roof-low']!, 9)
  expect(roofHigh).toBeCloseTo(figures['second-roof-high']!, 9)
  const [foamLow, foamHigh] = each('roof-foam')
  expect(foamLow).toBeCloseTo(figures['foam-low']!, 9)
  expect(foamHigh).toBeCloseTo(figures['foam-high']!, 9)
})
