import { join } from 'node:path'
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
import { type Output, outputName } from '../write-files.ts'

/** Block between head and foot of a sheet: Letter and A4 share one, Tabloid and A3 the other. */
const BLOCKS_MM = {
  letter: { widthMm: 185, heightMm: 205 },
  a4: { widthMm: 185, heightMm: 205 },
  tabloid: { widthMm: 390, heightMm: 215 },
  a3: { widthMm: 390, heightMm: 215 },
} as const
type Paper = keyof typeof BLOCKS_MM

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
  const paper = (given.options.paper ?? 'letter') as Paper
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
  opened: Opened,
  { design, assessment }: Judged,
  folder: string,
  paper: Paper,
): Promise<readonly Made[]> {
  const { job, file, shop } = opened
  const { oneLineScenes } = await import('@plugstead/book')
  const { boxDrawings, boxParts, drawnBoxes, dxf, glb, patternDrawings, sheetScene, svg } = await import('@plugstead/drawings')
  return withProgress('drawing …', () => {
    const lines = oneLineScenes({ job, design, assessment, rules: rulesOf(job, shop) })
    return drawnBoxes({ job, design, assessment }).flatMap((box): readonly Made[] => {
      const made = (drawing: string, title: string, kind: Row['kind'], ending: string, data: Output['data']): Made => {
        const path = join(folder, outputName(file, `${box.build.box}.${drawing}.${ending}`))
        return { output: { path, data }, row: { path, box: box.build.box, drawing, title, kind } }
      }
      const page = (drawing: Parameters<typeof sheetScene>[0]) => svg.render(sheetScene(drawing, BLOCKS_MM[paper]))
      return [
        ...boxDrawings(box).map((d) => made(d.id, d.title, 'sheet', 'svg', page(d))),
        ...patternDrawings(box).flatMap((d) => [
          made(d.id, d.title, 'cut file', 'dxf', dxf.render(d)),
          made(d.id, d.title, 'cut file', 'svg', page(d)),
        ]),
        ...oneLines(lines, box.build.box).map(({ name, scene }) =>
          made(name, 'One-line diagram, with volts', 'sheet', 'svg', svg.render(scene)),
        ),
        made('solid', `The box with what is built in`, 'solid', 'glb', glb.render(boxParts(box), box.build.box)),
      ]
    })
  })
}

type OneLines = ReturnType<typeof import('@plugstead/book').oneLineScenes>

/** One-line diagrams of a box by file name: with the phase where there is more than one, with a number where one sheet does not do. */
function oneLines(
  all: OneLines,
  box: string,
): readonly { readonly name: string; readonly scene: OneLines[number]['scenes'][number] }[] {
  const here = all.filter((l) => l.box === box)
  return here.flatMap(({ phase, scenes }) =>
    scenes.map((scene, i) => ({
      name: [
        'one-line',
        ...(here.length > 1 ? [phase.replace(/[^\w-]+/g, '-')] : []),
        ...(scenes.length > 1 ? [String(i + 1)] : []),
      ].join('-'),
      scene,
    })),
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
