import type { QuestionId } from '../kernel/index.ts'
import type { Assumption, Missing, Span } from './types.ts'

/** Gathers what was assumed or is missing while a document is read. */
export interface Notes {
  readonly assumed: Assumption[]
  readonly missing: Missing[]
  /** The value when there is one; else the default, recorded. */
  or<T>(value: T | undefined, otherwise: T, path: string, said: string, source: string): T
  /** The span when told; else the range, recorded. */
  span(told: number | undefined, otherwise: Span, path: string, said: string): Span
  lacks(path: string, subject: string, said: string, questions: readonly QuestionId[]): void
}

export function notes(): Notes {
  const assumed: Assumption[] = []
  const missing: Missing[] = []
  return {
    assumed,
    missing,
    or(value, otherwise, path, said, source) {
      if (value !== undefined) return value
      assumed.push({ path, said, source })
      return otherwise
    },
    span(told, otherwise, path, said) {
      if (told !== undefined) return { low: told, high: told, basis: 'the job document', told: true }
      assumed.push({ path, said, source: otherwise.basis })
      return otherwise
    },
    lacks(path, subject, said, questions) {
      missing.push({ path, subject, said, questions })
    },
  }
}

/** Questions of power: a machine that cannot be counted leaves all of them unknown. */
export const POWER: readonly QuestionId[] = ['needs', 'supply', 'circuits', 'reach', 'faults']
