import type { Side } from '@plugstead/engine/job'
import type { Point } from '../scene.ts'
import { longestM, type YardMachine } from './machine.ts'

/** Where a machine stands in the plan of the yard: at the end of its longest cord. */
export interface MachinePlace {
  readonly machine: YardMachine
  /** Where its cords leave the box, their middle. */
  readonly fromMm: Point
  readonly atMm: Point
  readonly bearingDeg: number
  readonly told: boolean
}

/** Way out of each side, clockwise from the way the door end looks. Roof and floor leave by the left. */
const OUTWARD_DEG: Readonly<Record<Side, number>> = {
  'door end': 0,
  left: 90,
  floor: 90,
  roof: 90,
  'blind end': 180,
  right: 270,
}

/** How far to either side of straight out machines are spread, where nobody said. */
const SPREAD_DEG = 84

/**
 * A told machine stands where it was told. The others of a side are spread over a fan in the order in which their cords leave, each with room by
 * its size over its distance, so that near ones are not crowded.
 */
export function machinePlaces(machines: readonly YardMachine[]): readonly MachinePlace[] {
  const spread = new Map<string, number>()
  for (const side of Object.keys(OUTWARD_DEG) as Side[]) {
    const own = machines.filter((m) => sideOf(m) === side && m.bearingDeg === null)
    const order = own.toSorted((a, b) => alongFan(side, a) - alongFan(side, b))
    const rooms = order.map((m) => Math.max(longestM(m), LEAST_M) ** -ROOM_POWER)
    const all = rooms.reduce((sum, one) => sum + one, 0)
    let before = 0
    for (const [i, machine] of order.entries()) {
      const share = (before + rooms[i]! / 2) / all
      before += rooms[i]!
      const aside = 2 * share - 1
      spread.set(machine.id, OUTWARD_DEG[side] + Math.sign(aside) * Math.abs(aside) ** TO_THE_SIDES * SPREAD_DEG)
    }
  }
  return machines.map((machine) => {
    const bearingDeg = ((machine.bearingDeg ?? spread.get(machine.id) ?? 0) + 360) % 360
    const fromMm = middleOf(machine)
    const [dx, dy] = wayOf(bearingDeg)
    const farMm = longestM(machine) * 1000
    return {
      machine,
      fromMm,
      atMm: [fromMm[0] + dx * farMm, fromMm[1] + dy * farMm],
      bearingDeg,
      told: machine.bearingDeg !== null,
    }
  })
}
const LEAST_M = 3
/** Near ones need more of the fan; sheets are wider than tall, so more lie to the sides than ahead. */
const ROOM_POWER = 0.7
const TO_THE_SIDES = 0.75

/** On the plan x runs to the door end and y to the right long side; bearings go clockwise. */
export const wayOf = (bearingDeg: number): Point => {
  const rad = (bearingDeg * Math.PI) / 180
  return [Math.cos(rad), -Math.sin(rad)]
}

export const sideOf = ({ cords }: YardMachine): Side => cords[0]?.side ?? 'left'

export function middleOf({ cords }: YardMachine): Point {
  const count = Math.max(1, cords.length)
  return [cords.reduce((s, c) => s + c.fromMm[0], 0) / count, cords.reduce((s, c) => s + c.fromMm[1], 0) / count]
}

/** Place in a fan that turns clockwise: of the left side from the door end on, of the right from the blind end on. */
function alongFan(side: Side, machine: YardMachine): number {
  const [x, y] = middleOf(machine)
  switch (side) {
    case 'right':
      return x
    case 'blind end':
      return y
    case 'door end':
      return -y
    default:
      return -x
  }
}
