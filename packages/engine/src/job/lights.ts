import type { Pin } from './types.ts'

/** Strips of light that one box takes at most. House rule. */
const MOST = 40

/** Path of the pin of how many strips of light hang in a box. */
export const stripsPath = (box: string): string => `lights.${box}.count`

/** A number of strips as a pin writes it; null: it is none. */
export function readStrips(value: Pin['value']): number | null {
  const count = Number(value)
  return Number.isInteger(count) && count >= 1 && count <= MOST ? count : null
}

/** Strips of light that a person pinned for a box; null: nobody did. */
export function pinnedStrips(pins: readonly Pin[], box: string): number | null {
  const pin = pins.find((p) => p.path === stripsPath(box))
  return pin === undefined ? null : readStrips(pin.value)
}
