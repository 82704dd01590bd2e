import type { Verdict } from '../../kernel/index.ts'
import { type Judged, together } from '../judged.ts'

/** One finding for the worst where all hold; where some do not, one for each of those and none that hides them. */
export function worstAnd<T>(
  all: readonly T[],
  verdict: (one: T) => Verdict,
  rank: (one: T) => number,
  make: (one: T, whole: boolean) => Judged,
): Judged {
  if (all.length === 0) return { findings: [], workings: [] }
  const bad = all.filter((one) => verdict(one) !== 'holds')
  if (bad.length > 0) return together(bad.map((one) => make(one, false)))
  return make(
    all.reduce((a, b) => (rank(b) > rank(a) ? b : a)),
    true,
  )
}
