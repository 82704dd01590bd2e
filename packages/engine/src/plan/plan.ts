import {
  type Assessment,
  assess,
  assessSizes,
  type Beside,
  insideByYear,
  rulesOf,
  type Shop,
  type SizesJudged,
  yearsHottestC,
} from '../assess/index.ts'
import { type AirDesign, type Design, type Job, withInsideHot, withWired } from '../job/index.ts'
import { BUILT, Fault, type Finding, formatNumber, noMemory } from '../kernel/index.ts'
import type { RuleSet } from '../rules/index.ts'
import { type AirChosen, airChosen } from './air.ts'
import { type Built, besideOf, buildsOf, longerRuns, runsOf, sharedIn, unledIn } from './build.ts'
import { changeLists } from './change-list.ts'
import { withAirChanges } from './change-list-air.ts'
import { designOf } from './design.ts'
import { jobAsPinned, sharedService } from './feeders.ts'
import { type Growth, grownBy, NOTHING_GROWN } from './grow.ts'
import { type Option, optionsOf, readyDate } from './options.ts'
import { screenedOut } from './screen.ts'
import type { Candidate, PlanResult } from './types.ts'
import { feedersWeighed } from './weigh-feeders.ts'
import { counted, type Watch, type Work } from './work.ts'

/** A loop that has not ended after this many rounds is our mistake, not a result. */
const MOST_ROUNDS = 8
const RUNNERS_UP = 3

/** Sizes found for one option, not laid out yet. */
interface Tried extends Candidate {
  readonly option: Option
}

interface LaidOut extends Tried {
  readonly assessment: Assessment
  readonly air: readonly AirChosen[]
  /** Hottest air at the gear, °C by box, that circuits were sized for by the year; the bounds of the job for any other. */
  readonly insideC: ReadonlyMap<string, number>
}

/**
 * Fills every choice that is not pinned and returns the complete design that costs least by the job's goal among those in which nothing
 * fails, the runners-up, and why every other one lost. Where none is free of failures, the one with the fewest, and it says so.
 * @throws Fault `plan/no-offer` when the job names no supply at all · `plan/no-end`
 */
export function plan(job: Job, shop: Shop, watch: Watch = () => {}, { withoutAir = false }: PlanOptions = {}): PlanResult {
  const rules = rulesOf(job, shop)
  const work = counted(watch, withoutAir)
  const found = freshPlan(job, shop, rules, work)
  const changeList = changeLists(insideByYear(job, found.assessment.results.air), shop, rules, found, bars).map((l) =>
    withAirChanges(l, { job, shop, rules, fresh: found }),
  )
  if (changeList.length === 0) return { ...found, changeList }
  // The change list is part of what the box costs: asked again with it.
  const beside = { ...found.beside, changes: changesCostOf(changeList[0]!) }
  return { ...found, beside, assessment: assess(job, found.design, shop, { ...beside, ...judging(work) }), changeList }
}

export interface PlanOptions {
  /** Sizes and layout alone, as a ranking of many asks: `air` stays unknown and says so. */
  readonly withoutAir?: boolean
}

const judging = ({ withoutAir, memory }: Work) => ({ withoutAir, memory })

function changesCostOf({
  box,
  money,
  currency,
  lacking,
  hours,
}: PlanResult['changeList'][number]): NonNullable<Beside['changes']> {
  const { uncounted, ...ends } = hours
  return { box, partsMoney: money, currency, lacking, hours: ends, uncounted }
}

type Fresh = Omit<PlanResult, 'changeList'>

