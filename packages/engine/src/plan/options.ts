import {
  allOnByHand,
  type BoxDesign,
  type Job,
  type Offer,
  type OwnTransformer,
  type StagingControl,
  withFeeders,
} from '../job/index.ts'
import { daysBetween, plusDays } from '../kernel/index.ts'
import type { RuleSet, System } from '../rules/index.ts'
import type { Feeders, SharedService } from './feeders.ts'

/** One combination of the choices that decide the rest: who feeds, how big, how starts are held apart. */
export interface Option {
  readonly id: string
  readonly offer: Offer
  /** Rating of the main at the panel. */
  readonly serviceA: number
  /** Stands in the box where the offer is of another voltage; its devices and run are chosen with the circuits. */
  readonly transformer: Omit<OwnTransformer, 'primary' | 'primaryRun'> | null
  readonly control: StagingControl
  readonly interim: string | null
  readonly transfer: BoxDesign['transfer']
  /** Boxes fed from another box beyond what the job writes: one service for all of them. Null: a supply for each as written. */
  readonly feeders: Feeders | null
}

export interface Refused {
  readonly id: string
  readonly why: string
}

/** The job with its boxes fed as an option has them. */
export const jobOf = (job: Job, option: Option): Job => (option.feeders === null ? job : withFeeders(job, option.feeders))

const CONTROLS: readonly StagingControl[] = ['none', 'timers', 'interlock']

/**
 * Every combination that is on offer, in a fixed order, and those refused before any work with the reason.
 * An interlock is left out where the job wants a hand switch that puts everything on: it would not hold.
 */
export function optionsOf(
  job: Job,
  rules: RuleSet,
  system: System,
  shared: SharedService | null = null,
): { readonly options: readonly Option[]; readonly refused: readonly Refused[] } {
  const options: Option[] = []
  const refused: Refused[] = []
  const pin = (path: string) => job.pins.find((p) => p.path === path)?.value
  for (const offer of job.offers) {
    const pinnedOffer = pin('supply.offer')
    if (pinnedOffer !== undefined && pinnedOffer !== offer.id) {
      refused.push({ id: offer.id, why: `the supply is pinned to ${pinnedOffer}` })
      continue
    }
    if (!offer.available) {
      refused.push({ id: offer.id, why: offer.note === '' ? 'not available' : `not available: ${offer.note}` })
      continue
    }
    const sizes = servicesOf(job, offer, rules, system)
    if (typeof sizes === 'string') {
      refused.push({ id: offer.id, why: sizes })
      continue
    }
    for (const { serviceA, transformer } of sizes) {
      const name = `${offer.id} ${serviceA} A${transformer === null ? '' : ` by ${transformer.kVA} kVA`}`
      const pinnedA = pin('service.rating')
      if (pinnedA !== undefined && Number.parseFloat(String(pinnedA)) !== serviceA) {
        refused.push({ id: name, why: `the service is pinned to ${pinnedA}` })
        continue
      }
      for (const control of CONTROLS) {
        const id = `${name}, ${CONTROL_WORDS[control]}`
        const pinnedControl = pin('staging.control')
        if (pinnedControl !== undefined && pinnedControl !== control) {
          refused.push({ id, why: `staging is pinned to ${pinnedControl}` })
          continue
        }
        if (control === 'interlock' && allOnByHand(job)) {
          refused.push({ id, why: 'a hand switch that puts everything on is wanted, so no cap holds' })
          continue
        }
        const interim = interimFor(job, offer)
        const transfer = transferFor(job, offer, interim)
        options.push({ id, offer, serviceA, transformer, control, interim, transfer, feeders: null })
      }
    }
  }
  // Behind all others: what a service for each grew to is where one service for all begins.
  if (shared !== null && shared.feeders === null) refused.push({ id: shared.id, why: shared.why })
  const joined = shared?.feeders ?? null
  if (joined !== null) options.push(...options.map((o) => ({ ...o, id: `${o.id}, ${shared?.id}`, feeders: joined })))
  return { options, refused }
}

export const CONTROL_WORDS: Record<StagingControl, string> = {
  none: 'nothing staged',
  timers: 'staged by timers',
  interlock: 'staged behind an interlock',
}

type Service = Pick<Option, 'serviceA' | 'transformer'>

/**
 * Mains that an offer can stand behind: as offered by a utility; of a set or a neighbour the standard rating by its ampere; through each
 * own transformer that may stand in the box where the volts differ. A sentence where there is none.
 */
