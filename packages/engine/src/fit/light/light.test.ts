import { describe, expect, test } from 'vitest'
import type { ItemKind, PlacedItem, PointMm } from '../../job/index.ts'
import { directLx, lampsFor, leastStrips, roomIndex, utilisation } from '../../parts/index.ts'
import { ruleSets } from '../../rules/index.ts'
import { judgeLight } from './judge.ts'

const rules = ruleSets.us
const body = { insideAtMm: [50, 44, 150] as PointMm, insideMm: [5900, 2350, 2393] as PointMm }
const item = (
  id: string,
  kind: ItemKind,
  atMm: PointMm,
  sizeMm: PointMm,
  part: string,
  side: PlacedItem['side'],
): PlacedItem => ({
  ...{ id, kind, what: id, part, side, atMm, sizeMm },
  face: 'inside',
  massKg: { low: 1, high: 2, basis: 'invented', told: true },
  circuits: [],
  hangsOn: [],
})
const lamp = (i: number, zMm = 2400) =>
  item(`light ${i}`, 'light', [1000 + 1800 * i, 1160, zMm], [1240, 120, 90], 'light strip 30', 'roof')
const panel = item('panel', 'panel', [2500, 85, 700], [510, 150, 1200], 'panelboard 225', 'left')
const plain = item('switch', 'light switch', [5000, 85, 1200], [80, 60, 120], 'light switch 1', 'left')
const sensor = item('sensor', 'light sensor', [3000, 1100, 2480], [110, 110, 60], 'light sensor 1', 'roof')
const judge = (items: readonly PlacedItem[], over: object = {}) =>
  judgeLight({ box: 'A', items, body, rules, white: true, ...over }).findings
const level = (items: readonly PlacedItem[], over: object = {}) => judge(items, over).find((f) => f.code === 'fit/light')!

describe('lumen method', () => {
  test('the factor runs on a line between columns, stands still beyond them, and says when it lies below', () => {
    const at = (index: number) => utilisation({ ceiling: 0.7, wall: 0.5, floor: 0.2, index })
    expect(at(1.125).factor).toBeCloseTo((0.5 + 0.56) / 2, 9)
    expect([at(0.4).factor, at(0.75).factor, at(9).factor]).toEqual([0.44, 0.44, 0.77])
    expect([at(0.74).belowTable, at(0.75).belowTable]).toEqual([true, false])
    expect(() => utilisation({ ceiling: 0.8, wall: 0.5, floor: 0.2, index: 1 })).toThrow('parts/light-range')
  })
  test('a darker room and a narrower room never use light better', () => {
    for (let index = 0.5; index < 6; index += 0.1) {
      const white = utilisation({ ceiling: 0.7, wall: 0.5, floor: 0.2, index }).factor
      expect(utilisation({ ceiling: 0.3, wall: 0.3, floor: 0.2, index }).factor).toBeLessThan(white)
      expect(utilisation({ ceiling: 0.7, wall: 0.5, floor: 0.2, index: index + 0.1 }).factor).toBeGreaterThanOrEqual(white)
    }
  })
  test('what cannot be is a fault', () => {
    expect(() => roomIndex({ lengthM: 5, widthM: 2, aboveM: 0 })).toThrow('parts/light-range')
    expect(() => lampsFor({ levelLx: 200, areaM2: 10, fluxLm: Number.NaN, utilisation: 0.5, maintenance: 0.8 })).toThrow(
      'parts/light-range',
    )
  })
  test('straight light: a lamp right over the edge, behind, and at 45°: I/π·cos·cos/d²', () => {
    const at = (x: number, y: number, z: number) =>
      directLx({ at: [0, 0, 0], facing: [0, 1, 0], lamps: [{ at: [x, y, z], fluxLm: 3000 }] })
    expect(at(0, 1, 1)).toBeCloseTo((3000 / Math.PI) * Math.SQRT1_2 * Math.SQRT1_2 * 0.5, 9)
    expect(at(0, -1, 1)).toBe(0)
    expect(at(0, 0, 2)).toBe(0)
    expect(at(0, 1, -1)).toBe(0)
  })
})

