import type { Assessment } from '@plugstead/engine/assess'
import type { AtWork } from './at-work.ts'
import { budgetOf } from './budget.ts'
import type { FirstAnswer } from './protocol.ts'

/** What a person on the telephone is told beside the verdicts. */
export function firstAnswer({ found }: AtWork): FirstAnswer {
  const { dates, money } = found.assessment.results
  return { budget: budgetOf(money), ringBack: ringBackOf(dates), live: dates.earliest }
}

/** Whose word settles the price: the utility's cost letter, the neighbour's agreement, the hirer's order. */
const SETTLES = /^(design|agreement|hire)(\.|$)/

/** The answer is firm when the last of those has answered on whom it waits. Where nobody is asked, the drawings settle it. */
export function ringBackOf({ chain }: Pick<Assessment['results']['dates'], 'chain'>): FirstAnswer['ringBack'] {
  const asked = chain.filter((t) => SETTLES.test(t.id) && t.done === null)
  const waits = asked.length > 0 ? asked : chain.filter((t) => t.id === 'drawings' && t.done === null)
  if (waits.length === 0 || waits.some((t) => t.finish === null)) return null
  const last = waits.reduce((a, b) => (b.finish! > a.finish! ? b : a))
  return { day: last.finish!, waitsFor: last.what, who: last.who }
}