function servicesOf(job: Job, offer: Offer, rules: RuleSet, system: System): readonly Service[] | string {
  const theirs = rules.systems.find((s) => s.id === offer.system)
  if (offer.kind !== 'generator' && theirs !== undefined && theirs.lineLineV !== system.lineLineV) {
    const own = (job.ownTransformers ?? []).flatMap((t) => throughTransformer(t, offer, rules, system, theirs))
    return own.length === 0 ? `it is ${theirs.title} and no transformer to ${system.title} is offered` : own
  }
  if (offer.kind === 'utility' && offer.serviceA.length > 0)
    return offer.serviceA.map((serviceA) => ({ serviceA, transformer: null }))
  const ampere = offer.spareA ?? kvaAmpereA(offer.generator?.ratedKVA ?? offer.spareKVA ?? 0, system)
  const standard = largestDeviceA(rules, ampere)
  return standard === null ? 'nobody has said how much it can give' : [{ serviceA: standard, transformer: null }]
}

/** The largest main that 125 % of the transformer's secondary current allows, and that the service before it can carry. */
function throughTransformer(
  t: NonNullable<Job['ownTransformers']>[number],
  offer: Offer,
  rules: RuleSet,
  system: System,
  theirs: System,
): readonly Service[] {
  const secondaryA = kvaAmpereA(t.kVA, system)
  const carriedA = Math.max(0, ...offer.serviceA) * (theirs.lineLineV / system.lineLineV)
  const serviceA = largestDeviceA(rules, Math.min(SECONDARY_FRAC * secondaryA, carriedA))
  if (serviceA === null) return []
  const transformer = {
    kVA: t.kVA,
    primaryV: theirs.lineLineV,
    secondaryV: system.lineLineV,
    phases: t.phases,
    impedancePct: (t.impedancePct.low + t.impedancePct.high) / 2,
    xOverR: (t.xOverR.low + t.xOverR.high) / 2,
    noLoadLossW: t.noLoadLossW,
    fullLoadLossW: t.fullLoadLossW,
  }
  return [{ serviceA, transformer }]
}

/** Secondary protection at most, share of the rated current; the smaller standard rating suits both ways of rounding. */
const SECONDARY_FRAC = 1.25

/** Largest standard rating that does not exceed a current: what it protects must not be asked for more. */
function largestDeviceA(rules: RuleSet, currentA: number): number | null {
  let largest: number | null = null
  for (let next = rules.nextDeviceA(1).value; next !== null && next <= currentA; next = rules.nextDeviceA(next + 1e-6).value)
    largest = next
  return largest
}

/** I = S/U one phase, S/(√3·U) three-phase. */
export function kvaAmpereA(kVA: number, system: System): number {
  const v = system.lineLineV > 0 ? system.lineLineV : system.lineNeutralV
  return (kVA * 1000) / (system.legs.length === 3 ? Math.sqrt(3) * v : v)
}

/** A set or a neighbour for the gap, when the offer comes later than the date needed. Cheapest hire first, then by name. */
function interimFor(job: Job, offer: Offer): string | null {
  const pinned = job.pins.find((p) => p.path === 'supply.interim')?.value
  if (pinned !== undefined) return String(pinned)
  if (!comesLate(job, offer)) return null
  const candidates = job.offers.filter((o) => o.id !== offer.id && o.available && o.kind !== 'utility' && !comesLate(job, o))
  candidates.sort((a, b) => (a.hirePer28DaysMoney ?? Infinity) - (b.hirePer28DaysMoney ?? Infinity) || (a.id < b.id ? -1 : 1))
  return candidates.find((o) => o.kind === 'generator')?.id ?? candidates[0]?.id ?? null
}

export function comesLate(job: Job, offer: Offer): boolean {
  const days = daysToNeed(job)
  return offer.leadDays !== null && days !== null && offer.leadDays > days
}

/** Days from order to need; null when nobody said. */
function daysToNeed(job: Job): number | null {
  const { orderDate, neededBy } = job.needs
  if (orderDate === null || neededBy === null) return job.needs.daysToNeed ?? null
  return daysBetween(orderDate, neededBy)
}

export function readyDate(job: Job, offer: Offer): string | null {
  if (offer.leadDays === null || job.needs.orderDate === null) return null
  return plusDays(job.needs.orderDate, offer.leadDays)
}

/** Two sources want a transfer; it switches the neutral unless a person pins it, so that a set with a bond of its own stays safe. */
function transferFor(job: Job, offer: Offer, interim: string | null): BoxDesign['transfer'] {
  const pinned = job.pins.find((p) => p.path === 'transfer')?.value
  if (pinned === 'none' || pinned === 'neutral switched' || pinned === 'neutral solid') return pinned
  return interim !== null && interim !== offer.id ? 'neutral switched' : 'none'
}
