import { airWith, chooseAdditions } from '../air/index.ts'
import { assess, type Shop } from '../assess/index.ts'
import { type AirDesign, airPinsOf, type Design, type Job, type Pin } from '../job/index.ts'
import { newMemory, type Verdict } from '../kernel/index.ts'
import type { RuleSet } from '../rules/index.ts'
import { spreadOf } from '../shop/index.ts'
import { airChosen } from './air.ts'
import { bodyOf, skinOf } from './build.ts'
import { type Added, additions, lineOf } from './change-list-air-lines.ts'
import { changedBox, type Planned, standingOf } from './change-list-box.ts'
import { nameOf } from './change-list-search.ts'
import type { ChangeLine, ChangeList } from './change-list-types.ts'

interface Put {
  readonly job: Job
  readonly shop: Shop
  readonly rules: RuleSet
  readonly box: string
  /** The box with every other line of the list done. */
  readonly after: { readonly job: Job; readonly design: Design }
}

/**
 * The list with what must be added so that the air of the box fails in nothing: measures at least cost on top of what stands, each proven by
 * `assess` with it left out; one without which every verdict is as good is not on it. The same list where nothing of the air fails.
 */
export function withAirChanges(
  list: ChangeList,
  { job, shop, rules, fresh }: Pick<Put, 'job' | 'shop' | 'rules'> & { readonly fresh: Planned },
): ChangeList {
  const stands = new Set(
    fresh.assessment.findings.flatMap((f) => (f.question === 'air' && f.verdict === 'fails' ? [f.code] : [])),
  )
  if (stands.size === 0 || job.built === null) return list
  const of = standingOf(job, job.built, list.box, fresh, rules)
  const after = changedBox(of, new Set(list.lines.flatMap((l) => l.keys)))
  const put: Put = { ...{ job, shop, rules, after }, box: list.box }
  const judge = judgeOf(put)
  const air = chosenFor(put)
  if (air === null) return list
  const kept = withoutIdle(additions({ ...put, job: after.job, air }), judge)
  const done = judge(kept)
  const lines = kept.map((one): ChangeLine => {
    const without = worse(done, judge(kept.filter((other) => other !== one)))
    return {
      ...lineOf(one, shop.prices),
      codes: without.filter((code) => stands.has(code)),
      without,
      must: without.length > 0,
    }
  })
  return withLines(list, lines, kept, { shop, done })
}

function withLines(
  list: ChangeList,
  lines: readonly ChangeLine[],
  kept: readonly Added[],
  { shop, done }: { readonly shop: Shop; readonly done: Judged },
): ChangeList {
  const spread = spreadOf(shop.factors?.hours?.electrician, true)
  const hours = kept.flatMap((one) => one.measures).reduce((sum, m) => sum + m.hours, 0)
  const missing = lines.flatMap((l) => l.material?.missing.map((m) => `price of ${m.id}`) ?? [])
  const wiring = lines.flatMap((l) => (l.priceUnknown ? [`wiring of the ${l.tag}`] : []))
  return {
    ...list,
    lines: [...list.lines, ...lines],
    money: Math.round((list.money + lines.reduce((sum, l) => sum + (l.material?.totalMoney ?? 0), 0)) * 100) / 100,
    moneyIsFloor: list.moneyIsFloor || missing.length > 0 || wiring.length > 0,
    lacking: [...new Set([...list.lacking, ...missing, ...wiring])],
    hours: {
      low: list.hours.low + hours * spread.low,
      middle: list.hours.middle + hours * spread.middle,
      high: list.hours.high + hours * spread.high,
      uncounted: [...list.hours.uncounted, ...wiring],
    },
    pinsAfter: kept.flatMap((one) => one.pins),
    designAfter: done.design,
    stillFails: [...list.stillFails, ...done.fails],
  }
}

function chosenFor({ after, rules, shop, box }: Put): AirDesign | null {
  const { reach } = assess(after.job, after.design, shop, { withoutAir: true }).results
  const all = airChosen({
    ...{ job: after.job, design: after.design, rules, prices: shop.prices },
    ...{ reach: reach.boxes, choose: chooseAdditions },
  })
  return all.find((one) => one.box === box)?.air ?? null
}

interface Judged {
  readonly design: Design
  /** Codes and subjects of the air that fail. */
  readonly fails: readonly string[]
  readonly verdicts: ReadonlyMap<string, Verdict>
}

type Judge = (added: readonly Added[]) => Judged

/** The box with measures on top of what stands, judged whole by `assess`; each set once. */
function judgeOf({ after, box, shop, rules }: Put): Judge {
  const memory = newMemory()
  const known = new Map<string, Judged>()
  return (added) => {
    const pins = added.flatMap((one) => one.pins)
    const key = pins.map((p) => p.path).join(' ')
    const had = known.get(key)
    if (had !== undefined) return had
    const job = withPins(after.job, pins)
    const builds = after.design.builds.map((b) => (b.box === box && pins.length > 0 ? builtWith(job, after.design, b, rules) : b))
    const design = { ...after.design, builds }
    const assessment = assess(job, design, shop, { memory })
    const air = assessment.findings.filter((f) => f.question === 'air')
    const judged: Judged = {
      ...{ design, fails: air.filter((f) => f.verdict === 'fails').map(nameOf) },
      verdicts: new Map(air.map((f) => [nameOf(f), f.verdict])),
    }
    known.set(key, judged)
    return judged
  }
}

export const withPins = (job: Job, pins: readonly Pin[]): Job => ({
  ...job,
  pins: [...job.pins.filter((p) => pins.every((one) => one.path !== p.path)), ...pins],
})

/** The build with what is pinned of its air, its openings cut for it; all else as it hangs. */
function builtWith(job: Job, design: Design, build: Design['builds'][number], rules: RuleSet): Design['builds'][number] {
  const body = bodyOf(job, build.box)
  const air = airWith(build.air, airPinsOf(job.pins, build.box), body)
  const designs = design.boxes.filter((b) => b.box === build.box)
  return { ...build, air, skin: skinOf({ job, body, designs, rules, air }) }
}

/** Each tried left out, the dearest first: one that no verdict hangs on is not added. */
function withoutIdle(all: readonly Added[], judge: Judge): readonly Added[] {
  const money = (one: Added): number => one.measures.reduce((sum, m) => sum + (m.money ?? 0), 0)
  let kept = all
  for (const one of all.toSorted((a, b) => money(b) - money(a))) {
    const rest = kept.filter((other) => other !== one)
    if (worse(judge(kept), judge(rest)).length === 0) kept = rest
  }
  return kept
}

/** Codes that fail, or are no longer known to hold, in the second and not in the first. */
function worse(first: Judged, second: Judged): readonly string[] {
  const bad = (v: Verdict | undefined): number => (v === 'fails' ? 2 : v === 'unknown' ? 1 : 0)
  const names = [...second.verdicts].filter(([name, verdict]) => bad(verdict) > bad(first.verdicts.get(name)))
  return [...new Set(names.map(([name]) => name.split(' ')[0]!))].toSorted()
}
