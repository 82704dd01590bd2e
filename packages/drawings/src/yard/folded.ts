import type { DrawnBox } from '../box/drawn-box.ts'
import type { Drawing, Drawn } from '../model/drawing.ts'
import { partOf, rect, stroke, tag, verdictAt } from '../model/make.ts'
import { type Point, text } from '../scene.ts'
import { cordName, machineOutline, machineWords, type YardMachine } from './machine.ts'
import { type MachinePlace, machinePlaces, wayOf } from './places.ts'

/** How many signs of machines stand across the yard. */
const SIGNS_ACROSS = 26
const LEAST_SIGN_MM = 1200

export interface FoldedYard {
  readonly drawing: Drawing
  readonly places: readonly MachinePlace[]
  readonly signMm: number
}

/** The yard to scale from above: the box a small plan, each machine at the end of its cord. */
export function foldedYard({ body, build }: DrawnBox, machines: readonly YardMachine[], doorFacesDeg: number | null): FoldedYard {
  const [L, W] = body.outsideMm
  const places = machinePlaces(machines)
  const all: readonly Point[] = [[0, 0], [L, W], ...places.map((p) => p.atMm)]
  const wide = Math.max(...all.map((p) => p[0])) - Math.min(...all.map((p) => p[0]))
  const tall = Math.max(...all.map((p) => p[1])) - Math.min(...all.map((p) => p[1]))
  const signMm = Math.max(LEAST_SIGN_MM, Math.max(wide, tall) / SIGNS_ACROSS)
  const drawing: Drawing = {
    id: 'yard',
    title: 'The yard',
    said: `${build.box} in its yard, from above and to scale: ${machines.length} machines at the ends of their cords.`,
    toScale: true,
    items: [
      ...places.flatMap(cordsOf),
      rect('frame', [0, 0], [L, W], 'cut', 'blank'),
      stroke(
        'frame',
        [
          [L - W / 6, W / 2],
          [L, 0],
        ],
        'hair',
      ),
      stroke(
        'frame',
        [
          [L - W / 6, W / 2],
          [L, W],
        ],
        'hair',
      ),
      tag([0, 0], [L, W], build.box, { strong: true }),
      ...places.flatMap((place) => machineOf(place, signMm)),
      ...(doorFacesDeg === null ? [] : north(doorFacesDeg, all)),
    ],
  }
  return { drawing, places, signMm }
}

function cordsOf({ machine, atMm }: MachinePlace): readonly Drawn[] {
  return machine.cords.flatMap((cord) => partOf(cordName(cord.plug), [stroke('item', [cord.fromMm, atMm], 'cord')]))
}

function machineOf({ machine, atMm }: MachinePlace, signMm: number): readonly Drawn[] {
  const half = signMm / 2
  const [low, high]: readonly [Point, Point] = [
    [atMm[0] - half, atMm[1] - half],
    [atMm[0] + half, atMm[1] + half],
  ]
  return [
    ...machineOutline(machine, atMm, signMm),
    ...partOf(machineWords(machine.id), [
      tag(low, high, [machine.id, ...machine.lines].join(' · '), { strong: false, inside: 'things' }),
      ...(machine.verdict === null || machine.verdict === 'holds' ? [] : [verdictAt(high, machine.verdict)]),
    ]),
  ]
}

/** An arrow to true north in a corner, where somebody told what the door end looks to. */
function north(doorFacesDeg: number, all: readonly Point[]): readonly Drawn[] {
  const [dx, dy] = wayOf(-doorFacesDeg)
  const corner: Point = [Math.min(...all.map((p) => p[0])), Math.max(...all.map((p) => p[1]))]
  const on = (along: number, aside: number): Point => [along * dx + aside * -dy, -(along * dy + aside * dx)]
  return [
    {
      kind: 'note',
      layer: 'text',
      atMm: corner,
      items: [
        { kind: 'line', pointsMm: [on(-5, 0), on(5, 0)], closed: false, line: 'symbol' },
        { kind: 'line', pointsMm: [on(2.5, -1.3), on(5, 0), on(2.5, 1.3)], closed: false, line: 'symbol' },
        text(on(7, 0), 'north', { anchor: 'middle', strong: true, halo: true }),
      ],
    },
  ]
}
