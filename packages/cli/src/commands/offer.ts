import { join } from 'node:path'
import { outputName } from '@plugstead/engine/answer'
import { rulesOf } from '@plugstead/engine/assess'
import type { Outcome } from '../answer.ts'
import type { Given } from '../command-line.ts'
import { dayOption } from '../day-option.ts'
import { exitOf } from '../exit-code.ts'
import { judged, openJob } from '../job-file.ts'
import { written, writtenText } from '../lists.ts'
import { CAUTION, findingsText, headText } from '../print/assessment.ts'
import { moneyText } from '../print/money.ts'
import { Unreadable } from '../problem.ts'
import { withProgress } from '../progress.ts'

/** The offer to the customer, the schedule of rent, and the money as workbook and list. */
export async function run(given: Given): Promise<Outcome> {
  const folder = given.options.out
  if (typeof folder !== 'string')
    throw new Unreadable({
      ...{ code: 'command-line/value-missing', found: 'no --out', wanted: 'the folder to write into' },
      mend: `Write plugstead offer ${given.operands[0] ?? 'JOB'} --out out. See plugstead offer --help.`,
    })
  const day = dayOption(given)
  const opened = openJob(given)
  const { job, shop } = opened
  const { design, assessment } = await judged(given, opened, day ?? undefined)
  const rules = rulesOf(job, shop)
  const [book, { bookPdf }, lists] = await Promise.all([
    import('@plugstead/book'),
    import('@plugstead/book/typeset'),
    import('@plugstead/lists'),
  ])
  const paper = given.options.paper ?? book.usualPaper(rules)
  const content = book.offerContent({
    ...{ job, design, assessment, rules, shopName: shop.name, day, rent: given.options.rent === true },
  })
  const pdf = await withProgress('typesetting …', () =>
    bookPdf(content, {
      paper: paper === 'a4' ? 'a4' : 'letter',
      ...(day === null ? {} : { revision: { letter: 'A', day } }),
    }),
  )
  const at = (kind: string) => join(folder, outputName(opened.file, kind))
  const files = await written([
    { path: at('offer.pdf'), data: pdf },
    { path: at('money.xlsx'), data: lists.moneyWorkbook(assessment.results.money, job.title) },
    { path: at('cost.csv'), data: book.costCsv(assessment) },
  ])
  const own = assessment.findings.filter((f) => f.question === 'money')
  return {
    code: exitOf(assessment.questions.filter((q) => q.id === 'money').map((q) => q.verdict)),
    text: `${[headText(job), moneyText(assessment), findingsText({ findings: own, assumed: assessment.assumed }), CAUTION, ...writtenText(files)].filter((part) => part !== '').join('\n\n')}\n`,
    findings: own,
    questions: assessment.questions,
    assumed: assessment.assumed,
    result: { files, day, money: assessment.results.money },
  }
}
