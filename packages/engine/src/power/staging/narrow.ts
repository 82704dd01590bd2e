import { SLOTS_PER_DAY as SLOTS } from './result.ts'
import { energyFits } from './room.ts'

/** A run to be placed, as the exact search sees it. Starts are offsets in quarter-hours from its first allowed start, ascending. */
export interface Placeable {
  /** Load on each searched dimension. */
  readonly load: readonly number[]
  readonly runSlots: number
  readonly firstSlot: number
  readonly offsets: Int16Array
  /** The run before it that is alike in everything, or −1: alike runs start in order. */
  readonly alike: number
}

/** What may stand where: profiles by dimension and quarter-hour, as `Profile`, of the searched dimensions only. */
export interface Ceiling {
  readonly dimensions: number
  readonly standing: Float64Array
  /** Least upper limit of each quarter-hour, never above `roof`. */
  readonly caps: Float64Array
  readonly roof: number
}

/** Offsets still open to each run. Never changed in place. */
export type Open = Int16Array[]

export interface Narrowed {
  /** False: nothing fits. `open` is then worthless. */
  readonly fits: boolean
  /** The run whose last start fell, or −1. */
  readonly culprit: number
  /** Starts looked at. */
  readonly workCount: number
}

const ROUNDING = 1e-9
const WRAP = Uint8Array.from({ length: 4 * SLOTS }, (_, k) => k % SLOTS)
const wrap = (slot: number): number => WRAP[slot] as number

/**
 * Takes from `open` every start that cannot belong to a plan under the ceiling, until nothing more falls:
 *
 * - no room: what the other runs surely cover, with the run itself, stands above the cap;
 * - out of order: alike runs start in order;
 * - could start sooner: any plan can be shifted earlier, run by run, so each run starts at its opening, or the quarter-hour before is
 *   barred to it. That needs a load that ends there, and loads that may stand before it which leave no room.
 *
 * Then weighs the energy that must lie inside each span against the room there.
 * @source time-table and energetic propagation of cumulative scheduling, left-shifted plans; carried to the circle. Provenance: computed
 */
