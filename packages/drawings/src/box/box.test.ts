import { boxBody } from '@plugstead/engine/box'
import type { BoxSurvey, Side } from '@plugstead/engine/job'
import { describe, expect, test } from 'vitest'
import { clashingBox, WANTED, yardBox } from '../../test/yard-box.ts'
import type { Drawing, Drawn, Outline } from '../model/drawing.ts'
import { paperScene, sheetScene } from '../model/paper.ts'
import { sideView } from '../model/view.ts'
import type { Text } from '../scene.ts'
import { svg } from '../svg.ts'
import { channelMm } from './gear.ts'
import { boxDrawings } from './index.ts'
import { foldedOpen } from './net.ts'
import { cutOf } from './openings.ts'
import { plateHoles } from './plate.ts'
import { pieceOf } from './sheet-piece.ts'

const SURVEY: BoxSurvey = {
  ...{ box: 'yard', by: 'the welder', on: null, lengthMm: null, widthMm: null, heightMm: null },
  ...{ innerLengthMm: null, innerWidthMm: null, innerHeightMm: null, ribPitchMm: null, innerFlatMm: null, outerFlatMm: null },
  ...{ ribDepthMm: null, sheetMm: null, firstRibMm: { left: 250 }, crossmemberPitchMm: null, bows: null, tareKg: null },
  ...{ weighedKg: null, plate: null, testedKg: null, pockets: null, dents: [] },
}
const PAPER = { widthMm: 185, heightMm: 205 }
const drawings = boxDrawings(yardBox)
const named = (id: string): Drawing => drawings.find((d) => d.id === id)!
const wordsOf = (d: Drawing): readonly string[] =>
  paperScene(d, PAPER)
    .items.filter((i): i is Text => i.kind === 'text')
    .map((t) => t.text)
const outlines = (items: readonly Drawn[]): readonly Outline[] => items.filter((i): i is Outline => i.kind === 'outline')

