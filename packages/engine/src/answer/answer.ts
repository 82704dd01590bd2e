import type { Assumption } from '../job/index.ts'
import { BUILT, type Finding, type Problem, QUESTIONS, type QuestionId, THIN, type Verdict } from '../kernel/index.ts'
import { VERSION } from './version.ts'

export interface QuestionLine {
  readonly id: QuestionId
  readonly verdict: Verdict | 'not built'
  readonly findings: readonly string[]
}

/** What every answer for a program holds, in the terminal and in the app: the same bytes for the same document. */
export interface Answer {
  readonly plugstead: string
  readonly command: string
  readonly problems: readonly Problem[]
  readonly findings: readonly Finding[]
  /** Always sixteen. */
  readonly questions: readonly QuestionLine[]
  readonly assumed: readonly Assumption[]
  readonly result: unknown
}

/** The part of an answer that a command has; what it has not stays empty. */
export type Answered = Partial<Omit<Answer, 'plugstead' | 'command' | 'result'>> & Pick<Answer, 'result'>

/** Nothing was asked of a job: what is built is unknown for want of input, the rest is not built. */
const unasked: readonly QuestionLine[] = QUESTIONS.map((id) => ({
  id,
  verdict: BUILT.has(id) ? 'unknown' : 'not built',
  findings: [],
}))

export function answerOf(command: string, answered: Answered): Answer {
  return {
    plugstead: VERSION,
    command,
    problems: answered.problems ?? [],
    findings: answered.findings ?? [],
    questions: answered.questions ?? unasked,
    assumed: answered.assumed ?? [],
    result: answered.result,
  }
}

/**
 * The answer as one line of JSON. A number that is not finite has no place in JSON and is `null`; a number and its unit in a sentence stand
 * apart by a plain space, as a program looks for them.
 */
export function jsonText(answer: Answer): string {
  return `${JSON.stringify(answer).replaceAll(THIN, ' ')}\n`
}
