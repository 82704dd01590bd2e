import type { Assumption } from '@plugstead/engine/job'
import { BUILT, type Finding, type Problem, QUESTIONS, type QuestionId, type Verdict } from '@plugstead/engine/kernel'
import type { ExitCode } from './exit-code.ts'

interface QuestionLine {
  readonly id: QuestionId
  readonly verdict: Verdict | 'not built'
  readonly findings: readonly string[]
}

/** What every `--json` answer holds. */
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

/** What a command gives: words for a person, an answer for a program, and a code for the shell. */
export interface Outcome {
  readonly code: ExitCode
  readonly text: string
  readonly problems?: readonly Problem[]
  readonly findings?: readonly Finding[]
  readonly questions?: readonly QuestionLine[]
  readonly assumed?: readonly Assumption[]
  readonly result: unknown
}

/** Nothing was asked of a job: what is built is unknown for want of input, the rest is not built. */
const unasked: readonly QuestionLine[] = QUESTIONS.map((id) => ({
  id,
  verdict: BUILT.has(id) ? 'unknown' : 'not built',
  findings: [],
}))

export function answerOf(version: string, command: string, outcome: Omit<Outcome, 'code' | 'text'>): Answer {
  return {
    plugstead: version,
    command,
    problems: outcome.problems ?? [],
    findings: outcome.findings ?? [],
    questions: outcome.questions ?? unasked,
    assumed: outcome.assumed ?? [],
    result: outcome.result,
  }
}

/** The answer as one line of JSON. A number that is not finite has no place in JSON and is `null`. */
export function jsonText(answer: Answer): string {
  return `${JSON.stringify(answer)}\n`
}
