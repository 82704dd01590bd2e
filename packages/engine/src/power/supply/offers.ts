import type { BoxDesign, Job, Offer, TransformerOffered } from '../../job/index.ts'
import { systemById } from '../../job/index.ts'
import { daysBetween, isoOrNull, judgeUpper, plusDays, type Verdict, worst } from '../../kernel/index.ts'
import type { Prices } from '../../parts/index.ts'
import type { RuleSet, System } from '../../rules/index.ts'
import { deviceFamilyFor } from '../circuits/index.ts'
import { type BoxNeeds, both, type Ends, ends, shown } from '../needs/index.ts'
import { boxesBehind } from '../staging/index.ts'
import { billFor, type Metered } from './bill.ts'
import { generatorSizing, MONTH_DAYS } from './generator.ts'
import type { Bill, BillLine, GeneratorSizing, OfferRow, OfferTransformer } from './result.ts'
import { runDropFrac } from './run-drop.ts'
import { type Held, heldLoad, offeredA } from './sizes.ts'

export interface OffersTask {
  readonly job: Job
  readonly rules: RuleSet
  readonly prices: Prices
  readonly system: System
  readonly needs: BoxNeeds
  /** Box as designed: its staging says what a source must carry, its feed what the run is made of. */
  readonly box: BoxDesign
  /** What other boxes of the design take from each offer in the same phase, by offer. */
  readonly others?: Readonly<Record<string, Share>>
}

/** What other boxes take from an offer. A set that feeds several boxes is brought and hired once: `paidBy` names the one it is counted with. */
export interface Share extends Pick<Held, 'currentA' | 'kVA' | 'kW'> {
  readonly paidBy: string | null
}

const NOTHING: Share = { currentA: 0, kVA: 0, kW: 0, paidBy: null }
const TIGHT_FRAC = 0.1
const MONTHS = 12
const DAYS_PER_YEAR = 365
const HIRE_DAYS = 28
/** A load with at least this many days is there in idle months too. */
const ALL_YEAR_DAYS = 300
const RUN_C = 50
const AMBIENT_C = 30

/** Months that a phase lasts; the stay where the job has one phase. */
export function monthsOfPhase(job: Job, phaseId: string): number {
  const phase = job.phases.find((p) => p.id === phaseId)
  return job.phases.length < 2 || phase === undefined ? job.needs.stayMonths : phase.toMonth - phase.fromMonth + 1
}

/** A fee is paid once: in the first phase in which the box, or one that it feeds, has a machine to feed. */
function paysFee(job: Job, { box, phase }: BoxDesign): boolean {
  const behind = new Set(boxesBehind(job, box).map((b) => b.id))
  const first = job.phases.find((p) => job.plugs.some((plug) => behind.has(plug.fedBy[p.id] ?? '')))
  return job.phases.length < 2 || first === undefined || first.id === phase
}

/** Days from order to need: by dates, else as written; null when not known. */
export function daysToNeed(job: Job): number | null {
  const orderDate = isoOrNull(job.needs.orderDate)
  const neededBy = isoOrNull(job.needs.neededBy)
  return orderDate !== null && neededBy !== null ? daysBetween(orderDate, neededBy) : (job.needs.daysToNeed ?? null)
}

/** Days by which an offer comes after the date needed, a day begun counting whole; negative: in hand. Null: not known. */
export function lateDaysOf(job: Job, offer: Offer): number | null {
  const days = daysToNeed(job)
  return offer.leadDays === null || days === null ? null : Math.ceil(offer.leadDays) - days
}

/**
 * Every offer beside every other, at each size it comes in and with each own transformer that may stand between, ranked: what works
 * first, what is not known next, what fails last; then by the job's goal, by what it still lacks, by name.
 */
