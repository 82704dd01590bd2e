import { Fault } from '../kernel/index.ts'
import { presentFrac } from './interest.ts'

/** Money that leaves (above 0) or comes back (below 0), so many months from the first day. */
export interface Flow {
  readonly atMonths: number
  readonly what: string
  readonly money: number
  /** Of it, what runs with the hours that heaters run in a winter; absent: nothing. */
  readonly winterMoney?: number
}

const MONTHS = 12

/** Worth today of a list of flows at an interest a year, effective. @throws Fault `money/term-range` */
export const presentMoney = (flows: readonly Flow[], interestFrac: number): number =>
  flows.reduce((sum, f) => sum + f.money * presentFrac(interestFrac, f.atMonths / MONTHS), 0)

/** The same list in another winter: what runs with the hours of heaters, in their proportion; all else as it is. */
export const inWinter = (flows: readonly Flow[], hoursRatio: number): readonly Flow[] =>
  flows.map((f) => ({ ...f, money: f.money + (f.winterMoney ?? 0) * (hoursRatio - 1) }))

/** Plain sum: what is paid in all, whenever. */
export const paidMoney = (flows: readonly Flow[]): number => flows.reduce((sum, f) => sum + f.money, 0)

/**
 * The month from which on `dear` (dearer at first) has cost no more than `other`, and stays so to the end; 0 where it never cost more,
 * null where it has not paid back by the last month. Both are plain sums of the flows up to the month.
 */
export function paybackMonth(dear: readonly Flow[], other: readonly Flow[]): number | null {
  const months = [...new Set([...dear, ...other].map((f) => f.atMonths))].sort((a, b) => a - b)
  if (months.some((m) => !(m >= 0))) throw new Fault('money/flow-month', months)
  const upTo = (flows: readonly Flow[], month: number): number => paidMoney(flows.filter((f) => f.atMonths <= month))
  let since: number | null = 0
  for (const month of months) {
    const ahead = upTo(dear, month) - upTo(other, month)
    if (ahead > SAME_MONEY) since = null
    else since ??= month
  }
  return since
}
/** Below any coin. */
const SAME_MONEY = 1e-6
