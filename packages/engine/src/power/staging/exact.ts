import { SUM_GRAIN } from './bounds.ts'
import { narrower, type Open, type Placeable } from './narrow.ts'
import type { Profile } from './profile.ts'
import { SLOTS_PER_DAY as SLOTS } from './result.ts'
import type { Objective } from './search.ts'
import { type GridTask, isFixed } from './task.ts'

/** Starts weighed by the exact search, at most, before it gives up and says so. Counted, never timed. */
export const MOST_EXACT_WORK = 8_000_000
/** Most movable tasks of one group of overlapping windows that are searched exactly. */
export const MOST_EXACT_TASKS = 15
const STRICT = 1e-9

export type Outcome =
  | { readonly kind: 'found'; readonly starts: number[]; readonly workCount: number }
  | { readonly kind: 'none'; readonly workCount: number }
  | { readonly kind: 'gave up'; readonly workCount: number }

/**
 * Starts that need to be tried at all. Any plan can be shifted earlier, run by run, without raising a peak anywhere, until each run
 * starts where its window opens or where another run ends; so every start is an opening plus a sum of runs. With g the common divisor
 * of all runs and of the day, only quarter-hours that are alike modulo g to some opening remain.
 */
export function usefulStarts(all: readonly GridTask[]): (slot: number) => boolean {
  const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b))
  const g = all.reduce((d, t) => gcd(d, t.runSlots), SLOTS)
  const residues = new Set(all.map((t) => (t.starts[0] as number) % g))
  return (slot) => residues.has(slot % g)
}

/**
 * Searches for starts of the `moving` tasks, the others standing, whose primary peaks all stay strictly below `below`.
 *
 * Depth first. At every node `narrower` takes away the starts that cannot belong to such a plan; the run placed next is the one with the
 * fewest starts left for its load and length, runs that have often turned out not to fit sooner.
 */
export function planBelow(
  all: readonly GridTask[],
  moving: readonly number[],
  standing: Profile,
  objective: Objective,
  below: number,
  mostWork = MOST_EXACT_WORK,
): Outcome {
  const roof = below * (1 - STRICT) - STRICT
  for (const d of objective.primary)
    for (let s = 0; s < SLOTS; s++) if ((standing[d * SLOTS + s] as number) > roof + STRICT) return { kind: 'none', workCount: 0 }
  const runs = placeables(all, moving, objective)
  const caps = capsUnder(roof, all, moving, standing, objective)
  const dimensions = objective.primary.length
  const narrow = narrower(runs, { dimensions, standing: primaryOf(standing, objective), caps: primaryOf(caps, objective), roof })
  const size = runs.map((run) => run.load.reduce((sum, p) => sum + p, 0) * run.runSlots)
  const failures = new Array<number>(runs.length).fill(1)
  let workCount = 0

  const fail = (i: number) => {
    if (i >= 0) failures[i] = (failures[i] as number) + 1
  }
  const search = (open: Open): Open | 'none' | 'gave up' => {
    const { fits, culprit, workCount: looked } = narrow(open)
    workCount += looked + 1
    if (!fits) {
      fail(culprit)
      return 'none'
    }
    let next = -1
    let least = Infinity
    open.forEach((offsets, i) => {
      const rank = offsets.length / ((size[i] as number) * (failures[i] as number))
      if (offsets.length > 1 && rank < least) {
        least = rank
        next = i
      }
    })
    if (next < 0) return open
    if (workCount > mostWork) return 'gave up'
    for (const offset of open[next] as Int16Array) {
      const done = search(open.map((offsets, i) => (i === next ? Int16Array.of(offset) : offsets)))
      if (done !== 'none') return done
    }
    fail(next)
    return 'none'
  }

  const done = search(runs.map((run) => run.offsets))
  if (done === 'none' || done === 'gave up') return { kind: done, workCount }
  const starts = new Array<number>(all.length).fill(-1)
  moving.forEach((at, i) => {
    starts[at] = ((runs[i] as Placeable).firstSlot + ((done[i] as Int16Array)[0] as number)) % SLOTS
  })
  return { kind: 'found', starts, workCount }
}

