import type { Finding, Working } from '../kernel/index.ts'

/** What a part of the answer found, and the lines it rests on. */
export interface Judged {
  readonly findings: readonly Finding[]
  readonly workings: readonly Working[]
}

type Said = Omit<Finding, 'question' | 'assumed' | 'workings' | 'mends'> & Partial<Pick<Finding, 'assumed' | 'mends'>>

/** A finding of this question, with its working where it has one. */
export function judged(said: Said, working?: Working): Judged {
  const finding: Finding = {
    ...said,
    question: 'fit',
    assumed: said.assumed ?? [],
    workings: working === undefined ? [] : [working.id],
    mends: said.mends ?? [],
  }
  return { findings: [finding], workings: working === undefined ? [] : [working] }
}

export const together = (all: readonly Judged[]): Judged => ({
  findings: all.flatMap((one) => one.findings),
  workings: all.flatMap((one) => one.workings),
})

/** A number for a sentence: three digits unless said. */
export const shown = (value: number, digits = 3): string => String(Number(value.toPrecision(digits)))
