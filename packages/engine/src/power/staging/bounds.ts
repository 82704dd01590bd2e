import type { BoundRule, LowerBound } from './result.ts'
import { DAY_H, modDayH, type StagingTask } from './task.ts'

/** Sums of printed figures differ in the last bits; a bound is lowered by this share before it is called reached. */
const EXACT = 1e-9
/** Most sums of loads that are listed to round a bound up. */
const MOST_SUMS = 2000
/** Sums of the same loads in another order differ in the last bits; on this grain they are one. */
export const SUM_GRAIN = 1e9

export interface SpanTask {
  readonly p: number
  readonly runH: number
  readonly fromH: number
  readonly windowH: number
}

/**
 * Hours of a task that cannot fall outside the span of `lengthH` from `spanFromH`, on a circle of 24 h.
 * Unbroken runs: the least overlap over every allowed start, reached when the run starts as the window opens or ends as it closes;
 * when the span touches the window from both sides, in the gap between. Broken runs: the run less the part of the window outside.
 * @source energy and energetic reasoning of machine scheduling, carried to the circle. Provenance: computed
 */
export function surelyInsideH(task: Omit<SpanTask, 'p'>, spanFromH: number, lengthH: number, unbroken: boolean): number {
  const { runH: h, windowH: w } = task
  if (lengthH >= DAY_H) return h
  if (w >= DAY_H) return Math.max(0, h - (DAY_H - lengthH))
  const u = modDayH(spanFromH - task.fromH)
  const behind = Math.max(0, Math.min(w, u + lengthH - DAY_H))
  const ahead = u < w ? Math.min(w, u + lengthH) - u : 0
  if (!unbroken || (behind > 0 && ahead > 0)) return Math.max(0, h - (w - behind - ahead))
  const a = behind > 0 ? 0 : u
  const b = behind > 0 ? behind : u + ahead
  if (b <= a) return 0
  const early = Math.max(0, Math.min(h, b) - a)
  const late = Math.max(0, b - Math.max(a, w - h))
  return Math.min(early, late)
}

interface Highest {
  value: number
  fromH: number
  toH: number
}

const none = (): Highest => ({ value: 0, fromH: 0, toH: 0 })

function raise(best: Highest, value: number, fromH: number, toH: number): void {
  if (value > best.value * (1 + EXACT)) {
    best.value = value
    best.fromH = fromH
    best.toH = toH
  }
}

/** Tasks alike in window and run, their loads added: the bounds are linear in the load. */
interface Group extends Omit<SpanTask, 'p'> {
  readonly loads: number[]
}

function merged(tasks: readonly StagingTask[]): Group[] {
  const byKey = new Map<string, Group>()
  for (const t of tasks) {
    const key = `${t.fromH}|${t.windowH}|${t.runH}`
    const had = byKey.get(key)
    if (had) for (let d = 0; d < t.load.length; d++) had.loads[d] = (had.loads[d] as number) + (t.load[d] as number)
    else byKey.set(key, { fromH: modDayH(t.fromH), windowH: t.windowH, runH: t.runH, loads: [...t.load] })
  }
  return [...byKey.values()]
}

function edges(groups: readonly Group[], withRuns: boolean): number[] {
  const all = new Set<number>()
  const put = (hour: number) => all.add(Math.round(modDayH(hour) * 36000) / 36000)
  for (const t of groups) {
    if (t.windowH >= DAY_H) continue
    put(t.fromH)
    put(t.fromH + t.windowH)
    if (withRuns) {
      put(t.fromH + t.runH)
      put(t.fromH + t.windowH - t.runH)
    }
  }
  return [...all].sort((a, b) => a - b)
}

