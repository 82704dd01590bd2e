import { describe, expect, test } from 'vitest'
import type { ItemKind, Opening, PlacedItem, PointMm } from '../../job/index.ts'
import { type RuleSet, ruleSets } from '../../rules/index.ts'
import { judgeRoom, type RoomInputs } from './judge.ts'
import { workingSpaces } from './volume.ts'

const { us, ca, intl } = ruleSets
/** An invented 20 ft box: inside from (50, 44, 150), 5900 × 2350 × 2393 mm. */
const body = {
  insideAtMm: [50, 44, 150] as PointMm,
  insideMm: [5900, 2350, 2393] as PointMm,
  outsideMm: [6058, 2438, 2591] as PointMm,
  doorOpeningMm: { widthMm: 2340, heightMm: 2274 },
}
const thing = (id: string, atMm: PointMm, sizeMm: PointMm, over: Partial<PlacedItem> = {}): PlacedItem => ({
  ...{ id, atMm, sizeMm },
  kind: 'panel' as ItemKind,
  what: id,
  part: id,
  side: 'left',
  face: 'inside',
  massKg: { low: 1, high: 2, basis: 'invented', told: true },
  circuits: [],
  hangsOn: [],
  ...over,
})
const panel = thing('panel', [2500, 85, 700], [510, 150, 1200])
const door: Opening = {
  id: 'door 1',
  use: 'personnel door',
  side: 'right',
  atMm: [4000, 2438, 1150],
  shape: 'rectangle',
  widthMm: 900,
  heightMm: 2050,
  cornerRadiusMm: 0,
  class: 'door',
  frame: null,
  railToRail: true,
  hood: false,
  meshMm: null,
  plate: null,
  serves: [],
}
const inputs = (items: readonly PlacedItem[], over: Partial<RoomInputs> = {}): RoomInputs => ({
  box: 'A',
  items,
  body,
  rules: us,
  voltsToEarthV: 277,
  workedOnLive: (item) => item.kind === 'panel' || item.kind === 'service disconnect',
  openings: [door],
  doorMm: (item) => (item.kind === 'panel' ? 480 : 0),
  handleBelowTopMm: 180,
  ...over,
})
const found = (items: readonly PlacedItem[], code: string, over: Partial<RoomInputs> = {}) =>
  judgeRoom(inputs(items, over)).findings.filter((f) => f.code === code)
const one = (items: readonly PlacedItem[], code: string, over: Partial<RoomInputs> = {}) => found(items, code, over)[0]!

describe('working space as a volume', () => {
  test('a panel of 150 mm on channel of 41 mm in a box 2350 wide: 3.5 ft at 277 V, free to bare steel', () => {
    const [space] = workingSpaces(inputs([panel]))
    expect(space).toMatchObject({ condition: 2, atMm: [2374, 235, 150], intrusions: [] })
    expect(space!.sizeMm.map(Math.round)).toEqual([762, 1067, 1981])
    expect(space!.freeMm).toBe(44 + 2350 - 235)
    expect(one([panel], 'fit/working-space-depth')).toMatchObject({ verdict: 'holds', confirm: true })
  })
  test('each set its own: 1 m and 2.2 m high in ca, 0.7 m in intl', () => {
    const size = (rules: RuleSet) => workingSpaces(inputs([panel], { rules }))[0]!.sizeMm.map(Math.round)
    expect([size(ca), size(intl)]).toEqual([
      [1000, 1000, 2200],
      [700, 700, 2000],
    ])
  })
  test('on the other walls the same room lies the other way', () => {
    const right = thing('panel', [2500, 2394 - 41 - 150, 700], [510, 150, 1200], { side: 'right' })
    const end = thing('panel', [91, 1000, 700], [150, 510, 1200], { side: 'blind end' })
    const [a, b] = [workingSpaces(inputs([right]))[0]!, workingSpaces(inputs([end]))[0]!]
    expect(a.atMm[1] + a.sizeMm[1]).toBeCloseTo(2203, 6)
    expect(a.freeMm).toBe(2203 - 44)
    expect(b.atMm[0]).toBe(241)
    expect(b.sizeMm.map(Math.round)).toEqual([1067, 762, 1981])
  })
  test('gear that is worked on live on the opposite wall makes it condition 3, and both get 4 ft', () => {
    const opposite = thing('second', [2600, 2394 - 191, 700], [510, 150, 1200], { side: 'right' })
    const both = workingSpaces(inputs([panel, opposite]))
    expect(both.map((s) => [s.condition, Math.round(s.depthMm)])).toEqual([
      [3, 1219],
      [3, 1219],
    ])
    const beside = { ...opposite, atMm: [4000, 2203, 700] as PointMm }
    expect(workingSpaces(inputs([panel, beside])).map((s) => s.condition)).toEqual([2, 2])
    const dead = { ...opposite, kind: 'heater' as const }
    expect(workingSpaces(inputs([panel, dead]))[0]!.condition).toBe(2)
  })
})

