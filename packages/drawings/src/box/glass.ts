import { SIDES, type Side } from '@plugstead/engine/job'
import type { Drawing } from '../model/drawing.ts'
import { rect, tag } from '../model/make.ts'
import { covers, sideView, type View } from '../model/view.ts'
import type { Point } from '../scene.ts'
import type { DrawnBox } from './drawn-box.ts'
import { foldedOpen } from './net.ts'
import { cutOf } from './openings.ts'
import { sixSides } from './six-sides.ts'
import { sideOutline } from './steel.ts'
import { faceItems, titleOf } from './wall.ts'

export interface GlassPlace {
  readonly id: string
  readonly side: Side
  readonly lowMm: Point
  readonly highMm: Point
}

/** A drawing that is touched: with the place of every thing in it, and of every side. */
export interface GlassSheet {
  readonly drawing: Drawing
  readonly things: readonly GlassPlace[]
  readonly sides: readonly GlassPlace[]
}

type Turn = (point: Point) => Point

/** The whole net. */
export function glassNet(of: DrawnBox): GlassSheet {
  const net = foldedOpen(of.body.outsideMm)
  return {
    drawing: withFaces(
      sixSides(of),
      SIDES.map((side) => sidePlace(of, side, net[side])),
    ),
    things: SIDES.flatMap((side) => thingsOn(of, side, sideView(side, 'inside', of.body.outsideMm), net[side])),
    sides: SIDES.map((side) => sidePlace(of, side, net[side])),
  }
}

/** One side on its own, from inside. What hangs outside is seen through it, and bears its letters. */
export function glassSide(of: DrawnBox, side: Side): GlassSheet {
  const look = sideView(side, 'inside', of.body.outsideMm)
  const { low, high } = sideOutline(of.body, side, look)
  const things = thingsOn(of, side, look, (p) => p)
  const behind = of.build.fit.items.filter((item) => item.side === side && item.face === 'outside')
  return {
    drawing: {
      id: `side-${side.replace(' ', '-')}`,
      title: titleOf(side),
      said: `${titleOf(side)} of ${of.build.box} from inside: ${things.length} things.`,
      toScale: true,
      items: [
        rect('frame', low, high, 'none', 'blank'),
        ...faceItems(of, side, 'inside', look),
        ...behind.map((item) => {
          const place = covers(look, item.atMm, far(item))
          const own =
            item.id.startsWith(`${item.kind} `) && item.kind === 'receptacle' ? item.id.slice(item.kind.length + 1) : item.id
          return { ...tag(place.low, place.high, own, { inside: 'things' }), of: item.id }
        }),
        rect('frame', low, high, 'cut'),
      ],
    },
    things,
    sides: [sidePlace(of, side, (p) => p)],
  }
}

/** Sheet under everything: the faces of the box stand out from the ground. */
const withFaces = (drawing: Drawing, sides: readonly GlassPlace[]): Drawing => ({
  ...drawing,
  items: [...sides.map(({ lowMm, highMm }) => rect('frame', lowMm, highMm, 'none', 'blank')), ...drawing.items],
})

const far = ({
  atMm,
  sizeMm,
}: {
  readonly atMm: readonly [number, number, number]
  readonly sizeMm: readonly [number, number, number]
}) => [atMm[0] + sizeMm[0], atMm[1] + sizeMm[1], atMm[2] + sizeMm[2]] as const

function sidePlace(of: DrawnBox, side: Side, turn: Turn): GlassPlace {
  const { low, high } = sideOutline(of.body, side, sideView(side, 'inside', of.body.outsideMm))
  return { id: side, side, ...turned(turn, low, high) }
}

/** Things that hang, and openings that are not the hole behind one of them. */
function thingsOn(of: DrawnBox, side: Side, look: View, turn: Turn): readonly GlassPlace[] {
  const { fit, skin } = of.build
  const hung = fit.items
    .filter((item) => item.side === side)
    .map((item) => {
      const { low, high } = covers(look, item.atMm, far(item))
      return { id: item.id, side, ...turned(turn, low, high) }
    })
  const names = new Set(fit.items.map((item) => item.id))
  const cut = skin.openings
    .filter((o) => o.side === side && !names.has(o.id) && !(o.use === 'cord exit' && o.plate === null))
    .map((o) => {
      const { low, high } = cutOf(o, look)
      return { id: o.id, side, ...turned(turn, low, high) }
    })
  return [...hung, ...cut]
}

function turned(turn: Turn, low: Point, high: Point): { readonly lowMm: Point; readonly highMm: Point } {
  const [a, b] = [turn(low), turn(high)]
  return { lowMm: [Math.min(a[0], b[0]), Math.min(a[1], b[1])], highMm: [Math.max(a[0], b[0]), Math.max(a[1], b[1])] }
}
