import { assessAnswer } from '@plugstead/engine/answer'
import type { Outcome } from '../answer.ts'
import type { Given } from '../command-line.ts'
import { exitOf } from '../exit-code.ts'
import { judged, openJob } from '../job-file.ts'
import { listsOf, written, writtenText } from '../lists.ts'
import { yearsAsked, yearsOf, yearsResult } from '../made-years.ts'
import { assessmentText, headText } from '../print/assessment.ts'
import { buildText } from '../print/build.ts'
import { yearsText } from '../print/made-years.ts'
import { moneyText } from '../print/money.ts'

/** Judges one design of a job. */
export async function run(given: Given): Promise<Outcome> {
  const opened = openJob(given)
  const yearsCount = await yearsAsked(given)
  const asItIs = await judged(given, opened)
  const { assessment, years } = await yearsOf(yearsCount, opened, asItIs)
  const found = { ...asItIs, assessment }
  const { design, plan } = found
  const files = await written(await listsOf(given, opened, found))
  const which = plan === null ? `Design: ${String(given.options.design)}` : `Design: as plan gives it, ${plan.chosen.id}`
  return {
    code: exitOf(assessment.questions.map((question) => question.verdict)),
    text: `${[headText(opened.job), which, buildText(design, assessment), moneyText(assessment), yearsText(years), assessmentText(opened.job, assessment), ...writtenText(files)].filter((part) => part !== '').join('\n\n')}\n`,
    ...assessAnswer(design, assessment, { files, years: yearsResult(years) }),
  }
}
