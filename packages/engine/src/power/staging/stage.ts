import { Fault } from '../../kernel/index.ts'
import { lowerBounds } from './bounds.ts'
import { apart, MOST_EXACT_TASKS, MOST_EXACT_WORK, planBelow } from './exact.ts'
import { addRun, type Profile, peakOf, profileOf } from './profile.ts'
import type { LowerBound, ProofState } from './result.ts'
import { greedyPlan, improvedPlan, isBetter, type Objective, scoreOf, shakenPlan } from './search.ts'
import { type GridTask, gridTask, SLOT_H, type StagingTask } from './task.ts'

const REACHED = 1e-9

export interface StagedDimension {
  readonly before: number
  readonly after: number
  readonly atH: number
  readonly bounds: readonly LowerBound[]
  readonly bound: number
  readonly proof: ProofState
  readonly gapFrac: number
}

export interface Staged {
  readonly tasks: readonly GridTask[]
  /** Start of each task, local hours. */
  readonly startH: readonly number[]
  readonly before: Profile
  readonly after: Profile
  readonly dimensions: readonly StagedDimension[]
  /** Highest bound among the primary dimensions, what was reached, and whether that is proven least. */
  readonly primary: { readonly after: number; readonly bound: number; readonly proof: ProofState; readonly gapFrac: number }
  readonly workCount: number
}

/**
 * Start times that make the highest primary peak least, on the circle of a day.
 *
 * Bounds first (`lowerBounds`); greedy placing; moves and pairs; then, where a group of overlapping windows has at most 15 movable runs,
 * an exact search that either finds a lower peak or proves that there is none. What it could not prove it states as a gap.
 * `search` false: every run starts when its window opens, and only the bounds are worked out.
 * @throws Fault `staging/task-range`, `staging/not-lower` when an exact search breaks its promise
 */
export function stagedTasks(
  tasks: readonly StagingTask[],
  objective: Objective,
  mostExactWork = MOST_EXACT_WORK,
  search = true,
): Staged {
  const order = tasks.map((_, i) => i).sort((a, b) => inOrder(tasks[a] as StagingTask, tasks[b] as StagingTask))
  const sorted = stagedInOrder(
    order.map((i) => tasks[i] as StagingTask),
    objective,
    mostExactWork,
    search,
  )
  const place = new Array<number>(tasks.length).fill(0)
  order.forEach((i, k) => {
    place[i] = k
  })
  return { ...sorted, tasks: place.map((k) => sorted.tasks[k] as GridTask), startH: place.map((k) => sorted.startH[k] as number) }
}

/** By what a task is, its name last: neither the order of rows nor other names change a peak. */
function inOrder(a: StagingTask, b: StagingTask): number {
  const loads = a.load.map((p, d) => (b.load[d] ?? 0) - p).find((difference) => difference !== 0) ?? 0
  return (
    a.fromH - b.fromH || a.windowH - b.windowH || a.runH - b.runH || loads || (a.name < b.name ? -1 : a.name > b.name ? 1 : 0)
  )
}

function stagedInOrder(tasks: readonly StagingTask[], objective: Objective, mostExactWork: number, search: boolean): Staged {
  const grid = tasks.map(gridTask)
  const before = profileOf(
    grid,
    grid.map((t) => t.starts[0] as number),
    objective.dimensions,
  )
  const found = lowerBounds(tasks, objective.dimensions)
  const primaryBound = Math.max(0, ...objective.primary.map((d) => found[d]?.bound ?? 0))

  const openings = grid.map((t) => t.starts[0] as number)
  let starts = openings
  let workCount = 0
  let proven = false
  if (search) {
    const greedy = greedyPlan(grid, objective)
    const improved = improvedPlan(grid, greedy.starts, objective)
    const large = apart(grid).some((group) => group.length > MOST_EXACT_TASKS)
    const shaken = large ? shakenPlan(grid, improved.starts, objective, primaryBound) : { starts: improved.starts, workCount: 0 }
    const settled = improvedPlan(grid, shaken.starts, objective)
    workCount += greedy.workCount + improved.workCount + shaken.workCount + settled.workCount
    const score = (at: readonly number[]) => scoreOf(profileOf(grid, at, objective.dimensions), objective)
    if (isBetter(score(settled.starts), score(openings))) starts = settled.starts
  }

  const peak = () => scoreOf(profileOf(grid, starts, objective.dimensions), objective).primary
  const groups = apart(grid)
  let budget = mostExactWork
  for (;;) {
    const now = peak()
    if (now <= primaryBound * (1 + REACHED)) {
      proven = true
      break
    }
    if (!search) break
    const outcome = lowered(grid, groups, starts, objective, now, budget)
    workCount += outcome.workCount
    budget -= outcome.workCount
    if (outcome.kind === 'lower') {
      const better = improvedPlan(grid, outcome.starts, objective)
      workCount += better.workCount
      starts = better.starts
      if (peak() >= now) throw new Fault('staging/not-lower', { before: now, after: peak() })
      continue
    }
    proven = outcome.kind === 'proven'
    if (!proven) {
      const alone = provenByOneLeg(grid, starts, objective, now, budget)
      workCount += alone.workCount
      proven = alone.proven
    }
    break
  }

  const after = profileOf(grid, starts, objective.dimensions)
  const firm: ProofState = grid.every((t) => t.onGrid) ? 'proven' : 'proven on the grid'
  const dimensions = found.map(({ bounds, bound }, d): StagedDimension => {
    const top = peakOf(after, d)
    const reached = top.value <= bound * (1 + REACHED)
    const mine =
      objective.primary.includes(d) &&
      proven &&
      top.value >= peakValue(after, objective) * (1 - REACHED) &&
      objective.primary.length === 1
    const proof: ProofState = reached ? 'proven' : mine ? firm : 'gap'
    return {
      before: peakOf(before, d).value,
      after: top.value,
      atH: top.slot * SLOT_H,
      bounds,
      bound,
      proof,
      gapFrac: proof === 'gap' && bound > 0 ? top.value / bound - 1 : 0,
    }
  })
  const reached = peakValue(after, objective)
  const byBound = reached <= primaryBound * (1 + REACHED)
  const proof: ProofState = byBound ? 'proven' : proven ? firm : 'gap'
  return {
    tasks: grid,
    startH: starts.map((s) => s * SLOT_H),
    before,
    after,
    dimensions,
    primary: {
      after: reached,
      bound: primaryBound,
      proof,
      gapFrac: proof === 'gap' && primaryBound > 0 ? reached / primaryBound - 1 : 0,
    },
    workCount,
  }
}

