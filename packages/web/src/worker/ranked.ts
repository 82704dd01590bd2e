import { rankModels } from '@plugstead/engine/rank'
import type { AtWork } from './at-work.ts'
import { budgetOf } from './budget.ts'
import type { MoneySpan, RankedLine } from './protocol.ts'
import { spanOf } from './span.ts'

/** As `plugstead models JOB` ranks them: the plan that was made already serves as the new one. */
export function rankedLines({ job, shop, found }: AtWork, call: string): readonly RankedLine[] {
  const planned = found.assessment.results.shop.boxes.map((b) => b.hours.total)
  return rankModels(job, shop, { call, fresh: found }).ranked.map(({ design: _design, findings: _findings, ...row }) => ({
    ...row,
    span:
      (row.kind === 'new plan' && row.price.is === 'sale' ? newSpan(found.assessment.results.money) : null) ??
      spanOf(row.price, row.kind === 'new plan' ? planned : row.changes === null ? [] : [row.changes.hours]),
  }))
}

/** The new plan's price with the ends that the budget has. */
function newSpan(money: Parameters<typeof budgetOf>[0]): MoneySpan | null {
  const budget = budgetOf(money)
  if (budget === null) return null
  const { lowMoney, likelyMoney, highMoney, isFloor, currency } = budget
  return { lowMoney, likelyMoney, highMoney, isFloor, currency }
}
