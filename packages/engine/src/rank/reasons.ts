import { type Finding, QUESTIONS } from '../kernel/index.ts'
import { REASONS, type Reason, type ReasonGiven } from './types.ts'

/** Findings by the word they give. A code that stands in none is of its question. */
const OF_CODE: readonly (readonly [RegExp, Reason])[] = [
  [/^keep\/system$/, 'system'],
  [/^keep\/heat$/, 'heat'],
  [/^keep\/length$/, 'length'],
  [/^keep\/set-down$/, 'unload'],
  [/^keep\/booked$/, 'booked'],
  [/^keep\/pinned$/, 'pinned'],
  [/^keep\/rules$/, 'rules'],
  [/^circuits\/built-(phases|neutral|volts)$/, 'system'],
  [/^needs\/(service-demand|cold-restart|interlock-cap)$|^circuits\/main-holds$/, 'service'],
  [/^circuits\/(built-outlets|built-ways|plugs-fed|ways)$|^needs\/(not-fed|plug-rating)$/, 'outlets'],
  [/^faults\/(built-interrupting|interrupting|bus-withstand)$/, 'interrupting'],
  [/^circuits\/built-(outlet-cold|cords)$|^faults\/residual-cold$|^reach\/cord-cold$/, 'cold'],
  [/^skin\/built-exit-height$/, 'snow'],
  [/^circuits\/built-test$/, 'test'],
  [/^(circuits\/built-defects|faults\/open-defects)$/, 'defects'],
]

export function reasonOf(code: string): Reason {
  const question = QUESTIONS.find((q) => code.startsWith(`${q}/`))
  return OF_CODE.find(([form]) => form.test(code))?.[1] ?? question ?? 'keep'
}

/** The words that failing findings give, each with its findings, in the order of `REASONS`. */
export function reasonsOf(fails: readonly Finding[]): readonly ReasonGiven[] {
  const of = new Map<Reason, Finding[]>()
  for (const f of fails) {
    const reason = reasonOf(f.code)
    of.set(reason, [...(of.get(reason) ?? []), f])
  }
  return REASONS.flatMap((reason) => {
    const findings = of.get(reason) ?? []
    if (findings.length === 0) return []
    const unique = <T>(all: readonly T[]) => [...new Set(all)]
    return [{ reason, codes: unique(findings.map((f) => f.code)), said: unique(findings.map((f) => f.said)) }]
  })
}

/** What no work in the shop mends: there the search for changes is not begun. */
export const BEYOND_CHANGE: ReadonlySet<Reason> = new Set(['length', 'unload', 'booked', 'heat', 'pinned', 'rules'])
