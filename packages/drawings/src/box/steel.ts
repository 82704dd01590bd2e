import type { BodySide, BoxBody, Member } from '@plugstead/engine/box'
import type { Side } from '@plugstead/engine/job'
import type { Drawn } from '../model/drawing.ts'
import { millimetres, rect, shape, stroke, words } from '../model/make.ts'
import { covers, onFace, type View } from '../model/view.ts'

/** A member whose face lies this near to the outer face of a side belongs to that side. */
const WALL_MM = 60

/** Axis and outer coordinate of a side. */
function planeOf(side: Side, [L, W, H]: BoxBody['outsideMm']): { readonly axis: 0 | 1 | 2; readonly atMm: number } {
  switch (side) {
    case 'left':
      return { axis: 1, atMm: 0 }
    case 'right':
      return { axis: 1, atMm: W }
    case 'blind end':
      return { axis: 0, atMm: 0 }
    case 'door end':
      return { axis: 0, atMm: L }
    case 'roof':
      return { axis: 2, atMm: H }
    case 'floor':
      return { axis: 2, atMm: 0 }
  }
}

/** Members that stand in a side: posts, rails, header, sill, fittings; pockets on the long sides. */
export function membersIn(body: BoxBody, side: Side): readonly Member[] {
  const { axis, atMm } = planeOf(side, body.outsideMm)
  return body.members.filter((m) => Math.min(Math.abs(m.fromMm[axis] - atMm), Math.abs(m.toMm[axis] - atMm)) < WALL_MM)
}

/** One side in steel: members, ribs at their true pitch. */
export function steelOf(body: BoxBody, side: Side, face: 'inside' | 'outside', look: View): readonly Drawn[] {
  const items: Drawn[] = []
  for (const m of membersIn(body, side)) {
    if (m.kind === 'crossmember' || (face === 'inside' && m.kind === 'fork pocket')) continue
    const { low, high } = covers(look, m.fromMm, m.toMm)
    const under = face === 'inside' && m.toMm[2] <= body.floor.topMm + 1
    items.push(rect('frame', low, high, under ? 'behind' : m.kind === 'corner fitting' ? 'symbol' : 'ampere 1'))
  }
  items.push(...ribs(body, side, look))
  if (side === 'door end') items.push(...leaves(body, look))
  if (face === 'inside' && side !== 'roof' && side !== 'floor')
    items.push(...floorLine(body, look, sideOutline(body, side, look)))
  return items
}

/** The whole face of a side in a view. */
export const sideOutline = (body: BoxBody, side: Side, look: View): ReturnType<typeof covers> =>
  covers(look, onFace(side, body.outsideMm, 0, 0), farCorner(body, side))

function farCorner(body: BoxBody, side: Side) {
  const { alongMm, upMm } = body.sides[side]
  return onFace(side, body.outsideMm, alongMm, upMm)
}

function floorLine(body: BoxBody, look: View, { low, high }: ReturnType<typeof covers>): readonly Drawn[] {
  const y = look.at([0, 0, body.floor.topMm])[1]
  return [
    stroke(
      'frame',
      [
        [low[0], y],
        [high[0], y],
      ],
      'opening',
    ),
  ]
}

/** Where nobody has measured the first rib, every rib drawn may lie this far to either side; null where it was measured. */
export function ribsAssumed(body: BoxBody, side: Side): string | null {
  const band = body.sides[side].corrugation?.flatsBandMm ?? 0
  return band === 0
    ? null
    : `ribs as the table has them: nobody has measured the first one, and all may lie ${millimetres(band)} to either side`
}

/** Both edges of every inner flat. */
function ribs(body: BoxBody, side: Side, look: View): readonly Drawn[] {
  const { flats, sheet } = body.sides[side]
  return flats
    .filter((flat) => flat.kind === 'inner')
    .flatMap((flat) => [flat.fromMm, flat.toMm])
    .map((at) =>
      stroke(
        'rib',
        [look.at(onFace(side, body.outsideMm, at, sheet.lowMm)), look.at(onFace(side, body.outsideMm, at, sheet.highMm))],
        'rib',
      ),
    )
}

/** Dents as surveyed: drawn last, for an opening cut over one does not take it away. */
export function dentsOf(body: BoxBody, side: Side, look: View): readonly Drawn[] {
  return body.sides[side].dents.flatMap((dent: BodySide['dents'][number]) => {
    const { low, high } = covers(
      look,
      onFace(side, body.outsideMm, dent.fromMm, dent.lowMm),
      onFace(side, body.outsideMm, dent.toMm, dent.highMm),
    )
    return [
      rect('frame', low, high, 'chalk'),
      words([low[0], high[1]], `dent, ${millimetres(dent.deepMm)} deep`, { byMm: [0, -0.8], halo: true }),
    ]
  })
}

function leaves(body: BoxBody, look: View): readonly Drawn[] {
  return body.doors.flatMap((leaf) => {
    const [x, y, z] = leaf.hingeMm
    const inward = y < body.outsideMm[1] / 2 ? 1 : -1
    const { low, high } = covers(look, [x, y, z], [x, y + inward * leaf.widthMm, z + leaf.heightMm])
    const hinge = look.at([x, y, z])[0]
    const free = hinge === low[0] ? high[0] : low[0]
    const middle = (low[1] + high[1]) / 2
    // The two lines meet on the hinge, as on a door's elevation.
    return [
      rect('frame', low, high, 'opening'),
      shape(
        'frame',
        [
          [free, low[1]],
          [hinge, middle],
          [free, high[1]],
        ],
        'hair',
      ),
    ]
  })
}