describe('sheets of a box', () => {
  test('every kind is there, each under a name of its own', () => {
    const ids = drawings.map((d) => d.id)
    expect(new Set(ids).size).toBe(ids.length)
    for (const id of ['six-sides', 'plan', 'raceways', 'runs-1', 'lifting', 'lashing', 'pads', 'labels-1', 'bars-1-strut'])
      expect(ids).toContain(id)
    for (const side of ['left', 'right', 'blind-end', 'door-end'])
      for (const face of ['inside', 'outside']) expect(ids).toContain(`wall-${side}-${face}`)
    for (const id of ids) expect(id).toMatch(/^[A-Za-z0-9-]+$/)
  })

  test('two runs give the same bytes, and everything lies on its paper', () => {
    const again = boxDrawings(yardBox)
    for (const [i, d] of drawings.entries()) {
      const scene = paperScene(d, PAPER)
      expect(svg.render(paperScene(again[i]!, PAPER))).toBe(svg.render(scene))
      expect(scene.sizeMm[1], d.id).toBeLessThanOrEqual(PAPER.heightMm + 1e-6)
      for (const item of scene.items)
        for (const [x, y] of item.kind === 'line' ? item.pointsMm : [item.atMm])
          expect(x >= 0 && x <= scene.sizeMm[0] && y >= 0 && y <= scene.sizeMm[1], `${d.id}: ${JSON.stringify(item)}`).toBe(true)
    }
  })

  test('each thing is lettered on the face it hangs on, and on no other wall', () => {
    expect(wordsOf(named('wall-left-inside'))).toContain('panel')
    expect(wordsOf(named('wall-left-outside'))).not.toContain('panel')
    expect(wordsOf(named('wall-left-outside'))).toEqual(expect.arrayContaining(['G1', 'G2', 'meter', 'supply']))
    expect(wordsOf(named('wall-right-inside'))).toEqual(expect.arrayContaining(['heater', 'door 1']))
  })

  test('distances are those of the design, from the blind end and the underside, on both faces', () => {
    // By hand: the middle of the supply entry lies 666 from the blind end and 662.5 up; the panel’s near corner 1400 and 730.
    expect(wordsOf(named('wall-left-outside'))).toEqual(expect.arrayContaining(['666', '662.5', '3168', '650']))
    expect(wordsOf(named('wall-left-inside'))).toEqual(expect.arrayContaining(['1400', '730', '6058', '2591']))
  })

  test('the datum corner is the blind end’s: left from outside the left long side, right from inside it', () => {
    const datum = (id: string): readonly number[] =>
      named(id).items.flatMap((i) => (i.kind === 'note' && i.layer === 'dimension' ? i.atMm : []))
    const [L] = yardBox.body.outsideMm
    expect(datum('wall-left-outside')).toEqual([0, 0])
    expect(datum('wall-left-inside')).toEqual([L, 0])
    expect(datum('wall-right-outside')).toEqual([L, 0])
    expect(datum('wall-right-inside')).toEqual([0, 0])
  })

  test('the key net hatches the side that is shown, and no other', () => {
    for (const [id, at] of [
      ['wall-left-inside', 'low'],
      ['wall-right-inside', 'high'],
    ] as const) {
      const net = named(id).items.flatMap((i) => (i.kind === 'note' && i.items.length === 6 ? i.items : []))
      const hatched = net.filter((i) => i.kind === 'line' && i.hatch === 'slant close')
      const ys = net.map((i) => (i.kind === 'line' ? i.pointsMm[0]![1] : 0))
      const own = hatched.map((i) => (i.kind === 'line' ? i.pointsMm[0]![1] : 0))
      // The left long side lies lowest on the net, the right one highest; paper counts downwards.
      expect(own).toEqual([at === 'low' ? Math.max(...ys) : Math.min(...ys)])
    }
  })

  test('ribs stand at their true pitch: 278 mm from edge to edge of the same flat', () => {
    const ribs = outlines(named('wall-left-outside').items).filter((o) => o.layer === 'rib')
    const xs = ribs.map((r) => r.pointsMm[0]![0]).toSorted((a, b) => a - b)
    for (let i = 2; i < xs.length; i++) expect(xs[i]! - xs[i - 2]!).toBeCloseTo(278, 6)
    expect(xs.length).toBe(2 * yardBox.body.sides.left.flats.filter((f) => f.kind === 'inner').length)
  })

  test('a pinned thing bears the punch, one that is tight its mark', () => {
    const marks = (id: string) => paperScene(named(id), PAPER).items.flatMap((i) => (i.kind === 'mark' ? [i.mark] : []))
    expect(marks('wall-left-outside')).toEqual(['punch'])
    expect(marks('wall-right-inside')).toEqual(['tight'])
  })

  test('jambs that run from rail to rail are drawn from rail to rail', () => {
    const { sheet } = yardBox.body.sides.right
    const jambs = outlines(named('wall-right-outside').items).filter((o) => {
      const ys = o.pointsMm.map((p) => p[1])
      const xs = o.pointsMm.map((p) => p[0])
      return (
        o.layer === 'frame' &&
        Math.max(...xs) - Math.min(...xs) === 50 &&
        Math.min(...ys) === sheet.lowMm &&
        Math.max(...ys) === sheet.highMm
      )
    })
    expect(jambs.length).toBe(2)
  })
})

describe('the six sides', () => {
  test('where two sides meet on the box they meet on paper: every corner of the floor, and the roof on its fold', () => {
    const { outsideMm } = yardBox.body
    const [L, W, H] = outsideMm
    const net = foldedOpen(outsideMm)
    const paper = (side: Side, point: readonly [number, number, number]) =>
      net[side](sideView(side, 'inside', outsideMm).at(point))
    const meets = (a: Side, b: Side, point: readonly [number, number, number]): void => {
      const [p, q] = [paper(a, point), paper(b, point)]
      expect(p[0], `${a} and ${b} at ${point}`).toBeCloseTo(q[0], 6)
      expect(p[1], `${a} and ${b} at ${point}`).toBeCloseTo(q[1], 6)
    }
    for (const x of [0, 1234, L]) {
      meets('floor', 'left', [x, 0, 0])
      meets('floor', 'right', [x, W, 0])
    }
    for (const y of [0, 567, W]) {
      meets('floor', 'blind end', [0, y, 0])
      meets('floor', 'door end', [L, y, 0])
      meets('roof', 'door end', [L, y, H])
    }
  })

  test('a long box folds its roof over the right long side', () => {
    const outsideMm = [12_192, 2438, 2591] as const
    const net = foldedOpen(outsideMm)
    for (const x of [0, 5000, 12_192]) {
      const point = [x, 2438, 2591] as const
      const [a, b] = (['roof', 'right'] as const).map((side) => net[side](sideView(side, 'inside', outsideMm).at(point)))
      expect(a![0]).toBeCloseTo(b![0], 6)
      expect(a![1]).toBeCloseTo(b![1], 6)
    }
  })

  test('five folds join six sides', () => {
    expect(outlines(named('six-sides').items).filter((o) => o.line === 'fold').length).toBe(5)
  })
})

