import { power } from '../../kernel/index.ts'
import type { TripBand } from '../../rules/index.ts'
import { fastTripS, slowTripS, thermalShiftRatio } from './trip-time.ts'

export interface BandOfDevice {
  readonly band: TripBand
  readonly ratingA: number
}

/** Steps per decade of the sweep; the edge between two is found by halving. */
const STEPS_PER_DECADE = 12

/**
 * Up to which current only the downstream device opens: its slowest time stays below the upstream's fastest.
 * Infinity: up to `highestA` and beyond nothing overlaps. Swept from the downstream rating to `highestA`.
 * Zone selectivity and makers' tables are not known here: where both may act at once the answer ends.
 */
export function selectiveToA(task: {
  readonly upstream: BandOfDevice
  readonly downstream: BandOfDevice
  readonly highestA: number
  readonly coldC: number
  readonly hotC: number
}): number {
  // Both stand in one panel and are made of the same metals: at one temperature, moved by the same share.
  return Math.min(selectiveAtA(task, task.coldC), task.coldC === task.hotC ? Infinity : selectiveAtA(task, task.hotC))
}

function selectiveAtA({ upstream, downstream, highestA }: Parameters<typeof selectiveToA>[0], deviceC: number): number {
  const below = {
    ...downstream,
    coldC: deviceC,
    hotC: deviceC,
    shiftRatio: thermalShiftRatio(deviceC, downstream.band.referenceC, 'slow'),
  }
  const above = {
    ...upstream,
    coldC: deviceC,
    hotC: deviceC,
    shiftRatio: thermalShiftRatio(deviceC, upstream.band.referenceC, 'slow'),
  }
  const overlaps = (currentA: number) => {
    const slow = slowTripS({ ...below, currentA })
    const fast = fastTripS({ ...above, currentA })
    return fast !== Infinity && slow >= fast
  }
  // Overlap can only begin where the upstream device may open at all, or where an edge bends: sweep between those.
  let low = Math.min(downstream.ratingA, upstream.ratingA)
  if (overlaps(low)) return low
  const factor = power(10, 1 / STEPS_PER_DECADE)
  for (let at = low * factor; low < highestA; at = low * factor) {
    const high = Math.min(at, highestA)
    if (overlaps(high)) return edgeA(overlaps, low, high)
    low = high
  }
  return Infinity
}

function edgeA(overlaps: (currentA: number) => boolean, from: number, to: number): number {
  let low = from
  let high = to
  for (let i = 0; i < 24; i++) {
    const middle = Math.sqrt(low * high)
    if (overlaps(middle)) high = middle
    else low = middle
  }
  return low
}
