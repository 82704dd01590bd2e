import { planAnswer } from '@plugstead/engine/answer'
import type { Outcome } from '../answer.ts'
import type { Given } from '../command-line.ts'
import { exitOf } from '../exit-code.ts'
import { openJob, planned } from '../job-file.ts'
import { listsOf, written, writtenText } from '../lists.ts'
import { yearsAsked, yearsOf, yearsResult } from '../made-years.ts'
import { pinsOf, withPins } from '../pins.ts'
import { assessmentText, headText } from '../print/assessment.ts'
import { buildText } from '../print/build.ts'
import { changesText } from '../print/changes.ts'
import { yearsText } from '../print/made-years.ts'
import { moneyText } from '../print/money.ts'
import { planText } from '../print/plan.ts'

/** Finds the design for a job, and judges it. */
export async function run(given: Given): Promise<Outcome> {
  const opened = openJob(given)
  const yearsCount = await yearsAsked(given)
  const plan = await planned(opened)
  const { assessment, years } = await yearsOf(yearsCount, opened, plan)
  const found = { ...plan, assessment }
  const { design } = found
  const pins = given.options.write === true ? pinsOf(opened.job, found) : []
  const job = pins.length === 0 ? [] : [{ path: opened.file, data: withPins(opened.bytes, opened.file, pins) }]
  const files = await written([...job, ...(await listsOf(given, opened, { design, assessment, plan: found }))])
  return {
    code: exitOf(assessment.questions.map((question) => question.verdict)),
    text: `${[headText(opened.job), planText(found), buildText(design, assessment), moneyText(assessment), yearsText(years), ...found.changeList.map(changesText), assessmentText(opened.job, assessment), ...writtenText(files)].filter((part) => part !== '').join('\n\n')}\n`,
    ...planAnswer(found, { pins, files, years: yearsResult(years) }),
  }
}