describe('the light of a box', () => {
  test('level by hand: F·UF·MF/A, and the face from point to point beside it', () => {
    const items = [lamp(0), lamp(1), panel, plain]
    const found = level(items)
    const h = (2400 - 150 - 1500) / 1000
    const k = (5.9 * 2.35) / (h * 8.25)
    const uf = utilisation({ ceiling: 0.7, wall: 0.5, floor: 0.2, index: k }).factor
    expect(found.demand!.value).toBeCloseTo((2 * 30 * 120 * uf * 0.8) / (5.9 * 2.35), 9)
    expect(found.verdict).toBe('holds')
    const [working] = judgeLight({ box: 'A', items, body, rules, white: true }).workings
    expect(working!.crossCheck![0]!.result).toBeGreaterThan(50)
  })
  test('one lamp too few fails; a bare box and lamps of less flux need more; nothing said is unknown', () => {
    expect(level([lamp(0), panel, plain], { fluxLm: () => 1500 }).verdict).toBe('fails')
    const white = level([lamp(0), lamp(1), plain]).demand!.value as number
    expect(level([lamp(0), lamp(1), plain], { white: false }).demand!.value).toBeLessThan(white)
    const ends = (fluxLm: number) => level([lamp(0), lamp(1), plain], { white: null, fluxLm: () => fluxLm })
    expect(ends(3600)).toMatchObject({ verdict: 'unknown', assumed: ['boxes.A.paint'] })
    expect([ends(1000).verdict, ends(9000).verdict]).toEqual(['fails', 'holds'])
    expect(level([{ ...lamp(0), part: 'lamp' }, plain]).verdict).toBe('unknown')
    expect(level([panel, plain]).verdict).toBe('fails')
    expect(level([lamp(0, 1600), plain]).verdict).toBe('fails')
  })
  test('a narrow high room below the table is never more than tight', () => {
    const tall = { insideAtMm: [0, 0, 0] as PointMm, insideMm: [2400, 1200, 4000] as PointMm }
    const found = judgeLight({ box: 'A', items: [lamp(0, 3600), plain], body: tall, rules, white: true, fluxLm: () => 20_000 })
      .findings[0]!
    expect([found.verdict, found.said]).toEqual(['tight', expect.stringContaining('too narrow')])
  })
  test('a sensor alone fails, a switch alone holds, both hold, neither fails', () => {
    const at = (...items: readonly PlacedItem[]) =>
      judge([lamp(0), lamp(1), ...items]).find((f) => f.code === 'fit/light-switch')!.verdict
    expect([at(sensor), at(plain), at(sensor, plain), at()]).toEqual(['fails', 'holds', 'holds', 'fails'])
  })
})

describe('how many strips', () => {
  const hung = (count: number, insideMm: PointMm) => Array.from({ length: count }, (_, i) => lamp(i, 150 + insideMm[2] - 41 - 90))
  const lit = (count: number, insideMm: PointMm, white: boolean | null) =>
    judgeLight({ box: 'A', items: [...hung(count, insideMm), plain], body: { ...body, insideMm }, rules, white }).findings[0]!
  const rooms: readonly PointMm[] = [
    [2830, 2350, 2393],
    [5896, 2350, 2393],
    [5896, 2350, 2698],
    [12032, 2350, 2393],
    [12032, 2350, 2698],
  ]
  test.each(rooms)(
    '%d × %d × %d mm: the least number that lights it between dark walls, and between white ones',
    (...insideMm) => {
      const count = leastStrips({ insideMm, levelLx: 200 })
      for (const white of [false, true, null]) expect(['holds', 'tight']).toContain(lit(count, insideMm, white).verdict)
      if (count > 1) expect(lit(count - 1, insideMm, false).verdict).toBe('fails')
    },
  )
  test('20 ft by hand from the printed row 0.3 0.3 0.2: K 2.21, UF 0.472, 2.04 strips of 3600 lm', () => {
    // Lumen method, N = E·A/(F·UF·MF): 200·13.86/(3600·0.472·0.8)
    const k = (5.896 * 2.35) / (0.762 * (5.896 + 2.35))
    const uf = 0.46 + ((0.49 - 0.46) * (k - 2)) / 0.5
    expect(Math.ceil((200 * 5.896 * 2.35) / (3600 * uf * 0.8))).toBe(leastStrips({ insideMm: [5896, 2350, 2393], levelLx: 200 }))
  })
  test('more strips are never darker; a longer box never takes fewer', () => {
    for (let n = 1; n < 8; n++)
      expect(lit(n + 1, rooms[1]!, false).demand!.value).toBeGreaterThan(lit(n, rooms[1]!, false).demand!.value as number)
    let before = 0
    for (let lengthMm = 2500; lengthMm < 16000; lengthMm += 500) {
      const count = leastStrips({ insideMm: [lengthMm, 2350, 2393], levelLx: 200 })
      expect(count).toBeGreaterThanOrEqual(before)
      before = count
    }
  })
  test('where too few hang, the mend says how many', () =>
    expect(lit(2, rooms[1]!, null)).toMatchObject({ verdict: 'unknown', mends: [{ path: 'lights.A.count', value: 3 }] }))
})
