import type { ShelfItem } from '../../parts/index.ts'
import { outOfBand, putNext, type Rooms, wanting } from './hang.ts'
import type { Clash, Spot, Task } from './plan-of.ts'
import type { Reading, Room } from './room.ts'
import { LEVEL_FIRST_MM, LEVEL_STEP_MM, SWITCH_MM } from './rules.ts'

/** Middle of the heater and of what is read at eye height, above the floor. Common practice. */
const HEATER_MM = 600
const EYE_MM = LEVEL_FIRST_MM + 3 * LEVEL_STEP_MM
const FAN_MM = LEVEL_FIRST_MM + 4 * LEVEL_STEP_MM
const EXTINGUISHER_MM = LEVEL_FIRST_MM + 2 * LEVEL_STEP_MM

type Try = readonly [Room | undefined, number, Reading]

/** What belongs to the room: switch and extinguisher at the working door, heater and fan at the blind end, thermostat across from them. */
export function roomSpots(task: Task, open: readonly ShelfItem[], rooms: Rooms, put: (spot: Spot) => void): readonly Clash[] {
  const clashes: Clash[] = []
  const of = (kind: ShelfItem['kind']) => open.find((i) => i.kind === kind)
  const end = rooms.get('blind end inside')
  const side = rooms.get(`${task.sides.opposite} inside`)
  const atDoor = doorPlace(task, rooms)
  // From the corner opposite the equipment, so that nothing stands in the space before it.
  const atEnd: readonly Try[] = [
    task.sides.opposite === 'right' ? [end, Number.POSITIVE_INFINITY, -1] : [end, Number.NEGATIVE_INFINITY, 1],
    [side, Number.NEGATIVE_INFINITY, 1],
  ]
  const hang = (item: ShelfItem | undefined, aboveFloorMm: number, tries: readonly Try[]) => {
    if (item === undefined) return
    let clash: Clash | null = null
    for (const [room, from, reading] of tries) {
      if (room === undefined) continue
      const zMm = room.wall.floorMm + aboveFloorMm
      const out = outOfBand(room.wall, item, zMm)
      const made = out > 0 ? null : putNext(room, item, zMm, from, reading)
      if (made !== null) return put(made.spot)
      clash ??=
        out > 0
          ? { what: item.id, against: 'clear bands along floor and ceiling', byMm: Math.ceil(out) }
          : wanting(room, item, zMm, reading)
    }
    clashes.push(clash ?? { what: item.id, against: 'walls', byMm: item.part.widthMm })
  }
  const fan = of('fan')
  const opening = task.skin?.openings.find(
    (o) => o.use === 'fan' && o.side !== 'door end' && o.side !== 'roof' && o.side !== 'floor',
  )
  if (fan !== undefined && opening !== undefined) {
    const along = opening.side === 'blind end' ? 1 : 0
    put({
      item: fan,
      side: opening.side as 'left',
      face: 'inside',
      uMm: opening.atMm[along],
      zMm: opening.atMm[2],
      pinned: false,
    })
  } else hang(fan, FAN_MM, atEnd)
  hang(of('heater'), HEATER_MM, atEnd)
  hang(of('light switch'), SWITCH_MM, atDoor)
  hang(of('extinguisher'), EXTINGUISHER_MM, atDoor)
  hang(of('thermostat'), EYE_MM, [[side, task.body.insideAtMm[0] + task.body.insideMm[0] / 2, 1], ...atEnd])
  return clashes
}

/** Beside the working door: on its own wall to either hand, or for cargo doors on the opposite side next to them. */
function doorPlace(task: Task, rooms: Rooms): readonly Try[] {
  const { door, opposite, equipment } = task.sides
  if (door.side !== 'door end') {
    const room = rooms.get(`${door.side} inside`)
    return [
      [room, door.toMm, 1],
      [room, door.fromMm, -1],
    ]
  }
  return [
    [rooms.get(`${opposite} inside`), Number.POSITIVE_INFINITY, -1],
    [rooms.get(`${equipment} inside`), Number.POSITIVE_INFINITY, -1],
  ]
}
