import { type Verdict, worst } from '@plugstead/engine/kernel'

/** What the process tells the one that called it. */
export const EXIT = { holds: 0, fails: 1, unreadable: 2, unknown: 3, ours: 4 } as const
export type ExitCode = (typeof EXIT)[keyof typeof EXIT]

/** `not built` counts for nothing. Nothing judged at all is not known. */
export function exitOf(verdicts: readonly (Verdict | 'not built')[]): ExitCode {
  const all = worst(verdicts.filter((verdict) => verdict !== 'not built'))
  return all === 'fails' ? EXIT.fails : all === 'unknown' ? EXIT.unknown : EXIT.holds
}
