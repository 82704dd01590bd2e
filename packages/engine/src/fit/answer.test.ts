import { describe, expect, test } from 'vitest'
import { asked, type Wish } from '../../test/laid-yard.ts'
import type { FitDesign, PlacedItem, SkinDesign } from '../job/index.ts'
import type { Finding } from '../kernel/index.ts'
import { answerFit, type FitInputs } from './answer.ts'
import { designFit } from './design.ts'
import type { FitRequest } from './layout/index.ts'
import { pinPath } from './layout/pins.ts'
import { placeWords } from './placed/words.ts'

const BARE: SkinDesign = { openings: [], exitWays: {}, cordSide: 'left', finish: { primer: '', foam: false } }

const made = new Map<string, { readonly request: FitRequest; readonly laid: FitDesign }>()
function laidOut(wish: Wish) {
  const key = JSON.stringify(wish)
  const had = made.get(key)
  if (had !== undefined) return had
  const request = asked(wish)
  const laid = { request, laid: designFit(request) }
  made.set(key, laid)
  return laid
}

/** A yard, laid out, its layout turned by hand, and asked. */
function answered(wish: Wish, turn: (fit: FitDesign) => FitDesign = (f) => f) {
  const { request, laid } = laidOut(wish)
  const fit = turn(laid)
  const inputs: FitInputs = {
    job: request.job as FitInputs['job'],
    design: {
      boxes: request.designs,
      builds: [{ box: 'BX1', fit, air: null as never, skin: request.skin ?? BARE, haul: null as never }],
      pinned: [],
    } as FitInputs['design'],
    bodies: { BX1: request.body },
    rules: request.rules,
    prices: request.prices,
  }
  return { ...answerFit(inputs), inputs, fit, body: request.body }
}

const of = (findings: readonly Finding[], code: string) => findings.filter((f) => f.code === code)
const moved = (id: string, change: (i: PlacedItem) => Partial<PlacedItem>) => (fit: FitDesign) => ({
  ...fit,
  items: fit.items.map((i) => (i.id === id ? { ...i, ...change(i) } : i)),
})

describe('a layout as it comes', () => {
  const { findings, workings, result } = answered({ machines: 6, skin: true })
  test('holds in everything that placing decides', () => {
    for (const code of [
      'fit/not-placed',
      'fit/overlap',
      'fit/inside-box',
      'fit/on-opening',
      'fit/highway',
      'fit/order',
      'fit/height',
      'fit/meter-height',
      'fit/layout-money',
      'fit/strut-held',
      'fit/working-space-depth',
    ]) {
      const here = of(findings, code)
      expect(here.length, code).toBeGreaterThan(0)
      for (const f of here) expect(f.verdict, f.said).toBe('holds')
    }
  })

  test('every working named is there, once', () => {
    const ids = workings.map((w) => w.id)
    expect(new Set(ids).size).toBe(ids.length)
    for (const f of findings) for (const id of f.workings) expect(ids).toContain(id)
  })

  test('says where each thing hangs in words, and sums mass and channel', () => {
    const [box] = result.boxes
    expect(box!.items.find((i) => i.id === 'panel')!.place).toMatch(/^\d\.\d\d m up, \d\.\d\d m from the blind end$/)
    expect(box!.hungKg.low).toBeCloseTo(
      box!.items.reduce((s, i) => s + i.massKg.low, 0),
      9,
    )
    expect(box!.strut.every((s) => s.lengthM > 0 && s.piecesCount > 0)).toBe(true)
  })
})

test('a place in words is that of the middle, above the floor', () => {
  const { body } = answered({ machines: 1 })
  const item = { side: 'left', atMm: [800, 85, body.floor.topMm + 1500], sizeMm: [200, 100, 200] } as unknown as PlacedItem
  expect(placeWords(body, item)).toBe('1.60 m up, 0.90 m from the blind end')
})

