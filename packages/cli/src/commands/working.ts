import { join } from 'node:path'
import { outputName } from '@plugstead/engine/answer'
import type { Assessment } from '@plugstead/engine/assess'
import type { Working } from '@plugstead/engine/kernel'
import type { Outcome } from '../answer.ts'
import type { Given } from '../command-line.ts'
import { exitOf } from '../exit-code.ts'
import { judged, openJob } from '../job-file.ts'
import { written, writtenText } from '../lists.ts'
import { nearest } from '../near.ts'
import { CAUTION } from '../print/assessment.ts'
import { workingText } from '../print/working.ts'
import { Unreadable } from '../problem.ts'

/** Shows how a number was worked out. */
export async function run(given: Given): Promise<Outcome> {
  const [file = '', subject = ''] = given.operands
  const { assessment } = await judged(given, openJob(given))
  const workings = workingsOf(assessment, subject)
  if (workings.length === 0) throw new Unreadable(noSuch(file, subject, assessment))
  const text = `${[...workings.map(workingText), CAUTION].join('\n\n')}\n`
  const folder = given.options.out
  const name = outputName(file, `${subject.replace(/[^\w.-]+/g, '-')}.working.txt`)
  const files = await written(typeof folder === 'string' ? [{ path: join(folder, name), data: text }] : [])
  const ids = new Set(workings.map((working) => working.id))
  const findings = assessment.findings.filter((finding) => finding.workings.some((id) => ids.has(id)))
  return {
    code: exitOf(assessment.questions.map((question) => question.verdict)),
    text: [text, ...writtenText(files)].join('\n'),
    findings,
    questions: assessment.questions,
    assumed: assessment.assumed,
    result: { subject, workings, files },
  }
}

/** By a working's id, by the thing it is about, or by the code of a finding that rests on it. */
function workingsOf({ findings, workings }: Assessment, subject: string): readonly Working[] {
  const exact = workings.filter((working) => working.id === subject)
  if (exact.length > 0) return exact
  const named = new Set(
    findings.filter((finding) => finding.code === subject || finding.subject === subject).flatMap((finding) => finding.workings),
  )
  return workings.filter((working) => working.id.startsWith(`${subject}/`) || named.has(working.id))
}

function noSuch(file: string, subject: string, { findings, workings }: Assessment) {
  const things = [...new Set(workings.map((working) => working.id.split('/')[0] ?? ''))].sort()
  const near = nearest(subject, [...things, ...workings.map((working) => working.id), ...findings.map((finding) => finding.code)])
  return {
    code: 'working/no-such',
    file,
    found: `“${subject}”`,
    wanted: `something that was worked out: ${things.slice(0, 30).join(', ')}${things.length > 30 ? ' …' : ''}`,
    mend: near === null ? 'Write one of them.' : `Did you mean ${near}?`,
  }
}
