import type { Problem } from '@plugstead/engine/kernel'
import { labelled, wrapped } from './print/wrap.ts'

/** Input or command line that cannot be read: every problem there is, carried to the edge. */
export class Unreadable extends Error {
  readonly problems: readonly Problem[]

  constructor(...problems: readonly Problem[]) {
    super(problems.map((problem) => problem.code).join(', '))
    this.name = 'Unreadable'
    this.problems = problems
  }
}

/** The machine's fault, not the file's: disk full, no permission to write. Says what to do next. */
export class Failure extends Error {
  constructor(said: string) {
    super(said)
    this.name = 'Failure'
  }
}

/** Problems as a person reads them: where, what was found, what is wanted, what mends it. */
export function problemText(problem: Problem): string {
  const place = [
    problem.file ?? '',
    problem.line === undefined ? '' : `line ${problem.line}${problem.column === undefined ? '' : `:${problem.column}`}`,
  ].filter((part) => part !== '')
  const where = [place.join(' '), problem.path ?? ''].filter((part) => part !== '').join(', ')
  return [
    wrapped(where === '' ? 'Command line' : where, { hang: 2 }),
    labelled('found', problem.found, 8, 2),
    labelled('wanted', problem.wanted, 8, 2),
    labelled('mend', problem.mend, 8, 2),
  ].join('\n')
}