test('a box of 3 m with a panel of 4 m: both numbers, and that it does not fit', () => {
  const { findings } = answered(
    { machines: 2, lengthFt: 3 / 0.3048 },
    moved('panel', (i) => ({ sizeMm: [4000, i.sizeMm[1], i.sizeMm[2]] })),
  )
  const [found] = of(findings, 'fit/inside-box')
  expect(found!.verdict).toBe('fails')
  expect(found!.demand!.value).toBe(4000)
  expect(found!.limit!.value).toBeLessThan(3000)
  expect(found!.said).toContain('4000 mm')
})

test('two things pushed into each other fail with the depth they share', () => {
  const { findings } = answered({ machines: 6 }, (fit) => {
    const panel = fit.items.find((i) => i.id === 'panel')!
    return moved('controls', () => ({
      side: panel.side,
      atMm: [panel.atMm[0] + panel.sizeMm[0] - 40, panel.atMm[1], panel.atMm[2]],
    }))(fit)
  })
  const found = of(findings, 'fit/overlap').find((f) => f.subject.includes('controls'))
  expect(found!.verdict).toBe('fails')
  expect(found!.demand!.value).toBe(-40)
})

test('a gap of 4 mm is less than what is built lands off; 5 mm holds', () => {
  const at = (gap: number) =>
    answered({ machines: 6 }, (fit) => {
      const [a] = fit.items.filter((i) => i.kind === 'receptacle')
      return { ...fit, items: [a!, { ...a!, id: 'twin', atMm: [a!.atMm[0] + a!.sizeMm[0] + gap, a!.atMm[1], a!.atMm[2]] }] }
    })
  expect(of(at(4).findings, 'fit/overlap')[0]!.verdict).toBe('fails')
  expect(of(at(5).findings, 'fit/overlap')[0]!.verdict).toBe('holds')
})

test('a thing taken out of the layout is missed by name', () => {
  const { findings } = answered({ machines: 3 }, (fit) => ({ ...fit, items: fit.items.filter((i) => i.id !== 'receptacle M2') }))
  expect(of(findings, 'fit/not-placed').map((f) => [f.subject, f.verdict])).toEqual([['BX1 receptacle M2', 'fails']])
})

test('low, wet, out of order, too high and on the door end are each said', () => {
  const low = answered(
    { machines: 3 },
    moved('heater', (i) => ({ atMm: [i.atMm[0], i.atMm[1], 220] })),
  )
  expect(of(low.findings, 'fit/water-line')[0]!.verdict).toBe('fails')
  expect(of(low.findings, 'fit/highway')[0]!.verdict).toBe('fails')
  const high = answered({ machines: 3 }, (fit) =>
    fit.items.reduce(
      (f, i) => (i.kind === 'receptacle' ? moved(i.id, (x) => ({ atMm: [x.atMm[0], x.atMm[1], 1900] }))(f) : f),
      fit,
    ),
  )
  expect(of(high.findings, 'fit/height').every((f) => f.verdict === 'fails')).toBe(true)
  const turned = answered({ machines: 3 }, (fit) => {
    const [surge, panel, controls] = ['surge device', 'panel', 'controls'].map((id) => fit.items.find((i) => i.id === id)!)
    const x = Math.max(surge!.atMm[0], panel!.atMm[0], controls!.atMm[0])
    return moved('surge device', (i) => ({ atMm: [x + 600, i.atMm[1], i.atMm[2]] }))(
      moved('panel', (i) => ({ atMm: [x + 1200, i.atMm[1], i.atMm[2]] }))(fit),
    )
  })
  expect(of(turned.findings, 'fit/order').some((f) => f.verdict === 'fails')).toBe(true)
  const end = answered(
    { machines: 3 },
    moved('thermostat', () => ({ side: 'door end' })),
  )
  expect(of(end.findings, 'fit/order').some((f) => f.verdict === 'fails' && f.subject.includes('thermostat'))).toBe(true)
})