/** The moving tasks as the search sees them, each with the one before it that is alike. */
function placeables(all: readonly GridTask[], moving: readonly number[], objective: Objective): Placeable[] {
  const useful = usefulStarts(all)
  const last = new Map<string, number>()
  return moving.map((at, i) => {
    const task = all[at] as GridTask
    const firstSlot = task.starts[0] as number
    const load = objective.primary.map((d) => task.load[d] as number)
    const offsets = Int16Array.from(task.starts.filter(useful).map((slot) => (slot - firstSlot + SLOTS) % SLOTS))
    const key = `${load.join(',')}|${task.runSlots}|${firstSlot}|${offsets.join(',')}`
    const alike = last.get(key) ?? -1
    last.set(key, i)
    return { load, runSlots: task.runSlots, firstSlot, offsets, alike }
  })
}

/** The searched dimensions of a profile, one after the other. */
function primaryOf(profile: Profile, { primary }: Objective): Float64Array {
  const picked = new Float64Array(primary.length * SLOTS)
  primary.forEach((d, k) => {
    picked.set(profile.subarray(d * SLOTS, (d + 1) * SLOTS), k * SLOTS)
  })
  return picked
}

/**
 * What each quarter-hour may carry: no peak lies between two sums of machines, so above what stands there the roof comes down to the
 * largest sum of movable loads under it.
 */
function capsUnder(
  roof: number,
  all: readonly GridTask[],
  moving: readonly number[],
  standing: Profile,
  objective: Objective,
): Float64Array {
  const caps = new Float64Array(objective.dimensions * SLOTS)
  for (const d of objective.primary) {
    const sums = sumsUpTo(
      moving.map((i) => (all[i] as GridTask).load[d] as number),
      roof,
    )
    const rounding = moving.length / SUM_GRAIN
    for (let s = 0; s < SLOTS; s++) {
      const stands = standing[d * SLOTS + s] as number
      let most = roof
      if (sums !== null) {
        let low = 0
        let high = sums.length - 1
        while (low < high) {
          const middle = (low + high + 1) >> 1
          if (stands + (sums[middle] as number) <= roof + rounding) low = middle
          else high = middle - 1
        }
        most = Math.min(roof, stands + (sums[low] as number))
      }
      // Room for the rounding of the sums, but never up to the roof's other side: what is found must be lower.
      caps[d * SLOTS + s] = Math.min(roof, most + rounding)
    }
  }
  return caps
}

/** Sums of loads up to a roof, ascending; null when they are too many to list. */
function sumsUpTo(loads: readonly number[], roof: number): readonly number[] | null {
  const counts = new Map<number, number>()
  for (const p of loads) if (p > 0) counts.set(p, (counts.get(p) ?? 0) + 1)
  let sums = new Set<number>([0])
  for (const [p, count] of counts) {
    const next = new Set<number>()
    for (const sum of sums)
      for (let k = 0; k <= count && sum + k * p <= roof + 2 * (loads.length / SUM_GRAIN); k++)
        next.add(Math.round((sum + k * p) * SUM_GRAIN) / SUM_GRAIN)
    if (next.size > MOST_SUMS) return null
    sums = next
  }
  return [...sums].sort((a, b) => a - b)
}

const MOST_SUMS = 4000

/** Groups of movable tasks whose windows overlap, directly or through others: they can be searched apart. */
export function apart(tasks: readonly GridTask[]): readonly (readonly number[])[] {
  const groups: { slots: Uint8Array; members: number[] }[] = []
  tasks.forEach((task, i) => {
    if (isFixed(task)) return
    const slots = new Uint8Array(SLOTS)
    for (const at of task.starts) for (let k = 0; k < task.runSlots; k++) slots[(at + k) % SLOTS] = 1
    const mine = { slots, members: [i] }
    for (let g = groups.length - 1; g >= 0; g--) {
      const group = groups[g] as { slots: Uint8Array; members: number[] }
      if (!group.slots.some((on, s) => on === 1 && mine.slots[s] === 1)) continue
      group.slots.forEach((on, s) => {
        if (on) mine.slots[s] = 1
      })
      mine.members.push(...group.members)
      groups.splice(g, 1)
    }
    groups.push(mine)
  })
  return groups.map((g) => g.members.sort((a, b) => a - b)).sort((a, b) => (a[0] as number) - (b[0] as number))
}
