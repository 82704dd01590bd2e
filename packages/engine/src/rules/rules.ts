import type { RuleSetId } from '../job/index.ts'
import { Fault } from '../kernel/index.ts'
import { ca } from './ca/ca.ts'
import { bookOf } from './common/book.ts'
import { intl } from './intl/intl.ts'
import { applied } from './overlay/apply.ts'
import { builtInOverlays } from './overlay/built-in.ts'
import type { Overlay, RuleSet, Table } from './rule-set.ts'
import { setTables } from './set-tables.ts'
import { tables as allTables } from './tables.generated.ts'
import { us } from './us/us.ts'

const MAKE: Record<RuleSetId, typeof us> = { us, ca, intl }

/**
 * The rules of a set with overlays on it, in their order. An overlay is given as read, or by the name of one that comes with the program.
 * @throws Fault `rules/overlay-unknown` for a name without an overlay · `rules/overlay-set` for one of another set
 */
export function rulesFor(set: RuleSetId, options: { readonly overlays?: readonly (Overlay | string)[] } = {}): RuleSet {
  const overlays = (options.overlays ?? []).map((one) => {
    const overlay = typeof one === 'string' ? builtInOverlays[one] : one
    if (overlay === undefined) throw new Fault('rules/overlay-unknown', one)
    if (overlay.set !== set) throw new Fault('rules/overlay-set', { overlay: overlay.id, of: overlay.set, set })
    return overlay
  })
  const key = overlays.length === 0 ? set : `${set}${JSON.stringify(overlays)}`
  const known = made.get(key)
  if (known !== undefined) return known
  const tables = overlays.reduce<Readonly<Record<string, Table>>>(
    (sofar, overlay) => applied(sofar, overlay),
    setTables(set, allTables),
  )
  const rules = remembering(MAKE[set](bookOf(set, tables), overlays))
  if (made.size >= SETS_KEPT) made.clear()
  made.set(key, rules)
  return rules
}

/** Rules already made: the same set with the same overlays is the same value, and keeps its answers. */
const made = new Map<string, RuleSet>()
const SETS_KEPT = 32

/** Every set without overlays. */
export const ruleSets: Readonly<Record<RuleSetId, RuleSet>> = { us: rulesFor('us'), ca: rulesFor('ca'), intl: rulesFor('intl') }

/** A set whose functions keep their answers: they are pure, their arguments plain data, and a plan asks the same again and again. */
function remembering(rules: RuleSet): RuleSet {
  const out: Record<string, unknown> = { ...rules }
  for (const [name, value] of Object.entries(rules)) {
    if (typeof value !== 'function') continue
    const answers = new Map<string, unknown>()
    out[name] = (...args: readonly unknown[]) => {
      const key = JSON.stringify(args)
      const known = answers.get(key)
      if (known !== undefined) return known
      const answer: unknown = value(...args)
      if (answers.size >= KEPT) answers.clear()
      if (answer !== undefined) answers.set(key, answer)
      return answer
    }
  }
  return out as unknown as RuleSet
}

/** Answers kept per function; a job asks some hundreds. */
const KEPT = 4096
