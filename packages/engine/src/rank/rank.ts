import { rulesOf, type Shop } from '../assess/index.ts'
import type { BuiltBody, BuiltBox, Design, Job } from '../job/index.ts'
import { hireTimeOf, monthsBetween, standsFindings } from '../keep/index.ts'
import { type Finding, formatNumber, put, type Verdict, worst } from '../kernel/index.ts'
import { type Booking, type MaterialMoney, type Model, NO_STOCK, type YardBox } from '../parts/index.ts'
import {
  type AsBuilt,
  asBuilt,
  type Changes,
  changesFor,
  choicesOf,
  freshPlaceMoney,
  judgedAsItStands,
  type PlanResult,
  placeMoney,
  plan,
} from '../plan/index.ts'
import type { RuleSet } from '../rules/index.ts'
import { earliestOf, HOURS_PER_DAY, inTimeOf, newWorkDays } from './days.ts'
import { modelThing, newThing, pricedThing, standingThing } from './price.ts'
import { BEYOND_CHANGE, reasonOf, reasonsOf } from './reasons.ts'
import { type Terms, termsOf } from './terms.ts'
import type { ChangesNeeded, Does, Ranked, Ranking } from './types.ts'

export interface RankOptions {
  /** Name of the call, by which the yard knows how far it is. */
  readonly call?: string
  /** A plan of this job that was made already; of a job with a box that stands it is made again without it. */
  readonly fresh?: PlanResult
}

/** One thing that might do for the call. */
interface Candidate {
  readonly kind: Ranked['kind']
  readonly id: string
  readonly name: string
  readonly revision: string | null
  readonly built: BuiltBox
  readonly body: BuiltBody | null
  readonly bookings: readonly Booking[]
  /** Days before the first of its changes can begin; null: unknown. */
  readonly leadDays: number | null
  readonly yard: YardBox | null
  readonly model: Model | null
}

type Unplaced = Omit<Ranked, 'rankCount' | 'whyNotBetter'>

/**
 * What would do for a call, best first: boxes in the yard, the box of the job, house models, and a new plan. Each is judged by `assess` as
 * it stands; where that fails and work in the shop can mend it, the cheapest changes are sought.
 *
 * Order: does as it stands; does after a test; a model as drawn, anything with changes, a new plan; does not. Within each: in time before
 * late, then priced before not, then money (one kind for all), then name. So a box more can only move others down.
 * @throws Fault `plan/no-offer` when the job names no supply at all
 */
export function rankModels(written: Job, shop: Shop, options: RankOptions = {}): Ranking {
  const job: Job = { ...written, built: null, builtBody: null }
  const rules = rulesOf(job, shop)
  const fresh = options.fresh !== undefined && written.built === null ? options.fresh : plan(job, shop, undefined, { withoutAir: true })
  const terms = termsOf(job, shop)
  const call = options.call ?? null
  let judgedCount = 1
  const rows = candidatesOf(written, shop).map((candidate) => {
    const { row, work } = rowOf(candidate, { job, shop, rules, fresh, terms, call })
    judgedCount += work
    return row
  })
  const all = [...rows, newRow(job, fresh, shop, terms)].toSorted(byRank)
  const [first] = all
  const ranked = all.map((row, i) => ({ ...row, rankCount: i + 1, whyNotBetter: whyNotBetter(row, first!) }))
  return { ranked, rankedBy: terms.kind, rankedByBecause: terms.kindBecause, judgedCount }
}

/** Every box in the yard, the box of the job, every model. */
function candidatesOf(job: Job, shop: Shop): readonly Candidate[] {
  const stock = shop.stock ?? NO_STOCK
  const time = hireTimeOf(job)
  const yard = stock.yard.map((box): Candidate => {
    const months =
      box.testedOn === null ? box.built.lastFullTestMonthsAgo : time === null ? null : monthsUp(box.testedOn, time.from)
    return {
      ...{ kind: 'box in the yard', id: box.id, name: box.id, revision: null, leadDays: 0, yard: box, model: null },
      ...{ built: { ...box.built, lastFullTestMonthsAgo: months }, body: box.body, bookings: box.bookings },
    }
  })
  const models = stock.models.map(
    (model): Candidate => ({
      ...{ kind: 'model', id: model.id, name: model.name, revision: model.revision, leadDays: model.leadDays, yard: null, model },
      ...{ built: model.built, body: model.body, bookings: [] },
    }),
  )
  const own: Candidate[] =
    job.built === null
      ? []
      : [
          {
            ...{
              kind: 'box of the job',
              id: job.boxes[0]?.id ?? 'box',
              name: 'the box that stands',
              revision: null,
              leadDays: 0,
            },
            ...{ built: job.built, body: job.builtBody, bookings: [], yard: null, model: null },
          },
        ]
  return [...own, ...yard, ...models]
}

