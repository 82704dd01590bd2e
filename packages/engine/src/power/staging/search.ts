import { seeded } from '../../kernel/index.ts'
import { addRun, type Profile, peakOf, profileOf } from './profile.ts'
import { SLOTS_PER_DAY as SLOTS } from './result.ts'
import { type GridTask, isFixed } from './task.ts'

/**
 * What is made least, in this order: the highest peak among the `primary` dimensions (legs), then the peak of the `total` dimension,
 * then the sum of squares over the primary dimensions, which keeps the rest of the day flat.
 */
export interface Objective {
  readonly primary: readonly number[]
  readonly total: number | null
  readonly dimensions: number
}

/** Two scores nearer than this are the same: no choice hangs on the last bits. */
const SAME = 1e-9
/** Placements tried by one improvement, and by all rounds of shaking, at most. Counted, never timed. */
export const MOST_IMPROVING_WORK = 20_000
export const MOST_SHAKING_WORK = 20_000
/** Share of the runs that stand at the peak, and of the others, that a round lifts out before placing them anew. */
const LIFTED_AT_PEAK = 0.5
const LIFTED_ELSEWHERE = 0.15
const SHAKING_SEED = 60

export interface Score {
  readonly primary: number
  readonly total: number
  readonly squares: number
}

export interface Plan {
  readonly starts: number[]
  readonly workCount: number
}

export function scoreOf(profile: Profile, objective: Objective): Score {
  let primary = 0
  let squares = 0
  for (const d of objective.primary) {
    primary = Math.max(primary, peakOf(profile, d).value)
    for (let s = 0; s < SLOTS; s++) squares += (profile[d * SLOTS + s] as number) ** 2
  }
  return { primary, total: objective.total === null ? 0 : peakOf(profile, objective.total).value, squares }
}

const less = (a: number, b: number): boolean => (b === Infinity ? a < b : a < b - SAME * Math.max(1, Math.abs(b)))

export function isBetter(a: Score, b: Score): boolean {
  if (less(a.primary, b.primary)) return true
  if (less(b.primary, a.primary)) return false
  if (less(a.total, b.total)) return true
  if (less(b.total, a.total)) return false
  return less(a.squares, b.squares)
}

/** Start that gives the least score for one task on a profile without it; of equals the one soonest after its window opens. */
function bestStart(profile: Profile, task: GridTask, objective: Objective, highest: Score): number {
  let start = task.starts[0] as number
  let bestPrimary = Infinity
  let bestTotal = Infinity
  let bestSquares = Infinity
  for (const at of task.starts) {
    let primary = highest.primary
    let squares = 0
    const wrap = at + task.runSlots - SLOTS
    for (const d of objective.primary) {
      const p = task.load[d] as number
      if (p === 0) continue
      const base = d * SLOTS
      for (let k = at; k < at + task.runSlots; k++) {
        const v = profile[base + (k < SLOTS ? k : k - SLOTS)] as number
        if (v + p > primary) primary = v + p
        squares += p * (2 * v + p)
      }
      if (primary > bestPrimary + SAME * Math.max(1, bestPrimary)) break
    }
    if (less(bestPrimary, primary)) continue
    let total = highest.total
    if (objective.total !== null) {
      const p = task.load[objective.total] as number
      const base = objective.total * SLOTS
      for (let k = at; k < Math.min(SLOTS, at + task.runSlots); k++) total = Math.max(total, (profile[base + k] as number) + p)
      for (let k = 0; k < wrap; k++) total = Math.max(total, (profile[base + k] as number) + p)
    }
    const lower =
      less(primary, bestPrimary) ||
      (!less(bestPrimary, primary) && (less(total, bestTotal) || (!less(bestTotal, total) && less(squares, bestSquares))))
    if (!lower) continue
    bestPrimary = primary
    bestTotal = total
    bestSquares = squares
    start = at
  }
  return start
}

/** Least slack first, then largest load times run, then by name. */
export function placingOrder(tasks: readonly GridTask[]): number[] {
  const slack = (t: GridTask) => (isFixed(t) ? -1 : t.starts.length)
  const area = (t: GridTask) => t.load.reduce((sum, p) => sum + p, 0) * t.runSlots
  return tasks
    .map((_, i) => i)
    .sort((a, b) => {
      const x = tasks[a] as GridTask
      const y = tasks[b] as GridTask
      return slack(x) - slack(y) || area(y) - area(x) || (x.name < y.name ? -1 : x.name > y.name ? 1 : 0)
    })
}

/** Greedy placing, each task where it raises the peak least. */
export function greedyPlan(tasks: readonly GridTask[], objective: Objective): Plan {
  const starts = new Array<number>(tasks.length).fill(0)
  const profile = new Float64Array(objective.dimensions * SLOTS)
  let workCount = 0
  for (const i of placingOrder(tasks)) {
    const task = tasks[i] as GridTask
    const chosen = isFixed(task) ? (task.starts[0] as number) : bestStart(profile, task, objective, scoreOf(profile, objective))
    workCount += task.starts.length
    starts[i] = chosen
    addRun(profile, task, chosen, 1)
  }
  return { starts, workCount }
}

