import { join } from 'node:path'
import { yearsHeld, yearsNotMade } from '@plugstead/engine/air'
import { outputName } from '@plugstead/engine/answer'
import { rulesOf, withFound } from '@plugstead/engine/assess'
import type { Outcome } from '../answer.ts'
import type { Given } from '../command-line.ts'
import { exitOf } from '../exit-code.ts'
import { judged, openJob } from '../job-file.ts'
import { listsOf, written, writtenText } from '../lists.ts'
import { type RemediesRun, remediesOfAll, type Years, yearsAsked, yearsOf } from '../made-years.ts'
import { CAUTION, headText, questionsText } from '../print/assessment.ts'
import { buildText } from '../print/build.ts'
import { yearsText } from '../print/made-years.ts'
import { moneyText } from '../print/money.ts'
import { wrapped } from '../print/wrap.ts'
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
  const { design } = found
  const withTable = given.options.remedies === true
  const yearsCount = await yearsAsked(given)
  const remedies = withTable ? await remediesOfAll(opened, found, yearsCount) : null
  const tables = remedies?.tables ?? {}
  const { assessment, years } = withTable
    ? { assessment: withFound(found.assessment, heldBy(remedies)), years: null }
    : await yearsOf(yearsCount, opened, found)
  const rules = rulesOf(job, shop)
  const { bookContent, isReader, usualPaper } = await import('@plugstead/book')
  const { bookPdf } = await import('@plugstead/book/typeset')
  const paper = given.options.paper ?? usualPaper(rules)
  const reader = isReader(given.options.for) ? given.options.for : undefined
  const pdf = await withProgress('typesetting …', () =>
    bookPdf(bookContent({ job, design, assessment, rules, airRemedies: tables }, found.plan?.changeList ?? []), {
      paper: paper === 'a4' ? 'a4' : 'letter',
      checkPrint: given.options['check-print'] === true,
      ...(reader === undefined ? {} : { reader }),
    }),
  )
  const book = { path: join(folder, outputName(opened.file, `${reader ?? 'book'}.pdf`)), data: pdf }
  const files = await written([book, ...(await listsOf(given, opened, { ...found, assessment }))])
  return {
    code: exitOf(assessment.questions.map((question) => question.verdict)),
    text: `${[headText(job), buildText(design, assessment), moneyText(assessment), questionsText(assessment), remediesSaid(years, remedies), CAUTION, ...writtenText(files)].filter((part) => part !== '').join('\n\n')}\n`,
    findings: assessment.findings,
    questions: assessment.questions,
    assumed: assessment.assumed,
    result: {
      ...{ files, paper, for: reader ?? null, bytes: pdf.length },
      remedies: remedies === null ? null : { boxes: Object.keys(tables), lacks: remedies.lacks },
    },
  }
}

/** A table says of the design in how many of its years it holds. */
const heldBy = (run: RemediesRun | null) =>
  run === null
    ? []
    : [
        ...Object.values(run.tables).map(({ table }) => yearsHeld(table)),
        ...run.lacks.map(({ box, lacks }) => yearsNotMade(box, lacks)),
      ]

/** What stands in the book of measures and made years; or that it was not asked, and how to ask. */
function remediesSaid(years: Years | null, run: RemediesRun | null): string {
  if (years !== null)
    return [wrapped('Measures: not asked. What each buys over made years is printed with --remedies.'), yearsText(years)].join(
      '\n',
    )
  if (run === null) return wrapped('Measures: stopped before the last year; the book holds no table of them.')
  return [
    ...Object.values(run.tables).map(({ table }) => `Measures, ${table.box}: in the book. ${yearsHeld(table).finding.said}`),
    ...run.lacks.map(({ box, lacks }) => `Measures, ${box}: the years cannot be made. ${lacks.join(' ')}`),
  ]
    .map((said) => wrapped(said, { hang: 2 }))
    .join('\n')
}
