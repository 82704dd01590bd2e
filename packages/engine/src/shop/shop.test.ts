import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Prices } from '../parts/index.ts'
import { readPrices } from '../parts/index.ts'
import { racewayItem, wireItem } from './hours/units.ts'
import { answerShop, type BoxShop, type ShopInputs } from './index.ts'
import { box, build, yardInputs } from './yard.fixture.ts'

const read = readPrices(readFileSync(new URL('../../../../shop/prices/invented-2026.yaml', import.meta.url), 'utf8'))
if (!read.ok) throw new Error('prices not read')
const prices: Prices = read.value

const yard = yardInputs('us', prices)
const answered = (inputs: ShopInputs = yard): BoxShop => answerShop(inputs).result.boxes[0]!
const finds = (inputs: ShopInputs, code: string) => answerShop(inputs).findings.filter((f) => f.code === code)
const withBuild = (over: Partial<(typeof build)['fit']>): ShopInputs => ({
  ...yard,
  design: { ...yard.design, builds: [{ ...build, fit: { ...build.fit, ...over } }] },
})

describe('the bill', () => {
  const { bill, cuts, wires } = answered()
  const line = (id: string, sheet?: string) => bill.lines.find((l) => l.id === id && (sheet === undefined || l.sheet === sheet))

  test('is the sum of its sheets, and each sheet of its lines, to the cent', () => {
    for (const s of bill.sheets) {
      const own = bill.lines.filter((l) => l.sheet === s.sheet)
      expect(s.linesCount).toBe(own.length)
      expect(s.money).toBeCloseTo(
        own.reduce((sum, l) => sum + (l.money ?? 0), 0),
        6,
      )
    }
    expect(bill.totalMoney).toBeCloseTo(
      bill.sheets.reduce((sum, s) => sum + s.money, 0),
      6,
    )
    expect(bill.missing).toEqual([])
  })

  test('buys bars by the cutting plans, not by metres of pieces', () => {
    for (const cut of cuts) {
      const bought = cut.plan.bars.reduce((sum, b) => sum + (b.times * b.lengthMm) / 1000, 0)
      // The feed from the supply lies in 12 m of raceway of its own by the design.
      expect(line(cut.priceId)!.quantity, cut.section).toBeCloseTo(bought + (cut.section === 'EMT/1-1/4' ? 12 : 0), 6)
    }
  })

  test('buys wire by the pull list, with the feed from the supply and the electrode beside it', () => {
    const pulled = wires.filter((w) => w.size === '12 AWG').reduce((sum, w) => sum + w.cutM, 0)
    const bought = line('conductor/12 AWG/cu', 'wire')!.quantity
    expect(bought - pulled).toBeGreaterThanOrEqual(-1e-9)
    expect(bought - pulled).toBeLessThan(0.1)
    const feedInside = wires.filter((w) => w.circuit === 'feed').reduce((sum, w) => sum + w.cutM, 0)
    // 3 conductors of 12 m from the supply by the design.
    expect(line('conductor/3 AWG/cu', 'wire')!.quantity).toBeCloseTo(Math.ceil((36 + feedInside) * 10) / 10, 6)
  })

  test('traces every line to ids of the design', () => {
    const ids = new Set<string>([
      'yard',
      'panel',
      'main',
      'labels',
      'feed',
      'electrode',
      ...box.circuits.flatMap((c) => [c.id, ...c.plugs]),
      ...build.fit.items.map((i) => i.id),
      ...build.fit.strut.map((p) => p.id),
      ...build.fit.raceways.map((r) => r.id),
      ...build.fit.bonds.map((b) => b.id),
      ...build.skin.openings.map((o) => o.id),
    ])
    for (const l of bill.lines) {
      expect(l.needs.length, l.id).toBeGreaterThan(0)
      for (const id of l.needs) expect(ids.has(id), `${l.id} needs ${id}`).toBe(true)
    }
  })

  test('counts each thing that hangs once', () => {
    expect(line('item/meter base 200')!.quantity).toBe(1)
    expect(line('own/light')!.quantity).toBe(1)
    expect(line('panel/125 A/8')!.quantity).toBe(1)
    expect(line('pad/75 mm')!.quantity).toBe(4)
    // Four nuts that hold the rails; two a channel for each thing: five on two rails, one on one.
    expect(line('nut/channel')!.quantity).toBe(4 + 2 * (5 * 2 + 1))
  })

  test('says that it is a floor where prices lack, and never counts them as nothing', () => {
    const few: Prices = {
      currency: 'USD',
      rows: { 'panel/125 A/8': { id: 'panel/125 A/8', money: 100, per: 'each', date: '', source: '' } },
    }
    const inputs = yardInputs('us', few)
    const lacking = answered(inputs).bill
    expect(lacking.totalMoney).toBe(100)
    expect(lacking.lines.filter((l) => l.money === null)).toHaveLength(lacking.lines.length - 1)
    const [missing] = finds(inputs, 'shop/price-missing')
    expect(missing).toMatchObject({ verdict: 'unknown' })
    expect(missing!.said).toContain('its price has no date')
    expect(finds(inputs, 'shop/bill')[0]!.said).toContain('floor')
  })

  test('knows the difference between a metre and a piece', () => {
    const wrong: Prices = { ...prices, rows: { ...prices.rows, 'nut/channel': { ...prices.rows['nut/channel']!, per: 'm' } } }
    expect(answered({ ...yard, prices: wrong }).bill.missing).toEqual([
      { id: 'nut/channel', why: 'priced per m, needed per each', countsInSum: false },
    ])
  })
})

