import { join } from 'node:path'
import { outputName } from '@plugstead/engine/answer'
import { type CutAnswer, cutAnswer, cutFindings, readCutFile } from '@plugstead/engine/shop'
import type { Outcome } from '../answer.ts'
import type { Given } from '../command-line.ts'
import { exitOf } from '../exit-code.ts'
import { count } from '../print/assessment.ts'
import { csvText } from '../print/csv.ts'
import { table } from '../print/table.ts'
import { workingText } from '../print/working.ts'
import { wrapped } from '../print/wrap.ts'
import { Unreadable } from '../problem.ts'
import { withProgress } from '../progress.ts'
import { fileText } from '../read-file.ts'
import { writeFiles } from '../write-files.ts'

/** How to cut the pieces of a file from its stock. */
export async function run(given: Given): Promise<Outcome> {
  const [file = ''] = given.operands
  const read = readCutFile(fileText(file))
  if (!read.ok) throw new Unreadable(...read.problems.map((problem) => ({ ...problem, file })))
  const answer = await withProgress('cutting …', () => cutAnswer(read.value))
  const findings = cutFindings(answer, read.value, outputName(file, 'cut').replace(/\.cut$/, ''))
  const folder = given.options.out
  const files =
    typeof folder === 'string' && answer.outcome === 'cut'
      ? [{ path: join(folder, outputName(file, 'cut.csv')), data: csvOf(answer) }]
      : []
  await writeFiles(files)
  const written = files.map(({ path }) => `\nWritten: ${path}\n`).join('')
  return {
    code: exitOf(findings.length === 0 ? ['holds'] : findings.map((finding) => finding.verdict)),
    text:
      cutText(
        answer,
        findings.map((finding) => `${finding.verdict}: ${finding.said}`),
      ) +
      (given.options.working === true && answer.outcome === 'cut' ? `\n${workingText(answer.working)}\n` : '') +
      written,
    findings,
    result: { ...answer, files: files.map(({ path }) => path) },
  }
}

type Size = CutAnswer['patterns'][number]['stock']
const sizeText = (size: Size): string => (typeof size === 'number' ? String(size) : size.join(' / '))

function cutText(answer: CutAnswer, said: readonly string[]): string {
  const title = answer.title === '' ? [] : [wrapped(answer.title)]
  const notes = said.map((line) => wrapped(line, { hang: 2 }))
  const notRead = answer.notRead.length === 0 ? [] : [wrapped(`Not read: ${answer.notRead.join(', ')}.`, { hang: 2 })]
  if (answer.outcome !== 'cut') return `${[...title, ...notes, ...notRead].join('\n')}\n`
  const unit = answer.unit === '1' ? '' : ` ${answer.unit}`
  const rows = answer.patterns.map((pattern) => [
    String(pattern.times),
    sizeText(pattern.stock),
    pattern.pieces.map(({ size, count: n }) => `${n} × ${sizeText(size)}`).join(', '),
    String(pattern.sawn),
    String(pattern.remnantMm),
  ])
  const columns = [
    { head: 'times', side: 'right' as const },
    { head: 'stock', side: 'right' as const },
    { head: 'pieces, longest first from the datum end', wraps: true },
    { head: 'saw', side: 'right' as const },
    { head: 'left, mm', side: 'right' as const },
  ]
  const list = table(columns, rows)
  return `${[[...title, ...headLines(answer, unit), ...notes, ...notRead].join('\n'), list].join('\n\n')}\n`
}

function headLines(answer: CutAnswer, unit: string): readonly string[] {
  const { count: bars, cost, bound, gap } = answer
  const found = costText(cost, bars ?? 0)
  const proof = answer.proven
    ? `proven: none ${cost === null ? 'needs fewer' : 'costs less'} (${BOUND_WORDS[answer.boundKind]}).`
    : `not proven: the bound is ${bound}, the gap ${gap}.`
  const trims = answer.trim > 0 ? `, ${answer.trim}${unit} off each end` : ''
  const linear = answer.linearBound === null ? 'not found' : answer.linearBound.toFixed(3)
  const bounds = `Bounds: material ${Number(answer.materialBound.toFixed(3))}, linear ${linear}. Plain first-fit-decreasing: ${
    answer.ffdCount === null ? 'runs out of stock' : costText(answer.ffdCost, answer.ffdCount)
  }.`
  return [
    wrapped(`${found}, ${proof}`),
    wrapped(`${count(answer.patterns.length, 'set-up')}. Kerf ${answer.kerf}${unit}${trims}.`),
    wrapped(bounds),
  ]
}

const costText = (cost: number | null, bars: number): string =>
  cost === null ? count(bars, 'bar') : `${cost} in money, ${count(bars, 'bar')}`

const BOUND_WORDS: Readonly<Record<CutAnswer['boundKind'], string>> = {
  material: 'the material alone needs as much',
  linear: 'by the linear relaxation',
  search: 'every cheaper purchase was ruled out',
}

function csvOf(answer: CutAnswer): string {
  const rows = answer.patterns.map((pattern, at) => [
    at + 1,
    pattern.times,
    sizeText(pattern.stock),
    pattern.pieces.map(({ size, count: n }) => `${n} × ${sizeText(size)}`).join(', '),
    pattern.marks.join(' '),
    pattern.sawn,
    pattern.remnantMm,
  ])
  return csvText(['set-up', 'times', 'stock', 'pieces', `marks from the datum end, ${answer.unit}`, 'saw', 'remnantMm'], rows)
}