/** Up to the next tenth: a day over a year is over a year. */
const monthsUp = (from: string, to: string): number => Math.ceil(monthsBetween(from, to) * 10 - 1e-9) / 10

interface Setting {
  readonly job: Job
  readonly shop: Shop
  readonly rules: RuleSet
  readonly fresh: PlanResult
  readonly terms: Terms
  readonly call: string | null
}

function rowOf(candidate: Candidate, setting: Setting): { readonly row: Unplaced; readonly work: number } {
  const { job, shop, rules, fresh, terms } = setting
  const box = asBuilt(job, candidate, fresh, shop, rules)
  if (box === null) return { row: unjudged(candidate, setting), work: 0 }
  const stands = judgedAsItStands(box)
  const stock = shop.stock ?? NO_STOCK
  const keep = standsFindings({ job, ...candidate, turnRoundDays: stock.hire.turnRoundDays })
  const more = [...keep, ...pinnedFindings(job, candidate, stands.design), ...rulesFindings(job, candidate)]
  const reasons = reasonsOf([...stands.fails, ...more.filter((f) => f.verdict === 'fails')])
  const testOnly = reasons.length === 1 && reasons[0]?.reason === 'test'
  const mendable = reasons.length > 0 && !testOnly && !reasons.some((r) => BEYOND_CHANGE.has(r.reason))
  const found = mendable ? changesFor(box) : null
  const changes = found === null ? null : neededOf(found, setting, candidate)
  const does = doesOf(candidate, reasons.length, testOnly, changes)
  const judgedOn = stands.assessment.findings.filter((f) => isOfBox(f, box, candidate))
  const findings = [...stands.fails, ...more]
  const unknown = unknownIn([...judgedOn, ...more], changes, does)
  const verdict: Verdict =
    does === 'not'
      ? 'fails'
      : unknown.length > 0 || does === 'after a test'
        ? 'unknown'
        : changes === null
          ? worst([...judgedOn, ...more].map((f) => f.verdict))
          : 'holds'
  const workDays = (changes?.days ?? 0) + (testOnly ? 1 : 0)
  const earliest = earliestOf(job, fresh, { leadDays: candidate.leadDays, workDays })
  const thing =
    candidate.model !== null
      ? modelThing(candidate.model, terms)
      : standingThing(candidate.yard, candidate.body, setting.call, terms)
  const priced = pricedThing(thing, { changes, testFirst: testOnly, place: placeMoney(box) }, terms)
  return {
    row: {
      ...{ kind: candidate.kind, id: candidate.id, name: candidate.name, revision: candidate.revision },
      ...{ does, verdict, reasons, unknown, changes, earliest, inTime: inTimeOf(job, earliest), ...priced, findings },
      design: found?.designAfter ?? stands.design,
    },
    work: 1 + (found?.found.tried ?? 0),
  }
}

function doesOf(candidate: Candidate, reasons: number, testOnly: boolean, changes: ChangesNeeded | null): Does {
  if (reasons === 0) return candidate.kind === 'model' ? 'as drawn' : 'as it stands'
  if (testOnly) return 'after a test'
  return changes !== null && changes.stillFails.length === 0 ? 'with changes' : 'not'
}

/** Findings on the box and what hangs on it, not on who feeds it. */
const OF_BOX: ReadonlySet<string> = new Set(['circuits', 'reach', 'faults'])
const isOfBox = (f: Finding, box: AsBuilt, candidate: Candidate): boolean =>
  OF_BOX.has(f.question) &&
  (f.code.includes('/built-') ? candidate.kind !== 'model' || f.code !== 'circuits/built-approval' : f.subject === box.of.box)

