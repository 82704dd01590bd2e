import type { Opening, PlacedItem, RacewayRoute, Side } from '@plugstead/engine/job'
import type { Drawing, Drawn } from '../model/drawing.ts'
import { millimetres, rect, words } from '../model/make.ts'
import { sideView, type View } from '../model/view.ts'
import type { Point } from '../scene.ts'
import { clashMarks, clashWords } from './clash.ts'
import type { DrawnBox } from './drawn-box.ts'
import { gearBehind, gearOf, strutOf } from './gear.ts'
import { keyNet } from './key-net.ts'
import { cutLine, openingsOf } from './openings.ts'
import { racewaysOf } from './raceways.ts'
import { dentsOf, ribsAssumed, sideOutline, steelOf } from './steel.ts'

export const WALLS = ['left', 'right', 'blind end', 'door end'] as const
type Wall = (typeof WALLS)[number]
type Face = 'inside' | 'outside'

/** A wall as a person sees it who stands before it, with distances from its datum corner. */
export function wallDrawing(of: DrawnBox, side: Wall, face: Face): Drawing {
  const look = sideView(side, face, of.body.outsideMm)
  const openings = of.build.skin.openings.filter((o) => o.side === side)
  const near = of.build.fit.items.filter((item) => item.side === side && item.face === face)
  const outline = sideOutline(of.body, side, look)
  const assumed = ribsAssumed(of.body, side)
  const clashes = of.build.fit.clashes.filter((c) => near.some((item) => item.id === c.what || item.id === c.against))
  return {
    id: `wall-${side.replace(' ', '-')}-${face}`,
    title: `${titleOf(side)}, seen from ${face}`,
    said: `${titleOf(side)} of ${of.build.box} seen from ${face}: ${counted(near.length, 'thing')}, ${counted(openings.length, 'opening')}; distances from the ${DATUM[side]} and the underside of the box.`,
    toScale: true,
    items: [
      ...faceItems(of, side, face, look),
      rect('frame', outline.low, outline.high, 'cut'),
      ...clashMarks(of, clashes, look, near),
      ...clashWords(clashes, [0, 0], 39),
      ...(assumed === null ? [] : [words([0, 0], assumed, { byMm: [0, 20] })]),
      keyNet(of, side, [0, 0], [0, 22.5]),
      ...measures(of, side, face, look, openings, near),
    ],
  }
}

/** Everything on one face of a side, back to front, without measures. `small`: on a sheet where patterns and heavy lines would run together. */
export function faceItems(of: DrawnBox, side: Side, face: Face, look: View, small = false): readonly Drawn[] {
  const { fit, skin } = of.build
  const openings = skin.openings.filter((o) => o.side === side)
  const here = fit.items.filter((item) => item.side === side)
  const seen = here.filter((item) => item.face === face).map((item) => item.id)
  const items: Drawn[] = [
    ...steelOf(of.body, side, face, look),
    ...openingsOf(of.body, openings, look, seen, face === 'outside' ? of.marks : {}),
  ]
  items.push(...strutOf(strutOn(of, side, face), look, !small))
  items.push(
    ...gearBehind(
      here.filter((item) => item.face !== face),
      look,
    ),
  )
  if (face === 'inside') items.push(...racewaysOf(racewaysOn(of, side), look, small ? 'ampere 1' : 'conductor'))
  items.push(
    ...gearOf(
      of,
      here.filter((item) => item.face === face),
      look,
    ),
  )
  // What is cut behind a thing shows through it.
  items.push(...openings.map((o) => cutLine(o, look, 'behind')), ...dentsOf(of.body, side, look))
  return items
}

function strutOn({ build }: DrawnBox, side: Side, face: Face) {
  return build.fit.strut.filter((piece) => piece.side === side && (piece.use === 'outside') === (face === 'outside'))
}