export function rankOffers(task: OffersTask): readonly OfferRow[] {
  const held = heldLoad(task.job, task.needs, task.box.staging, task.system)
  const rows = task.job.offers.flatMap((offer) => rowsOf(task, offer, held))
  const money = (row: OfferRow) =>
    task.job.needs.goal === 'least first cost' ? row.oneOffMoney : row.overStayMoney === null ? null : row.overStayMoney.high
  const rank: Record<Verdict, number> = { holds: 0, tight: 0, unknown: 1, fails: 2 }
  const last = (value: number | null) => value ?? Infinity
  const by = (a: number, b: number) => (a === b ? 0 : a - b)
  const order = [...rows].sort(
    (a, b) =>
      Number(b.available) - Number(a.available) ||
      rank[a.verdict] - rank[b.verdict] ||
      (task.job.needs.goal === 'earliest date' ? by(last(a.leadDays), last(b.leadDays)) : 0) ||
      by(last(money(a)), last(money(b))) ||
      by(last(a.leadDays), last(b.leadDays)) ||
      a.lacks.length - b.lacks.length ||
      (a.offer < b.offer ? -1 : a.offer > b.offer ? 1 : 0) ||
      (a.sizeA ?? 0) - (b.sizeA ?? 0) ||
      (a.ownTransformerKVA ?? 0) - (b.ownTransformerKVA ?? 0),
  )
  return order.map((row, i) => ({ ...row, rank: i + 1 }))
}

function rowsOf(task: OffersTask, offer: Offer, held: Held): readonly OfferRow[] {
  const theirs = systemById(offer.system)
  const sizes: readonly (number | null)[] = offer.kind === 'utility' && offer.serviceA.length > 0 ? offer.serviceA : [null]
  const other = offer.kind !== 'generator' && theirs !== null && theirs.lineLineV !== task.system.lineLineV
  const between: readonly (TransformerOffered | null)[] =
    other && (task.job.ownTransformers?.length ?? 0) > 0 ? (task.job.ownTransformers ?? []) : [null]
  return sizes.flatMap((sizeA) => between.map((own) => rowOf(task, offer, held, sizeA, own, other)))
}

function rowOf(
  task: OffersTask,
  offer: Offer,
  held: Held,
  sizeA: number | null,
  own: TransformerOffered | null,
  otherVolts: boolean,
): OfferRow {
  const { job, needs, system } = task
  const theirs = systemById(offer.system)
  const others = task.others?.[offer.id] ?? NOTHING
  const ordered = isoOrNull(job.needs.orderDate)
  const lacks: string[] = []
  const verdicts: Verdict[] = []
  const ratio = own !== null && theirs !== null ? system.lineLineV / theirs.lineLineV : 1
  const needA = offer.kind === 'utility' ? needs.demand.needA * ratio : (held.currentA + others.currentA) * ratio
  const offered = sizeA ?? offeredA(offer, system)

  if (!offer.available) verdicts.push('fails')
  if (otherVolts && own === null) {
    verdicts.push('fails')
    lacks.push(`a transformer from ${theirs?.title} to ${system.title}`)
  }
  if (offered === null) {
    verdicts.push('unknown')
    lacks.push('how much it can give')
  } else if (offer.kind !== 'generator') {
    verdicts.push(judgeUpper(needA, offered, TIGHT_FRAC))
    if (needA > offered)
      lacks.push(
        offer.kind === 'neighbour'
          ? `${shown(needA - offered)} A more, or an interlock that holds ${shown(offered)} A`
          : `a larger service: ${shown(needA)} A is needed`,
      )
    else if (offer.kind === 'utility' && needs.demand.needWithGrowthA * ratio > offered)
      lacks.push('room for the growth asked for')
  }
  if (offer.kind === 'neighbour' && offer.sparePhases === 1 && needs.rows.some((row) => row.phases === 3)) {
    verdicts.push('fails')
    lacks.push('three phases')
  }
  const transformer = transformerOf(offer, own, held.kVA + (own === null ? others.kVA : 0))
  if (transformer !== null) {
    verdicts.push(transformer.verdict)
    if (transformer.verdict === 'fails')
      lacks.push(
        `a transformer of ${shown(held.kVA + others.kVA)} kVA: with ${held.basis} ${shown(transformer.kVA)} kVA is overloaded`,
      )
  }
  const generator =
    offer.kind === 'generator' && offer.generator !== undefined
      ? generatorSizing({ ...task, offer, heldKW: held.kW + others.kW, heldKVA: held.kVA + others.kVA })
      : null
  if (generator !== null) {
    verdicts.push(generator.verdict)
    if (!generator.quietKept) lacks.push(`another source in its quiet hours: ${shown(generator.quietLoadKW)} kW are on`)
    if (offer.generator?.neutralBondFactory === null) lacks.push('whether its neutral is bonded to its frame')
  }
  const lateDays = lateDaysOf(job, offer)
  if (lateDays === null) {
    verdicts.push('unknown')
    lacks.push(offer.leadDays === null ? 'a lead time' : 'the date it is needed by')
  } else if (lateDays > 0) {
    verdicts.push('tight')
    lacks.push(`an interim for ${lateDays} days`)
  }
  lacks.push(...paperLacks(offer))

  const bill = billOf(task, offer, generator)
  if (bill !== null && !bill.complete)
    lacks.push(
      `money of: ${bill.lines
        .filter((l) => l.money === null)
        .map((l) => l.what)
        .join(', ')}`,
    )
  const ownMoney = own === null ? 0 : transformerMoney(task, own)
  if (ownMoney === null) lacks.push('the price of the own transformer')
  const brought = offer.kind === 'generator' && others.paidBy !== null
  const oneOffMoney =
    offer.oneOffMoney === null && offer.kind === 'utility'
      ? null
      : ownMoney === null
        ? null
        : (brought ? 0 : (offer.oneOffMoney ?? 0)) + ownMoney
  const monthlyMoney = bill?.complete ? bill.totalMoney : null
  const verdict = worst(verdicts.length === 0 ? ['unknown'] : verdicts)
  return {
    offer: offer.id,
    ownTransformerKVA: own?.kVA ?? null,
    kind: offer.kind,
    what: offer.what,
    system: offer.system,
    available: offer.available,
    sizeA: offer.kind === 'generator' ? null : offered,
    sizeSaid: sizeSaid(offer, offered, own),
    needA,
    transformer,
    sharedKVA: others.kVA,
    dropFrac: offer.available && !highVolts(offer, system) ? dropOf(task, offer, held, offered) : null,
    meterPlace: METER[offer.kind],
    feeMoney: offer.oneOffMoney,
    leadDays: offer.leadDays,
    readyDate: offer.leadDays === null || ordered === null ? null : plusDays(ordered, offer.leadDays),
    lateDays,
    oneOffMoney,
    monthlyMoney,
    overStayMoney:
      monthlyMoney === null || oneOffMoney === null || bill === null
        ? null
        : overStay(task, offer, bill, paysFee(job, task.box) ? oneOffMoney : 0),
    bill,
    generator,
    lacks,
    verdict,
    rank: 0,
    why: offer.available
      ? offer.note === ''
        ? offer.what
        : offer.note
      : `not available${offer.note === '' ? '' : `: ${offer.note.replace(/\.$/, '')}`}`,
  }
}