describe('cutting', () => {
  test.each(['us', 'ca', 'intl'] as const)(
    'by %s stock: pieces, saw, trims and remnant are the bar, and every piece is cut',
    (set) => {
      const inputs = { ...yardInputs(set === 'intl' ? 'us' : set, prices), factors: { kerfMm: 2.5, trimMm: 5 } }
      const rules = yardInputs(set, prices).rules
      // Raceways of the fixture are in inch sizes, so bends go by their own set while the bars are those of the other.
      const { cuts } = answered({ ...inputs, rules: { ...inputs.rules, id: rules.id } })
      for (const cut of cuts) {
        expect(cut.plan.proven).toBe(true)
        for (const bar of cut.plan.bars) {
          const pieces = bar.pieces.reduce((sum, p) => sum + p.lengthMm, 0)
          expect(pieces + bar.sawnOffMm + bar.trimMm + bar.remnantMm).toBeCloseTo(bar.lengthMm, 6)
          expect(bar.lengthMm % (set === 'intl' ? 3000 : 3048)).toBe(0)
        }
        const cutIds = cut.plan.bars.flatMap((b) => b.pieces.flatMap((p) => p.ids)).toSorted()
        expect(cutIds).toEqual(cut.pieces.flatMap((p) => Array<string>(p.count).fill(p.id)).toSorted())
      }
    },
  )

  test('a piece longer than any stock is said with both numbers', () => {
    const long = { ...build.fit.strut[1]!, toMm: [7000, 44, 900] as const }
    const [found] = finds(withBuild({ strut: [long] }), 'shop/cut-too-long')
    expect(found).toMatchObject({ verdict: 'fails', demand: { value: 6200 }, limit: { value: 6096 } })
  })

  test('a saw without a cut is said', () => {
    expect(finds(yard, 'shop/cut-no-kerf')).toEqual([])
    const [found] = finds({ ...yard, factors: { kerfMm: 0 } }, 'shop/cut-no-kerf')
    expect(found).toMatchObject({ verdict: 'tight', demand: { value: 0 }, limit: { value: 3 } })
  })

  test('what is assumed of the saw is named, and no longer once it is told', () => {
    expect(finds(yard, 'shop/cut')[0]!.assumed).toEqual(['shop.saw.kerf', 'shop.saw.trim'])
    expect(finds({ ...yard, factors: { kerfMm: 2, trimMm: 0 } }, 'shop/cut')[0]!.assumed).toEqual([])
  })

  test('takes an offcut from the rack before it buys a bar, and does not buy it', () => {
    const section = build.fit.strut[0]!.section
    const plain = answered().bill.lines.find((l) => l.id === `strut/${section}`)!
    const racked = answered({ ...yard, factors: { rack: [{ section, lengthMm: 3100, count: 2 }] } })
    const bars = racked.cuts.find((c) => c.section === section)!.plan.bars
    expect(bars.some((b) => b.stock.startsWith('rack '))).toBe(true)
    expect(racked.bill.lines.find((l) => l.id === `strut/${section}`)!.quantity).toBeLessThan(plain.quantity)
  })
})

