import { Fault } from '../../kernel/index.ts'

/** Width of a quarter-hour, and how many stand on the circle of a day. */
export const SLOT_H = 0.25
export const DAY_H = 24
const SLOTS = DAY_H / SLOT_H

/** A tolerance on hours: a second. Windows written as 4.67 for 4:40 are not meant closer. */
const HOUR_EPS = 1 / 3600

/** One unbroken run to be placed in its window. `load` has one value per dimension: A on each leg, or W of the sum. */
export interface StagingTask {
  readonly name: string
  readonly load: readonly number[]
  readonly runH: number
  readonly fromH: number
  /** Length of the window, (0, 24]; 24: the whole circle, no edge. At least the run. */
  readonly windowH: number
}

/** A task on the grid of quarter-hours. */
export interface GridTask extends StagingTask {
  /** Quarter-hours it occupies; a part of one counts whole. */
  readonly runSlots: number
  /** Allowed starts, in the order they follow the opening of the window. */
  readonly starts: readonly number[]
  /** Runs and openings are whole quarter-hours: then no other start times can do better than these. */
  readonly onGrid: boolean
}

export const modDayH = (hour: number): number => ((hour % DAY_H) + DAY_H) % DAY_H
const isWhole = (value: number): boolean => Math.abs(value - Math.round(value)) < HOUR_EPS / SLOT_H
const slotUp = (hour: number): number => (isWhole(hour / SLOT_H) ? Math.round(hour / SLOT_H) : Math.ceil(hour / SLOT_H))
const slotDown = (hour: number): number => (isWhole(hour / SLOT_H) ? Math.round(hour / SLOT_H) : Math.floor(hour / SLOT_H))

/** Length of a window that opens at `fromH` and must be ready at `readyH`; equal ends are the whole day. (0, 24] */
export function windowLengthH(fromH: number, readyH: number): number {
  const length = modDayH(readyH - fromH)
  return length < HOUR_EPS ? DAY_H : length
}

/**
 * Places a task on the grid: starts at whole quarter-hours from the opening to the last that is still ready in time.
 * A task without such a start begins when its window opens and occupies every quarter-hour it touches.
 * @throws Fault `staging/task-range`
 */
export function gridTask(task: StagingTask): GridTask {
  const { runH, fromH, windowH, load } = task
  const inRange =
    runH > 0 &&
    runH <= DAY_H &&
    windowH > 0 &&
    windowH <= DAY_H &&
    runH <= windowH + HOUR_EPS &&
    load.every((p) => p >= 0 && p < Infinity)
  if (!inRange || !Number.isFinite(fromH)) throw new Fault('staging/task-range', task)
  const onGrid = isWhole(runH / SLOT_H) && isWhole(fromH / SLOT_H)
  const runSlots = Math.min(SLOTS, slotUp(runH))
  if (windowH >= DAY_H - HOUR_EPS) {
    const first = slotDown(modDayH(fromH)) % SLOTS
    const count = runSlots >= SLOTS ? 1 : SLOTS
    return { ...task, runSlots, onGrid, starts: Array.from({ length: count }, (_, k) => (first + k) % SLOTS) }
  }
  const opens = modDayH(fromH)
  const first = slotUp(opens)
  const last = slotDown(opens + windowH - runH)
  if (last < first || last === first) {
    const from = last === first ? first : slotDown(opens)
    const slots = last === first ? runSlots : slotUp(opens + runH) - from
    return { ...task, runSlots: Math.min(SLOTS, slots), onGrid, starts: [from % SLOTS] }
  }
  return { ...task, runSlots, onGrid, starts: Array.from({ length: last - first + 1 }, (_, k) => (first + k) % SLOTS) }
}

export const isFixed = (task: GridTask): boolean => task.starts.length === 1
