import { join } from 'node:path'
import { outputName } from '@plugstead/engine/answer'
import { type NetworkAnswer, networkAnswer, readNetwork } from '@plugstead/engine/power'
import type { Outcome } from '../answer.ts'
import type { Given } from '../command-line.ts'
import { EXIT, type ExitCode } from '../exit-code.ts'
import { nearest } from '../near.ts'
import { csvText } from '../print/csv.ts'
import { table } from '../print/table.ts'
import { wrapped } from '../print/wrap.ts'
import { Unreadable } from '../problem.ts'
import { withProgress } from '../progress.ts'
import { fileText } from '../read-file.ts'
import { writeFiles } from '../write-files.ts'

type CaseAnswer = NetworkAnswer['cases'][string]

/** Volts at every node of a network file. */
export async function run(given: Given): Promise<Outcome> {
  const [file = ''] = given.operands
  const read = readNetwork(fileText(file))
  if (!read.ok) throw new Unreadable(...read.problems.map((problem) => ({ ...problem, file })))
  const names = Object.keys(read.value.cases)
  const wanted = typeof given.options.case === 'string' ? given.options.case : undefined
  if (wanted !== undefined && !names.includes(wanted)) {
    const near = nearest(wanted, names)
    const mend = near === null ? 'Write one of them.' : `Did you mean --case ${near}?`
    throw new Unreadable({
      code: 'network/no-such-case',
      file,
      found: `--case ${wanted}`,
      wanted: `one of ${names.join(', ')}`,
      mend,
    })
  }
  const answer = await withProgress('solving the network …', () => networkAnswer(read.value, wanted))
  const folder = given.options.out
  const files = typeof folder === 'string' ? [{ path: join(folder, outputName(file, 'volts.csv')), data: csvOf(answer) }] : []
  await writeFiles(files)
  return {
    code: codeOf(Object.values(answer.cases)),
    text: networkText(answer) + files.map(({ path }) => `\nWritten: ${path}\n`).join(''),
    result: { ...answer, files: files.map(({ path }) => path) },
  }
}

/** No solution proven: impossible. Given up: not known. */
function codeOf(cases: readonly CaseAnswer[]): ExitCode {
  if (cases.some((one) => one.outcome === 'none')) return EXIT.fails
  return cases.every((one) => one.outcome === 'solved') ? EXIT.holds : EXIT.unknown
}

function networkText(answer: NetworkAnswer): string {
  const head = [
    wrapped(answer.title),
    wrapped(`Source: ${answer.source}`),
    wrapped(`Base: ${answer.base}. Reference: ${answer.reference}. ${answer.frequencyHz} Hz.`),
  ]
  return `${[head.join('\n'), ...Object.entries(answer.cases).map(([name, one]) => caseText(name, one))].join('\n\n')}\n`
}

function caseText(name: string, one: CaseAnswer): string {
  const head = wrapped(`Case ${name}: ${OUTCOME_WORDS[one.outcome]}`)
  if (one.outcome !== 'solved') {
    const share = one.turnsAtFrac === null ? '' : ` About ${Math.floor(one.turnsAtFrac * 100)} % of the load can be carried.`
    const where = one.culprits.length === 0 ? '' : ` It breaks at ${one.culprits.join(', ')}.`
    return `${head}\n${wrapped(`No volts are given.${where}${share}`, { indent: 2 })}`
  }
  const rows = Object.entries(one.nodes).flatMap(([node, wires]) =>
    Object.entries(wires).map(([key, { voltageV, angleDeg }], at) => [
      at === 0 ? node : '',
      key,
      voltageV.toFixed(2),
      angleDeg.toFixed(3),
    ]),
  )
  const columns = [
    { head: 'node', wraps: true },
    { head: 'wire' },
    { head: 'V', side: 'right' as const },
    { head: 'degrees', side: 'right' as const },
  ]
  const sums = `From the source ${watts(one.sourceW)}, into loads ${watts(one.loadW)}, lost ${watts(one.lossW)}; they differ by ${one.imbalanceVA.toExponential(1)} VA after ${one.passes} passes.`
  const floating =
    one.floating.length === 0 ? [] : [wrapped(`Touches neither earth nor source: ${one.floating.join(', ')}.`, { indent: 2 })]
  return [head, table(columns, rows, 2), wrapped(sums, { indent: 2 }), ...floating].join('\n')
}

const watts = (value: number): string => (Math.abs(value) >= 10_000 ? `${(value / 1000).toFixed(2)} kW` : `${value.toFixed(1)} W`)

function csvOf(answer: NetworkAnswer): string {
  const rows = Object.entries(answer.cases).flatMap(([name, one]) =>
    Object.entries(one.nodes).flatMap(([node, wires]) =>
      Object.entries(wires).map(([key, { voltageV, angleDeg }]) => [name, node, key, voltageV, angleDeg]),
    ),
  )
  return csvText(['case', 'node', 'wire', 'voltageV', 'angleDeg'], rows)
}

const OUTCOME_WORDS: Readonly<Record<CaseAnswer['outcome'], string>> = {
  solved: 'solved',
  none: 'fails: proven to have no solution',
  'given up': 'unknown: the iteration gave up, which proves nothing',
}