const peakValue = (profile: Profile, objective: Objective): number =>
  Math.max(0, ...objective.primary.map((d) => peakOf(profile, d).value))

/**
 * Looks at one dimension alone: runs that do not load it may go anywhere, so if even then it cannot stay below the peak, nothing can.
 * Smaller than the whole problem, and often enough.
 */
function provenByOneLeg(
  grid: readonly GridTask[],
  starts: readonly number[],
  objective: Objective,
  now: number,
  budget: number,
): { readonly proven: boolean; readonly workCount: number } {
  let workCount = 0
  if (objective.primary.length < 2) return { proven: false, workCount }
  const after = profileOf(grid, starts, objective.dimensions)
  for (const d of objective.primary) {
    if (peakOf(after, d).value < now * (1 - REACHED)) continue
    const on = grid.filter((t) => (t.load[d] as number) > 0)
    const fixed = on.filter((t) => t.starts.length === 1)
    const standing = profileOf(
      fixed,
      fixed.map((t) => t.starts[0] as number),
      objective.dimensions,
    )
    for (const group of apart(on)) {
      if (group.length > MOST_EXACT_TASKS) continue
      const outcome = planBelow(on, group, standing, { ...objective, primary: [d] }, now, (budget - workCount) / 2)
      workCount += outcome.workCount
      if (outcome.kind === 'none') return { proven: true, workCount }
    }
  }
  return { proven: false, workCount }
}

type Lowered =
  | { readonly kind: 'lower'; readonly starts: number[]; readonly workCount: number }
  | { readonly kind: 'proven' | 'open'; readonly workCount: number }

/** Takes each group that stands at the peak and searches it below; one group that cannot go lower proves the peak. */
function lowered(
  grid: readonly GridTask[],
  groups: readonly (readonly number[])[],
  starts: readonly number[],
  objective: Objective,
  now: number,
  budget: number,
): Lowered {
  let workCount = 0
  let open = false
  let next = [...starts]
  let changed = false
  const all = profileOf(grid, starts, objective.dimensions)
  const fixedOnly = profileOf(
    grid.filter((t) => t.starts.length === 1),
    grid.filter((t) => t.starts.length === 1).map((t) => t.starts[0] as number),
    objective.dimensions,
  )
  if (peakValue(fixedOnly, objective) >= now * (1 - REACHED)) return { kind: 'proven', workCount }
  for (const group of groups) {
    const standing = Float64Array.from(all)
    for (const i of group) addRun(standing, grid[i] as GridTask, starts[i] as number, -1)
    const alone = Float64Array.from(fixedOnly)
    for (const i of group) addRun(alone, grid[i] as GridTask, starts[i] as number, 1)
    if (peakValue(alone, objective) < now * (1 - REACHED)) continue
    if (group.length > MOST_EXACT_TASKS) {
      open = true
      continue
    }
    const outcome = planBelow(grid, group, fixedOnly, objective, now, budget - workCount)
    workCount += outcome.workCount
    if (outcome.kind === 'none') return { kind: 'proven', workCount }
    if (outcome.kind === 'gave up') open = true
    if (outcome.kind === 'found') {
      const lower = outcome.starts
      next = next.map((s, i) => (group.includes(i) ? (lower[i] as number) : s))
      changed = true
    }
  }
  if (open) return { kind: 'open', workCount }
  return changed ? { kind: 'lower', starts: next, workCount } : { kind: 'open', workCount }
}
