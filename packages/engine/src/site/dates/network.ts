import { Fault } from '../../kernel/index.ts'
import { beginsD, type Calendar, leftD, reachedD, workAtDays } from './calendar.ts'

export interface Activity {
  readonly id: string
  /** Places in the list of the activities that must be finished before; all stand before this one. */
  readonly after: readonly number[]
  readonly calendar: Calendar
  readonly takesDays: number
  /** Nothing begins before. */
  readonly notBeforeD?: number
  /** It is done: the moment it was. */
  readonly doneD?: number
}

export interface Passed {
  readonly startD: number
  readonly finishD: number
}

/** @throws Fault `dates/order`, `dates/takes` */
export function checkOrder(net: readonly Activity[]): void {
  for (const [i, a] of net.entries()) {
    if (a.after.some((p) => !(p >= 0 && p < i))) throw new Fault('dates/order', a.id)
    if (!(a.takesDays >= 0 && a.takesDays < Infinity)) throw new Fault('dates/takes', { id: a.id, takesDays: a.takesDays })
  }
}

/**
 * Earliest start and finish of each activity when nothing begins before `fromD`. Infinity: no day is left on which it can be done.
 *
 *   ES = max(finish of those before), EF: the moment its own calendar has given so many days of work since
 */
export function earliest(net: readonly Activity[], fromD: number): readonly Passed[] {
  checkOrder(net)
  const out: Passed[] = []
  for (const a of net) {
    if (a.doneD !== undefined) {
      out.push({ startD: a.doneD, finishD: a.doneD })
      continue
    }
    let from = Math.max(fromD, a.notBeforeD ?? -Infinity)
    for (const p of a.after) from = Math.max(from, out[p]!.finishD)
    out.push(from === Infinity ? { startD: Infinity, finishD: Infinity } : runs(a, from))
  }
  return out
}

export function runs(a: Activity, fromD: number): Passed {
  if (a.takesDays === 0) return { startD: fromD, finishD: fromD }
  return {
    startD: beginsD(a.calendar, fromD),
    finishD: reachedD(a.calendar, workAtDays(a.calendar, fromD) + a.takesDays),
  }
}

/** Latest start and finish of each activity such that those in `ends` are finished by a moment. −Infinity: the calendar begins too late. */
export function latest(net: readonly Activity[], ends: readonly number[], byD: number): readonly Passed[] {
  checkOrder(net)
  const finish = new Array<number>(net.length).fill(Infinity)
  for (const e of ends) finish[e] = byD
  const out = new Array<Passed>(net.length)
  for (let i = net.length - 1; i >= 0; i -= 1) {
    const a = net[i]!
    const finishD = finish[i]!
    const startD =
      a.takesDays === 0 || finishD === Infinity || finishD === -Infinity
        ? finishD
        : leftD(a.calendar, workAtDays(a.calendar, finishD) - a.takesDays)
    out[i] = { startD, finishD }
    if (a.doneD !== undefined) continue
    for (const p of a.after) finish[p] = Math.min(finish[p]!, startD)
  }
  return out
}

/** Activities on a chain that drives the end: from it back along those whose finish let the next begin. */
export function driving(net: readonly Activity[], passed: readonly Passed[], end: number): ReadonlySet<number> {
  const found = new Set<number>()
  const visit = (i: number): void => {
    if (found.has(i)) return
    found.add(i)
    const a = net[i]!
    if (a.doneD !== undefined || a.after.length === 0) return
    const last = Math.max(...a.after.map((p) => passed[p]!.finishD))
    if (a.notBeforeD !== undefined && a.notBeforeD > last + SAME_D) return
    for (const p of a.after) if (passed[p]!.finishD >= last - SAME_D) visit(p)
  }
  visit(end)
  return found
}

/** A millisecond or so of a day. */
export const SAME_D = 1e-7
