import { join } from 'node:path'
import { yearsHeld } from '@plugstead/engine/air'
import { outputName } from '@plugstead/engine/answer'
import type { Job } from '@plugstead/engine/job'
import { REMEDY_YEARS, remediesFor } from '@plugstead/engine/plan'
import type { Outcome } from '../answer.ts'
import type { Given } from '../command-line.ts'
import { EXIT } from '../exit-code.ts'
import { judged, openJob } from '../job-file.ts'
import { written, writtenText } from '../lists.ts'
import { yearsAsked } from '../made-years.ts'
import { CAUTION } from '../print/assessment.ts'
import { csvText } from '../print/csv.ts'
import { remediesRows, remediesText } from '../print/remedies.ts'
import { wrapped } from '../print/wrap.ts'
import { Unreadable } from '../problem.ts'
import { remediesInThreads } from '../remedies-in-threads.ts'

/** What each measure buys one box, over made years. */
export async function run(given: Given): Promise<Outcome> {
  const opened = openJob(given)
  const yearsCount = (await yearsAsked(given)) ?? REMEDY_YEARS
  const box = boxNamed(given, opened.job)
  const { design, assessment } = await judged(given, opened)
  const { job, shop } = opened
  const asked = { job, shop, design, results: assessment.results, box, yearsCount }
  const remedies = remediesFor(asked)
  if ('lacks' in remedies)
    return {
      code: EXIT.unknown,
      text: `${['The years cannot be made:', ...remedies.lacks.map((said) => wrapped(`- ${said}`, { hang: 2 }))].join('\n')}\n`,
      result: { box, lacks: remedies.lacks, table: null, files: [] },
    }
  const table = await remediesInThreads('years of remedies', asked, remedies)
  if (table === null)
    return {
      code: EXIT.unknown,
      text: 'Stopped before the last year: there is no table.\n',
      result: { box, lacks: [], table: null, files: [] },
    }
  const folder = given.options.out
  const files =
    typeof folder === 'string'
      ? await written([
          { path: join(folder, outputName(opened.file, `${box}.remedies.csv`)), data: csvText(...remediesRows(table)) },
        ])
      : []
  const { finding, working } = yearsHeld(table)
  return {
    code: EXIT.holds,
    findings: [finding],
    text: `${[remediesText(table, finding.said), CAUTION, ...writtenText(files)].join('\n\n')}\n`,
    result: { box, lacks: [], table, workings: [working], files },
  }
}

function boxNamed(given: Given, job: Job): string {
  const ids = job.boxes.map(({ id }) => id)
  const told = given.options.box
  const box = typeof told === 'string' ? told : ids[0]
  if (box !== undefined && ids.includes(box)) return box
  throw new Unreadable({
    ...{ code: 'command-line/box', found: box === undefined ? 'a job without a box' : `--box ${box}` },
    ...{ wanted: ids.length === 0 ? 'a job with a box' : `one of: ${ids.join(', ')}`, mend: 'Name a box as the job does.' },
  })
}