describe('the pull list', () => {
  const { wires, wireTotals } = answered()

  test('has each conductor of each circuit in the colour of the set, cut as route × 1.05 + 0.3 m at each end', () => {
    const own = wires.filter((w) => w.circuit === 'C1')
    expect(own.map((w) => [w.conductor, w.colour])).toEqual([
      ['A', 'black'],
      ['N', 'white or grey'],
      ['PE', 'green, green with yellow, or bare'],
    ])
    // 0.8 + 1.5 + 0.7 m along the axis; the trade's wire allowance (common practice).
    for (const w of own) expect(w.cutM).toBeCloseTo(1.05 * 3 + 0.6, 9)
    expect(own[0]).toMatchObject({ from: 'panel', to: 'receptacle M1', markFrom: 'C1 A → receptacle M1', markTo: 'C1 A ← panel' })
    expect(wires.filter((w) => w.circuit === 'C2').map((w) => w.conductor)).toEqual(['A', 'B', 'PE'])
  })

  test('adds up by size and colour', () => {
    const sum = wires.reduce((s, w) => s + w.cutM, 0)
    expect(wireTotals.reduce((s, t) => s + t.lengthM, 0)).toBeCloseTo(sum, 9)
    expect(wireTotals.reduce((s, t) => s + t.count, 0)).toBe(wires.length)
  })

  test('joins what is bonded by wire to the earth bar, channel to the steel beside it; braids and bushings are bought', () => {
    const bonds = wires.filter((w) => w.circuit === 'bond')
    expect(bonds.map((w) => [w.from, w.to])).toEqual([
      ['box frame', 'earth bar'],
      ['strut rail 1', 'welded steel beside it'],
    ])
    expect(bonds[1]!.cutM).toBeCloseTo(0.6, 9)
    expect(bonds[0]!.routeM).toBeCloseTo((646 + 41 + 238) / 1000, 9)
  })

  test('agrees with what the raceways were drawn for, and says where it does not', () => {
    expect(finds(yard, 'shop/wires')[0]!.verdict).toBe('holds')
    const [first, ...rest] = build.fit.raceways
    const fuller = { ...first!, conductors: [{ size: '12 AWG', insulation: 'THWN-2', count: 4 }] }
    expect(finds(withBuild({ raceways: [fuller, ...rest] }), 'shop/wires')[0]).toMatchObject({ verdict: 'fails' })
    expect(finds(withBuild({ raceways: rest }), 'shop/wires')[0]).toMatchObject({ verdict: 'unknown' })
  })

  test('pulls every wire of parallel sets, and says that they want a raceway each', () => {
    const feed = { ...box.panel.feed, sets: 2 }
    const inputs = { ...yard, design: { ...yard.design, boxes: [{ ...box, panel: { ...box.panel, feed } }] } }
    const own = answered(inputs).wires.filter((w) => w.circuit === 'feed')
    expect(own.map((w) => w.conductor)).toEqual(['A', 'B', 'N', 'A/2', 'B/2', 'N/2'])
    expect(finds(inputs, 'shop/wires')[0]).toMatchObject({ verdict: 'unknown' })
  })

  test('leads the primary run to an own transformer, and the feed on to the panel', () => {
    const primaryRun = { ...box.panel.feed, line: { ...box.panel.feed.line, size: '1/0 AWG' }, neutral: null }
    const transformer = {
      ...{ kVA: 25, primaryV: 480, secondaryV: 240, impedancePct: 3, xOverR: 2, phases: 1 as const, noLoadLossW: 100 },
      ...{ fullLoadLossW: 400, primary: box.panel.main, primaryRun },
    }
    const [c1, c2, feed, light] = build.fit.raceways
    const inputs = {
      ...withBuild({
        items: [
          ...build.fit.items,
          { ...build.fit.items[3]!, id: 'transformer', kind: 'transformer' as const, part: 'transformer 1 ph 25 kVA' },
        ],
        raceways: [c1!, c2!, { ...feed!, to: 'transformer' }, { ...feed!, id: 'feed/2', from: 'transformer' }, light!],
      }),
    }
    const wires = answered({ ...inputs, design: { ...inputs.design, boxes: [{ ...box, transformer }] } }).wires
    const sizes = (to: string) => wires.filter((w) => w.circuit === 'feed' && w.to === to).map((w) => `${w.conductor} ${w.size}`)
    expect(sizes('transformer')).toEqual(['A 1/0 AWG', 'B 1/0 AWG'])
    expect(sizes('panel')).toEqual(['A 3 AWG', 'B 3 AWG', 'N 3 AWG'])
  })

  test('passes a box of other circuits uncut', () => {
    const [c1, ...rest] = build.fit.raceways
    const half = { ...c1!, id: 'C1/1', to: 'receptacle M2' }
    const other = { ...c1!, id: 'C1/2', from: 'receptacle M2' }
    const inputs = withBuild({ raceways: [half, other, ...rest] })
    const own = answered(inputs).wires.filter((w) => w.circuit === 'C1')
    expect(own).toHaveLength(3)
    expect(own[0]).toMatchObject({ from: 'panel', to: 'receptacle M1', raceways: ['C1/1', 'C1/2'] })
    expect(own[0]!.cutM).toBeCloseTo(1.05 * 6 + 1.2, 9)
  })
})

