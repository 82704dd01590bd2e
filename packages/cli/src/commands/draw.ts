import { join } from 'node:path'
import type { DrawingPaper } from '@plugstead/book'
import { outputName } from '@plugstead/engine/answer'
import { rulesOf } from '@plugstead/engine/assess'
import type { Outcome } from '../answer.ts'
import type { Given } from '../command-line.ts'
import { exitOf } from '../exit-code.ts'
import { type Judged, judged, type Opened, openJob } from '../job-file.ts'
import { written } from '../lists.ts'
import { CAUTION, headText, questionsText } from '../print/assessment.ts'
import { wrapped } from '../print/wrap.ts'
import { Unreadable } from '../problem.ts'
import { withProgress } from '../progress.ts'
import type { Output } from '../write-files.ts'

interface Row {
  readonly path: string
  readonly box: string
  readonly drawing: string
  readonly title: string
  readonly kind: 'sheet' | 'cut file' | 'solid'
}

/** Draws every box of a design that is laid out. */
export async function run(given: Given): Promise<Outcome> {
  const folder = given.options.out
  if (typeof folder !== 'string')
    throw new Unreadable({
      ...{ code: 'command-line/value-missing', found: 'no --out', wanted: 'the folder to write into' },
      mend: `Write plugstead draw ${given.operands[0] ?? 'JOB'} --out out. See plugstead draw --help.`,
    })
  const opened = openJob(given)
  const found = await judged(given, opened)
  const paper = (given.options.paper ?? 'letter') as DrawingPaper
  const drawn = await drawnFiles(opened, found, folder, paper)
  await written(drawn.map(({ output }) => output))
  const { assessment } = found
  const rows = drawn.map(({ row }) => row)
  return {
    code: exitOf(rows.length === 0 ? ['unknown'] : assessment.questions.map((question) => question.verdict)),
    text: `${[headText(opened.job), questionsText(assessment), CAUTION, listText(rows, folder)].join('\n\n')}\n`,
    findings: assessment.findings,
    questions: assessment.questions,
    assumed: assessment.assumed,
    result: { files: rows, paper },
  }
}

interface Made {
  readonly output: Output
  readonly row: Row
}

async function drawnFiles(
  { job, file, shop }: Opened,
  { design, assessment }: Judged,
  folder: string,
  paper: DrawingPaper,
): Promise<readonly Made[]> {
  const { drawingFiles } = await import('@plugstead/book')
  return withProgress('drawing …', () =>
    drawingFiles({ job, design, assessment, rules: rulesOf(job, shop) }, paper).map((drawn): Made => {
      const { kind, box, drawing, title, of } = drawn
      const path = join(folder, outputName(file, kind))
      return { output: { path, data: drawn.make() }, row: { path, box, drawing, title, kind: of } }
    }),
  )
}

function listText(rows: readonly Row[], folder: string): string {
  if (rows.length === 0)
    return wrapped('Nothing is drawn: no box of this design is laid out. Plan the job anew: plugstead plan JOB --out DIR.')
  const names = rows.map(({ path }) => `  ${path.slice(folder.length).replace(/^[\\/]/, '')}`)
  const count = (kind: Row['kind'], ending: string): number =>
    rows.filter((row) => row.kind === kind && row.path.endsWith(ending)).length
  const sums = `${count('sheet', '.svg')} sheets, ${count('cut file', '.dxf')} cut files as DXF and again as SVG at true size, ${count('solid', '.glb')} solid`
  return [wrapped(`Drawn, in ${folder}: ${sums}.`), ...names].join('\n')
}
