import { join } from 'node:path'
import { outputName } from '@plugstead/engine/answer'
import type { Outcome } from '../answer.ts'
import type { Given } from '../command-line.ts'
import { dayOption } from '../day-option.ts'
import { exitOf } from '../exit-code.ts'
import { judged, openJob } from '../job-file.ts'
import { written, writtenText } from '../lists.ts'
import { assumedText, CAUTION, findingsText, headText } from '../print/assessment.ts'
import { chainText } from '../print/dates.ts'

/** The dated chain of a job: printed, and with --out as iCalendar and CSV. */
export async function run(given: Given): Promise<Outcome> {
  const today = dayOption(given, 'today')
  const opened = openJob(given)
  const { assessment } = await judged(given, opened, today ?? undefined)
  const dates = assessment.results.dates
  const findings = assessment.findings.filter((f) => f.question === 'dates')
  const own = new Set(findings.flatMap((f) => f.workings))
  const folder = given.options.out
  const files =
    typeof folder !== 'string'
      ? []
      : await import('@plugstead/book').then((book) =>
          written(
            book.dateLists({ job: opened.job, assessment }).map(({ kind, make }) => ({
              path: join(folder, outputName(opened.file, kind)),
              data: make(),
            })),
          ),
        )
  const assumed = assessment.assumed.filter((a) =>
    /^(facts\.(closed|tasks|site\.holidays|permits)|shop\.yaml|needs\.forbidden)/.test(a.path),
  )
  return {
    code: exitOf(assessment.questions.filter((q) => q.id === 'dates').map((q) => q.verdict)),
    text: `${[headText(opened.job), chainText(dates), `Findings\n\n${findingsText({ findings, assumed: assessment.assumed })}`, assumedText({ ...assessment, assumed }), CAUTION, ...writtenText(files)].filter((p) => p !== '').join('\n\n')}\n`,
    findings,
    questions: assessment.questions,
    assumed: assessment.assumed,
    result: { dates, workings: assessment.workings.filter((w) => own.has(w.id)), files },
  }
}
