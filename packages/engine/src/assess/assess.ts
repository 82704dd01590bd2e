import { AIR_READS, airNotAsked, answerAir, measuresOf, type WeatherGiven } from '../air/index.ts'
import { type BoxBody, bodyFindings, boxBody } from '../box/index.ts'
import { answerFit, outsideMm } from '../fit/index.ts'
import { answerHaul, HAUL_READS } from '../haul/index.ts'
import { consistency, type Design, documentPath, type Job, jobAsDesigned } from '../job/index.ts'
import {
  BUILT,
  Fault,
  type Finding,
  type Memory,
  noMemory,
  QUESTIONS,
  type QuestionId,
  type Working,
  worst,
} from '../kernel/index.ts'
import { answerMoney, nothingDecided } from '../money/index.ts'
import type { ChangesCost } from '../money/result.ts'
import { answerCircuits } from '../power/circuits/index.ts'
import { answerFaults } from '../power/faults/index.ts'
import { answerNeeds } from '../power/needs/index.ts'
import { answerReach } from '../power/reach/index.ts'
import { answerSupply, billFor, windowPeakKW } from '../power/supply/index.ts'
import type { FeedersWeighed } from '../power/supply/result.ts'
import { type RuleSet, rulesFor } from '../rules/index.ts'
import { answerShop } from '../shop/index.ts'
import { answerDates, chained } from '../site/index.ts'
import { answerSkin, SKIN_READS } from '../skin/index.ts'
import { insideByYear } from './inside.ts'
import type { Assessment, QuestionAnswer, Shop } from './types.ts'

/** The rule set a job names, with its overlays in the order named. @throws Fault `assess/overlay-unknown` */
export function rulesOf(job: Job, shop: Shop): RuleSet {
  return rulesFor(job.rules.set, {
    overlays: job.rules.overlays.map((name) => {
      const overlay = shop.overlays[name]
      if (overlay === undefined) throw new Fault('assess/overlay-unknown', name)
      return overlay
    }),
  })
}

/** What else is known when a design is judged. */
export interface Beside {
  /** What plan found of one service against several. */
  readonly feeders?: FeedersWeighed | undefined
  /** What plan found must be changed on the box that stands. */
  readonly changes?: ChangesCost | undefined
  /** Of the judgement before, so that only questions whose inputs changed are answered again. Gives the same answers as none. */
  readonly memory?: Memory
  /** Hours of a file in place of the year that is made from the climate. */
  readonly weather?: WeatherGiven | undefined
  /** A ranking or a search for sizes asks hundreds of times: no year of hours is run, and `air` says that it was not. */
  readonly withoutAir?: boolean
  /** Day on which it is asked, ISO 8601. Absent: the day of the order. */
  readonly today?: string | undefined
}

/**
 * Answers every question for a complete design. Judges only: it fills no gap and changes no choice, so a fresh plan, a design edited
 * by hand and a box built years ago are held to the same lines. Which box feeds which goes by the design.
 */
