import { type Assessment, assess, type Shop } from '../assess/index.ts'
import type { BoxDesign, BuiltBody, BuiltBox, Design, Job } from '../job/index.ts'
import { type Finding, newMemory } from '../kernel/index.ts'
import { type MaterialMoney, pricedMaterials } from '../parts/index.ts'
import type { RuleSet } from '../rules/index.ts'
import { type Changes, changesOf } from './change-list.ts'
import { changedBox, type Standing, standingOf, wholeOf } from './change-list-box.ts'
import { boxMaterials, failsOf, freshMaterials, judgedWith, keyMaterials, nameOf, type SearchTask } from './change-list-search.ts'
import { designOf } from './design.ts'
import { NOTHING_GROWN } from './grow.ts'
import { optionsOf } from './options.ts'
import { bars } from './plan.ts'
import type { PlanResult } from './types.ts'

/** A box as built put to a job that has a fresh plan. */
export interface AsBuilt {
  readonly of: Standing
  readonly task: SearchTask
}

/**
 * A box as built beside the fresh plan of a job. The feed is bought for the place: where the main as built is larger than the fresh one,
 * the feed is one for that main. How the box is laid out inside was not told, so no layout is judged. Null where the job wants no box.
 */
export function asBuilt(
  job: Job,
  box: { readonly built: BuiltBox; readonly body: BuiltBody | null },
  fresh: PlanResult,
  shop: Shop,
  rules: RuleSet,
): AsBuilt | null {
  const id = fresh.design.boxes.find((b) => b.box === job.boxes[0]?.id)?.box
  if (id === undefined) return null
  const put = { ...job, built: box.built, builtBody: box.body }
  const boxes = fresh.design.boxes.map((b) => (b.box === id ? withFeedFor(b, box.built.serviceA, job, fresh, shop, rules) : b))
  const design: Design = { ...fresh.design, builds: [], boxes }
  const memory = newMemory()
  const assessment = assess(put, design, shop, { withoutAir: true, memory })
  const of = standingOf(put, box.built, id, { design, assessment }, rules)
  return { of, task: { of, shop, bars, excused: new Set(fresh.assessment.findings.filter(bars).map(nameOf)), memory } }
}

function withFeedFor(box: BoxDesign, mainA: number, job: Job, fresh: PlanResult, shop: Shop, rules: RuleSet): BoxDesign {
  const system = rules.systems.find((s) => s.id === job.system)
  if (system === undefined || box.fedFrom !== null || mainA <= box.panel.main.ratingA) return box
  const option = optionsOf(job, rules, system).options.find((o) => o.id === fresh.chosen.id)
  if (option === undefined) return box
  const larger = designOf(job, shop, rules, { ...option, serviceA: mainA }, NOTHING_GROWN).boxes
  const same = larger.find((b) => b.box === box.box && b.phase === box.phase)
  return same === undefined ? box : { ...box, panel: { ...box.panel, feed: same.panel.feed }, electrode: same.electrode }
}

/**
 * What comes with every hire and is no change of the box: cords for its machines where none of its own serves, and the circuits of the
 * box itself (light, heater, fan), which stand in it though nobody told them.
 */
export function comesAlong({ of }: AsBuilt): ReadonlySet<string> {
  const own = of.whole.circuits.filter((c) => c.own !== null && !of.rowOf.has(c.id)).map((c) => `${c.id}/add`)
  const cords = of.whole.circuits
    .flatMap((c) => c.cords)
    .filter((cord) => cord.sharedWith === undefined && !of.cordOf.has(cord.plug))
    .map((cord) => `${cord.plug}/cord`)
  return new Set([...own, ...cords])
}

export interface Stands {
  readonly assessment: Assessment
  readonly design: Design
  /** What fails and is not the place's own trouble. */
  readonly fails: readonly Finding[]
}

/** The box judged by `assess` as it stands, nothing of it changed. */
export function judgedAsItStands(box: AsBuilt): Stands {
  const keys = comesAlong(box)
  const assessment = judgedWith(box.task, keys)
  return { assessment, design: changedBox(box.of, keys).design, fails: failsOf(box.task, assessment) }
}

/** The cheapest changes after which nothing fails. */
export const changesFor = ({ task }: AsBuilt): Changes => changesOf(task)

/** Material that the place asks of any box, changed or not: feed, electrode, and cords where none of its own serves. */
export function placeMoney(box: AsBuilt): MaterialMoney {
  const { of, task } = box
  const keys = new Set([...comesAlong(box)].filter((key) => key.endsWith('/cord')))
  const cords = [...keys].flatMap((key) => keyMaterials(of, key, keys))
  return pricedMaterials([...boxMaterials(of, 'feed', 'electrode'), ...cords], task.shop.prices)
}

/** The same of the fresh plan, for its boxes. */
export function freshPlaceMoney({ design }: PlanResult, shop: Shop): MaterialMoney {
  const ids = [...new Set(design.boxes.map((b) => b.box))]
  const needs = ids.flatMap((id) => freshMaterials(wholeOf(design.boxes.filter((b) => b.box === id))))
  return pricedMaterials(
    needs.filter((n) => OF_THE_PLACE.has(n.for)),
    shop.prices,
  )
}
const OF_THE_PLACE: ReadonlySet<string> = new Set(['feed', 'electrode', 'cords'])