function freshPlan(job: Job, shop: Shop, rules: RuleSet, work: Work): Fresh {
  const free = planWith(job, shop, rules, work)
  if (free === null) {
    const supply = job.pins.filter((p) => /^(supply|service|staging)\./.test(p.path))
    const loosened = planWith(
      without(
        job,
        supply.map((p) => p.path),
      ),
      shop,
      rules,
      work,
    )
    if (loosened === null) throw new Fault('plan/no-offer', job.title)
    return { ...loosened, sound: false, pinsInTheWay: supply.map((p) => p.path) }
  }
  if (free.sound || job.pins.length === 0) return free
  // What bars a design is never its air.
  const sizes = { ...work, withoutAir: true, memory: noMemory }
  const inTheWay = job.pins.filter((p) => planWith(without(job, [p.path]), shop, rules, sizes)?.sound === true).map((p) => p.path)
  return { ...free, pinsInTheWay: inTheWay }
}

function without(job: Job, paths: readonly string[]): Job {
  return { ...job, pins: job.pins.filter((p) => !paths.includes(p.path)) }
}

function planWith(written: Job, shop: Shop, rules: RuleSet, work: Work): Fresh | null {
  const job = jobAsPinned(written)
  const system = rules.systems.find((s) => s.id === job.system)
  if (system === undefined) throw new Fault('plan/system-unknown', job.system)
  const shared = sharedService(job, rules, system)
  const { options, refused } = optionsOf(job, rules, system, shared)
  const screened = new Map(screenedOut(job, rules, system, options))
  const quick = triedOf(
    job,
    shop,
    rules,
    options.filter((o) => !screened.has(o.id)),
    true,
    work,
  )
  const sound = quick.tried.some((t) => t.fails.length === 0)
  for (const { id, why } of quick.spared) screened.set(id, why)
  // Where nothing is free of failures every option is carried to the end of its growth, so that the one shown fails in nothing that a size mends.
  // One service for several boxes that is too small for them stays out: a service for each is never worse there.
  const carried = options.filter((o) => o.feeders === null || !screened.has(o.id))
  const { tried } = sound ? quick : triedOf(job, shop, rules, carried, false, work)
  const first = tried.toSorted((a, b) => better(job, a, b))
  const chosen = firstThatHolds(job, shop, rules, first, work)
  if (chosen === null) return null
  const order = [chosen, ...first.filter((t) => t.id !== chosen.id)]
  const rest = order.slice(1)
  const runnersUp = rest.filter((t) => t.fails.length === 0).slice(0, RUNNERS_UP)
  const left = [...screened].filter(([id]) => !tried.some((t) => t.id === id)).map(([id, why]) => ({ id, why }))
  const lost = rest.filter((t) => !runnersUp.includes(t)).map((t) => ({ id: t.id, why: whyLost(t, chosen, job.money.currency) }))
  const feeders = shared === null ? undefined : feedersWeighed(shared, order, left, job.money.currency)
  return {
    design: chosen.design,
    beside: { feeders },
    assessment: feeders === undefined ? chosen.assessment : assess(job, chosen.design, shop, { feeders, ...judging(work) }),
    chosen: candidateOf(chosen),
    runnersUp: runnersUp.map(candidateOf),
    lost: [...lost, ...left, ...refused],
    sound: chosen.fails.length === 0,
    pinsInTheWay: [],
    air: chosen.air,
    tried: tried.length + left.length,
    currency: job.money.currency,
  }
}

/**
 * Works out options one by one; a control begins with the sizes that the bare supply before it grew to. An interlock is spared where the
 * bare supply carries everything: it would only add money. `quick`: an option that no size can mend ends at once.
 */
function triedOf(
  job: Job,
  shop: Shop,
  rules: RuleSet,
  options: readonly Option[],
  quick: boolean,
  work: Work,
): { readonly tried: readonly Tried[]; readonly spared: readonly Lost[] } {
  const bare = new Map<string, { readonly growth: Growth; readonly sound: boolean }>()
  const tried: Tried[] = []
  const spared: Lost[] = []
  work.more(options.length)
  for (const option of options) {
    work.one()
    const each = `${option.offer.id} ${option.serviceA} ${option.transformer?.kVA ?? 0}`
    const same = option.feeders === null ? each : `${each} shared`
    const before = bare.get(same)
    const from = before?.growth ?? withoutFeed(bare.get(each)?.growth)
    if (option.control === 'interlock' && before?.sound === true) {
      spared.push({ id: option.id, why: 'the same service carries everything on: the interlock would hold back nothing' })
      continue
    }
    const [result, growth] = workedOut(job, shop, rules, option, from, quick)
    tried.push(result)
    if (option.control === 'none') bare.set(same, { growth, sound: result.fails.length === 0 })
  }
  return { tried, spared }
}

