import type { Side } from '@plugstead/engine/job'
import type { Drawn } from '../model/drawing.ts'
import { partOf, stroke, verdictAt, words } from '../model/make.ts'
import { line, type Point, text } from '../scene.ts'
import { cordName, machineName, machineOutline, machineWords, type YardMachine } from './machine.ts'
import { sideOf } from './places.ts'

/** Machines side by side in one row. */
const IN_A_ROW = 17

/** Where a machine is drawn beside the net, and what belongs to it. */
export interface MachineAround {
  readonly machine: YardMachine
  readonly atMm: Point
  readonly fromMm: Point
  /** Away from the box on the drawing. */
  readonly out: Point
}

export interface Around {
  /** Under the box and its letters, and over them. */
  readonly cords: readonly Drawn[]
  readonly signs: readonly Drawn[]
  readonly places: readonly MachineAround[]
  readonly signMm: number
}

/** The net's outline on the drawing. */
export interface NetArea {
  readonly low: Point
  readonly high: Point
}

/**
 * The yard around the unfolded box, shortened: machines in rows beyond the edge over which their cords leave, in the order of their outlets, so
 * that no cord crosses another; every cord with the break mark, its length in words.
 */
export function yardAround(machines: readonly YardMachine[], area: NetArea, at: (side: Side, alongMm: number) => number): Around {
  const wideMm = area.high[0] - area.low[0]
  const pitchMm = wideMm / IN_A_ROW
  const signMm = pitchMm * 0.56
  const places: MachineAround[] = []
  const up = machines.filter((m) => sideOf(m) === 'right')
  const down = machines.filter((m) => sideOf(m) !== 'right')
  for (const [rowMachines, sign] of [
    [up, 1],
    [down, -1],
  ] as const) {
    const edge = sign === 1 ? area.high[1] : area.low[1]
    const fromX = (m: YardMachine): number =>
      m.cords.reduce((s, c) => s + at(c.side, c.fromMm[0]), 0) / Math.max(1, m.cords.length)
    const order = rowMachines.toSorted((a, b) => fromX(a) - fromX(b))
    const rows = Math.ceil(order.length / IN_A_ROW)
    const columns = Math.ceil(order.length / Math.max(1, rows))
    const pitch = order.length <= 1 ? 0 : Math.min(pitchMm * 1.6, wideMm / (columns + (rows > 1 ? 0.5 : 0)))
    const middle = clampedMiddle(order.map(fromX), pitch * columns, area)
    for (const [i, machine] of order.entries()) {
      const row = i % Math.max(1, rows)
      const column = Math.floor(i / Math.max(1, rows))
      const x = middle + (column - (columns - 1) / 2) * pitch + (rows > 1 ? (row - (rows - 1) / 2) * (pitch / rows) : 0)
      const y = edge + sign * pitchMm * (1.05 + 1.35 * row)
      places.push({ machine, atMm: [x, y], fromMm: [fromX(machine), edge], out: [0, sign] })
    }
  }
  return {
    cords: places.flatMap((p) => cordsOf(p, at, signMm)),
    signs: places.flatMap((p) => machineOf(p, signMm)),
    places,
    signMm,
  }
}

/** Rows stand before their outlets as far as the net is wide. */
function clampedMiddle(from: readonly number[], wide: number, { low, high }: NetArea): number {
  const mean = from.reduce((s, one) => s + one, 0) / Math.max(1, from.length)
  return Math.min(Math.max(mean, low[0] + wide / 2), Math.max(high[0] - wide / 2, low[0] + wide / 2))
}

function cordsOf({ machine, atMm, fromMm, out }: MachineAround, at: (side: Side, alongMm: number) => number, signMm: number) {
  return machine.cords.flatMap((cord, i): readonly Drawn[] => {
    const from: Point = [at(cord.side, cord.fromMm[0]), fromMm[1]]
    const aside = (i - (machine.cords.length - 1) / 2) * signMm * 0.3
    const to: Point = [atMm[0] + aside, atMm[1] - out[1] * signMm * 0.5]
    const bend: Point = [to[0], from[1] + (to[1] - from[1]) * 0.55]
    return partOf(cordName(cord.plug), [
      stroke('item', [from, bend, to], 'cord'),
      breakMark([to[0], bend[1] + (to[1] - bend[1]) * 0.45]),
    ])
  })
}

/** A cord that is longer than it is drawn: two strokes across it. */
const breakMark = (atMm: Point): Drawn => ({
  kind: 'note',
  layer: 'text',
  atMm,
  items: [-0.5, 0.5].map((y) =>
    line(
      [
        [-1.1, y + 0.5],
        [1.1, y - 0.5],
      ],
      'conductor',
    ),
  ),
})

/** Sign, name on it, length and volts beyond it. */
function machineOf({ machine, atMm, out }: MachineAround, signMm: number): readonly Drawn[] {
  const [x, y] = atMm
  const beyond: Point = [x, y + (out[1] * signMm) / 2]
  const lines = out[1] > 0 ? [...machine.lines].reverse() : machine.lines
  return [
    ...machineOutline(machine, atMm, signMm),
    ...partOf(machineName(machine.id), [words(atMm, machine.id, { anchor: 'middle', strong: true, halo: true, byMm: [0, 0.9] })]),
    ...partOf(machineWords(machine.id), [
      {
        kind: 'note',
        layer: 'text',
        atMm: beyond,
        items: lines.map((said, i) =>
          text([0, out[1] > 0 ? -1.1 - 3.1 * i : 3.1 + 3.1 * i], said, { anchor: 'middle', strong: said === machine.lines[1] }),
        ),
      },
      // On the side of the box, where no letters stand.
      ...(machine.verdict === null || machine.verdict === 'holds'
        ? []
        : [verdictAt([x + signMm * 0.62, y - (out[1] * signMm) / 2], machine.verdict)]),
    ]),
  ]
}