/** Raceways of which a leg runs on a side: within reach of its wall over a pipe's length. */
function racewaysOn({ body, build }: DrawnBox, side: Side): readonly RacewayRoute[] {
  const [ax, ay, az] = body.insideAtMm
  const [sx, sy, sz] = body.insideMm
  const planes: Readonly<Record<Side, readonly [0 | 1 | 2, number]>> = {
    left: [1, ay],
    right: [1, ay + sy],
    'blind end': [0, ax],
    'door end': [0, ax + sx],
    roof: [2, az + sz],
    floor: [2, az],
  }
  const [axis, atMm] = planes[side]
  const on = (p: readonly number[]): boolean => Math.abs(p[axis]! - atMm) < ON_WALL_MM
  return build.fit.raceways.flatMap((route): readonly RacewayRoute[] => {
    const legs = route.pointsMm.map(on)
    const first = legs.findIndex((yes, i) => yes && legs[i + 1] === true)
    const last = legs.findLastIndex((yes, i) => yes && legs[i - 1] === true)
    return first < 0
      ? []
      : [{ ...route, pointsMm: route.pointsMm.slice(first, last + 1), pullsMm: first === 0 ? route.pullsMm : [] }]
  })
}
/** Channel, pipe and a saddle over another pipe. */
const ON_WALL_MM = 160

const DATUM: Readonly<Record<Wall, string>> = {
  left: 'blind end',
  right: 'blind end',
  'blind end': 'left long side',
  'door end': 'left long side',
}

const TITLES: Readonly<Record<Side, string>> = {
  left: 'Left long side',
  right: 'Right long side',
  'blind end': 'Blind end',
  'door end': 'Door end',
  roof: 'Roof',
  floor: 'Floor',
}
export const titleOf = (side: Side): string => TITLES[side]
const counted = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`

/** Outside: the middle of every opening. Inside: the near corner of everything hung, both from the datum corner. */
function measures(
  of: DrawnBox,
  side: Wall,
  face: Face,
  look: View,
  openings: readonly Opening[],
  near: readonly PlacedItem[],
): readonly Drawn[] {
  const { alongMm, upMm } = of.body.sides[side]
  const long = side === 'left' || side === 'right'
  const axis = long ? 0 : 1
  const places: readonly (readonly [number, number, Point])[] =
    face === 'outside'
      ? openings.map((o) => [o.atMm[axis], o.atMm[2], look.at(o.atMm)])
      : near.map((item) => [item.atMm[axis], item.atMm[2], look.at(item.atMm)])
  const right = look.right.sign === 1
  const datum: Point = [right ? 0 : alongMm, 0]
  // Datum corner: a filled square, and what the figures count from.
  const corner: Drawn = {
    kind: 'note',
    layer: 'dimension',
    atMm: datum,
    items: [{ kind: 'circle', atMm: [0, 0], radiusMm: 0.9, line: 'none', hatch: 'solid' }],
  }
  const ladder = (way: 'across' | 'up', pick: 0 | 1): Drawn => {
    const rungs = new Map<string, { atMm: Point; words: string }>()
    for (const place of places) {
      const said = millimetres(place[pick])
      const base: Point = way === 'across' ? [place[2][0], 0] : [right ? 0 : alongMm, place[2][1]]
      if (!rungs.has(said)) rungs.set(said, { atMm: base, words: said })
    }
    rungs.set('0', { atMm: way === 'across' ? datum : datum, words: '0' })
    return {
      kind: 'ladder',
      way,
      rungs: [...rungs.values()],
      baseMm: way === 'across' ? 0 : datum[0],
      offMm: way === 'across' || !right ? 6 : -6,
    }
  }
  return [
    ...(places.length === 0 ? [] : [ladder('across', 0), ladder('up', 1), corner]),
    {
      kind: 'dimension',
      way: 'across',
      fromMm: [0, upMm],
      toMm: [alongMm, upMm],
      baseMm: upMm,
      offMm: -5,
      words: millimetres(alongMm),
    },
    {
      kind: 'dimension',
      way: 'up',
      fromMm: [right ? alongMm : 0, 0],
      toMm: [right ? alongMm : 0, upMm],
      baseMm: right ? alongMm : 0,
      offMm: right ? 5 : -5,
      words: millimetres(upMm),
    },
  ]
}
