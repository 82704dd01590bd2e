import { SIDES, type Side } from '@plugstead/engine/job'
import type { Drawing, Drawn } from '../model/drawing.ts'
import { rect, tag } from '../model/make.ts'
import { covers, onFace, sideView, type View } from '../model/view.ts'
import type { Point } from '../scene.ts'
import { yardAround } from '../yard/around.ts'
import { foldedYard } from '../yard/folded.ts'
import type { YardMachine } from '../yard/machine.ts'
import { clashWords } from './clash.ts'
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

/** A side with the way its places are told: from its datum along it, and above the floor (on roof and floor: across the box). */
export interface GlassSidePlace extends GlassPlace {
  readonly zeroMm: Point
  /** A metre along, and a metre up. */
  readonly alongMm: Point
  readonly upMm: Point
}

/** A machine on the drawing, and the way its cords lead. */
export interface GlassMachine {
  readonly id: string
  readonly lowMm: Point
  readonly highMm: Point
  /** Where its cords leave the box, their middle; and where each begins. */
  readonly fromMm: Point
  readonly cordsFromMm: readonly Point[]
  /** In the folded yard where it stands by its bearing; null beside the net, where only the length counts. */
  readonly bearingDeg: number | null
  /** Beside the net: away from the box. */
  readonly out: Point
}

/** A drawing that is touched: with the place of every thing in it, of every side and machine. */
export interface GlassSheet {
  readonly drawing: Drawing
  readonly things: readonly GlassPlace[]
  readonly sides: readonly GlassSidePlace[]
  readonly machines: readonly GlassMachine[]
}

type Turn = (point: Point) => Point

/** The whole net, the yard around it shortened. The roof hangs where that leaves most room on a sheet of this shape. */
export function glassNet(
  of: DrawnBox,
  machines: readonly YardMachine[],
  room: { readonly wide: number; readonly tall: number },
): GlassSheet {
  const beside = roofBeside(of, machines, room)
  const net = foldedOpen(of.body.outsideMm, beside)
  const sides = SIDES.map((side) => sidePlace(of, side, net[side]))
  const [L, , H] = of.body.outsideMm
  const area = {
    low: [Math.min(...sides.map((s) => s.lowMm[0])), Math.min(...sides.map((s) => s.lowMm[1]))] as const,
    high: [Math.max(...sides.map((s) => s.highMm[0])), Math.max(...sides.map((s) => s.highMm[1]))] as const,
  }
  const around = yardAround(machines, area, (side, x) => (side === 'blind end' ? -H / 2 : side === 'door end' ? L + H / 2 : x))
  const half = around.signMm / 2
  const drawing = sixSides(of, beside)
  return {
    drawing: withFaces({ ...drawing, items: [...around.cords, ...drawing.items.map(inOxide), ...around.signs] }, sides),
    things: SIDES.flatMap((side) => thingsOn(of, side, sideView(side, 'inside', of.body.outsideMm), net[side])),
    sides,
    machines: around.places.map(({ machine, atMm, fromMm, out }) => ({
      id: machine.id,
      lowMm: [atMm[0] - half, atMm[1] - half],
      highMm: [atMm[0] + half, atMm[1] + half],
      fromMm,
      cordsFromMm: machine.cords.map(() => fromMm),
      bearingDeg: null,
      out,
    })),
  }
}

/** Is there more room with the roof beyond the door end than over the right long side? */
function roofBeside(
  { body }: DrawnBox,
  machines: readonly YardMachine[],
  room: { readonly wide: number; readonly tall: number },
): boolean {
  const [L, W, H] = body.outsideMm
  const scale = (wide: number, tall: number): number => {
    const rows = new Set(machines.map((m) => m.cords[0]?.side === 'right')).size
    return Math.min(room.wide / wide, room.tall / (tall + (rows * 1.7 * wide) / 17))
  }
  return scale(2 * L + 2 * H, W + 2 * H) >= scale(L + 2 * H, 2 * W + 2 * H)
}

/** On glass what carries current is seen by its colour, however small the drawing. */
const inOxide = (item: Drawn): Drawn =>
  item.kind === 'outline' && item.layer === 'raceway' && item.line === 'ampere 1' ? { ...item, line: 'conductor' } : item

/** The yard to scale, the box a small plan. */
export function glassYard(of: DrawnBox, machines: readonly YardMachine[], doorFacesDeg: number | null): GlassSheet {
  const { drawing, places, signMm } = foldedYard(of, machines, doorFacesDeg)
  const half = signMm / 2
  return {
    drawing,
    things: [],
    sides: [],
    machines: places.map(({ machine, atMm, fromMm, bearingDeg }) => ({
      id: machine.id,
      lowMm: [atMm[0] - half, atMm[1] - half],
      highMm: [atMm[0] + half, atMm[1] + half],
      fromMm,
      cordsFromMm: machine.cords.map((c) => c.fromMm),
      bearingDeg,
      out: [0, 0],
    })),
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
        ...clashWords(
          of.build.fit.clashes.filter((c) => things.some((t) => t.id === c.what || t.id === c.against)),
          low,
          5,
        ),
      ],
    },
    things,
    sides: [sidePlace(of, side, (p) => p)],
    machines: [],
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

function sidePlace(of: DrawnBox, side: Side, turn: Turn): GlassSidePlace {
  const { outsideMm, floor } = of.body
  const look = sideView(side, 'inside', outsideMm)
  const { low, high } = sideOutline(of.body, side, look)
  const lowest = side === 'roof' || side === 'floor' ? 0 : floor.topMm
  const told = (along: number, up: number): Point => turn(look.at(onFace(side, outsideMm, along, lowest + up)))
  return { id: side, side, ...turned(turn, low, high), zeroMm: told(0, 0), alongMm: told(1000, 0), upMm: told(0, 1000) }
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