/** Highest Σ p·m / length of every dimension over the whole day and over spans between edges; `insideH` gives m of a group. */
function highestMeans(
  groups: readonly Group[],
  dimensions: number,
  ends: readonly number[],
  insideH: (group: Group, s: number, lengthH: number) => number,
): Highest[] {
  const best = Array.from({ length: dimensions }, none)
  const area = new Float64Array(dimensions)
  const weigh = (s: number, e: number, length: number) => {
    area.fill(0)
    for (const group of groups) {
      const m = length >= DAY_H ? group.runH : insideH(group, s, length)
      if (m <= 0) continue
      for (let d = 0; d < dimensions; d++) area[d] = (area[d] as number) + (group.loads[d] as number) * m
    }
    for (let d = 0; d < dimensions; d++) raise(best[d] as Highest, (area[d] as number) / length, s, e)
  }
  weigh(0, 0, DAY_H)
  for (const s of ends) for (const e of ends) if (e !== s) weigh(s, e, modDayH(e - s))
  return best
}

/**
 * Highest mean power that no placing of the runs avoids, over every span of the circle and the whole day.
 *
 *   bound = max over [s, e] of Σ p·m(s, e) / (e − s),   m = hours that cannot fall outside the span
 *
 * `unbroken` false: runs may be broken (the bound that counts duty as even while on). Ends of spans are the edges of the windows:
 * between them m is convex in each end, so the mean is highest at an edge. Unbroken runs add their earliest end and latest start.
 */
export function spanBounds(tasks: readonly StagingTask[], dimensions: number, unbroken: boolean): readonly LowerBound[] {
  const groups = merged(tasks)
  const rule: BoundRule = unbroken ? 'energetic' : 'energy'
  return highestMeans(groups, dimensions, edges(groups, unbroken), (t, s, length) => surelyInsideH(t, s, length, unbroken)).map(
    (b) => ({ rule, ...b }),
  )
}

/** Rule 1 as written for whole windows: only runs whose window lies inside the span count. */
export function wholeWindowBounds(tasks: readonly StagingTask[], dimensions: number): readonly LowerBound[] {
  const groups = merged(tasks)
  const inside = (t: Group, s: number, length: number) =>
    t.windowH < DAY_H && modDayH(t.fromH - s) + t.windowH <= length + EXACT ? t.runH : 0
  return highestMeans(groups, dimensions, edges(groups, false), inside).map((b) => ({ rule: 'energy', ...b }))
}

/** Rule 3: a run longer than half its window is surely on in the middle of it. */
export function compulsoryBound(tasks: readonly SpanTask[]): LowerBound {
  const best = none()
  const parts = tasks.flatMap((t) => {
    const length = t.windowH >= DAY_H ? (t.runH >= DAY_H ? DAY_H : 0) : 2 * t.runH - t.windowH
    return length > EXACT && t.p > 0
      ? [{ p: t.p, fromH: modDayH(t.fromH + t.windowH - t.runH), lengthH: Math.min(DAY_H, length) }]
      : []
  })
  for (const at of parts) {
    let sum = 0
    for (const t of parts) if (t.lengthH >= DAY_H || modDayH(at.fromH - t.fromH) < t.lengthH - EXACT) sum += t.p
    raise(best, sum, at.fromH, modDayH(at.fromH + Math.min(at.lengthH, 0.25)))
  }
  return { rule: 'compulsory', value: best.value, fromH: best.fromH, toH: best.toH }
}

/**
 * Rule 4, carried to unequal loads and windows: runs of at least h hours whose windows lie in a span of less than (G + 1)·h hours each
 * cover one of the G instants h, 2h … G·h after its opening, so those instants carry them all, above what is surely on.
 *
 *   bound = Σ p / G + always on,  G = ⌊(e − s)/h⌋
 *
 * With equal loads and windows, rounded up to whole machines, this is ⌈n/G⌉·p. Windows of the whole circle have no opening and stay out.
 */