export function assess(
  written: Job,
  given: Design,
  shop: Shop,
  { feeders, changes, weather, withoutAir = false, memory = noMemory, today }: Beside = {},
): Assessment {
  const design = memory.settle('design', given)
  const job = memory.settle('job', jobAsDesigned(written, design))
  const rules = memory.recall('rules', { named: job.rules, overlays: shop.overlays }, () => rulesOf(job, shop))
  const inputs = { job, design, feeders, rules, prices: shop.prices }
  const { needs, supply, reach } = loadsOf(inputs, memory)
  const bodies = memory.recall('bodies', { job: { boxes: job.boxes, surveys: job.surveys }, builds: design.builds }, (r) =>
    bodiesOf(r.job, r.builds),
  )
  const steel = Object.values(bodies).map((body) =>
    memory.recall(`steel of ${body.box}`, { job, body }, (r) => bodyFindings(r.job, r.body)),
  )
  const hung = {
    job: { pins: job.pins, offers: job.offers, yard: { corrosivity: job.yard.corrosivity } },
    design: withoutCordLengths(design),
    bodies,
    rules,
    prices: shop.prices,
  }
  const fit = memory.recall('fit', hung, answerFit)
  const skin = memory.recall(
    'skin',
    { job: only(job, SKIN_READS), design: withoutCordLengths(design), bodies, rules },
    answerSkin,
  )
  const haul = memory.recall('haul', { job: only(job, HAUL_READS), design, bodies, rules }, answerHaul)
  // Not built, not run: a year of hours costs too much to be thrown away.
  const air = !BUILT.has('air')
    ? null
    : withoutAir
      ? airNotAsked(design.builds.map((b) => b.box))
      : memory.recall(
          'air',
          {
            ...{ job: only(job, AIR_READS), design: withoutCordLengths(design), bodies, rules, reach: reach.result.boxes },
            ...{ weighed: Object.fromEntries(haul.result.boxes.map((b) => [b.box, b.items])), weather: weather ?? null },
          },
          (reads) => answerAir({ ...reads, memory }),
        )
  // What carries current is judged in the hottest and the coldest air that the year found at it, where nobody told how hot and cold it gets.
  const found = insideByYear(job, air?.result ?? null)
  const { circuits, faults } = devicesOf({ ...inputs, job: found }, needs.result, memory)
  const work = memory.recall(
    'shop',
    {
      ...{ design, bodies, rules, prices: shop.prices, skin: skin.result, haul: haul.result },
      measures: measuresOf({ job, design, bodies, prices: shop.prices }),
      nuts: Object.fromEntries(fit.result.boxes.map((b) => [b.box, b.nuts])),
      ...(shop.factors === undefined ? {} : { factors: shop.factors }),
    },
    (reads) => answerShop({ ...reads, racewayMm: outsideMm, memory }),
  )
  const dates = memory.recall(
    'dates',
    {
      job: chained(job),
      ...(today === undefined ? {} : { today }),
      design: { boxes: design.boxes.map(({ box, phase, offer, interim }) => ({ box, phase, offer, interim })) },
      shop: work.result.boxes.map((b) => ({ box: b.box, steps: b.steps, goods: b.bill.lines.map((l) => l.id) })),
      ...(shop.crew === undefined ? {} : { crew: shop.crew }),
      ...(changes === undefined ? {} : { changes: { box: changes.box, hours: changes.hours, uncounted: changes.uncounted } }),
    },
    answerDates,
  )
  const costed = {
    ...{ job, prices: shop.prices, policy: shop.money ?? nothingDecided },
    ...{ needs: needs.result, supply: supply.result, haul: haul.result, shop: work.result },
    ...(today === undefined ? {} : { today }),
    ...(changes === undefined ? {} : { changes }),
  }
  const money = memory.recall('money', costed, (reads) => answerMoney({ ...reads, meter: { billFor, windowPeakKW } }))
  const answers = [
    consistency(job),
    needs,
    supply,
    circuits,
    reach,
    faults,
    ...steel,
    fit,
    skin,
    ...(air === null ? [] : [air]),
    haul,
    work,
    dates,
    money,
  ]
  const findings = findingsOf(job, answers)
  const workings = answers.flatMap((a) => a.workings)
  return {
    questions: QUESTIONS.map((id) => questionAnswer(id, findings)),
    findings,
    workings: uniqueWorkings(workings),
    assumed: [
      ...assumedIn(job, found),
      ...Object.values(bodies).flatMap((body) => body.assumed.map((a) => ({ ...a, path: documentPath(job, a.path) }))),
      ...dates.assumed,
      ...(air === null ? [] : airAssumed(job, air.assumed)),
    ],
    results: {
      needs: needs.result,
      supply: supply.result,
      circuits: circuits.result,
      reach: reach.result,
      faults: faults.result,
      fit: fit.result,
      skin: skin.result,
      air: air?.result ?? null,
      haul: haul.result,
      shop: work.result,
      dates: dates.result,
      money: money.result,
    },
  }
}

/** The same judgement with something found beside it: questions are answered anew by what all findings say. */
export function withFound(
  of: Assessment,
  found: readonly { readonly finding: Finding; readonly working: Working }[],
): Assessment {
  const findings = [...of.findings, ...found.map((one) => one.finding)]
  return {
    ...of,
    findings,
    questions: QUESTIONS.map((id) => questionAnswer(id, findings)),
    workings: uniqueWorkings([...of.workings, ...found.map((one) => one.working)]),
  }
}

/** What is judged of sizes alone. */
export interface SizesJudged {
  readonly findings: readonly Finding[]
  readonly results: Pick<Assessment['results'], 'needs' | 'supply' | 'circuits' | 'reach' | 'faults'>
}

/**
 * The questions that sizes of supply, devices and conductors answer, of a design that is not laid out: the same answers as `assess` gives
 * to them. A search for sizes asks no more; what it ends with is judged whole.
 */
export function assessSizes(written: Job, design: Design, shop: Shop): SizesJudged {
  const job = jobAsDesigned(written, design)
  const inputs = { job, design, feeders: undefined, rules: rulesOf(job, shop), prices: shop.prices }
  const { needs, supply, reach } = loadsOf(inputs, noMemory)
  const { circuits, faults } = devicesOf(inputs, needs.result, noMemory)
  return {
    findings: findingsOf(job, [consistency(job), needs, supply, circuits, reach, faults]),
    results: {
      needs: needs.result,
      supply: supply.result,
      circuits: circuits.result,
      reach: reach.result,
      faults: faults.result,
    },
  }
}

type PowerInputs = Parameters<typeof answerNeeds>[0] & Parameters<typeof answerSupply>[0] & Parameters<typeof answerReach>[0]