describe('what clashes is named with its millimetres', () => {
  test('a narrow box: 2112 mm inside, 1100 mm of shelf opposite, 93 mm short at 120 V', () => {
    const narrow = { ...body, insideMm: [5900, 2112, 2393] as PointMm }
    const shelf = thing('shelf', [2000, 44 + 2112 - 1100, 150], [1500, 1100, 1500], { kind: 'heater', side: 'right' })
    const at = { body: narrow, voltsToEarthV: 120 }
    const hit = one([panel, shelf], 'fit/working-space-depth', at)
    expect(hit.verdict).toBe('fails')
    expect(hit.said).toMatch(/panel and shelf clash: of the 914.4 mm of depth before panel 93.4 mm are missing/)
    const free = one(
      [panel, { ...shelf, atMm: [2000, 44 + 2112 - 1000, 150], sizeMm: [1500, 1000, 1500] }],
      'fit/working-space-depth',
      at,
    )
    expect(free.verdict).toBe('holds')
  })
  test('within the tolerance of building it is tight, not holding', () => {
    const shelf = (clear: number) =>
      thing('shelf', [2000, 235 + clear, 150], [1500, 2394 - 235 - clear, 1500], { kind: 'heater', side: 'right' })
    const at = (clear: number) => one([panel, shelf(clear)], 'fit/working-space-depth').verdict
    expect([at(1066), at(1069), at(1075)]).toEqual(['fails', 'tight', 'holds'])
  })
  test('the width is pushed aside from a neighbour, and fails where two neighbours leave no room', () => {
    const deep = (id: string, x: number) => thing(id, [x, 85, 700], [200, 400, 600], { kind: 'heater' })
    expect(workingSpaces(inputs([panel, deep('heater', 3020)]))[0]!).toMatchObject({ intrusions: [], atMm: [2258, 235, 150] })
    const both = found([panel, deep('heater', 3020), deep('second', 2290)], 'fit/working-space-width')
    expect(both[0]!.verdict).toBe('fails')
    expect(both[0]!.said).toMatch(/mm of width before panel/)
  })
  test('a corner takes width, a low ceiling takes height', () => {
    const corner = thing('panel', [60, 85, 700], [510, 150, 1200])
    expect(found([corner], 'fit/working-space-width')).toEqual([])
    const wide = thing('panel', [40, 85, 700], [900, 150, 1200])
    expect(one([wide], 'fit/working-space-width').said).toMatch(/panel and blind end clash: .* 10 mm are missing/)
    const low = { ...body, insideMm: [5900, 2350, 1900] as PointMm }
    expect(one([panel], 'fit/working-space-height', { body: low }).said).toMatch(/panel and roof clash: .* 81.2 mm are missing/)
  })
  test('the working stands once, however many ways are too small', () => {
    const small = { ...body, insideMm: [900, 900, 1900] as PointMm }
    const made = judgeRoom(inputs([thing('panel', [300, 85, 700], [510, 150, 1200])], { body: small }))
    expect(made.findings.filter((f) => f.code.startsWith('fit/working-space-') && f.verdict === 'fails')).toHaveLength(2)
    expect(made.workings).toHaveLength(1)
  })
  test('a thing outside has no wall before it, and says to keep snow out', () => {
    const outside = thing('disconnect', [3000, -150, 700], [380, 150, 680], { kind: 'service disconnect', face: 'outside' })
    expect(workingSpaces(inputs([outside]))[0]).toMatchObject({ freeMm: null, intrusions: [] })
    expect(workingSpaces(inputs([outside]))[0]!.atMm[1]).toBeCloseTo(-150 - 1066.8, 6)
    expect(one([outside], 'fit/working-space-depth').said).toMatch(/snow/)
  })
  test('nothing in a space that holds: over seeded shelves the verdict is what the distance says', () => {
    for (let clear = 900; clear < 1300; clear += 7) {
      const shelf = thing('shelf', [2000, 235 + clear, 150], [1500, 2394 - 235 - clear, 1500], { kind: 'heater', side: 'right' })
      const verdict = one([panel, shelf], 'fit/working-space-depth').verdict
      expect(verdict === 'fails').toBe(clear < 1066.8)
    }
  })
})

