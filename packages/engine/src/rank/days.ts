import type { Job } from '../job/index.ts'
import { hireTimeOf } from '../keep/index.ts'
import { plusDays } from '../kernel/index.ts'
import type { PlanResult } from '../plan/index.ts'

export const HOURS_PER_DAY = 8

/** Saturdays and Sundays are not worked: five days of work take seven. */
export const calendarDays = (workDays: number): number =>
  Math.ceil(workDays) + 2 * Math.floor(Math.max(0, Math.ceil(workDays) - 1) / 5)

const latest = (...days: readonly (string | null)[]): string | null =>
  days.includes(null) ? null : ((days as string[]).toSorted().at(-1) ?? null)

/** First day a candidate can be live: the box, and the supply of the plan, both from the day of the order; null: not known. */
export function earliestOf(
  job: Job,
  fresh: PlanResult,
  ready: { readonly leadDays: number | null; readonly workDays: number },
): string | null {
  const order = job.needs.orderDate
  const box = ready.leadDays === null || order === null ? null : plusDays(order, ready.leadDays + calendarDays(ready.workDays))
  return latest(box, fresh.chosen.ready ?? feedDay(fresh))
}

/** Where no lead time was told: the day on which the chain of the new plan has its source there, every time as likely. */
function feedDay(fresh: PlanResult): string | null {
  const { chain } = fresh.assessment.results.dates
  const feed = chain.filter((task) => task.group === 'supply')
  return feed.length === 0 ? null : latest(...feed.map((task) => task.finish))
}

export function inTimeOf(job: Job, earliest: string | null): boolean | null {
  const time = hireTimeOf(job)
  return earliest === null || time === null ? null : earliest <= time.from
}

export const newWorkDays = (fresh: PlanResult): number =>
  fresh.assessment.results.shop.boxes.reduce((sum, b) => sum + b.hours.total.middle, 0) / HOURS_PER_DAY
