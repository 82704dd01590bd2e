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
  const roof = below * (1 - STRICT) - STRICT
  const caps = capsUnder(roof, all, moving, standing, objective)
  const useful = usefulStarts(all)
  const profile = Float64Array.from(standing)
  const kinds = kindsOf(all, moving, useful, objective)
  const starts = new Array<number>(all.length).fill(-1)
  let workCount = 0

  for (const d of objective.primary)
    for (let s = 0; s < SLOTS; s++) if ((profile[d * SLOTS + s] as number) > roof + STRICT) return { kind: 'none', workCount }

  const fits = (task: GridTask, at: number): boolean => {
    for (const d of objective.primary) {
      const p = task.load[d] as number
      if (p === 0) continue
      for (let k = at; k < at + task.runSlots; k++) {
        const slot = d * SLOTS + (k < SLOTS ? k : k - SLOTS)
        if ((profile[slot] as number) + p > (caps[slot] as number)) return false
      }
    }
    return true
  }

  const surely = new Float64Array(objective.dimensions * SLOTS)
  /** What is left to place, with its feasible starts; null when the node is dead. */
  const domains = (): Open[] | null => {
    const open: Open[] = []
    surely.set(profile)
    for (const kind of kinds) {
      const left = kind.members.length - kind.placed
      if (left === 0) continue
      const indices: number[] = []
      for (let i = kind.least; i < kind.starts.length; i++) {
        workCount++
        if (fits(kind.task, kind.starts[i] as number)) indices.push(i)
      }
      if (indices.length === 0) return null
      const { runSlots } = kind.task
      const first = kind.starts[indices[0] as number] as number
      const slack = ((kind.starts[indices[indices.length - 1] as number] as number) - first + SLOTS) % SLOTS
      // Starts that go round the whole circle leave nothing that is surely on.
      const round = slack + runSlots > SLOTS
      for (const d of objective.primary) {
        const p = (kind.task.load[d] as number) * left
        if (p === 0 || round) continue
        for (let k = slack; k < runSlots; k++) {
          const slot = d * SLOTS + ((first + k) % SLOTS)
          surely[slot] = (surely[slot] as number) + p
          if ((surely[slot] as number) > (caps[slot] as number)) return null
        }
      }
      open.push({ kind, indices, left, first, slack, round })
    }
    return open.length > 0 && !roomLeft(open, profile, objective, caps) ? null : open
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

interface Open {
  readonly kind: Kind
  readonly indices: readonly number[]
  readonly left: number
  /** Earliest start, and how much later the latest is. */
  readonly first: number
  readonly slack: number
  readonly round: boolean
}

/**
 * Energetic check of a node: over every span from an earliest start to a latest end, what must lie inside against the room under the cap.
 * Spans are arcs; a run that may go round the whole circle is left to the check of the whole day.
 */
function roomLeft(open: readonly Open[], profile: Profile, objective: Objective, caps: Float64Array): boolean {
  for (const d of objective.primary) {
    const some = open.filter((o) => (o.kind.task.load[d] as number) > 0)
    if (some.length === 0) continue
    const sums = new Float64Array(2 * SLOTS + 1)
    for (let s = 0; s < 2 * SLOTS; s++)
      sums[s + 1] =
        (sums[s] as number) +
        Math.max(0, (caps[d * SLOTS + (s % SLOTS)] as number) - (profile[d * SLOTS + (s % SLOTS)] as number))
    let whole = 0
    for (const o of some) whole += (o.kind.task.load[d] as number) * o.left * o.kind.task.runSlots
    if (whole > (sums[SLOTS] as number) * (1 + STRICT)) return false
    const arcs = some.filter((o) => !o.round)
    for (const from of arcs) {
      for (const to of arcs) {
        const length = (to.first + to.slack + to.kind.task.runSlots - from.first + 2 * SLOTS) % SLOTS
        if (length === 0) continue
        let wanted = 0
        for (const o of arcs) wanted += (o.kind.task.load[d] as number) * o.left * surelyInsideSlots(o, from.first, length)
        if (wanted > ((sums[from.first + length] as number) - (sums[from.first] as number)) * (1 + STRICT)) return false
      }
    }
  }
  return true
}

/** Quarter-hours of a run that cannot fall outside an arc, over all its feasible starts: as `surelyInsideH`, in whole quarter-hours. */
function surelyInsideSlots(o: Open, from: number, length: number): number {
  const run = o.kind.task.runSlots
  const w = o.slack + run
  const u = (from - o.first + SLOTS) % SLOTS
  const behind = Math.max(0, Math.min(w, u + length - SLOTS))
  const ahead = u < w ? Math.min(w, u + length) - u : 0
  if (behind > 0 && ahead > 0) return Math.max(0, run - (w - behind - ahead))
  const a = behind > 0 ? 0 : u
  const b = behind > 0 ? behind : u + ahead
  if (b <= a) return 0
  return Math.min(Math.max(0, Math.min(run, b) - a), Math.max(0, b - Math.max(a, w - run)))
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
    for (let s = 0; s < SLOTS; s++) {
      const stands = standing[d * SLOTS + s] as number
      let most = roof
      if (sums !== null) {
        let low = 0
        let high = sums.length - 1
        while (low < high) {
          const middle = (low + high + 1) >> 1
          if (stands + (sums[middle] as number) <= roof) low = middle
          else high = middle - 1
        }
        most = Math.min(roof, stands + (sums[low] as number))
      }
      // Room for the rounding of the sums, but never up to the roof's other side: what is found must be lower.
      caps[d * SLOTS + s] = Math.min(roof, most + 2 / SUM_GRAIN)
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
      for (let k = 0; k <= count && sum + k * p <= roof; k++) next.add(Math.round((sum + k * p) * SUM_GRAIN) / SUM_GRAIN)
    if (next.size > MOST_SUMS) return null
    sums = next
  }
  return [...sums].sort((a, b) => a - b)
}

const SUM_GRAIN = 1e6
const MOST_SUMS = 4000

function kindsOf(
  all: readonly GridTask[],
  moving: readonly number[],
  useful: (slot: number) => boolean,
  objective: Objective,
): Kind[] {
  const byKey = new Map<string, { task: GridTask; members: number[]; starts: readonly number[] }>()
  for (const i of moving) {
    const task = all[i] as GridTask
    const starts = task.starts.filter(useful)
    const key = `${objective.primary.map((d) => task.load[d]).join(',')}|${task.runSlots}|${starts.join(',')}`
    const had = byKey.get(key)
    if (had) had.members.push(i)
    else byKey.set(key, { task, members: [i], starts })
  }
  return [...byKey.values()].map((kind) => ({ ...kind, placed: 0, least: 0 }))
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
