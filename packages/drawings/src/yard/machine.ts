import type { Side } from '@plugstead/engine/job'
import type { Verdict } from '@plugstead/engine/kernel'
import type { Drawn } from '../model/drawing.ts'
import { partOf, rect, round, shape, stroke } from '../model/make.ts'
import type { Point } from '../scene.ts'

export type MachineKind = 'tracks' | 'wheels' | 'trailer' | 'building' | 'pump' | 'block'

/** A cord of a machine: where on the box it begins. */
export interface MachineCord {
  readonly plug: string
  /** Of the outlet, or of what it is wired to. */
  readonly item: string
  readonly side: Side
  readonly fromMm: Point
  readonly lengthM: number
}

/** A machine of the yard as it is drawn. */
export interface YardMachine {
  readonly id: string
  readonly kind: MachineKind
  readonly cords: readonly MachineCord[]
  /** Clockwise, seen from above, from the way the door end looks; null: nobody said. */
  readonly bearingDeg: number | null
  /** Its length and volts, a line each. */
  readonly lines: readonly string[]
  readonly verdict: Verdict | null
}

/** By the owner's words. A kind nobody named is a plain block. */
export function machineKind(what: string, use: string): MachineKind {
  const said = what.toLowerCase()
  if (/groomer|tracked|crawler|dozer|excavator|over-snow|snowcat|drill rig/.test(said)) return 'tracks'
  if (/trailer|camp|cabin|caravan|sleeper|office|kitchen/.test(said)) return 'trailer'
  if (/shed|house|hut|building|room|shop/.test(said) || use === 'building') return 'building'
  if (/pump/.test(said) || use === 'pump') return 'pump'
  if (/truck|bus|coach|loader|car|van|tractor|grader|haul|bowser|fleet|vehicle/.test(said) || use === 'vehicle-heater')
    return 'wheels'
  return 'block'
}

/** Its plain outline from above, `sizeMm` high: a sign of its kind, not its size. */
export function machineOutline({ id, kind }: Pick<YardMachine, 'id' | 'kind'>, [x, y]: Point, sizeMm: number): readonly Drawn[] {
  const k = sizeMm / 2
  const at = (u: number, v: number): Point => [x + u * k, y + v * k]
  const box = (u0: number, v0: number, u1: number, v1: number): Drawn => rect('item', at(u0, v0), at(u1, v1), 'symbol', 'blank')
  return partOf(machineName(id), outlineOf(kind, at, box, k))
}

function outlineOf(
  kind: MachineKind,
  at: (u: number, v: number) => Point,
  box: (u0: number, v0: number, u1: number, v1: number) => Drawn,
  k: number,
): readonly Drawn[] {
  switch (kind) {
    case 'tracks':
      return [
        box(-0.85, -0.75, -0.6, 0.75),
        box(0.6, -0.75, 0.85, 0.75),
        box(-0.6, -0.9, 0.6, 0.7),
        shape('item', [at(-0.95, 0.8), at(0.95, 0.8), at(0.8, 1), at(-0.8, 1)], 'symbol', 'blank'),
      ]
    case 'wheels':
      return [
        ...[-0.6, 0.35].flatMap((v) => [box(-0.72, v, -0.5, v + 0.38), box(0.5, v, 0.72, v + 0.38)]),
        box(-0.52, -0.95, 0.52, 0.95),
        stroke('item', [at(-0.52, 0.55), at(0.52, 0.55)], 'symbol'),
      ]
    case 'trailer':
      return [box(-0.6, -0.95, 0.6, 0.7), stroke('item', [at(-0.25, 0.7), at(0, 1), at(0.25, 0.7)], 'symbol')]
    case 'building':
      return [box(-0.9, -0.8, 0.9, 0.8), stroke('item', [at(-0.9, 0), at(0.9, 0)], 'hair')]
    case 'pump':
      return [round('item', at(0, 0), 0.85 * k, 'symbol', 'blank')]
    case 'block':
      return [box(-0.8, -0.8, 0.8, 0.8)]
  }
}

/** Names under which a machine, what is lettered beside it, and a cord are drawn. */
export const machineName = (id: string): string => `machine ${id}`
export const machineWords = (id: string): string => `words of ${id}`
export const cordName = (plug: string): string => `cord ${plug}`

export const longestM = ({ cords }: YardMachine): number => Math.max(0, ...cords.map((c) => c.lengthM))
