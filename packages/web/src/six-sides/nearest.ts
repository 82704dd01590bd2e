import type { Rect } from '../worker/protocol.ts'

type Placed = Rect & { readonly id: string }

const middle = ({ x, y, w, h }: Rect): readonly [number, number] => [x + w / 2, y + h / 2]

/** The thing that a touch means: the one under it, the smallest where several are; else the nearest within reach. */
export function touched<T extends Placed>(things: readonly T[], x: number, y: number, reachPx: number): T | null {
  let best: T | null = null
  let bestCost = Number.POSITIVE_INFINITY
  for (const thing of things) {
    const away = distance(thing, x, y)
    if (away > reachPx) continue
    // Inside, size decides: a receptacle before the panel that it stands on.
    const cost = away === 0 ? (thing.w * thing.h) / 1e6 : 1 + away
    if (cost < bestCost) {
      best = thing
      bestCost = cost
    }
  }
  return best
}

function distance({ x, y, w, h }: Rect, px: number, py: number): number {
  return Math.hypot(Math.max(x - px, 0, px - x - w), Math.max(y - py, 0, py - y - h))
}

export type Way = 'left' | 'right' | 'up' | 'down'

/** The nearest thing that way: what lies straight ahead before what lies aside. Null at the edge. */
export function nearestThatWay<T extends Placed>(things: readonly T[], from: T, way: Way): T | null {
  const [x, y] = middle(from)
  let best: T | null = null
  let bestCost = Number.POSITIVE_INFINITY
  for (const thing of things) {
    if (thing.id === from.id) continue
    const [tx, ty] = middle(thing)
    const [ahead, aside] =
      way === 'right'
        ? [tx - x, ty - y]
        : way === 'left'
          ? [x - tx, ty - y]
          : way === 'down'
            ? [ty - y, tx - x]
            : [y - ty, tx - x]
    if (ahead <= 0.5) continue
    const cost = ahead + ASIDE * Math.abs(aside)
    if (cost < bestCost - 1e-9) {
      best = thing
      bestCost = cost
    }
  }
  return best
}

/** A thing aside counts as so many times as far. */
const ASIDE = 2.5
