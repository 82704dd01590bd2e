import { rankModels } from '@plugstead/engine/rank'
import type { AtWork } from './at-work.ts'
import type { RankedLine } from './protocol.ts'
import { spanOf } from './span.ts'

/** As `plugstead models JOB` ranks them: the plan that was made already serves as the new one. */
export function rankedLines({ job, shop, found }: AtWork, call: string): readonly RankedLine[] {
  const planned = found.assessment.results.shop.boxes.map((b) => b.hours.total)
  return rankModels(job, shop, { call, fresh: found }).ranked.map(({ design: _design, findings: _findings, ...row }) => ({
    ...row,
    span: spanOf(row.price, row.kind === 'new plan' ? planned : row.changes === null ? [] : [row.changes.hours]),
  }))
}