test('a meter is judged above the ground at both heights of the pads', () => {
  const at = (mm: number) =>
    of(
      answered(
        { machines: 2 },
        moved('meter', (i) => ({ atMm: [i.atMm[0], i.atMm[1], mm - i.sizeMm[2] / 2] })),
      ).findings,
      'fit/meter-height',
    )[0]!.verdict
  // 1500–1800 above grade; pads 50–350: 1450 always, 1400 on some, 1100 on none.
  expect([at(1450), at(1400), at(1100)]).toEqual(['holds', 'tight', 'fails'])
})

test('things on a dent and over an opening are named with both', () => {
  const dent = { side: 'right' as const, fromMm: 2000, upMm: 1000, widthMm: 300, heightMm: 800, depthMm: 30 }
  const onDent = answered(
    { machines: 2, survey: { dents: [dent] } },
    moved('thermostat', (i) => ({ side: 'right', atMm: [2100, i.atMm[1], 1400] })),
  )
  expect(of(onDent.findings, 'fit/on-dent')[0]!.subject).toContain('thermostat')
  const door = answered({ machines: 2, skin: true })
  const opening = door.inputs.design.builds[0]!.skin.openings.find((o) => o.use === 'personnel door')!
  const onDoor = answered(
    { machines: 2, skin: true },
    moved('thermostat', (i) => ({ side: opening.side, atMm: [opening.atMm[0], i.atMm[1], opening.atMm[2]] })),
  )
  expect(of(onDoor.findings, 'fit/on-opening').find((f) => f.verdict === 'fails')!.said).toContain(opening.id)
})

test('what hangs in the swing of a cargo leaf is said, as the house’s wish', () => {
  const { findings, body } = answered(
    { machines: 2 },
    moved('meter', (i) => ({ side: 'left', atMm: [5600, i.atMm[1], i.atMm[2]] })),
  )
  const found = of(findings, 'fit/door-swing').find((f) => f.verdict === 'fails')!
  expect(found.basis).toBe('house')
  const leaf = body.doors.find((d) => d.mostDeg > 180 && d.hingeMm[1] < 1000)!
  const { sizeMm } = answered({ machines: 2 }).fit.items.find((i) => i.id === 'meter')!
  expect(found.demand!.value).toBe(Math.round(5600 + sizeMm[0] - (body.outsideMm[0] - leaf.widthMm)))
})

describe('pins', () => {
  const pin = (path: string, value: string) => ({ path, value, by: 'an electrician', why: '' })
  test('kept, moved away by hand, unreadable and of nothing', () => {
    const kept = { machines: 2, pins: [pin(pinPath('BX1', 'panel'), 'right 2.50 m 1.35 m')] }
    expect(of(answered(kept).findings, 'fit/pin-kept')[0]!.verdict).toBe('holds')
    const off = answered(
      kept,
      moved('panel', (i) => ({ atMm: [i.atMm[0] + 30, i.atMm[1], i.atMm[2]] })),
    )
    expect(of(off.findings, 'fit/pin-kept')[0]!).toMatchObject({ verdict: 'fails', demand: { value: 30 } })
    const odd = answered({
      machines: 2,
      pins: [pin(pinPath('BX1', 'panel'), 'by the door'), pin('items.BX1.anvil.at', 'left 1 m 1 m')],
    })
    expect(of(odd.findings, 'fit/pin-unread').map((f) => f.verdict)).toEqual(['unknown', 'unknown'])
  })
})

test('a box without a build, or without a body, is unknown', () => {
  const { inputs } = answered({ machines: 1 })
  const without = answerFit({ ...inputs, design: { ...inputs.design, builds: [] } })
  expect(without.findings.map((f) => [f.code, f.verdict])).toEqual([['fit/not-designed', 'unknown']])
  expect(answerFit({ ...inputs, bodies: {} }).findings.map((f) => f.verdict)).toEqual(['unknown'])
  expect(without.result.boxes).toEqual([])
})
