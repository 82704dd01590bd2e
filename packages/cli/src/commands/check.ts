import { join } from 'node:path'
import { adapters, type CheckedCase, type CheckedValue, publishedCases, runCases } from '@plugstead/engine/check'
import type { Outcome } from '../answer.ts'
import { caseFile } from '../case-files.ts'
import type { Given } from '../command-line.ts'
import { EXIT } from '../exit-code.ts'
import { count } from '../print/assessment.ts'
import { csvText } from '../print/csv.ts'
import { table } from '../print/table.ts'
import { wrapped } from '../print/wrap.ts'
import { withProgress } from '../progress.ts'
import { writeFiles } from '../write-files.ts'

/** Runs every published case. One that is off, or that cannot be run, is a failure. */
export async function run(given: Given): Promise<Outcome> {
  const cases = await withProgress('working through the published cases …', () => runCases(publishedCases, adapters, caseFile))
  const met = cases.length > 0 && cases.every((one) => one.ok)
  const folder = given.options.out
  const files = typeof folder === 'string' ? [{ path: join(folder, 'check.csv'), data: csvOf(cases) }] : []
  await writeFiles(files)
  return {
    code: met ? EXIT.holds : EXIT.fails,
    text: checkText(cases) + files.map(({ path }) => `\nWritten: ${path}\n`).join(''),
    result: { cases, files: files.map(({ path }) => path) },
  }
}

function checkText(cases: readonly CheckedCase[]): string {
  const off = cases.filter((one) => !one.ok)
  const summary = table(
    [{ head: 'case' }, { head: '' }, { head: 'values', side: 'right' }, { head: 'about', wraps: true }],
    cases.map((one) => [one.id, one.ok ? 'agrees' : 'off', String(one.values.length), one.topic]),
  )
  const last = `${cases.length - off.length} of ${count(cases.length, 'published case')} agree${off.length === 0 ? '' : `; off: ${off.map((one) => one.id).join(', ')}`}.`
  return `${[summary, ...off.map(offText), wrapped(last)].join('\n\n')}\n`
}

function offText(one: CheckedCase): string {
  const head = [wrapped(`${one.id}, ${one.topic}`), wrapped(one.source, { indent: 2 })]
  if (one.reason !== undefined) return [...head, wrapped(`not met: ${one.reason}`, { indent: 2 })].join('\n')
  const columns = [
    { head: 'value', wraps: true },
    ...['ours', 'theirs', 'allowed'].map((text) => ({ head: text, side: 'right' as const })),
    { head: '' },
  ]
  return [...head, table(columns, one.values.map(valueRow), 2)].join('\n')
}

function valueRow(value: CheckedValue): readonly string[] {
  return [
    value.name,
    shown(value.ours),
    shown(value.theirs),
    value.tolerance === null ? 'the same' : String(Number(value.tolerance.toPrecision(3))),
    value.ok ? '' : 'off',
  ]
}

/** More digits than elsewhere: the difference is what is looked at. */
function shown(value: CheckedValue['ours']): string {
  return typeof value === 'number' ? String(Number(value.toPrecision(6))) : value === undefined ? 'none' : String(value)
}

function csvOf(cases: readonly CheckedCase[]): string {
  const rows = cases.flatMap((one) =>
    one.values.map((value) => [
      one.id,
      value.name,
      value.ours ?? '',
      value.theirs ?? '',
      value.tolerance ?? '',
      value.ok,
      one.source,
    ]),
  )
  return csvText(['case', 'value', 'ours', 'theirs', 'allowed', 'ok', 'source'], rows)
}
