import type { Answered } from '@plugstead/engine/answer'
import type { ExitCode } from './exit-code.ts'

/** What a command gives: words for a person, an answer for a program, and a code for the shell. */
export interface Outcome extends Answered {
  readonly code: ExitCode
  readonly text: string
}
