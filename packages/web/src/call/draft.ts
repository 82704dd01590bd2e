import type { CallAnswers } from '@plugstead/engine/job'

export type Answers = Partial<Record<keyof CallAnswers, string>>

const KEY = 'plugstead.call'

/** The call that is on the sheet, as typed: a reload in mid call loses nothing. */
export function draft(): Answers {
  try {
    const read: unknown = JSON.parse(localStorage.getItem(KEY) ?? '{}')
    if (typeof read !== 'object' || read === null) return {}
    return Object.fromEntries(Object.entries(read).filter(([, text]) => typeof text === 'string' && text !== ''))
  } catch {
    return {}
  }
}

export function keepDraft(answers: Answers): void {
  try {
    if (Object.values(answers).every((text) => text === '')) localStorage.removeItem(KEY)
    else localStorage.setItem(KEY, JSON.stringify(answers))
  } catch {
    // A device that will not store: the sheet lives in this tab, and the job's own strip says so once it is kept.
  }
}
