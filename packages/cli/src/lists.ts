import { join } from 'node:path'
import { VERSION } from '@plugstead/engine/answer'
import type { Given } from './command-line.ts'
import { designText } from './design-file.ts'
import type { Judged, Opened } from './job-file.ts'
import { wrapped } from './print/wrap.ts'
import { type Output, outputName, writeFiles } from './write-files.ts'

/** Design, findings and lists of a judged job, as files in `--out`; none without it. Lists of the steel only where a box is built, changes only where one stands. */
export async function listsOf(given: Given, opened: Opened, found: Judged): Promise<readonly Output[]> {
  const folder = given.options.out
  if (typeof folder !== 'string') return []
  // Loaded only here: the typesetter it brings takes longer to start than all the rest.
  const book = await import('@plugstead/book')
  const at = (kind: string) => join(folder, outputName(opened.file, kind))
  const { design, assessment, plan } = found
  const changes = plan?.changeList ?? []
  const { questions, findings, assumed, workings } = assessment
  const judged = { plugstead: VERSION, questions, findings, assumed, workings }
  return [
    { path: at('design.json'), data: designText(VERSION, design) },
    { path: at('findings.json'), data: `${JSON.stringify(judged, null, 2)}\n` },
    { path: at('panel.csv'), data: book.panelCsv(assessment) },
    { path: at('circuits.csv'), data: book.circuitsCsv(assessment) },
    { path: at('cords.csv'), data: book.cordsCsv(assessment) },
    ...(design.builds.length === 0
      ? []
      : [
          { path: at('openings.csv'), data: book.openingsCsv(assessment, design) },
          { path: at('strut.csv'), data: book.strutCsv(design) },
          { path: at('raceways.csv'), data: book.racewaysCsv(assessment, design) },
        ]),
    ...(assessment.results.shop.boxes.length === 0
      ? []
      : [
          { path: at('wires.csv'), data: book.wiresCsv(assessment) },
          { path: at('cuts.csv'), data: book.cutsCsv(assessment) },
          { path: at('bill.csv'), data: book.billCsv(assessment) },
          { path: at('hours.csv'), data: book.hoursCsv(assessment) },
          { path: at('cost.csv'), data: book.costCsv(assessment) },
        ]),
    ...(changes.length === 0 ? [] : [{ path: at('changes.csv'), data: book.changesCsv(changes) }]),
  ]
}

/** Writes all of them, or none. Gives the paths. */
export async function written(outputs: readonly Output[]): Promise<readonly string[]> {
  await writeFiles(outputs)
  return outputs.map(({ path }) => path)
}

export function writtenText(files: readonly string[]): readonly string[] {
  return files.length === 0 ? [] : [['Written', ...files.map((path) => wrapped(path, { indent: 2 }))].join('\n')]
}