export function waveBounds(tasks: readonly StagingTask[], dimensions: number): readonly LowerBound[] {
  const groups = merged(tasks)
  const always = groups.filter((t) => t.windowH - t.runH < EXACT)
  const waiting = groups.filter((t) => t.windowH < DAY_H && t.windowH - t.runH >= EXACT).sort((a, b) => b.runH - a.runH)
  const best = Array.from({ length: dimensions }, none)
  const openings = [...new Set(waiting.map((t) => t.fromH))].sort((a, b) => a - b)
  const closings = [...new Set(waiting.map((t) => modDayH(t.fromH + t.windowH)))].sort((a, b) => a - b)
  const sum = new Float64Array(dimensions)
  const under = new Float64Array(dimensions)
  for (const s of openings) {
    for (const e of closings) {
      const length = modDayH(e - s) || DAY_H
      under.fill(0)
      for (const f of always) {
        if (f.runH < DAY_H && modDayH(s - f.fromH) + length > f.windowH + EXACT) continue
        for (let d = 0; d < dimensions; d++) under[d] = (under[d] as number) + (f.loads[d] as number)
      }
      sum.fill(0)
      for (const t of waiting) {
        if (modDayH(t.fromH - s) + t.windowH > length + EXACT) continue
        for (let d = 0; d < dimensions; d++) sum[d] = (sum[d] as number) + (t.loads[d] as number)
        const waves = Math.floor(length / t.runH + EXACT)
        for (let d = 0; d < dimensions; d++)
          if ((sum[d] as number) > 0) raise(best[d] as Highest, (sum[d] as number) / waves + (under[d] as number), s, e)
      }
    }
  }
  return best.map((b) => ({ rule: 'step', ...b }))
}

/**
 * Least sum of loads that reaches a bound: a peak is a sum of machines that are on, so between two such sums there is nothing.
 * Loads that are on all day stand under every sum. Null when the sums are too many to list.
 */
export function roundedUp(tasks: readonly SpanTask[], bound: number): number | null {
  let base = 0
  const counts = new Map<number, number>()
  for (const t of tasks) {
    if (t.p <= 0) continue
    if (t.runH >= DAY_H) base += t.p
    else counts.set(t.p, (counts.get(t.p) ?? 0) + 1)
  }
  // Sums are listed rounded, each addition by half a grain at most: a sum that reaches the bound must not be missed for that.
  const enough = bound * (1 - EXACT) - tasks.length / SUM_GRAIN
  let least = base >= enough ? base : Infinity
  let sums = new Set<number>([base])
  for (const [p, count] of [...counts].sort((a, b) => b[0] - a[0])) {
    const next = new Set<number>()
    for (const from of sums) {
      let sum = from
      // Past the bound only the least counts: no need to go on from there.
      for (let k = 0; k <= count && sum < enough; k++) {
        next.add(sum)
        if (next.size > MOST_SUMS) return null
        sum = Math.round((sum + p) * SUM_GRAIN) / SUM_GRAIN
        if (k < count && sum >= enough) least = Math.min(least, sum)
      }
    }
    sums = next
  }
  return least === Infinity ? null : least
}

export interface Bounded {
  readonly bounds: readonly LowerBound[]
  /** Highest of them. */
  readonly bound: number
}

/** All bounds of every dimension. */
export function lowerBounds(tasks: readonly StagingTask[], dimensions: number): readonly Bounded[] {
  const energy = wholeWindowBounds(tasks, dimensions)
  const energetic = spanBounds(tasks, dimensions, true)
  const waves = waveBounds(tasks, dimensions)
  return Array.from({ length: dimensions }, (_, d) => {
    const flat: SpanTask[] = tasks.map((t) => ({ p: t.load[d] ?? 0, runH: t.runH, fromH: modDayH(t.fromH), windowH: t.windowH }))
    const bounds: LowerBound[] = [
      energy[d] as LowerBound,
      energetic[d] as LowerBound,
      compulsoryBound(flat),
      waves[d] as LowerBound,
    ]
    const best = bounds.reduce((a, b) => (b.value > a.value * (1 + EXACT) ? b : a))
    const up = roundedUp(flat, best.value)
    if (up !== null && up > best.value * (1 + EXACT)) bounds.push({ ...best, rule: 'rounded up', value: up })
    return { bounds, bound: Math.max(...bounds.map((b) => b.value)) }
  })
}