/** What is asked of the supply, and what the runs lose: air sees these. */
function loadsOf(inputs: PowerInputs, memory: Memory) {
  const needs = memory.recall('needs', inputs, answerNeeds)
  return {
    needs,
    supply: memory.recall('supply', { inputs, needs: needs.result }, (r) => answerSupply(r.inputs, r.needs)),
    reach: memory.recall('reach', inputs, answerReach),
  }
}

/** What hangs on how hot and how cold the air inside gets. */
function devicesOf(inputs: PowerInputs, needs: Assessment['results']['needs'], memory: Memory) {
  return {
    circuits: memory.recall('circuits', { inputs, needs }, (r) => answerCircuits(r.inputs, r.needs)),
    faults: memory.recall('faults', inputs, answerFaults),
  }
}

/** A range that a year took the place of is assumed by nobody. */
const assumedIn = (job: Job, found: Job): Job['assumed'] =>
  found === job ? job.assumed : job.assumed.filter(({ path }) => !isReplaced(job, found, path))
function isReplaced(job: Job, found: Job, path: string): boolean {
  const [, nth, which] = /^boxes\[(\d+)\]\.inside-(hot|cold)$/.exec(path) ?? []
  const key = which === 'hot' ? 'insideHotC' : 'insideColdC'
  return nth !== undefined && job.boxes[Number(nth)]?.[key] !== found.boxes[Number(nth)]?.[key]
}

const findingsOf = (job: Job, answers: readonly { readonly findings: readonly Finding[] }[]): readonly Finding[] =>
  answers
    .flatMap((a) => a.findings)
    .filter((f) => BUILT.has(f.question))
    .map((f) => withDocumentPaths(job, f))

/** So much of a job as a question reads: what changes in the rest leaves its answer as it was. */
const only = <K extends keyof Job>(job: Job, keys: readonly K[]): Pick<Job, K> =>
  Object.fromEntries(keys.map((key) => [key, job[key]])) as Pick<Job, K>

/** A machine moved about the yard changes neither the wall nor what is cut in it: how long a cord is is not among what they see. */
const withoutCordLengths = (design: Design): Design => ({
  ...design,
  boxes: design.boxes.map((box) => ({
    ...box,
    circuits: box.circuits.map((c) =>
      c.cords.length === 0 ? c : { ...c, cords: c.cords.map((k) => ({ ...k, lengthM: Number.NaN })) },
    ),
  })),
})

/** The steel of every box that is built in this design, as the table has it or as it was measured. */
function bodiesOf(job: Pick<Job, 'boxes' | 'surveys'>, builds: Design['builds']): Readonly<Record<string, BoxBody>> {
  return Object.fromEntries(
    builds.flatMap(({ box }) => {
      const wanted = job.boxes.find((b) => b.id === box)
      return wanted === undefined ? [] : [[box, boxBody(wanted, job.surveys.find((s) => s.box === box) ?? null)] as const]
    }),
  )
}

function questionAnswer(id: QuestionId, all: readonly Finding[]): QuestionAnswer {
  const own = all.filter((f) => f.question === id)
  const verdict = BUILT.has(id) ? worst(own.map((f) => f.verdict)) : 'not built'
  return { id, verdict, findings: [...new Set(own.map((f) => f.code))] }
}

/**
 * Assumed values under the path where telling them would replace the default. Words that are made when read stay unmade. A finding that was
 * given again, as a memory gives it, is the same one again.
 */
function withDocumentPaths(job: Job, finding: Finding): Finding {
  if (finding.assumed.length === 0) return finding
  const assumed = finding.assumed.map((path) => documentPath(job, path))
  const same = (one: readonly string[]) => assumed.every((path, i) => path === one[i])
  if (same(finding.assumed)) return finding
  const before = told.get(finding)
  if (before !== undefined && same(before.assumed)) return before
  const now = Object.defineProperties(
    {},
    { ...Object.getOwnPropertyDescriptors(finding), assumed: { value: assumed, enumerable: true } },
  ) as Finding
  told.set(finding, now)
  return now
}
/** Of each finding the one whose assumed values stand under their document's paths. */
const told = new WeakMap<Finding, Finding>()

/** Values that air takes where nobody said, under their document's paths; what the job itself records is not told twice. */
const airAssumed = (job: Job, assumed: Assessment['assumed']): Assessment['assumed'] => {
  const told = new Set(job.assumed.map((a) => `${a.path} ${a.said}`))
  const own = assumed.map((a) => ({ ...a, path: documentPath(job, a.path) }))
  return [...new Map(own.map((a) => [`${a.path} ${a.said}`, a])).entries()].flatMap(([key, a]) => (told.has(key) ? [] : [a]))
}

/** Two workings of one id would make a figure's derivation ambiguous. @throws Fault `assess/working-twice` */
function uniqueWorkings(workings: readonly Working[]): readonly Working[] {
  const seen = new Set<string>()
  for (const w of workings) {
    if (seen.has(w.id)) throw new Fault('assess/working-twice', w.id)
    seen.add(w.id)
  }
  return workings
}