/** A line of higher volts ends at its own transformer near the box: the run to it is not ours to work out. */
const highVolts = (offer: Offer, system: System): boolean =>
  offer.supplyV !== undefined && offer.supplyV > system.lineLineV * 1.01

const METER: Record<Offer['kind'], string> = {
  utility: 'on a pole or pedestal beside the box, not on it: ask the utility',
  generator: 'none; hours and litres are logged',
  neighbour: 'a sub-meter where the run leaves the neighbour’s panel',
}

function sizeSaid(offer: Offer, offered: number | null, own: TransformerOffered | null): string {
  const set = offer.generator
  if (set !== undefined)
    return `${shown(set.ratedKW)} kW, ${shown(set.ratedKVA)} kVA${set.sets > 1 ? `, ${set.sets} sets turn about` : ''}`
  const base = offered === null ? 'not said' : `${shown(offered)} A${offer.kind === 'neighbour' ? ' to spare' : ' service'}`
  return own === null ? base : `${base}, own transformer ${shown(own.kVA)} kVA`
}

function paperLacks(offer: Offer): string[] {
  if (offer.kind === 'utility') {
    const out = offer.faultA === undefined ? ['the fault level in writing'] : []
    if (offer.oneOffMoney === null) out.push('a fee')
    if (offer.transformer === undefined) out.push('the size of its transformer')
    return out
  }
  if (offer.kind === 'neighbour') return ['a written agreement with cap and notice', 'a sub-meter and an own main']
  return offer.hirePer28DaysMoney === undefined && offer.oneOffMoney === null ? ['a price of hire'] : []
}

