import { sizeUp } from './size-up.ts'

/** Heaters and fans that are priced, W: one takes the next larger. */
const ROOM_W = [500, 1000, 1500, 2000, 5000]
const CABINET_W = [100, 150, 250, 400]
const FAN_W = [20, 60, 100, 200]

interface Priced {
  readonly id: string
  readonly count: number
}

/** Heaters to buy for a power, by the id of their price: one, or beyond the largest that is priced as many as share it, each in the next larger size. */
export function heatersPriced({ at, powerW }: { readonly at: 'room' | 'cabinet'; readonly powerW: number }): Priced {
  const sizes = at === 'room' ? ROOM_W : CABINET_W
  const count = Math.max(1, Math.ceil(powerW / sizes[sizes.length - 1]! - 1e-9))
  return { id: `heater/${at} ${sizeUp(sizes, powerW / count)} W`, count }
}

/** The same of a fan on a circuit: always one; beyond the largest that is priced, that one. */
export const fanPriced = (powerW: number): Priced => ({ id: `fan/${sizeUp(FAN_W, powerW)} W`, count: 1 })
