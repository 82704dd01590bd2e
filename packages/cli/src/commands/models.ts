import { basename, extname } from 'node:path'
import type { Shop } from '@plugstead/engine/assess'
import { Fault } from '@plugstead/engine/kernel'
import type { Outcome } from '../answer.ts'
import type { Given } from '../command-line.ts'
import { EXIT, exitOf } from '../exit-code.ts'
import { openJob } from '../job-file.ts'
import { headText } from '../print/assessment.ts'
import { limitsText, rankingText } from '../print/models.ts'
import { Unreadable } from '../problem.ts'
import { withProgress } from '../progress.ts'
import { shopFolder } from '../shop-folder.ts'

/** With a job: what would do for it, best first. Without: what each house model is good for. */
export async function run(given: Given): Promise<Outcome> {
  const [file] = given.operands
  return file === undefined
    ? goodFor(shopFolder(typeof given.options.shop === 'string' ? given.options.shop : undefined))
    : ranked(given, file)
}

async function ranked(given: Given, file: string): Promise<Outcome> {
  const { job, shop } = openJob(given)
  const { rankModels } = await import('@plugstead/engine/rank')
  const { noSupply } = await import('@plugstead/engine/plan')
  try {
    const call = basename(file, extname(file))
    const ranking = await withProgress('ranking …', () => rankModels(job, shop, { call }))
    const [first] = ranking.ranked
    return {
      code: exitOf(first === undefined ? ['unknown'] : [first.verdict]),
      text: `${[headText(job), rankingText(ranking)].join('\n\n')}\n`,
      findings: first?.findings ?? [],
      result: {
        call,
        rankedBy: ranking.rankedBy,
        rankedByBecause: ranking.rankedByBecause,
        ranked: ranking.ranked.map(({ design: _design, ...row }) => row),
        judgedCount: ranking.judgedCount,
      },
    }
  } catch (thrown) {
    if (thrown instanceof Fault && thrown.code === 'plan/no-offer') throw new Unreadable(noSupply(file))
    throw thrown
  }
}

async function goodFor(shop: Shop): Promise<Outcome> {
  const { modelLimits, movedOn } = await import('@plugstead/engine/rank')
  const models = shop.stock?.models ?? []
  const rows = await withProgress('judging models at their limits …', () =>
    models.map((model) => ({
      name: model.name,
      price: model.price,
      drawings: model.drawings,
      movedOn: movedOn(model),
      ...modelLimits(model, shop),
    })),
  )
  const sound = rows.every((row) => row.failsMild.length === 0)
  return {
    code: sound ? EXIT.holds : EXIT.fails,
    text:
      rows.length === 0
        ? 'The shop has no house models: name their sheets under models in shop.yaml.\n'
        : `${rows.map(limitsText).join('\n\n')}\n`,
    result: { models: rows },
  }
}
