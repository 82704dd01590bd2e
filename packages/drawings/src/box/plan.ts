import type { DoorLeaf } from '@plugstead/engine/box'
import type { PlacedItem } from '@plugstead/engine/job'
import type { Drawing, Drawn } from '../model/drawing.ts'
import { across, millimetres, rect, stroke, tag, upward, verdictAt, words } from '../model/make.ts'
import { covers, planView, type View } from '../model/view.ts'
import type { Point } from '../scene.ts'
import type { DrawnBox } from './drawn-box.ts'
import { boxOf, gearOf } from './gear.ts'

/** From above with the roof off: walls in section, gear, the room kept free before it, how the doors swing. */
export function planDrawing(of: DrawnBox): Drawing {
  const { body, build, spaces } = of
  const [L, W] = body.outsideMm
  const look = planView(body.outsideMm)
  const clashing = spaces.filter((s) => s.intrusions.length > 0)
  return {
    id: 'plan',
    title: 'Plan, with working space and door swings',
    said: `${build.box} from above: ${spaces.length} working spaces${clashing.length === 0 ? '' : `, something stands in ${clashing.length}`}, ${body.doors.length} cargo doors.`,
    toScale: true,
    items: [
      ...wallsCut(of, look),
      ...spacesOf(of, look),
      ...gearOf(of, uppermost(build.fit.items), look),
      ...body.doors.flatMap((leaf) => leafSwing(leaf, W)),
      ...personnel(of, look),
      across([0, 0], [L, 0], lowest(of), 6),
      upward([0, 0], [0, W], 0, -14),
      ...sideWords(L, W),
    ],
  }
}

/** Lowest thing on paper under the box. */
const lowest = ({ spaces, build }: DrawnBox): number => Math.min(0, ...[...spaces, ...build.fit.items].map((one) => one.atMm[1]))

/** Of things one above another only the largest is drawn with letters. */
function uppermost(items: readonly PlacedItem[]): readonly PlacedItem[] {
  const onWalls = items.filter((item) => item.side !== 'roof' && item.side !== 'floor')
  const order = onWalls.toSorted((a, b) => b.sizeMm[0] * b.sizeMm[1] - a.sizeMm[0] * a.sizeMm[1] || (a.id < b.id ? -1 : 1))
  const kept: PlacedItem[] = []
  for (const item of order) {
    const under = kept.some(
      (k) =>
        item.atMm[0] < k.atMm[0] + k.sizeMm[0] &&
        k.atMm[0] < item.atMm[0] + item.sizeMm[0] &&
        item.atMm[1] < k.atMm[1] + k.sizeMm[1] &&
        k.atMm[1] < item.atMm[1] + item.sizeMm[1],
    )
    if (!under) kept.push(item)
  }
  return kept
}

/** Posts solid, sheets as they are corrugated, broken where something is cut through at the height of the plan. */
function wallsCut({ body, build }: DrawnBox, look: View): readonly Drawn[] {
  const [L, W] = body.outsideMm
  const posts = body.members
    .filter((m) => m.kind === 'corner post')
    .map((m) => {
      const { low, high } = covers(look, m.fromMm, m.toMm)
      return rect('frame', low, high, 'symbol', 'solid')
    })
  const sheets = (['left', 'right', 'blind end'] as const).map((side) => {
    const { corrugation: c, flats, sheet } = body.sides[side]
    const depth = c?.depthMm ?? 0
    const points: Point[] = []
    const put = (along: number, deep: number): void => {
      points.push(side === 'left' ? [along, deep] : side === 'right' ? [along, W - deep] : [blind(body) - depth + deep, along])
    }
    put(sheet.fromMm, 0)
    for (const flat of flats) {
      const deep = flat.kind === 'inner' ? depth : 0
      put(flat.fromMm, deep)
      put(flat.toMm, deep)
    }
    put(sheet.toMm, 0)
    return stroke('frame', points, 'opening')
  })
  const cuts = build.skin.openings
    .filter((o) => o.side === 'left' || o.side === 'right')
    .filter((o) => o.widthMm >= LEAST_SHOWN_MM)
    .flatMap((o): readonly Drawn[] => {
      const y = o.side === 'left' ? 0 : W
      const inward = o.side === 'left' ? 1 : -1
      const [from, to] = [o.atMm[0] - o.widthMm / 2, o.atMm[0] + o.widthMm / 2]
      const deep = y + inward * ((body.sides[o.side].corrugation?.depthMm ?? 0) + 4)
      return [
        rect('opening', [from, y - inward * 4], [to, deep], 'none', 'blank'),
        ...[from, to].map((x) =>
          stroke(
            'opening',
            [
              [x, y - inward * 4],
              [x, deep],
            ],
            'opening',
          ),
        ),
      ]
    })
  return [...sheets, ...cuts, ...posts, rect('frame', [0, 0], [L, W], 'hair')]
}
const LEAST_SHOWN_MM = 100
const blind = (body: DrawnBox['body']): number => body.insideAtMm[0]

