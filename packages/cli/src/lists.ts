import { join } from 'node:path'
import { outputName } from '@plugstead/engine/answer'
import { rulesOf } from '@plugstead/engine/assess'
import type { Given } from './command-line.ts'
import type { Judged, Opened } from './job-file.ts'
import { wrapped } from './print/wrap.ts'
import { type Output, writeFiles } from './write-files.ts'

/** Design, findings and lists of a judged job, as files in `--out`; none without it. */
export async function listsOf(given: Given, opened: Opened, found: Judged): Promise<readonly Output[]> {
  const folder = given.options.out
  if (typeof folder !== 'string') return []
  // Loaded only here: a command without --out does without it.
  const { jobLists } = await import('@plugstead/book')
  const { job, shop, file } = opened
  const { design, assessment, plan } = found
  return jobLists({ job, design, assessment, rules: rulesOf(job, shop) }, plan?.changeList ?? []).map(({ kind, make }) => ({
    path: join(folder, outputName(file, kind)),
    data: make(),
  }))
}

/** Writes all of them, or none. Gives the paths. */
export async function written(outputs: readonly Output[]): Promise<readonly string[]> {
  await writeFiles(outputs)
  return outputs.map(({ path }) => path)
}

export function writtenText(files: readonly string[]): readonly string[] {
  return files.length === 0 ? [] : [['Written', ...files.map((path) => wrapped(path, { indent: 2 }))].join('\n')]
}
