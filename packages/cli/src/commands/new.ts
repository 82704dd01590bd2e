import { existsSync } from 'node:fs'
import { CALL, type CallAnswers, newJob } from '@plugstead/engine/job'
import type { Problem } from '@plugstead/engine/kernel'
import type { Outcome } from '../answer.ts'
import { answersFrom } from '../ask.ts'
import type { Given } from '../command-line.ts'
import { dayOption } from '../day-option.ts'
import { EXIT } from '../exit-code.ts'
import { written } from '../lists.ts'
import { wrapped } from '../print/wrap.ts'
import { Unreadable } from '../problem.ts'

/** Writes a job document from the answers of a call. Standing files are replaced only when told. */
export async function run(given: Given): Promise<Outcome> {
  const [file] = given.operands
  if (file !== undefined && existsSync(file) && given.options.write !== true)
    throw new Unreadable({
      ...{ code: 'file/stands-there', file, found: 'a file of this name', wanted: 'a new name' },
      mend: `Choose another name, or replace it: plugstead new ${file} --write`,
    })
  const called = dayOption(given, 'today')
  const made = newJob(await answersTo(given), called === null ? {} : { called })
  if (!made.ok) throw new Unreadable(...made.problems.map(asOption))
  const files = await written(file === undefined ? [] : [{ path: file, data: made.value }])
  const next = `Written: ${file}. Read it through: what nobody said is marked “assumed”, what has no default is marked “ask”. Then: plugstead plan ${file}`
  return {
    code: EXIT.holds,
    text: file === undefined ? made.value : `${wrapped(next)}\n`,
    result: { file: file ?? null, text: made.value, files },
  }
}

/** Told as options; asked for on a terminal what was not; refused where there is nobody to ask. */
async function answersTo(given: Given): Promise<CallAnswers> {
  const told = Object.fromEntries(
    CALL.flatMap(({ id }) => (typeof given.options[id] === 'string' ? [[id, given.options[id]]] : [])),
  )
  const open = CALL.filter((question) => !(question.id in told))
  const asks = given.options.defaults !== true && given.options.json !== true && process.stdin.isTTY === true
  const answers = asks ? { ...told, ...(await answersFrom(open)) } : told
  const missing = CALL.filter((question) => question.default === null && !(question.id in answers))
  if (missing.length > 0)
    throw new Unreadable(
      ...missing.map(({ id, asks: asked, value, example }) => ({
        ...{ code: 'call/answer-missing', path: id, found: 'no answer, and no terminal to ask on', wanted: asked },
        mend: `Write --${id} ${value}, for example --${id} "${example}".`,
      })),
    )
  return answers as unknown as CallAnswers
}

/** A problem of an answer, at the option it was given by. */
function asOption(problem: Problem): Problem {
  return problem.path === undefined ? problem : { ...problem, path: `--${problem.path}` }
}
