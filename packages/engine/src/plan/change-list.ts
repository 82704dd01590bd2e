import type { Shop } from '../assess/index.ts'
import type { BoxDesign, Job } from '../job/index.ts'
import { type Finding, newMemory } from '../kernel/index.ts'
import { pricedMaterials } from '../parts/index.ts'
import type { RuleSet } from '../rules/index.ts'
import { changeHours } from './change-hours.ts'
import { changedBox, type Planned, type Standing, standingOf, wholeOf } from './change-list-box.ts'
import type { Line } from './change-list-line.ts'
import { linesOf } from './change-list-lines.ts'
import {
  cheapestChanges,
  type Found,
  failsOf,
  freshMaterials,
  judgedWith,
  nameOf,
  type SearchTask,
} from './change-list-search.ts'
import type { ChangeList } from './change-list-types.ts'

/**
 * What must be changed on the box that stands, so that it holds where it is to go: one list, none where no box stands. The document
 * tells of one box as built; it is the first one wanted. What holds is kept, whatever size the fresh design would take.
 */
export function changeLists(
  job: Job,
  shop: Shop,
  rules: RuleSet,
  fresh: Planned,
  bars: (f: Finding) => boolean,
): readonly ChangeList[] {
  const box = fresh.design.boxes.find((b) => b.box === job.boxes[0]?.id)?.box
  if (job.built === null || box === undefined) return []
  const of = standingOf(job, job.built, box, fresh, rules)
  const excused = new Set(fresh.assessment.findings.filter(bars).map(nameOf))
  const anew = wholeOf(fresh.design.boxes.filter((b) => b.box === box))
  return [listOf({ of, shop, bars, excused, memory: newMemory() }, anew)]
}

/** The cheapest changes and their lines, without what each of them is needed for. */
export interface Changes extends Omit<ChangeList, 'box' | 'lines' | 'freshMoney' | 'freshIsFloor' | 'bodyAfter' | 'tried'> {
  readonly found: Found
  readonly lines: readonly Line[]
}

export function changesOf(task: SearchTask): Changes {
  const { of, shop } = task
  const found = cheapestChanges(task)
  const asItStands = judgedWith(task, new Set())
  const lines = linesOf(of, found.keys, shop.prices, asItStands.findings, found.assessment.findings)
  const after = changedBox(of, found.keys)
  return {
    ...{ found, lines },
    money: sumOf(lines.map((l) => l.material?.totalMoney ?? 0)),
    moneyIsFloor: lines.some((l) => l.priceUnknown || (l.material?.missing.length ?? 0) > 0),
    lacking: lackingOf(lines),
    hours: changeHours(of, found.keys, shop.factors?.hours?.electrician),
    currency: shop.prices.currency,
    builtAfter: after.job.built ?? of.built,
    designAfter: after.design,
    pinsAfter: [],
    stillFails: found.fails,
    staysUnknown: unknownOf(of, found.assessment.findings),
  }
}

function listOf(task: SearchTask, anew: BoxDesign): ChangeList {
  const { of, shop } = task
  const { found, ...changes } = changesOf(task)
  const lines = changes.lines.map((line) => {
    const without = line.keys.length === 0 ? [] : withoutLine(task, found, line.keys)
    return { ...line, without, must: without.length > 0 }
  })
  const freshPriced = pricedMaterials(freshMaterials(anew), shop.prices)
  return {
    ...changes,
    box: of.box,
    lines,
    freshMoney: freshPriced.totalMoney,
    freshIsFloor: freshPriced.missing.length > 0,
    bodyAfter: changedBox(of, found.keys).job.builtBody,
    tried: found.tried,
  }
}

/** Rows without a price, and lines of which nobody knows the price before somebody looked. */
const lackingOf = (lines: readonly Line[]): readonly string[] => [
  ...new Set(
    lines.flatMap((l) => [
      ...(l.priceUnknown ? [`price of ${l.component}, ${l.tag}`] : []),
      ...(l.material?.missing.map((m) => `price of ${m.id}`) ?? []),
    ]),
  ),
]

/** Codes that fail when these changes alone are left out. */
function withoutLine(
  task: SearchTask,
  found: { readonly keys: ReadonlySet<string>; readonly fails: readonly string[] },
  keys: readonly string[],
): readonly string[] {
  const rest = new Set([...found.keys].filter((key) => !keys.includes(key)))
  const back = failsOf(task, judgedWith(task, rest)).filter((f) => !found.fails.includes(nameOf(f)))
  return [...new Set(back.map((f) => f.code))].toSorted()
}

/** Questions that judge the box and not what feeds it. */
const OF_BOX: ReadonlySet<string> = new Set(['circuits', 'reach', 'faults'])

function unknownOf(of: Standing, findings: readonly Finding[]): readonly string[] {
  const own = findings.filter(
    (f) => f.verdict === 'unknown' && OF_BOX.has(f.question) && (/\/built-/.test(f.code) || f.subject === of.box),
  )
  return [...new Set(own.map((f) => f.code))].toSorted()
}

const sumOf = (money: readonly number[]): number => Math.round(money.reduce((a, b) => a + b, 0) * 100) / 100
