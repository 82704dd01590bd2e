import { expect, test } from 'vitest'
import type { FitDesign, Opening } from '../../job/index.ts'
import { fitOf, piece, thing } from '../strut/wall.fixture.ts'
import { bondPoints, judgeBonding } from './bonding.ts'

const body = {
  insideAtMm: [50, 44, 150] as const,
  doors: [
    {
      id: 'left leaf',
      side: 'door end' as const,
      hingeMm: [6050, 50, 200] as const,
      widthMm: 1170,
      heightMm: 2274,
      swings: 'outward' as const,
      mostDeg: 270,
    },
  ],
}
const openings = [{ id: 'door 1', use: 'personnel door', atMm: [4000, 2438, 1150] }] as unknown as readonly Opening[]
const base = fitOf(
  [
    thing('panel', [2000, 85, 700], [510, 150, 1200], 60, []),
    thing('earth bar', [3000, 85, 400], [300, 50, 60], 2, [], { kind: 'earth bar' }),
    thing('light', [3000, 1000, 2400], [1200, 120, 90], 2, [], { kind: 'light' }),
  ],
  [
    piece('upright 1', [2000, 44, 150], [2000, 44, 2300]),
    piece('rail 1', [2021, 44, 900], [2535, 44, 900], { fixings: [{ atMm: [2021, 44, 900], how: 'channel nut' }] }),
  ],
)
const raceway = (id: string, kind: string) =>
  ({
    id,
    kind,
    trade: '3/4',
    from: 'a',
    to: 'b',
    pointsMm: [[1, 2, 3]],
    bends: [],
    circuits: [],
    conductors: [],
    strapsMm: [],
    pullsMm: [],
  }) as never
const fit: FitDesign = { ...base, raceways: [raceway('R1', 'EMT'), raceway('R2', 'PVC 40')] }
const bonded: FitDesign = { ...fit, bonds: bondPoints({ fit, body, openings }, '6 AWG') }
const verdicts = (of: FitDesign) => judgeBonding({ box: 'A', fit: of, body, openings }).findings.map((f) => f.verdict)

test('a jumper for the frame, each leaf, the panel, channel that is not welded, raceways of metal', () => {
  expect(bonded.bonds.map((b) => b.id)).toEqual(['box frame', 'door left leaf', 'door 1', 'panel', 'strut rail 1', 'raceway R1'])
  expect(bonded.bonds.every((b) => b.conductor === '6 AWG')).toBe(true)
})

test('all joined holds; one left out fails and is named; one to nothing fails; no earth bar fails', () => {
  expect(verdicts(bonded)).toEqual(['holds'])
  for (const { id } of bonded.bonds) {
    const less = { ...bonded, bonds: bonded.bonds.filter((b) => b.id !== id) }
    const [found] = judgeBonding({ box: 'A', fit: less, body, openings }).findings
    expect([found!.verdict, found!.said]).toEqual(['fails', expect.stringContaining(id)])
  }
  expect(
    verdicts({ ...bonded, bonds: [...bonded.bonds, { id: 'ghost', what: '', atMm: [0, 0, 0], conductor: '6 AWG' }] }),
  ).toEqual(['holds', 'fails'])
  expect(verdicts({ ...bonded, items: bonded.items.filter((i) => i.kind !== 'earth bar') })).toEqual(['fails'])
})