describe('holes', () => {
  const { holes } = answered()
  const row = (id: string) => holes.flatMap((w) => w.rows.map((r) => ({ side: w.side, ...r }))).find((r) => r.id === id)!

  test('stand from the left corner as seen from outside', () => {
    expect(row('supply')).toMatchObject({ side: 'left', alongMm: 666, upMm: 660, round: true })
    // The right side and the blind end run against their axis: 6058 − 5000 and 2438 − 700.
    expect(row('door 1')).toMatchObject({ side: 'right', alongMm: 1058, upMm: 1200, widthMm: 900 })
    expect(row('vent')).toMatchObject({ side: 'blind end', alongMm: 1738 })
  })

  test('come frames first, then holes, then pads, and an unmeasured first flat is said', () => {
    expect(holes.find((w) => w.side === 'left')!.rows.map((r) => r.work)).toEqual([
      'hole',
      'weld pad',
      'weld pad',
      'weld pad',
      'weld pad',
    ])
    expect(finds(yard, 'shop/holes')[0]).toMatchObject({ verdict: 'tight', provenance: 'assumed' })
  })

  test('never go through the roof', () => {
    const above = { ...build.skin.openings[2]!, side: 'roof' as const, atMm: [3000, 1200, 2591] as const }
    const inputs = {
      ...yard,
      design: { ...yard.design, builds: [{ ...build, skin: { ...build.skin, openings: [above] } }] },
    }
    expect(finds(inputs, 'shop/holes')[0]).toMatchObject({ verdict: 'fails' })
  })
})