describe('boxes of every length', () => {
  const lengths = [8, 9, 10, 20, 40, 45, 53].flatMap((lengthFt) =>
    (['standard', 'high'] as const).map((heightKind) => ({ lengthFt, heightKind })),
  )
  for (const { lengthFt, heightKind } of lengths)
    test(`${lengthFt} ft, ${heightKind}: each wall as long as the box, at a true scale, on its paper`, () => {
      const body = boxBody({ ...WANTED, lengthFt, heightKind }, null)
      for (const d of boxDrawings({ ...yardBox, body })) {
        const scene = sheetScene(d, PAPER)
        for (const item of scene.items)
          for (const [x, y] of item.kind === 'line' ? item.pointsMm : [item.atMm])
            expect(x >= -0.01 && x <= scene.sizeMm[0] + 0.01 && y >= -0.01 && y <= scene.sizeMm[1] + 0.01, d.id).toBe(true)
        if (!d.id.startsWith('wall-') && d.id !== 'six-sides') continue
        expect(
          scene.items.some((i) => i.kind === 'text' && i.text.startsWith('1:')),
          d.id,
        ).toBe(true)
        if (/left|right/.test(d.id)) expect(wordsOf(d)).toContain(String(Math.round(body.outsideMm[0] * 10) / 10))
      }
    })
})

describe('what does not fit', () => {
  test('a panel of 4 m in a box of 3 m is drawn 4 m long, out of the box, never squeezed into it', () => {
    const body = boxBody({ ...WANTED, lengthFt: 10 }, null)
    const [panel] = yardBox.build.fit.items
    const items = [{ ...panel!, sizeMm: [4000, 150, 1520] as const }]
    const wall = boxDrawings({ ...yardBox, body, build: { ...yardBox.build, fit: { ...yardBox.build.fit, items } } }).find(
      (d) => d.id === 'wall-left-inside',
    )!
    const xs = outlines(wall.items)
      .filter((o) => o.layer === 'item' && o.line === 'symbol')
      .flatMap((o) => o.pointsMm.map((p) => p[0]))
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(4000, 9)
    expect(Math.min(...xs)).toBeLessThan(0)
  })

  test('ribs that nobody measured are said to be assumed, with how far they may lie off; measured ones are not', () => {
    expect(wordsOf(named('wall-left-outside')).join('|')).toContain('all may lie 139 to either side')
    const body = boxBody(WANTED, SURVEY)
    const wall = boxDrawings({ ...yardBox, body }).find((d) => d.id === 'wall-left-outside')!
    expect(wordsOf(wall).join('|')).not.toContain('to either side')
  })

  const clashing = boxDrawings(clashingBox)
  test('is said with both things and the millimetres, on the six sides and on the wall', () => {
    for (const id of ['six-sides', 'wall-left-inside']) {
      const d = clashing.find((one) => one.id === id)!
      expect(wordsOf(d).join('|')).toContain('transfer against panel: 137.5 too little')
      expect(d.items.some((i) => i.kind === 'note' && i.items.some((one) => one.kind === 'mark' && one.mark === 'fails'))).toBe(
        true,
      )
    }
    expect(wordsOf(clashing[0]!).join('|')).toContain('stub 3 against blind end: 40 too little')
  })

  test('a space in which something stands is marked with what is missing', () => {
    const [space] = yardBox.spaces
    const plan = boxDrawings({
      ...yardBox,
      spaces: [{ ...space!, intrusions: [{ against: 'heater', way: 'depth', byMm: 61 }] }],
    }).find((d) => d.id === 'plan')!
    expect(wordsOf(plan)).toContain('heater: 61 of depth missing')
  })

  test('ground that bears less than the pads press is said to fail, with both numbers', () => {
    const said = wordsOf(named('pads')).join('|')
    expect(said).toContain('fails: worst pad')
    expect(said).toMatch(/121.kPa on the ground, which bears 120.kPa/)
  })

  test('a section that cannot be cut from its stock is said with both numbers, not drawn as if it could', () => {
    const [cuts] = yardBox.cuts!
    const none = boxDrawings({
      ...yardBox,
      cuts: [
        {
          ...cuts!,
          plan: {
            ...cuts!.plan,
            outcome: 'none',
            bars: [],
            count: 0,
            lacks: [{ kind: 'too long', id: 'jamb', lengthMm: 4000, longestMm: 3048 }],
          },
        },
      ],
    }).find((d) => d.id === 'bars-1-strut')!
    expect(wordsOf(none)).toContain('jamb: 4000 long, the longest stock 3048')
  })
})

