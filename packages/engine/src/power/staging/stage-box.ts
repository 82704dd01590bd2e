import type { Job, Leg, StagingControl } from '../../job/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import { spanBounds } from './bounds.ts'
import { type BoxLoad, boxLoads } from './loads.ts'
import { type Profile, peakOf, profileOf } from './profile.ts'
import { type LegProfiles, type LowerBound, type PeakProof, SLOTS_PER_DAY as SLOTS, type StagingResult } from './result.ts'
import type { Objective } from './search.ts'
import { type Staged, stagedTasks } from './stage.ts'
import { DAY_H, type GridTask, gridTask, modDayH, SLOT_H, type StagingTask } from './task.ts'

const LEGS: readonly Leg[] = ['A', 'B', 'C']
const TOTAL = LEGS.length
const OBJECTIVE: Objective = { primary: [0, 1, 2], total: TOTAL, dimensions: TOTAL + 1 }
const SAME = 1e-9
/** Starts weighed by the exact search for one box, at most: plan asks for many boxes. Counted, never timed. */
export const MOST_BOX_WORK = 500_000

export interface StageBoxTask {
  readonly job: Job
  readonly boxId: string
  readonly phaseId: string
  readonly rules: Pick<RuleSet, 'build'>
  readonly legsOf: Readonly<Record<string, readonly Leg[]>>
  readonly control: StagingControl
  /** Starts that a design has already; absent: find them. */
  readonly startH?: Readonly<Record<string, number>>
  readonly mostWork?: number
}

/** A load as a task. What no clock may move is counted as on through its whole window: nobody can say when in it it runs. */
export function taskOf(load: BoxLoad): StagingTask {
  const currentA = LEGS.map((leg) => (load.legs.includes(leg) ? load.currentA : 0))
  return {
    name: load.tag,
    load: [...currentA, load.powerW],
    runH: load.stageable ? load.runH : load.windowH,
    fromH: load.fromH,
    windowH: load.windowH,
  }
}

/** Bound that counts duty as even while on, over machines as scheduled. Valid whatever is staged, by whatever means. */
export function dutyBound(loads: readonly BoxLoad[]): LowerBound {
  const tasks = loads.map((load) => ({
    name: load.tag,
    load: [load.powerW * load.dutyFrac],
    runH: load.runH,
    fromH: load.fromH,
    windowH: load.windowH,
  }))
  return spanBounds(tasks, 1, false)[0] as LowerBound
}

/**
 * Start times of one box that make its highest leg least, then the sum of all, with bounds and proof; or the same figures for the
 * starts a design has. With control `none` everything starts when its window opens.
 *
 * Currents of a leg are added by magnitude, which is never below their phasor sum. Nameplates while on: a thermostat may be calling in
 * every machine at once in the cold, so duty lowers no peak.
 * @throws Fault `staging/box-unknown`, `staging/system-unknown`, `staging/task-range`
 */
export function stageBox(task: StageBoxTask): StagingResult {
  return stagingOf(boxLoads(task), task)
}

export function stagingOf(loads: readonly BoxLoad[], task: Omit<StageBoxTask, 'job' | 'legsOf' | 'rules'>): StagingResult {
  const running = loads.filter((load) => load.runH > 0)
  const tasks = running.map(taskOf)
  const found = remembered(tasks, task.mostWork ?? MOST_BOX_WORK, task.control !== 'none')
  const startH = startsOf(running, found, task)
  const after = profileOf(
    tasks.map((t, i) => standing(t, startH[i] as number)),
    startH.map((h) => Math.floor(h / SLOT_H + SAME) % SLOTS),
    OBJECTIVE.dimensions,
  )
  const peaks = LEGS.map((_, d) => peakProof(d, found, after)).filter((p) => p.before > 0 || p.after > 0)
  const worst = worstOf(peaks, found)
  const duty = dutyBound(running)
  return {
    box: task.boxId,
    phase: task.phaseId,
    control: task.control,
    objective: 'the highest leg current of the day, then the highest sum, nameplates while on',
    startH: Object.fromEntries(
      running.flatMap((load, i) => (load.plug && load.box === task.boxId ? [[load.tag, startH[i] as number] as const] : [])),
    ),
    moved: running.flatMap((load, i) =>
      load.plug && Math.abs(modDayH((startH[i] as number) - load.fromH)) > SAME ? [load.tag] : [],
    ),
    beforeA: legProfiles(found.before),
    afterA: legProfiles(after),
    beforeW: slice(found.before, TOTAL),
    afterW: slice(after, TOTAL),
    peaks: [worst, ...peaks.filter((p) => p.of !== worst.of), peakProof(TOTAL, found, after)],
    worst,
    dutyBoundW: duty.value,
    dutyBoundFromH: duty.fromH,
    dutyBoundToH: duty.toH,
    workCount: found.workCount,
  }
}