export function narrower(runs: readonly Placeable[], ceiling: Ceiling): (open: Open) => Narrowed {
  const { dimensions: D, standing, caps, roof } = ceiling
  const surely = new Float64Array(D * SLOTS)
  const perhaps = new Float64Array(D * SLOTS)
  const mine = new Uint8Array(SLOTS)
  const barred = new Uint8Array(3 * SLOTS)
  const endsHere = new Uint8Array(SLOTS)
  const drops = new Uint8Array(SLOTS)
  for (let d = 0; d < D; d++)
    for (let s = 0; s < SLOTS; s++)
      if ((standing[d * SLOTS + s] as number) < (standing[d * SLOTS + wrap(s + SLOTS - 1)] as number) - ROUNDING) drops[s] = 1
  let workCount = 0

  const add = (profile: Float64Array, slot: number, load: readonly number[]) => {
    for (let d = 0; d < D; d++) profile[d * SLOTS + slot] = (profile[d * SLOTS + slot] as number) + (load[d] as number)
  }

  const sumSurely = (open: Open): boolean => {
    surely.set(standing)
    for (let i = 0; i < runs.length; i++) {
      const run = runs[i] as Placeable
      const [first, last] = endsOf(open[i] as Int16Array)
      for (let k = last; k < first + run.runSlots; k++) add(surely, wrap(run.firstSlot + k), run.load)
    }
    for (let k = 0; k < surely.length; k++) if ((surely[k] as number) > (caps[k] as number)) return false
    return true
  }

  const barredAt = (slot: number, load: readonly number[]): boolean => {
    for (let d = 0; d < D; d++) {
      const p = load[d] as number
      if (p > 0 && (surely[d * SLOTS + slot] as number) + p > (caps[d * SLOTS + slot] as number)) return true
    }
    return false
  }

  /** Starts at which the whole run finds room; the array itself when all of them do. */
  const withRoom = (run: Placeable, offsets: Int16Array): Int16Array => {
    const [first, last] = endsOf(offsets)
    const end = last + run.runSlots
    mine.fill(0)
    for (let k = last; k < first + run.runSlots; k++) mine[wrap(run.firstSlot + k)] = 1
    for (let k = first; k < end; k++) {
      const slot = wrap(run.firstSlot + k)
      barred[k - first] = mine[slot] === 0 && barredAt(slot, run.load) ? 1 : 0
    }
    let next = end
    let at = offsets.length - 1
    let kept = 0
    const fitting = new Int16Array(offsets.length)
    for (let k = end - 1; k >= first; k--) {
      if (barred[k - first] === 1) next = k
      if (at < 0 || offsets[at] !== k) continue
      if (next >= k + run.runSlots) fitting[offsets.length - ++kept] = k
      at--
    }
    workCount += offsets.length
    return kept === offsets.length ? offsets : fitting.subarray(offsets.length - kept)
  }

  const sumPerhaps = (open: Open): void => {
    perhaps.set(standing)
    endsHere.set(drops)
    for (let i = 0; i < runs.length; i++) {
      const run = runs[i] as Placeable
      eachCovered(run, open[i] as Int16Array, (slot) => add(perhaps, slot, run.load))
      for (const k of open[i] as Int16Array) endsHere[wrap(run.firstSlot + k + run.runSlots)] = 1
    }
  }

  const notSooner = (run: Placeable, offsets: Int16Array): Int16Array => {
    mine.fill(0)
    eachCovered(run, offsets, (slot) => {
      mine[slot] = 1
    })
    workCount += offsets.length
    return kept(offsets, (k) => {
      if (k === 0) return true
      if (endsHere[wrap(run.firstSlot + k)] === 0) return false
      const before = wrap(run.firstSlot + k - 1)
      for (let d = 0; d < D; d++) {
        const p = run.load[d] as number
        const most = (perhaps[d * SLOTS + before] as number) + (mine[before] === 1 ? 0 : p)
        if (p > 0 && most > roof - ROUNDING) return true
      }
      return false
    })
  }

  return (open) => {
    workCount = 0
    const dead = (culprit: number): Narrowed => ({ fits: false, culprit, workCount })
    for (let changed = true; changed; ) {
      changed = false
      const put = (i: number, offsets: Int16Array): boolean => {
        if (offsets.length < (open[i] as Int16Array).length) {
          open[i] = offsets
          changed = true
        }
        return offsets.length > 0
      }
      if (!sumSurely(open)) return dead(-1)
      for (let i = 0; i < runs.length; i++) {
        const run = runs[i] as Placeable
        let offsets = open[i] as Int16Array
        if (offsets.length > 1) offsets = withRoom(run, offsets)
        if (run.alike >= 0) {
          const least = (open[run.alike] as Int16Array)[0] as number
          offsets = kept(offsets, (k) => k >= least)
        }
        if (!put(i, offsets)) return dead(i)
      }
      for (let i = runs.length - 1; i >= 0; i--) {
        const before = (runs[i] as Placeable).alike
        if (before < 0) continue
        const most = endsOf(open[i] as Int16Array)[1]
        if (
          !put(
            before,
            kept(open[before] as Int16Array, (k) => k <= most),
          )
        )
          return dead(before)
      }
      if (changed) continue
      sumPerhaps(open)
      for (let i = 0; i < runs.length; i++) if (!put(i, notSooner(runs[i] as Placeable, open[i] as Int16Array))) return dead(i)
    }
    const fits = energyFits(runs, open, ceiling)
    workCount += runs.length * D
    return { fits, culprit: -1, workCount }
  }
}

const endsOf = (offsets: Int16Array): readonly [number, number] => [offsets[0] as number, offsets[offsets.length - 1] as number]

const kept = (offsets: Int16Array, keep: (offset: number) => boolean): Int16Array =>
  offsets.every(keep) ? offsets : offsets.filter(keep)

/** Every quarter-hour that some open start covers, once. */
function eachCovered(run: Placeable, offsets: Int16Array, visit: (slot: number) => void): void {
  const first = offsets[0] as number
  let done = first
  for (const k of offsets) {
    for (let at = Math.max(k, done); at < k + run.runSlots && at < first + SLOTS; at++) visit(wrap(run.firstSlot + at))
    done = k + run.runSlots
  }
}
