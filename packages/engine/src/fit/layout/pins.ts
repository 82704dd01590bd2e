import type { BoxBody } from '../../box/index.ts'
import type { Pin } from '../../job/index.ts'
import type { ShelfItem } from '../../parts/index.ts'
import type { Spot } from './plan-of.ts'

/** Path of the pin of a thing's place. */
export const pinPath = (box: string, item: string): string => `items.${box}.${item.replaceAll(' ', '-')}.at`

const PLACE = /^(left|right|blind end|door end|roof|floor)( outside)? (\d+(?:\.\d+)?) m (\d+(?:\.\d+)?) m$/

/**
 * Things that a person put where they hang: `left 1.20 m 1.55 m` is the side, its middle along the side from the datum, and its middle
 * above the floor (on roof and floor: across the box). What cannot be read is none.
 */
export function pinnedSpots(body: BoxBody, items: readonly ShelfItem[], pins: readonly Pin[]): readonly Spot[] {
  return items.flatMap((item) => {
    const pin = pins.find((p) => p.path === pinPath(body.box, item.id))
    const read = pin === undefined ? null : PLACE.exec(String(pin.value).trim())
    if (read === null) return []
    const [, side, outside, along, up] = read
    const flat = side === 'roof' || side === 'floor'
    return [
      {
        item,
        side: side as Spot['side'],
        face: outside === undefined ? 'inside' : 'outside',
        uMm: 1000 * Number(along),
        zMm: 1000 * Number(up) + (flat ? 0 : body.floor.topMm),
        pinned: true,
      },
    ]
  })
}
