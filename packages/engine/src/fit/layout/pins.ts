import type { BoxBody } from '../../box/index.ts'
import type { Pin } from '../../job/index.ts'
import type { ShelfItem } from '../../parts/index.ts'
import type { Spot } from './plan-of.ts'

/** Path of the pin of a thing's place. */
export const pinPath = (box: string, item: string): string => `items.${box}.${item.replaceAll(' ', '-')}.at`

const PLACE = /^(left|right|blind end|door end|roof|floor)( outside)? (\d+(?:\.\d+)?) m (\d+(?:\.\d+)?) m$/

/** A place as a pin writes it; null: it cannot be read. `left 1.20 m 1.55 m`, `right outside 2.4 m 1.3 m`. */
export function readPlace(
  value: Pin['value'],
): { readonly side: Spot['side']; readonly face: Spot['face']; readonly alongMm: number; readonly upMm: number } | null {
  const read = PLACE.exec(String(value).trim())
  if (read === null) return null
  const [, side, outside, along, up] = read
  return {
    side: side as Spot['side'],
    face: outside === undefined ? 'inside' : 'outside',
    alongMm: 1000 * Number(along),
    upMm: 1000 * Number(up),
  }
}

/**
 * Things that a person put where they hang: side, middle along the side from its datum, and middle above the floor (on roof and floor:
 * across the box). What cannot be read is none.
 */
export function pinnedSpots(body: BoxBody, items: readonly ShelfItem[], pins: readonly Pin[]): readonly Spot[] {
  return items.flatMap((item) => {
    const pin = pins.find((p) => p.path === pinPath(body.box, item.id))
    const place = pin === undefined ? null : readPlace(pin.value)
    if (place === null) return []
    const flat = place.side === 'roof' || place.side === 'floor'
    return [
      {
        item,
        side: place.side,
        face: place.face,
        uMm: place.alongMm,
        zMm: place.upMm + (flat ? 0 : body.floor.topMm),
        pinned: true,
      },
    ]
  })
}
