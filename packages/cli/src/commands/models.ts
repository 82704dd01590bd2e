import { basename, extname } from 'node:path'
import type { Shop } from '@plugstead/engine/assess'
import { Fault } from '@plugstead/engine/kernel'
import type { Outcome } from '../answer.ts'
import type { Given } from '../command-line.ts'
import { EXIT, exitOf } from '../exit-code.ts'
import { openJob } from '../job-file.ts'
import { inSteps } from '../made-years.ts'
import { headText } from '../print/assessment.ts'
import { limitsText, placesText, rankingText } from '../print/models.ts'
import { Unreadable } from '../problem.ts'
import { withProgress } from '../progress.ts'
import { shopFolder } from '../shop-folder.ts'

/** With a job: what would do for it, best first. Without: what each house model is good for. */
export async function run(given: Given): Promise<Outcome> {
  const [file] = given.operands
  const places = given.options.places === true
  if (file === undefined)
    return goodFor(shopFolder(typeof given.options.shop === 'string' ? given.options.shop : undefined), places)
  if (places)
    throw new Unreadable({
      ...{ code: 'command-line/places', found: `--places beside ${file}`, wanted: 'one of them' },
      mend: 'A call has its own place: leave out --places, or the job.',
    })
  return ranked(given, file)
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

async function goodFor(shop: Shop, withPlaces: boolean): Promise<Outcome> {
  const { modelLimits, modelsInPlaces, movedOn } = await import('@plugstead/engine/rank')
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
  const places = withPlaces ? await inSteps('years of places', modelsInPlaces(models, shop)) : null
  return {
    code: sound ? EXIT.holds : EXIT.fails,
    text:
      rows.length === 0
        ? 'The shop has no house models: name their sheets under models in shop.yaml.\n'
        : `${[...rows.map(limitsText), placesText(places)].join('\n\n')}\n`,
    result: { models: rows, places },
  }
}