function unknownIn(findings: readonly Finding[], changes: ChangesNeeded | null, does: Does): readonly string[] {
  const told = findings.filter((f) => f.verdict === 'unknown').map((f) => f.code)
  const codes =
    does === 'with changes' && changes !== null ? [...changes.staysUnknown, ...told.filter((c) => c.startsWith('keep/'))] : told
  return [...new Set(codes)].toSorted()
}

/** What makes a model that model: with another board it is another one. */
const OF_MODEL: ReadonlySet<string> = new Set(['panel', 'main'])

function neededOf(found: Changes, { terms }: Setting, { model }: Candidate): ChangesNeeded {
  const keys = found.found.keys
  const { hours, lacking } = found
  const labourMoney = terms.ratePerHMoney === null ? null : Math.round(hours.middle * terms.ratePerHMoney * 100) / 100
  return {
    parts: found.lines
      .filter((l) => l.action !== 'keep')
      .map(({ tag, component, action, quantity, asBuilt: was, needed, why }) => ({
        tag,
        what: component,
        action,
        quantity,
        asBuilt: was,
        needed,
        why,
      })),
    hours: { low: hours.low, middle: hours.middle, high: hours.high },
    hoursAreFloor: hours.uncounted.length > 0,
    materialMoney: found.money,
    labourMoney,
    lacking,
    uncounted: hours.uncounted,
    moneyIsFloor: found.moneyIsFloor || hours.uncounted.length > 0 || labourMoney === null,
    days: Math.ceil(hours.middle / HOURS_PER_DAY),
    stillFails: [
      ...found.stillFails,
      ...(model === null ? [] : [...keys].filter((key) => OF_MODEL.has(key)).map((key) => `keep/other-board ${key}`)),
    ],
    // Where things hang inside was not told: whether more of them find room is not known.
    staysUnknown: [
      ...found.staysUnknown,
      ...([...keys].some((key) => key.endsWith('/add')) ? ['fit/not-designed'] : []),
    ].toSorted(),
  }
}

/** A pin of the job is held against what stands: it is never changed to suit a box. */
function pinnedFindings(job: Job, candidate: Candidate, design: Design): readonly Finding[] {
  const has = choicesOf(design)
  return job.pins.flatMap((pin): readonly Finding[] => {
    const values = has.filter(([path]) => path === pin.path).map(([, value]) => value)
    const other = values.find((value) => !sameChoice(value, pin.value))
    if (other === undefined) return []
    return [
      {
        ...{ code: 'keep/pinned', question: 'keep', subject: candidate.id, verdict: 'fails', basis: 'house' },
        said: `${pin.path} is pinned to ${pin.value} by ${pin.by}; here it is ${other}.`,
        demand: put(pin.path, pinValue(pin.value)),
        limit: put('here', pinValue(other)),
        ...{ provenance: 'told', assumed: [], workings: [], mends: [] },
      },
    ]
  })
}

const pinValue = (value: string | number | boolean): string | number => (typeof value === 'boolean' ? String(value) : value)
const sameChoice = (a: string | number | boolean, b: string | number | boolean): boolean =>
  typeof a === 'number' ? Number.parseFloat(String(b)) === a : String(a) === String(b)

/** A model is drawn under one rule set: under another it is drawn anew. */
function rulesFindings(job: Job, candidate: Candidate): readonly Finding[] {
  if (candidate.model === null) return []
  const same = candidate.model.rules === job.rules.set
  return [
    {
      ...{ code: 'keep/rules', question: 'keep', subject: candidate.id, verdict: same ? 'holds' : 'fails', basis: 'code' },
      said: same
        ? `Drawn under ${job.rules.set}, as the place asks.`
        : `Drawn under ${candidate.model.rules}; the place asks ${job.rules.set}.`,
      demand: put('rules', job.rules.set),
      limit: put('drawn under', candidate.model.rules),
      ...{ provenance: 'told', assumed: [], workings: [], mends: [] },
    },
  ]
}

const NO_PLACE: MaterialMoney = { currency: '', lines: [], totalMoney: 0, missing: [] }
const NOTHING = { what: 'what was not judged', costMoney: null, from: 'it was not judged', lacking: [] }