function transformerOf(offer: Offer, own: TransformerOffered | null, heldKVA: number): OfferTransformer | null {
  const pick = own ?? offer.transformer ?? null
  if (pick === null) return null
  return {
    kVA: pick.kVA,
    own: own !== null || (offer.transformer?.own ?? false),
    phases: pick.phases,
    impedancePct: { low: pick.impedancePct.low, high: pick.impedancePct.high },
    loadFrac: heldKVA / pick.kVA,
    verdict: judgeUpper(heldKVA, pick.kVA, TIGHT_FRAC),
  }
}

const transformerMoney = (task: OffersTask, own: TransformerOffered): number | null =>
  task.prices.currency === task.job.money.currency
    ? (task.prices.rows[`transformer/${own.kVA} kVA/${own.phases}`]?.money ?? null)
    : null

/** Drop over the run: with the feed of the design, else with the smallest conductor that carries the offer. */
function dropOf(task: OffersTask, offer: Offer, held: Held, offered: number | null): Ends | null {
  const { rules, box, system, needs } = task
  const wire = offer.id === box.offer ? box.panel.feed.line : wireFor(task, offered)
  if (wire === null) return null
  const run = {
    rules,
    system,
    wire,
    where: rules.defaults.raceway,
    lengthM: offer.distanceM,
    currentA: held.currentA,
    conductorC: RUN_C,
  }
  const sets = offer.id === box.offer ? box.panel.feed.sets : 1
  const pf = needs.all.powerFactorFrac
  const at = (powerFactorFrac: number) => runDropFrac({ ...run, powerFactorFrac }).dropFrac / Math.max(1, sets)
  return ends(at(pf.low), at(pf.high))
}

function wireFor(task: OffersTask, offeredA_: number | null) {
  if (offeredA_ === null || offeredA_ <= 0) return null
  const { rules, system } = task
  const deviceA = rules.nextDeviceA(offeredA_).value
  if (deviceA === null) return null
  const loaded = system.legs.length === 3 ? 3 : 2
  const metal = 'cu' as const
  const insulation = rules.defaults.insulation
  const size = rules.conductorFor({
    metal,
    insulation,
    continuousA: 0,
    otherA: offeredA_,
    deviceA,
    deviceFamily: deviceFamilyFor(rules, deviceA),
    loaded,
    carrying: loaded,
    circuits: 1,
    ambientC: AMBIENT_C,
    multiOutlet: false,
    motor: false,
  }).value
  return size === null ? null : { size, metal, insulation }
}

/** Highest mean over fixed windows of the day, kW. */
export function windowPeakKW(profileW: readonly number[], windowMin: number): number {
  const slots = Math.max(1, Math.round(windowMin / 15))
  let highest = 0
  for (let from = 0; from < profileW.length; from += slots) {
    const part = profileW.slice(from, from + slots)
    highest = Math.max(highest, part.reduce((sum, w) => sum + w, 0) / part.length / 1000)
  }
  return highest
}

/** Month of full days. Peak: mean with duty spread evenly, up to nameplates as staged. */
function meteredMonth(task: OffersTask): Metered {
  const { needs, job } = task
  const low = windowPeakKW(needs.meanW, job.tariff.demandWindowMin)
  const peakKW = ends(low, Math.max(low, windowPeakKW(needs.staging.afterW, job.tariff.demandWindowMin)))
  const pf = needs.all.powerFactorFrac
  return {
    energyKWh: needs.all.energyFullMonthKWh,
    peakKW,
    peakKVA: ends(peakKW.low / pf.high, peakKW.high / pf.low),
    powerFactorFrac: pf,
    highest11: null,
  }
}

/** A month in which only what stands there all year is on; the ratchet remembers the winter. */
function meteredIdle(task: OffersTask, full: Metered): Metered {
  const rows = task.needs.rows.filter((row) => row.daysPerYear >= ALL_YEAR_DAYS)
  const kW = rows.reduce((sum, row) => sum + row.powerW, 0) / 1000
  const energyKWh = rows.reduce((sum, row) => sum + row.energyPerDayKWh, 0) * (DAYS_PER_YEAR / MONTHS)
  const pf = full.powerFactorFrac
  return { energyKWh, peakKW: ends(0, kW), peakKVA: ends(0, kW / pf.low), powerFactorFrac: pf, highest11: full.peakKW.high }
}

