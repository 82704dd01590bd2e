import type { FitDesign, PlacedItem, PointMm, StrutPiece } from '../../job/index.ts'

const CHANNEL = '12 ga 1-5/8 x 1-5/8 (41 x 41, 2.6 mm)'
const FACE_MM = 44 + 41.3

/** A piece of channel on the left wall of an invented box, whose inside face stands at y = 44 mm. */
export const piece = (id: string, from: PointMm, to: PointMm, over: Partial<StrutPiece> = {}): StrutPiece => ({
  id,
  use: 'upright',
  section: CHANNEL,
  pattern: 'holes',
  side: 'left',
  fromMm: from,
  toMm: to,
  fixings: [
    { atMm: from, how: 'weld to rail' },
    { atMm: to, how: 'weld to rail' },
  ],
  ...over,
})

export const thing = (
  id: string,
  at: PointMm,
  size: PointMm,
  kg: number,
  hangsOn: readonly string[],
  over: Partial<PlacedItem> = {},
): PlacedItem => ({
  id,
  kind: 'panel',
  what: id,
  part: `${id} 1`,
  side: 'left',
  face: 'inside',
  atMm: at,
  sizeMm: size,
  massKg: { low: kg * 0.8, high: kg, basis: 'invented', told: true },
  circuits: [],
  hangsOn,
  ...over,
})

export const fitOf = (items: readonly PlacedItem[], strut: readonly StrutPiece[]): FitDesign => ({
  items,
  strut,
  raceways: [],
  bonds: [],
  search: null,
  clashes: [],
})

/** Two uprights 556 mm apart, two rails between them, a panel of 110 kg on the rails. */
export function panelOnRails(kg = 110): FitDesign {
  const [x1, x2] = [2000, 2556]
  const upright = (id: string, x: number) =>
    piece(id, [x, 44, 150], [x, 44, 2350], {
      fixings: [150, 1250, 2350].map((z) => ({
        atMm: [x, 44, z] as PointMm,
        how: z === 1250 ? ('weld to pad' as const) : ('weld to rail' as const),
      })),
    })
  const rail = (id: string, z: number) => {
    const [a, b]: readonly [PointMm, PointMm] = [
      [x1 + 21, 44, z],
      [x2 - 21, 44, z],
    ]
    return piece(id, a, b, { use: 'rail', fixings: [a, b].map((atMm) => ({ atMm, how: 'channel nut' as const })) })
  }
  return fitOf(
    [thing('panel', [2023, FACE_MM, 700], [510, 150, 1200], kg, ['rail 1', 'rail 2'])],
    [upright('upright 1', x1), upright('upright 2', x2), rail('rail 1', 800), rail('rail 2', 1800)],
  )
}
