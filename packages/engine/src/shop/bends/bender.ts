import { firmness, type Source, source } from '../../kernel/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import { INCH_MM } from '../figures.ts'
import { tables } from '../tables.generated.ts'

/** What bends this pipe: its radius, and the take-up stamped on a hand bender; no take-up where no table knows the tool. */
export interface Bender {
  readonly radiusMm: number
  readonly takeUpMm: number | null
  readonly rests: Source
}

/** The hand bender of a trade size; else the least radius of the rule set, made with whatever tool the shop has. Never tighter than the rule. */
export function benderFor(raceway: { readonly kind: string; readonly trade: string }, rules: Pick<RuleSet, 'build'>): Bender {
  const least = rules.build.bendRadiusM(raceway)
  const leastMm = 1000 * least.value
  const row = tables['hand-bender'].rows.find(([kind, trade]) => kind === raceway.kind && trade === raceway.trade)
  if (row === undefined) return { radiusMm: leastMm, takeUpMm: null, rests: least.rests }
  const radiusMm = row[3] * INCH_MM
  if (radiusMm < leastMm - 1e-9) return { radiusMm: leastMm, takeUpMm: null, rests: least.rests }
  return {
    radiusMm,
    takeUpMm: row[2] * INCH_MM,
    rests: source(`table hand-bender, ${raceway.kind} ${raceway.trade}`, firmness(tables['hand-bender'], row[4])),
  }
}