function tariffFor(task: OffersTask, offer: Offer) {
  const { tariff } = task.job
  if (offer.energyMoneyPerKWh === undefined) return tariff
  const blocks = [{ upToKWh: null, moneyPerKWh: offer.energyMoneyPerKWh }]
  // A neighbour who sells by the kWh sells nothing else unless he says so.
  return offer.kind === 'neighbour'
    ? { ...tariff, blocks, fixedMoneyPerMonth: 0, demandMoneyPerKW: 0, demandMoneyPerKVA: null, powerFactorFloorFrac: null }
    : { ...tariff, blocks }
}

function billOf(task: OffersTask, offer: Offer, generator: GeneratorSizing | null): Bill | null {
  if (!offer.available) return null
  if (offer.kind === 'generator') return generator === null ? null : setBill(task, offer, generator)
  if (offer.kind === 'neighbour' && offer.energyMoneyPerKWh === undefined)
    return {
      ...billFor(meteredMonth(task), {
        ...task.job.tariff,
        blocks: [],
        fixedMoneyPerMonth: null,
        demandMoneyPerKW: null,
        demandMoneyPerKVA: null,
      }),
    }
  return billFor(meteredMonth(task), tariffFor(task, offer))
}

function setBill(task: OffersTask, offer: Offer, set: GeneratorSizing): Bill {
  const month = meteredMonth(task)
  const hire = offer.hirePer28DaysMoney
  const perMonth = DAYS_PER_YEAR / MONTHS / HIRE_DAYS
  const owned = hire === undefined && offer.oneOffMoney !== null
  const paidBy = task.others?.[offer.id]?.paidBy ?? null
  const lines: BillLine[] = [
    {
      what: 'fuel',
      said: `${Math.round(set.fuelLPerMonth.low)} to ${Math.round(set.fuelLPerMonth.high)} L × ${task.job.tariff.dieselMoneyPerL ?? 'not stated'}`,
      money: set.fuelMoneyPerMonth,
    },
    {
      what: 'hire',
      said:
        paidBy !== null
          ? `counted with box ${paidBy}`
          : hire === undefined
            ? owned
              ? 'owned'
              : 'not stated'
            : `${hire} per ${HIRE_DAYS} days, ${Math.round(perMonth * 1000) / 1000} periods a month`,
      money: paidBy !== null ? both(0) : hire === undefined ? (owned ? both(0) : null) : both(hire * perMonth),
    },
  ]
  const known = lines.flatMap((line) => (line.money === null ? [] : [line.money]))
  return {
    currency: task.job.tariff.currency,
    energyKWh: month.energyKWh,
    peakKW: month.peakKW.high,
    peakKVA: month.peakKVA,
    lines,
    totalMoney: { low: known.reduce((sum, m) => sum + m.low, 0), high: known.reduce((sum, m) => sum + m.high, 0) },
    complete: lines.every((line) => line.money !== null),
  }
}

/**
 * Money over the stay: as many months of full days a year as the yearly energy makes, the other months idle; the one-off once.
 * A set is hired for the months it runs at least, for the whole stay at most.
 */
function overStay(task: OffersTask, offer: Offer, bill: Bill, oneOff: number): Ends {
  const { needs, job } = task
  const full = needs.all.energyFullMonthKWh
  const season = full > 0 ? Math.min(MONTHS, needs.all.energyPerYearKWh / full) : 0
  const years = monthsOfPhase(job, task.box.phase) / MONTHS
  const rest = MONTHS - season
  if (offer.kind === 'generator') {
    const hire = bill.lines.find((line) => line.what === 'hire')?.money ?? both(0)
    const fuel = bill.lines.find((line) => line.what === 'fuel')?.money ?? both(0)
    return {
      low: oneOff + years * season * (fuel.low + hire.low),
      high: oneOff + years * (season * fuel.high + MONTHS * hire.high),
    }
  }
  const idle = billFor(meteredIdle(task, meteredMonth(task)), tariffFor(task, offer)).totalMoney
  return {
    low: oneOff + years * (season * bill.totalMoney.low + rest * idle.low),
    high: oneOff + years * (season * bill.totalMoney.high + rest * idle.high),
  }
}

/** Share of a month that an interim of so many days takes. */
export const monthsOf = (days: number): number => days / MONTH_DAYS