function spacesOf({ spaces }: DrawnBox, look: View): readonly Drawn[] {
  return spaces.flatMap((space) => {
    const { low, high } = boxOf(space, look)
    const drawn: Drawn[] = [
      rect('space', low, high, 'none', 'slant wide'),
      rect('space', low, high, 'behind'),
      tag(low, high, `${space.item} clear ${millimetres(space.depthMm)}`, { inside: 'hatch' }),
    ]
    const worst = space.intrusions.toSorted((a, b) => b.byMm - a.byMm)[0]
    if (worst !== undefined) {
      drawn.push(
        verdictAt([(low[0] + high[0]) / 2, high[1]], 'fails'),
        words([(low[0] + high[0]) / 2, high[1]], `${worst.against}: ${millimetres(worst.byMm)} of ${worst.way} missing`, {
          layer: 'clash',
          strong: true,
          halo: true,
          byMm: [2.4, 0.9],
        }),
      )
    }
    return drawn
  })
}

/** A leaf shut, open as far as it goes, and the arc between. */
function leafSwing({ hingeMm: [x, y], widthMm, mostDeg }: DoorLeaf, W: number): readonly Drawn[] {
  const upper = y > W / 2
  // Shut it points at the middle; it opens outwards, away from the box.
  const shutDeg = upper ? 270 : 90
  const openDeg = upper ? shutDeg + Math.min(mostDeg, SHOWN_DEG) : shutDeg - Math.min(mostDeg, SHOWN_DEG)
  const tip = (deg: number): Point => [
    x + widthMm * Math.cos((deg * Math.PI) / 180),
    y + widthMm * Math.sin((deg * Math.PI) / 180),
  ]
  return [
    stroke('frame', [[x, y], tip(shutDeg)], 'opening'),
    stroke('frame', [[x, y], tip(openDeg)], 'behind'),
    {
      kind: 'swing',
      layer: 'space',
      atMm: [x, y],
      radiusMm: widthMm,
      fromDeg: Math.min(shutDeg, openDeg),
      toDeg: Math.max(shutDeg, openDeg),
      line: 'hair',
    },
  ]
}
/** Drawn half round: the leaf folds back along the side after that. */
const SHOWN_DEG = 180

/** Room before a personnel door: it opens outwards; on which side its hinges sit is not in the design, so a square is kept. */
function personnel({ build }: DrawnBox, look: View): readonly Drawn[] {
  return build.skin.openings
    .filter((o) => o.class === 'door')
    .flatMap((o) => {
      const [x, y] = look.at(o.atMm)
      const out = o.side === 'left' || o.side === 'blind end' ? -1 : 1
      const half = o.widthMm / 2
      const low: Point = o.side === 'left' || o.side === 'right' ? [x - half, y] : [x, y - half]
      const high: Point =
        o.side === 'left' || o.side === 'right' ? [x + half, y + out * o.widthMm] : [x + out * o.widthMm, y + half]
      const [a, b]: readonly [Point, Point] = [
        [Math.min(low[0], high[0]), Math.min(low[1], high[1])],
        [Math.max(low[0], high[0]), Math.max(low[1], high[1])],
      ]
      return [rect('space', a, b, 'behind'), tag(a, b, `${o.id} swings ${millimetres(o.widthMm)}`)]
    })
}

const sideWords = (L: number, W: number): readonly Drawn[] => [
  words([0, W / 2], 'blind end', { anchor: 'middle', turnDeg: -90, byMm: [-3, 0] }),
  words([L / 2, 0], 'left long side', { anchor: 'middle', byMm: [0, 12] }),
  words([L / 2, W], 'right long side', { anchor: 'middle', byMm: [0, -9] }),
]