/** Plans already worked out: plan asks for one box under many offers, and assess asks again. Same tasks, same plan. */
const KNOWN = new Map<string, Staged>()
const MOST_KNOWN = 64

function remembered(tasks: readonly StagingTask[], mostWork: number, search: boolean): Staged {
  const key = JSON.stringify([search, mostWork, tasks.map((t) => [t.name, t.load, t.runH, t.fromH, t.windowH])])
  const known = KNOWN.get(key)
  if (known !== undefined) return known
  const found = stagedTasks(tasks, OBJECTIVE, mostWork, search)
  if (KNOWN.size >= MOST_KNOWN) KNOWN.delete(KNOWN.keys().next().value as string)
  KNOWN.set(key, found)
  return found
}

function startsOf(running: readonly BoxLoad[], found: Staged, task: Omit<StageBoxTask, 'job' | 'legsOf' | 'rules'>): number[] {
  return running.map((load, i) => {
    if (!load.stageable || task.control === 'none') return load.fromH
    const given = task.startH === undefined ? (found.startH[i] as number) : task.startH[load.tag]
    return given === undefined ? load.fromH : modDayH(given)
  })
}

/** The task as it runs from a given start, on the grid or not: every quarter-hour it touches counts whole. */
function standing(task: StagingTask, startH: number): GridTask {
  return gridTask({ ...task, fromH: startH, windowH: Math.min(DAY_H, task.runH) })
}

function peakProof(dimension: number, found: Staged, after: Profile): PeakProof {
  const known = found.dimensions[dimension] as Staged['dimensions'][number]
  const top = peakOf(after, dimension)
  const reached = top.value <= known.bound * (1 + SAME)
  return {
    of: dimension === TOTAL ? 'total' : (LEGS[dimension] as Leg),
    unit: dimension === TOTAL ? 'W' : 'A',
    before: known.before,
    after: top.value,
    atH: top.slot * SLOT_H,
    bounds: known.bounds,
    bound: known.bound,
    proof: reached ? 'proven' : 'gap',
    gapFrac: reached || known.bound <= 0 ? 0 : top.value / known.bound - 1,
  }
}

/** The highest leg, with what the search proved about it: a proven least peak is a bound of its own. */
function worstOf(peaks: readonly PeakProof[], found: Staged): PeakProof {
  const highest = peaks.reduce((a, b) => (b.after > a.after * (1 + SAME) ? b : a))
  const { primary } = found
  const bound = primary.proof === 'gap' ? primary.bound : primary.after
  const bounds: readonly LowerBound[] =
    primary.proof === 'gap' || primary.after <= primary.bound * (1 + SAME)
      ? highest.bounds
      : [...highest.bounds, { rule: 'search', value: primary.after, fromH: 0, toH: 0 }]
  const proven = primary.proof !== 'gap' && highest.after <= primary.after * (1 + SAME)
  return {
    ...highest,
    bounds,
    bound,
    proof: proven ? primary.proof : 'gap',
    gapFrac: proven || bound <= 0 ? 0 : highest.after / bound - 1,
  }
}

const slice = (profile: Profile, d: number): readonly number[] => [...profile.subarray(d * SLOTS, (d + 1) * SLOTS)]
const legProfiles = (profile: Profile): LegProfiles => ({ A: slice(profile, 0), B: slice(profile, 1), C: slice(profile, 2) })
