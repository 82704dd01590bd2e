import { join } from 'node:path'
import { outputName } from '@plugstead/engine/answer'
import { rulesOf } from '@plugstead/engine/assess'
import type { Outcome } from '../answer.ts'
import type { Given } from '../command-line.ts'
import { exitOf } from '../exit-code.ts'
import { judged, openJob } from '../job-file.ts'
import { listsOf, written, writtenText } from '../lists.ts'
import { CAUTION, headText, questionsText } from '../print/assessment.ts'
import { buildText } from '../print/build.ts'
import { moneyText } from '../print/money.ts'
import { Unreadable } from '../problem.ts'
import { withProgress } from '../progress.ts'

/** Typesets the job book and writes it with the lists. */
export async function run(given: Given): Promise<Outcome> {
  const folder = given.options.out
  if (typeof folder !== 'string')
    throw new Unreadable({
      ...{ code: 'command-line/value-missing', found: 'no --out', wanted: 'the folder to write into' },
      mend: `Write plugstead book ${given.operands[0] ?? 'JOB'} --out out. See plugstead book --help.`,
    })
  const opened = openJob(given)
  const { job, shop } = opened
  const found = await judged(given, opened)
  const { design, assessment } = found
  const rules = rulesOf(job, shop)
  const { bookContent, isReader, usualPaper } = await import('@plugstead/book')
  const { bookPdf } = await import('@plugstead/book/typeset')
  const paper = given.options.paper ?? usualPaper(rules)
  const reader = isReader(given.options.for) ? given.options.for : undefined
  const pdf = await withProgress('typesetting …', () =>
    bookPdf(bookContent(job, design, assessment, rules, found.plan?.changeList ?? []), {
      paper: paper === 'a4' ? 'a4' : 'letter',
      checkPrint: given.options['check-print'] === true,
      ...(reader === undefined ? {} : { reader }),
    }),
  )
  const book = { path: join(folder, outputName(opened.file, `${reader ?? 'book'}.pdf`)), data: pdf }
  const files = await written([book, ...(await listsOf(given, opened, found))])
  return {
    code: exitOf(assessment.questions.map((question) => question.verdict)),
    text: `${[headText(job), buildText(design, assessment), moneyText(assessment), questionsText(assessment), CAUTION, ...writtenText(files)].filter((part) => part !== '').join('\n\n')}\n`,
    findings: assessment.findings,
    questions: assessment.questions,
    assumed: assessment.assumed,
    result: { files, paper, for: reader ?? null, bytes: pdf.length },
  }
}