/** The job wants no box of its own: nothing can be put there. */
function unjudged(candidate: Candidate, { job, terms }: Setting): Unplaced {
  return {
    ...{
      kind: candidate.kind,
      id: candidate.id,
      name: candidate.name,
      revision: candidate.revision,
      does: 'not',
      verdict: 'unknown',
    },
    ...{
      reasons: [],
      unknown: ['keep/no-box'],
      changes: null,
      earliest: null,
      inTime: inTimeOf(job, null),
      findings: [],
      design: null,
    },
    ...pricedThing(NOTHING, { changes: null, testFirst: false, place: NO_PLACE }, terms),
  }
}

function newRow(job: Job, fresh: PlanResult, shop: Shop, terms: Terms): Unplaced {
  const place = freshPlaceMoney(fresh, shop)
  const priced = pricedThing(newThing(fresh, place, terms), { changes: null, testFirst: false, place }, terms)
  const reasons = reasonsOf(
    fresh.sound ? [] : fresh.assessment.findings.filter((f) => fresh.chosen.fails.includes(`${f.code} ${f.subject}`)),
  )
  const earliest =
    fresh.assessment.results.dates.earliest ?? earliestOf(job, fresh, { leadDays: 0, workDays: newWorkDays(fresh) })
  return {
    ...{ kind: 'new plan', id: 'new', name: `new: ${fresh.chosen.id}`, revision: null, does: fresh.sound ? 'as planned' : 'not' },
    verdict: fresh.sound
      ? worst(fresh.assessment.questions.flatMap((q) => (q.verdict === 'not built' || q.verdict === 'fails' ? [] : [q.verdict])))
      : 'fails',
    ...{ reasons, unknown: [], changes: null, earliest, inTime: inTimeOf(job, earliest), ...priced },
    ...{ findings: [], design: fresh.design },
  }
}

const TIER: Readonly<Record<Does, number>> = {
  ...{ 'as it stands': 0, 'after a test': 1, 'as drawn': 2, 'with changes': 2, 'as planned': 2, not: 3 },
}
const LATE = (row: Unplaced): number => (row.inTime === true ? 0 : row.inTime === null ? 1 : 2)

type Key = readonly [tier: number, late: number, reasons: number, unpriced: number, money: number]
const keyOf = (row: Unplaced): Key => [
  TIER[row.does],
  LATE(row),
  row.does === 'not' ? row.reasons.length : 0,
  // What nobody has priced is not cheap.
  row.price.isPriced ? 0 : 1,
  row.price.totalMoney,
]

/** Total order: ties go by name. */
export function byRank(a: Unplaced, b: Unplaced): number {
  const [ka, kb] = [keyOf(a), keyOf(b)]
  for (const [i, x] of ka.entries()) if (x !== kb[i]) return x - kb[i]!
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0
}

function whyNotBetter(row: Unplaced, first: Unplaced): string {
  if (row === first) return ''
  if (row.does === 'not') {
    const against =
      row.changes === null
        ? row.reasons.map((r) => r.reason)
        : [...new Set(row.changes.stillFails.map((f) => reasonOf(f.split(' ')[0]!)))]
    const words = against.length === 0 ? 'it was not judged' : against.join(', ')
    return row.changes === null ? `does not do: ${words}` : `does not do even when changed: ${words}`
  }
  if (TIER[row.does] !== TIER[first.does]) return `does ${WORDS[row.does]}; ${first.id} does ${WORDS[first.does]}`
  if (LATE(row) !== LATE(first)) return row.inTime === false ? 'later than it is needed' : 'nobody can say when it is there'
  if (row.price.isPriced !== first.price.isPriced) return `nobody said its ${row.price.is === 'sale' ? 'price' : 'rent'}`
  const more = Math.round(row.price.totalMoney - first.price.totalMoney)
  return more > 0
    ? `${formatNumber(more)} ${row.price.currency} dearer than ${first.id}`
    : `as dear as ${first.id}, and later by name`
}

const WORDS: Readonly<Record<Does, string>> = {
  ...{ 'as it stands': 'as it stands', 'after a test': 'after a full test', 'as drawn': 'as drawn, once built' },
  ...{ 'with changes': 'once changed', 'as planned': 'once planned and built', not: 'not' },
}