describe('doors, handles, gap, ways out', () => {
  test('the gear’s open door leaves 500 mm to pass, else tight', () => {
    const narrow = (insideMm: number) =>
      one([panel], 'fit/working-space-door', { body: { ...body, insideMm: [5900, insideMm, 2393] } }).verdict
    expect([narrow(2350), narrow(1150)]).toEqual(['holds', 'tight'])
    expect(found([panel], 'fit/working-space-door', { doorMm: () => 0 })).toEqual([])
    const second = thing('second', [2600, 2394 - 191, 700], [510, 150, 1200], { side: 'right' })
    const free = 2394 - 191 - 235
    expect(one([panel, second], 'fit/working-space-door')).toMatchObject({ verdict: 'holds', demand: { value: free - 2 * 480 } })
    expect(one([panel, second], 'fit/working-space-door', { doorMm: () => 760 }).verdict).toBe('tight')
    const beside = { ...second, atMm: [4000, 2203, 700] as PointMm }
    expect(one([panel, beside], 'fit/working-space-door').demand).toMatchObject({ value: 2394 - 235 - 480 })
  })
  test('handle: from the floor inside, from the underside outside; an unmeasured one is the top', () => {
    const at = (zMm: number, over: Partial<RoomInputs> = {}) =>
      one([thing('panel', [2500, 85, zMm], [510, 150, 1500])], 'fit/handle-height', over)
    expect(at(750)).toMatchObject({ verdict: 'holds', demand: { value: 1920 } })
    expect(at(850).verdict).toBe('fails')
    expect(at(750, { handleBelowTopMm: null })).toMatchObject({ verdict: 'fails', assumed: [expect.stringContaining('top')] })
  })
  test('air gap: 41 mm of channel holds, flat on the wall fails and is named', () => {
    expect(one([panel], 'fit/air-gap')).toMatchObject({ verdict: 'holds', demand: { value: 41 } })
    const flat = thing('flat', [4000, 46, 700], [300, 100, 300])
    const right = thing('right', [4000, 2394 - 103, 700], [300, 100, 300], { side: 'right' })
    expect(found([panel, flat, right], 'fit/air-gap').map((f) => [f.subject, f.verdict])).toEqual([
      ['A flat', 'fails'],
      ['A right', 'fails'],
    ])
  })
  test('ways out: a door that is too narrow fails; without one it is unknown; intl asks for two above 10 m', () => {
    expect(one([panel], 'fit/egress').verdict).toBe('holds')
    expect(one([panel], 'fit/egress', { openings: [{ ...door, widthMm: 600 }] }).verdict).toBe('fails')
    expect(one([panel], 'fit/egress', { openings: [] }).verdict).toBe('unknown')
    expect(one([panel], 'fit/egress', { openings: [{ ...door, widthMm: 720 }] }).verdict).toBe('holds')
    expect(one([panel], 'fit/egress', { rules: ca, openings: [{ ...door, widthMm: 720 }] }).verdict).toBe('fails')
    const long = { ...body, insideMm: [11900, 2350, 2393] as PointMm, doorOpeningMm: { widthMm: 0, heightMm: 0 } }
    expect([us, intl].map((rules) => one([panel], 'fit/egress', { rules, body: long }).verdict)).toEqual(['holds', 'fails'])
  })
})