describe('a raceway by itself', () => {
  const said = wordsOf(named('runs-1')).join('|')
  test('says its legs as they lie in the design, and each stick with its marks as the shop worked them out', () => {
    // By hand from the corners of the axis: 1250 − 761, 3168 − 2494, 761 − 650, 94 − 44.
    for (const leg of ['489', '674', '111', '50']) expect(said.split('|')).toContain(leg)
    expect(said).toContain('stick 1, 955.5 long: 90° at 362,|  kick 5° middle 756.5')
  })

  test('that cannot be bent so is marked, with what is missing and where', () => {
    expect(said).toContain('19.6 of straight pipe missing between')
    expect(said).toContain('quarter at 1163 mm and its end')
    expect(paperScene(named('runs-1'), PAPER).items.some((i) => i.kind === 'mark' && i.mark === 'fails')).toBe(true)
  })
})

test('a channel is as wide and deep as its name says, in millimetres or inches; a name that says neither is refused', () => {
  expect(channelMm('12 ga 1-5/8 x 7/8 (41 x 22)')).toEqual({ wideMm: 41, deepMm: 22 })
  expect(channelMm('16 ga 1-5/8 x 13/16')).toEqual({ wideMm: 41.275, deepMm: 20.6375 })
  expect(() => channelMm('14 ga back to back')).toThrow('drawings/channel-unknown')
})

test('a sheet of lifting or lashing never says within the limits while something is unknown or fails', () => {
  for (const [hauls, said] of [
    ['holds', /^Within the limits computed; not yet decided by/],
    ['tight', /^Within the limits computed; not yet decided by/],
    ['unknown', /^Not all of it could be computed; not yet decided by/],
    ['fails', /^Not within the limits computed; not yet decided by/],
  ] as const)
    for (const id of ['lifting', 'lashing']) {
      const drawing = boxDrawings({ ...yardBox, hauls }).find((d) => d.id === id)!
      expect(
        wordsOf(drawing).filter((w) => w.includes('computed')),
        `${id}, ${hauls}`,
      ).toEqual([expect.stringMatching(said)])
    }
})

describe('a cord plate', () => {
  test('its holes lie where the design has them, from the corner of a sheet that laps over by 40', () => {
    const opening = yardBox.build.skin.openings.find((o) => o.id === 'cord plate 1')!
    const piece = pieceOf(yardBox.skin!.pieces, 'cord plate 1', 'plate')!
    const holes = plateHoles(opening, piece)
    // M25 and M32 through holes of 25.5 and 32.5 (EN 60423 threads; holes: memory).
    expect(holes.map((h) => [...h.atMm, 2 * h.radiusMm])).toEqual([
      [71, 70.5, 25.5],
      [120, 70.5, 32.5],
    ])
  })

  test('stands on the wall where its opening is cut', () => {
    const opening = yardBox.build.skin.openings.find((o) => o.id === 'cord plate 1')!
    const { low, high } = cutOf(opening, sideView('left', 'outside', yardBox.body.outsideMm))
    expect([low, high]).toEqual([
      [4054, 649.5],
      [4174, 710.5],
    ])
  })
})