type Lost = PlanResult['lost'][number]

/** Where one service for several boxes begins: as a service for each ended, but for the feed, which is then another. */
function withoutFeed(growth: Growth | undefined): Growth {
  if (growth === undefined) return NOTHING_GROWN
  const { feed: _other, ...lines } = growth.lines
  return { ...growth, lines }
}

/** Options that are laid out before the one with the fewest failures is shown. */
const MOST_LAID_OUT = 4

/**
 * The best option that still holds when its boxes are laid out; of those that were laid out the one with the fewest failures where none
 * does. Null without any option.
 */
function firstThatHolds(job: Job, shop: Shop, rules: RuleSet, order: readonly Tried[], work: Work): LaidOut | null {
  const laid: LaidOut[] = []
  for (const t of order.slice(0, MOST_LAID_OUT)) {
    work.more(1)
    work.one()
    const out = laidOut(job, shop, rules, t, work)
    if (out.fails.length === 0) return withYear(job, shop, rules, out, work)
    laid.push(out)
    // What fails on paper fails on the wall: a layout mends no supply. And no supply mends a roof or a wall.
    if (t.fails.length > 0 || out.fails.every((f) => /^(fit|skin|haul|shop)\//.test(f))) break
  }
  const [least] = laid.toSorted((a, b) => a.fails.length - b.fails.length)
  return least === undefined ? null : withYear(job, shop, rules, least, work)
}

/**
 * Only what is shown is taken through its year: air bars no option. Where the year is hotter at the gear than what it was sized for, as
 * after thinner wires that lose more, it is laid out again for that. Temperatures only grow.
 * @throws Fault `plan/no-end`
 */
function withYear(job: Job, shop: Shop, rules: RuleSet, laid: LaidOut, work: Work): LaidOut {
  if (work.withoutAir) return laid
  let out = laid
  for (let round = 1; round <= MOST_ROUNDS; round++) {
    const assessment = assess(job, out.design, shop, judging(work))
    const found = yearsHottestC(assessment.results.air)
    const hotter = [...found].filter(([box, hotC]) => hotC > (out.insideC.get(box) ?? Infinity))
    if (hotter.length === 0) return { ...out, assessment }
    out = laidOut(job, shop, rules, out, work, new Map([...out.insideC, ...hotter]))
  }
  throw new Fault('plan/no-end', laid.id)
}

/**
 * An option with its boxes built, and every run as long as its raceways lead it: circuits are sized again by the true lengths, and laid
 * out again, until no length changes. Where not every circuit finds a way, more of them share a raceway. Lengths and sharing only grow.
 * @throws Fault `plan/no-end`
 */
function laidOut(
  job: Job,
  shop: Shop,
  rules: RuleSet,
  t: Tried,
  work: Work,
  known: ReadonlyMap<string, number> = new Map(),
): LaidOut {
  let best: LaidOut | null = null
  let builds: readonly Built[] = []
  let together: Growth['together']
  let unledCount = Infinity
  let air: readonly AirChosen[] | null = null
  let insideC = known
  let wired = withInsideHot(job, insideC)
  for (let step = 0; step <= SHARING_STEPS; step++) {
    const shared = together === undefined ? NOTHING_GROWN : { ...NOTHING_GROWN, together }
    let settled = settledLayout(wired, shop, rules, t, {
      ...{
        shared,
        growth: shared,
        builds,
        airs: airsOf(air),
        sized: step === 0 ? t.design : sizedAgain(wired, shop, rules, t, shared),
      },
    })
    if (air === null) {
      const seen = `${t.option.transformer?.kVA ?? 0} kVA, ${t.option.control}`
      air = work.air.get(seen) ?? (BUILT.has('air') && !work.withoutAir ? chosenFor(job, shop, rules, settled) : [])
      work.air.set(seen, air)
      insideC = new Map([...hottestOf(air), ...known])
      wired = withInsideHot(withWired(job, airsOf(air)), insideC)
      if (air.length > 0) {
        // Where its circuits stay as they are the layout goes on from where it stands: only other openings move anything.
        const sized = wired === job ? settled.sized : sizedAgain(wired, shop, rules, t, settled.growth)
        const same = JSON.stringify(sized) === JSON.stringify(settled.sized)
        settled = settledLayout(wired, shop, rules, t, {
          ...(same ? settled : { builds: [], growth: shared, sized: sizedAgain(wired, shop, rules, t, shared) }),
          ...{ shared, airs: airsOf(air) },
        })
      }
    }
    builds = settled.builds
    const design = { ...settled.sized, builds: builds.map((b) => b.build) }
    const assessment = assess(withInsideHot(job, insideC), design, shop, { withoutAir: true })
    const judged = { ...judgedOf(job, shop, t.option, design, assessment), assessment, air, insideC }
    if (best === null || judged.fails.length < best.fails.length) best = judged
    const unled = unledIn(settled.sized, builds)
    const count = [...unled.values()].reduce((sum, of) => sum + of.size, 0)
    // Sharing more mends nothing where it mended nothing before.
    if (count === 0 || count >= unledCount) break
    unledCount = count
    together = joined(together ?? {}, sharedIn(builds, step + 1, unled))
  }
  return best!
}

interface Settled {
  readonly sized: Design
  readonly growth: Growth
  readonly builds: readonly Built[]
}

/** Sizes and layout, round about, until no length changes. @throws Fault `plan/no-end` */
function settledLayout(
  job: Job,
  shop: Shop,
  rules: RuleSet,
  t: Tried,
  from: Settled & { readonly shared: Growth; readonly airs: ReadonlyMap<string, AirDesign> },
): Settled {
  let { sized, growth, builds } = from
  for (let round = 1; ; round++) {
    if (round > MOST_ROUNDS) throw new Fault('plan/no-end', t.id)
    builds = buildsOf(job, sized, rules, shop.prices, builds, from.airs)
    const runsM = longerRuns(growth.runsM, runsOf(builds))
    const beside = besideOf(growth.beside, builds, round > EXACT_BESIDE)
    // What has not settled by then stands, and is judged by what lies beside it.
    if (runsM === growth.runsM && (beside === growth.beside || round > BESIDE_ROUNDS)) return { sized, growth, builds }
    growth = { ...from.shared, runsM, beside }
    sized = sizedAgain(job, shop, rules, t, growth)
  }
}

const sizedAgain = (job: Job, shop: Shop, rules: RuleSet, t: Tried, growth: Growth): Design =>
  workedOut(job, shop, rules, t.option, growth, false)[0].design

const airsOf = (air: readonly AirChosen[] | null): ReadonlyMap<string, AirDesign> =>
  new Map((air ?? []).map((one) => [one.box, one.air]))

const hottestOf = (air: readonly AirChosen[]): ReadonlyMap<string, number> =>
  new Map(air.flatMap(({ box, hottestC }) => (hottestC === null ? [] : [[box, hottestC] as const])))

/** Once for the layout of a design: what a run is longer by later changes nothing that a year of hours would see. */
function chosenFor(job: Job, shop: Shop, rules: RuleSet, { sized, builds }: Settled): readonly AirChosen[] {
  const design = { ...sized, builds: builds.map((b) => b.build) }
  return airChosen({ job, design, rules, prices: shop.prices, reach: assessSizes(job, design, shop).results.reach.boxes })
}

/** Rounds in which wires are sized by what lies beside them in the last layout; then by what did in any since. */
const EXACT_BESIDE = 2
/** Rounds in which wires are sized anew for what lies beside them alone. */
const BESIDE_ROUNDS = 6

/** Steps in which raceways are shared: those of one flat, then those of two flats beside each other. */
const SHARING_STEPS = 2

/** What was shared before stays so; what is shared more is added, box by box. */
const joined = (
  before: NonNullable<Growth['together']>,
  more: NonNullable<Growth['together']>,
): NonNullable<Growth['together']> =>
  Object.fromEntries(
    [...new Set([...Object.keys(before), ...Object.keys(more)])].map((box) => [box, { ...before[box], ...more[box] }]),
  )

function candidateOf({ id, design, fails, costMoney, costIsFloor, ready }: Tried): Candidate {
  return { id, design, fails, costMoney, costIsFloor, ready }
}

/**
 * Rounds of design and judgement until no choice changes. Begins where the same supply without control ended: a control asks nothing
 * less of any size. `quick`: an option that fails by
 * what no size can mend ends at once.
 */
function workedOut(job: Job, shop: Shop, rules: RuleSet, option: Option, from: Growth, quick: boolean): readonly [Tried, Growth] {
  const pinned = new Set(job.pins.map((p) => p.path))
  let growth = from
  for (let round = 1; round <= MOST_ROUNDS; round++) {
    const design = designOf(job, shop, rules, option, growth)
    const assessment = assessSizes(job, design, shop)
    const next =
      quick && assessment.findings.some(isBeyondSizes) ? null : grownBy(growth, assessment.findings, pinned, rules, round)
    if (next === null) return [judgedOf(job, shop, option, design, assessment), growth]
    growth = next
  }
  throw new Fault('plan/no-end', option.id)
}

/** The supply itself does not do: too small, or it may not run when it must. No conductor mends that. */
function isBeyondSizes(f: Finding): boolean {
  return bars(f) && (f.question === 'supply' || SUPPLY_TOO_SMALL.has(f.code))
}

const SUPPLY_TOO_SMALL: ReadonlySet<string> = new Set(['needs/service-demand', 'needs/cold-restart', 'needs/interlock-cap'])

/**
 * Does a finding bar a design? A house preference does not; the box as it was built is what the change list is for; and what the place
 * itself asks of the way, the ground, the snow and the cold is answered at the place: it fails as loudly, but no other design would mend it.
 */
export function bars(f: Finding): boolean {
  return (
    f.verdict === 'fails' &&
    f.basis !== 'house' &&
    f.question !== 'dates' &&
    // Of its measures the best was taken already; no other supply would mend it.
    f.question !== 'air' &&
    !/\/built-/.test(f.code) &&
    !OF_THE_PLACE.has(f.code)
  )
}

const OF_THE_PLACE: ReadonlySet<string> = new Set([
  'haul/overhead-line',
  'haul/roof-snow',
  'haul/straight-run',
  'haul/way-grade',
  'haul/way-width',
  'haul/bearing',
  'haul/level',
  // How cold devices stand is of the air's measures, not of the supply.
  'faults/residual-cold',
])

function judgedOf(job: Job, shop: Shop, option: Option, design: Tried['design'], assessment: SizesJudged): Tried {
  const fails = assessment.findings.filter(bars).map((f) => `${f.code} ${f.subject}`)
  return {
    id: option.id,
    option,
    design,
    fails,
    ...costOf(job, shop, assessment),
    ready: readyDate(job, option.offer),
  }
}

/**
 * Cost by the job's goal: what the supply asks over the stay (or at once), and the material of the boxes where the price table is in
 * the job's currency. Material in another currency is never added; it is then shown beside. Bounded money counts at its high end. Where
 * a part of the tariff is not stated the sum of the known parts stands, and says that it is a floor. Null when nothing is known.
 */
function costOf(
  job: Job,
  shop: Shop,
  assessment: SizesJudged,
): { readonly costMoney: number | null; readonly costIsFloor: boolean } {
  let sum = 0
  let floor = false
  const seen = new Set<string>()
  for (const box of assessment.results.supply.boxes) {
    const row = box.chosenRow
    if (row === null) return { costMoney: null, costIsFloor: true }
    // The fee and the interim are paid once, when a box is there for the first time.
    const again = seen.has(box.box)
    seen.add(box.box)
    const first = again ? 0 : (row.oneOffMoney ?? row.feeMoney)
    const atOnce = again ? 0 : row.oneOffMoney
    const whole = job.needs.goal === 'least first cost' ? atOnce : (row.overStayMoney?.high ?? null)
    const known =
      (first ?? 0) +
      (job.needs.goal === 'least first cost' || row.bill === null
        ? 0
        : row.bill.totalMoney.high * job.needs.stayMonths * seasonFrac(assessment, box))
    if (whole === null && known === 0) return { costMoney: null, costIsFloor: true }
    floor ||= whole === null
    sum += (whole ?? known) + (again ? 0 : (box.interim?.money?.high ?? 0))
  }
  if (shop.prices.currency !== job.money.currency) return { costMoney: sum, costIsFloor: floor }
  const built = assessment.results.circuits.boxes.filter((b, i, all) => all.findIndex((o) => o.box === b.box) === i)
  const material = built
    .flatMap((b) => b.material.lines)
    .filter((l) => !l.id.startsWith('transformer/'))
    .reduce((total, l) => total + l.money, 0)
  return { costMoney: sum + material, costIsFloor: floor }
}

/** Months of full days in a year that the yearly energy makes, of twelve: a floor leaves out what the idle months cost. */
function seasonFrac(assessment: SizesJudged, of: { readonly box: string; readonly phase: string }): number {
  const all = assessment.results.needs.boxes.find((b) => b.box === of.box && b.phase === of.phase)?.all
  return all === undefined || all.energyFullMonthKWh <= 0 ? 0 : Math.min(1, all.energyPerYearKWh / (12 * all.energyFullMonthKWh))
}

/** Nothing failing first; then by the goal; an unknown price or date comes last; ties by name. */
function better(job: Job, a: Tried, b: Tried): number {
  const byDate = job.needs.goal === 'earliest date' ? compareNullable(dayOf(a.ready), dayOf(b.ready)) : 0
  return (
    Number(a.fails.length > 0) - Number(b.fails.length > 0) ||
    (a.fails.length > 0 ? a.fails.length - b.fails.length : 0) ||
    byDate ||
    compareNullable(a.costMoney, b.costMoney) ||
    (a.id < b.id ? -1 : 1)
  )
}

const dayOf = (iso: string | null) => (iso === null ? null : Date.parse(iso))

function compareNullable(a: number | null, b: number | null): number {
  if (a === null || b === null) return Number(a === null) - Number(b === null)
  return Math.abs(a - b) <= 1e-6 * Math.max(1, Math.abs(a)) ? 0 : a - b
}

function whyLost(t: Tried, chosen: Tried, currency: string): string {
  if (t.fails.length > 0) return `${t.fails.length === 1 ? 'fails' : `${t.fails.length} things fail, first`}: ${t.fails[0]}`
  if (t.costMoney === null) return 'its price is not known'
  if (chosen.costMoney === null)
    return `${formatNumber(Math.round(t.costMoney))} ${currency}; what was taken comes earlier or has no price yet`
  const more = t.costMoney - chosen.costMoney
  return more < 1 ? 'as dear, and later by name' : `${formatNumber(Math.round(more))} ${currency} dearer`
}