/**
 * Lifts some of the runs that stand at the peak and a few others, places them anew in another order, and keeps what is better: what single
 * moves and pairs cannot reach. Seeded, so the same job gives the same plan; ends when the bound is reached or the work is used up.
 */
export function shakenPlan(
  tasks: readonly GridTask[],
  from: readonly number[],
  objective: Objective,
  bound: number,
  mostWork = MOST_SHAKING_WORK,
): Plan {
  const random = seeded(SHAKING_SEED)
  let starts = [...from]
  const movable = tasks.flatMap((task, i) => (isFixed(task) ? [] : [i]))
  let score = scoreOf(profileOf(tasks, starts, objective.dimensions), objective)
  let workCount = 0
  while (movable.length > 1 && workCount < mostWork && score.primary > bound * (1 + SAME)) {
    const profile = profileOf(tasks, starts, objective.dimensions)
    const peaks = objective.primary
      .map((d) => ({ d, ...peakOf(profile, d) }))
      .filter((p) => p.value >= score.primary * (1 - SAME))
    const atPeak = (i: number) =>
      peaks.some(
        ({ d, slot }) =>
          ((tasks[i] as GridTask).load[d] as number) > 0 &&
          (slot - (starts[i] as number) + SLOTS) % SLOTS < (tasks[i] as GridTask).runSlots,
      )
    const lifted = movable
      .filter((i) => random.next() < (atPeak(i) ? LIFTED_AT_PEAK : LIFTED_ELSEWHERE))
      .map((i) => ({ i, at: random.next() }))
    lifted.sort((a, b) => a.at - b.at)
    const tried = [...starts]
    for (const { i } of lifted) addRun(profile, tasks[i] as GridTask, starts[i] as number, -1)
    for (const { i } of lifted) {
      const task = tasks[i] as GridTask
      workCount += task.starts.length
      tried[i] = bestStart(profile, task, objective, scoreOf(profile, objective))
      addRun(profile, task, tried[i] as number, 1)
    }
    workCount++
    const now = scoreOf(profileOf(tasks, tried, objective.dimensions), objective)
    if (less(score.primary, now.primary) || (!less(now.primary, score.primary) && less(score.squares, now.squares))) continue
    starts = tried
    score = now
  }
  return { starts, workCount }
}

/** Moves one task, then pairs of tasks, as long as that lowers the score. */
export function improvedPlan(
  tasks: readonly GridTask[],
  from: readonly number[],
  objective: Objective,
  mostWork = MOST_IMPROVING_WORK,
): Plan {
  const starts = [...from]
  const profile = profileOf(tasks, starts, objective.dimensions)
  const order = placingOrder(tasks).filter((i) => !isFixed(tasks[i] as GridTask))
  let score = scoreOf(profile, objective)
  let workCount = 0

  const lift = (i: number) => addRun(profile, tasks[i] as GridTask, starts[i] as number, -1)
  const put = (i: number, start: number) => {
    starts[i] = start
    addRun(profile, tasks[i] as GridTask, start, 1)
  }
  const replace = (i: number) => {
    const task = tasks[i] as GridTask
    workCount += task.starts.length
    put(i, bestStart(profile, task, objective, scoreOf(profile, objective)))
  }
  const attempt = (moved: readonly number[]): boolean => {
    const kept = moved.map((i) => starts[i] as number)
    for (const i of moved) lift(i)
    for (const i of moved) replace(i)
    const tried = scoreOf(profile, objective)
    if (isBetter(tried, score)) {
      score = tried
      return true
    }
    for (const i of moved) lift(i)
    moved.forEach((i, k) => {
      put(i, kept[k] as number)
    })
    return false
  }
  const onPeak = (i: number): boolean => {
    const task = tasks[i] as GridTask
    return objective.primary.some((d) => {
      const { value, slot } = peakOf(profile, d)
      const on = (slot - (starts[i] as number) + SLOTS) % SLOTS < task.runSlots
      return on && (task.load[d] as number) > 0 && value >= score.primary * (1 - SAME)
    })
  }

  let moving = true
  while (moving && workCount < mostWork) {
    moving = false
    for (const i of order) if (workCount < mostWork && attempt([i])) moving = true
    if (moving) continue
    for (const i of order) {
      if (!onPeak(i)) continue
      for (const j of order) {
        if (i === j || workCount >= mostWork) continue
        if (starts[i] === starts[j] && (tasks[i] as GridTask).runSlots === (tasks[j] as GridTask).runSlots) continue
        if (attempt([i, j]) || attempt([j, i])) {
          moving = true
          break
        }
      }
    }
  }
  return { starts, workCount }
}