describe('hours and steps', () => {
  const { hours, steps } = answered()

  test('each line lies in a step, and the steps add up to the whole', () => {
    for (const end of ['low', 'middle', 'high'] as const) {
      expect(steps.reduce((sum, s) => sum + (s.hours?.[end] ?? 0), 0)).toBeCloseTo(hours.total[end], 9)
      expect(Object.values(hours.byTrade).reduce((sum, h) => sum + h[end], 0)).toBeCloseTo(hours.total[end], 9)
    }
  })

  test('no line is one number: two books differ by two, and the space by 1.15 to 1.30', () => {
    for (const l of hours.lines) expect(l.hours.high / l.hours.low, l.what).toBeGreaterThan(1.99)
    const raceway = hours.lines.find((l) => l.what === 'raceway EMT 1/2')!
    // 4.5 h for 100 ft of 1/2 EMT (representative labour units, seen second-hand).
    expect(raceway.hoursEach).toBeCloseTo(4.5 / 30.48, 9)
    expect(raceway.hours.middle).toBeCloseTo(raceway.quantity * (4.5 / 30.48) * 1.225, 9)
    expect(raceway.hours.high / raceway.hours.low).toBeCloseTo((2 * 1.3) / 1.15, 9)
  })

  test('a size without a row takes the next larger, beyond the table the largest', () => {
    // Rows of the representative chart: EMT 1/2 to 2, RMC 3/4 to 2, PVC 3/4, wire 12 AWG to 500 kcmil.
    expect(racewayItem('EMT', '3/4')).toBe('EMT 3/4')
    expect(racewayItem('EMT', '1-1/2')).toBe('EMT 2')
    expect(racewayItem('EMT', '4')).toBe('EMT 2')
    expect(racewayItem('RMC', '1/2')).toBe('RMC 3/4')
    expect(racewayItem('conduit', '25 mm')).toBe('EMT 1')
    expect(wireItem(2.08)).toBe('wire 12 AWG')
    expect(wireItem(26.67)).toBe('wire 2')
    expect(wireItem(400)).toBe('wire 500 kcmil')
  })

  test('the shop’s own factor takes the place of the wide range', () => {
    const own = answered({ ...yard, factors: { hours: { electrician: 0.7 } } }).hours
    expect(own.byTrade.electrician.middle).toBeCloseTo(0.7 * hours.byTrade.electrician.middle, 9)
    expect(own.byTrade.electrician.high / own.byTrade.electrician.low).toBeCloseTo(1.2 / 0.8, 9)
    expect(own.byTrade.welder).toEqual(hours.byTrade.welder)
    // 1 stands on the page of a shop that has counted nothing yet.
    expect(answered({ ...yard, factors: { hours: { electrician: 1 } } }).hours.byTrade).toEqual(hours.byTrade)
    expect(() => answered({ ...yard, factors: { hours: { welder: 0 } } })).toThrow('shop/factor-range')
  })

  test('money of the hours is rate times hours, or unknown without a rate', () => {
    const { byTrade, money } = hours
    const rates = { welder: 70, electrician: 82, helper: 44, painter: 52 } as const
    const middle = Object.entries(rates).reduce((sum, [t, rate]) => sum + rate * byTrade[t as keyof typeof rates].middle, 0)
    expect(money!.middle).toBeCloseTo(middle, 2)
    expect(answered(yardInputs('us')).hours.money).toBeNull()
  })

  test('holds stand at welds, leak, open wiring, tests and inspection, in the order of the trade', () => {
    // Trade sequence with inspection holds at 3, 4, 9, 11, 12. Common practice.
    expect(steps.filter((s) => s.hold !== null).map((s) => s.id)).toEqual(['3', '4', '9', '11', '12'])
    expect(steps.map((s) => s.id)).toEqual(['1', '1b', ...Array.from({ length: 13 }, (_, i) => String(i + 2))])
    expect(new Set(steps.map((s) => s.who))).toContain("the customer's own framing crew")
    for (const s of steps) expect(s.caution, s.id).not.toBeNull()
  })

  test('weld is counted frame by frame', () => {
    // Door 5.8 m, vent 1.2 m, each once outside and half inside; four pads of 150 mm; two ends of 82 mm.
    expect(hours.weldM).toBeCloseTo(1.5 * (5.8 + 1.2) + 4 * 0.15 + 2 * 0.082, 9)
  })
})

describe('torque, serial numbers, labels', () => {
  const { torque, serials, labels } = answered()

  test('a termination has no torque until its maker says one', () => {
    expect(torque.filter((t) => !t.what.startsWith('channel nut')).every((t) => t.torqueNm === null)).toBe(true)
    expect(torque.filter((t) => t.what.startsWith('channel nut')).every((t) => t.torqueNm === null)).toBe(true)
    const chosen = answered({ ...yard, nuts: { yard: [{ item: 'panel', count: 4, bolt: '3/8 in' }] } })
    // 19 ft lb (strut catalogue, memory).
    expect(chosen.torque[0]!.torqueNm).toBeCloseTo(19 * 1.355818, 6)
  })

  test('every protective device has a line for its serial number', () => {
    for (const id of ['yard', 'panel', 'meter', 'main', 'C1', 'C2', 'own-light', 'C1 shock', 'C2 shock'])
      expect(
        serials.some((s) => s.id === id),
        id,
      ).toBe(true)
    expect(serials.some((s) => s.id === 'own-light shock')).toBe(false)
  })

  test('labels: two a wire, two a cord', () => {
    const count = (what: string) => labels.find((l) => l.what === what)!.count
    expect(count('wire, both ends')).toBe(2 * answered().wires.length)
    expect(count('cord, both ends')).toBe(4)
  })
})

