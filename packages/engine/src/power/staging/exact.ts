import { addRun, type Profile } from './profile.ts'
import { SLOTS_PER_DAY as SLOTS } from './result.ts'
import type { Objective } from './search.ts'
import { type GridTask, isFixed } from './task.ts'

/** Starts weighed by the exact search, at most, before it gives up and says so. Counted, never timed. */
export const MOST_EXACT_WORK = 2_000_000
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

interface Kind {
  readonly task: GridTask
  readonly members: readonly number[]
  readonly starts: readonly number[]
  /** Members placed so far, and the index of the last start: alike tasks start in order. */
  placed: number
  least: number
}

/**
 * Searches for starts of the `moving` tasks, the others standing, whose primary peaks all stay strictly below `below`.
 * Depth first; the kind of task with the fewest starts left is placed next; what the others must occupy whatever happens is counted in.
 */
export function planBelow(
  all: readonly GridTask[],
  moving: readonly number[],
  standing: Profile,
  objective: Objective,
  below: number,
  mostWork = MOST_EXACT_WORK,
): Outcome {
  const cap = below * (1 - STRICT) - STRICT
  const useful = usefulStarts(all)
  const profile = Float64Array.from(standing)
  const kinds = kindsOf(all, moving, useful)
  const starts = new Array<number>(all.length).fill(-1)
  let workCount = 0

  for (const d of objective.primary) for (let s = 0; s < SLOTS; s++) if ((profile[d * SLOTS + s] as number) > cap) return { kind: 'none', workCount }

  const fits = (task: GridTask, at: number): boolean => {
    for (const d of objective.primary) {
      const p = task.load[d] as number
      if (p === 0) continue
      for (let k = 0; k < task.runSlots; k++) if ((profile[d * SLOTS + ((at + k) % SLOTS)] as number) + p > cap) return false
    }
    return true
  }

  const surely = new Float64Array(objective.dimensions * SLOTS)
  /** Feasible start indices of each kind; null when the node is dead. */
  const domains = (): { readonly kind: Kind; readonly indices: number[] }[] | null => {
    const open: { readonly kind: Kind; readonly indices: number[] }[] = []
    surely.set(profile)
    const reach = new Uint8Array(SLOTS)
    for (const kind of kinds) {
      const left = kind.members.length - kind.placed
      if (left === 0) continue
      const indices: number[] = []
      for (let i = kind.least; i < kind.starts.length; i++) {
        workCount++
        if (fits(kind.task, kind.starts[i] as number)) indices.push(i)
      }
      if (indices.length === 0) return null
      const first = kind.starts[indices[0] as number] as number
      const span = ((kind.starts[indices[indices.length - 1] as number] as number) - first + SLOTS) % SLOTS
      for (const i of indices) for (let k = 0; k < kind.task.runSlots; k++) reach[((kind.starts[i] as number) + k) % SLOTS] = 1
      for (const d of objective.primary) {
        const p = (kind.task.load[d] as number) * left
        if (p === 0 || span + kind.task.runSlots > SLOTS) continue
        for (let k = span; k < kind.task.runSlots; k++) {
          const slot = d * SLOTS + ((first + k) % SLOTS)
          surely[slot] = (surely[slot] as number) + p
          if ((surely[slot] as number) > cap) return null
        }
      }
      open.push({ kind, indices })
    }
    for (const d of objective.primary) {
      let wanted = 0
      let room = 0
      for (const { kind } of open) wanted += (kind.task.load[d] as number) * kind.task.runSlots * (kind.members.length - kind.placed)
      for (let s = 0; s < SLOTS; s++) if (reach[s]) room += Math.max(0, cap - (profile[d * SLOTS + s] as number))
      if (wanted > room * (1 + STRICT)) return null
    }
    return open
  }

  const search = (): boolean | null => {
    const open = domains()
    if (open === null) return false
    if (open.length === 0) return true
    if (workCount > mostWork) return null
    const next = open.reduce((a, b) => {
      const x = a.indices.length
      const y = b.indices.length
      return y < x || (y === x && area(b.kind.task) > area(a.kind.task)) ? b : a
    })
    const { kind } = next
    const least = kind.least
    const member = kind.members[kind.placed] as number
    for (const i of next.indices) {
      const at = kind.starts[i] as number
      addRun(profile, kind.task, at, 1)
      starts[member] = at
      kind.placed++
      kind.least = i
      const done = search()
      if (done !== false) return done
      kind.placed--
      kind.least = least
      addRun(profile, kind.task, at, -1)
    }
    return false
  }

  const done = search()
  if (done === null) return { kind: 'gave up', workCount }
  return done ? { kind: 'found', starts, workCount } : { kind: 'none', workCount }
}

const area = (task: GridTask): number => task.load.reduce((sum, p) => sum + p, 0) * task.runSlots

function kindsOf(all: readonly GridTask[], moving: readonly number[], useful: (slot: number) => boolean): Kind[] {
  const byKey = new Map<string, { task: GridTask; members: number[] }>()
  for (const i of moving) {
    const task = all[i] as GridTask
    const key = `${task.load.join(',')}|${task.runSlots}|${task.starts[0]}|${task.starts.length}`
    const had = byKey.get(key)
    if (had) had.members.push(i)
    else byKey.set(key, { task, members: [i] })
  }
  return [...byKey.values()].map(({ task, members }) => ({ task, members, starts: task.starts.filter(useful), placed: 0, least: 0 }))
}

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
