/**
 * Keeps the last answer to each question, and gives it again while what it was read from is the same. An answer sees only its `reads`, so
 * nothing that it depends on can be forgotten.
 */
export interface Memory {
  /** `answer(reads)`, or what it gave last time under this name when `reads` holds the same values. */
  recall<R extends object, T>(name: string, reads: R, answer: (reads: R) => T): T
  /** `value`, with every part that is equal to the one of last time replaced by that one: comparing it again costs nothing. */
  settle<T>(name: string, value: T): T
}

/** Remembers nothing: every question is answered. */
export const noMemory: Memory = { recall: (_name, reads, answer) => answer(reads), settle: (_name, value) => value }

/** A memory of one answer for each name, for a person who changes one thing after another. */
export function newMemory(): Memory {
  const settled = new Map<string, unknown>()
  const answers = new Map<string, { readonly reads: unknown; readonly answer: unknown }>()
  const settle = <T>(name: string, value: T): T => {
    const kept = shared(settled.get(name), value) as T
    settled.set(name, kept)
    return kept
  }
  return {
    settle,
    recall: <R extends object, T>(name: string, reads: R, answer: (reads: R) => T): T => {
      const last = answers.get(name)
      const now = shared(last?.reads, reads) as R
      if (last !== undefined && last.reads === now) return last.answer as T
      const given = answer(now)
      answers.set(name, { reads: now, answer: given })
      return given
    },
  }
}

/** `now`, or as much of `before` as is equal to it: the same object where all of it is. Plain data only; anything else must be the same thing. */
function shared(before: unknown, now: unknown): unknown {
  if (Object.is(before, now)) return before
  if (Array.isArray(now)) {
    if (!Array.isArray(before)) return now
    const parts = now.map((part, i) => shared(before[i], part))
    return before.length === now.length && parts.every((part, i) => Object.is(part, before[i])) ? before : parts
  }
  if (!isPlain(now) || !isPlain(before)) return now
  const keys = Object.keys(now)
  const parts = Object.fromEntries(keys.map((key) => [key, shared(before[key], now[key])]))
  const same =
    Object.keys(before).length === keys.length && keys.every((key) => key in before && Object.is(parts[key], before[key]))
  return same ? before : parts
}

const isPlain = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && Object.getPrototypeOf(value) === Object.prototype