describe('as a whole', () => {
  test('what hangs weighs what lifting counted, or it is said', () => {
    const items = build.fit.items.map(({ id, what, massKg, atMm }) => ({ id, what, massKg, atMm, bandXMm: 0 }))
    const lifted = (own: typeof items) => ({ ...yard, haul: { boxes: [{ box: 'yard', items: own }] } }) as unknown as ShopInputs
    expect(finds(lifted(items), 'shop/mass-agrees')[0]!.verdict).toBe('holds')
    const heavier = items.map((i, n) => (n === 0 ? { ...i, massKg: { ...i.massKg, high: 9 } } : i))
    expect(finds(lifted(heavier), 'shop/mass-agrees')[0]).toMatchObject({ verdict: 'fails' })
    expect(finds(lifted(items.slice(1)), 'shop/mass-agrees')[0]).toMatchObject({ verdict: 'fails' })
  })

  test('a box without a layout is unknown, not empty', () => {
    const answer = answerShop({ ...yard, design: { ...yard.design, builds: [] } })
    expect(answer.findings.map((f) => [f.code, f.verdict])).toEqual([['shop/not-designed', 'unknown']])
    expect(answer.result.boxes).toEqual([])
  })

  test('the order of rows changes nothing', () => {
    const whole = JSON.stringify(answered())
    fc.assert(
      fc.property(
        fc.shuffledSubarray([...build.fit.items], { minLength: build.fit.items.length }),
        fc.shuffledSubarray([...build.fit.strut], { minLength: build.fit.strut.length }),
        fc.shuffledSubarray([...build.fit.raceways], { minLength: build.fit.raceways.length }),
        (items, strut, raceways) => {
          expect(JSON.stringify(answered(withBuild({ items, strut, raceways }))) === whole).toBe(true)
        },
      ),
      { seed: 11, numRuns: 20 },
    )
  })

  test('every working that a finding names is there', () => {
    const { findings, workings } = answerShop(yard)
    const ids = new Set(workings.map((w) => w.id))
    expect(ids.size).toBe(workings.length)
    for (const f of findings) for (const id of f.workings) expect(ids.has(id), id).toBe(true)
  })
})

describe('measures against heat and damp', () => {
  const line = (
    measure: string,
    id: string,
    trade: 'painter' | 'helper' | 'welder',
    per: 'm2' | 'each',
    billedAlready = false,
  ) => ({
    ...{
      measure,
      what: measure,
      id,
      quantity: 10,
      per,
      unitMoney: 1,
      materialMoney: 10,
      trade,
      hours: 2,
      labourMoney: 1,
      money: 11,
    },
    ...{ massKg: { low: 1, high: 2 }, billedAlready },
  })
  const lines = [
    line('roof-foam', 'foam/50 mm', 'helper', 'm2'),
    line('roof-paint', 'paint/none', 'painter', 'm2'),
    line('vents', 'vent/0.1 m2', 'welder', 'each', true),
  ]
  const measures = { yard: { box: 'yard', currency: 'USD', lines, totalMoney: 33, massKg: { low: 3, high: 6 }, missing: [] } }

  test('what nothing else counts is bought and done; a vent that is cut and a coat that nobody sells are no line', () => {
    const [plain, more] = [answered(), answered({ ...yard, measures })]
    const ids = (of: BoxShop) => of.bill.lines.map((l) => l.id)
    expect(ids(more).filter((id) => !ids(plain).includes(id))).toEqual(['foam/50 mm'])
    expect(more.bill.lines.find((l) => l.id === 'foam/50 mm')).toMatchObject({ quantity: 10, per: 'm2', needs: ['roof-foam'] })
    expect(more.hours.byTrade.helper.middle - plain.hours.byTrade.helper.middle).toBeCloseTo(2, 9)
    expect(more.hours.byTrade.painter).toEqual(plain.hours.byTrade.painter)
    expect(more.steps.find((s) => s.id === '6')?.hours?.middle).toBeCloseTo(2, 9)
  })
})
