import type { Job, Offer, Plug } from '../../job/index.ts'
import { Fault, judgeEnds, judgeUpper, type Verdict, worst } from '../../kernel/index.ts'
import type { RuleSet, System, Table } from '../../rules/index.ts'
import { type BoxNeeds, type Ends, ends, motorStart } from '../needs/index.ts'
import { deratedSet } from './derate.ts'
import { CHART_FRAC, fuelLPerH } from './fuel.ts'
import type { GeneratorSizing } from './result.ts'

/** Least mean load of a diesel, and most for prime duty, share of its rating. @source table `generator-derate`, ISO 8528-1. Provenance: memory */
export const MEAN_LEAST_FRAC = 0.3
export const MEAN_MOST_FRAC = 0.7
/** Of a three-phase set reconnected for one phase, share of its kVA that is left. @source table `generator-derate`. Provenance: common practice */
const ONE_PHASE_FRAC = 2 / 3
const TIGHT_FRAC = 0.1
export const MONTH_DAYS = 31
const SLOT_H = 0.25

export interface GeneratorTask {
  readonly job: Job
  readonly offer: Offer
  readonly needs: BoxNeeds
  readonly rules: RuleSet
  readonly system: System
  /** kW and kVA that must be carried: everything on, or what a hard cap holds. */
  readonly heldKW: number
  readonly heldKVA: number
}

function table(rules: RuleSet, id: string): Table {
  const found = rules.tables[id]
  if (found === undefined) throw new Fault('supply/no-table', id)
  return found
}

/** Direct-axis transient reactance by size, per unit; the nearest row. @source table `generator-react`. Provenance: common practice */
export function transientPu(rules: RuleSet, ratedKVA: number): number {
  const react = table(rules, 'generator-react')
  const column = react.columns.indexOf('xd1')
  const row = react.rows.find((r) => ratedKVA <= Number(String(r[0]).split('-')[1])) ?? react.rows[react.rows.length - 1]
  return Number(row?.[column])
}

/**
 * Dip at the terminals as a motor starts on a set: the start as an impedance behind the transient reactance.
 *
 *   ΔU/U = x/(1 + x),  x = Xd′·S_start/S_set
 *
 * Takes both as in line, which gives the deepest dip. @source common practice
 */
export const startDipFrac = (startVA: number, setVA: number, transient: number): number => {
  const x = (transient * startVA) / setVA
  return x / (1 + x)
}

function dipLimitFrac(rules: RuleSet, plugs: readonly Plug[]): number {
  const limits = table(rules, 'dip-limits')
  const onlyMotors = plugs.every((p) => p.kind === 'motor' || p.kind === 'heater')
  const row = limits.rows.find((r) => r[0] === (onlyMotors ? 'generator, motors only' : 'generator with electronics'))
  return Number(row?.[1]) / 100
}

/**
 * A set against the job: running load on kW and kVA after height and heat, one-phase share, the largest start, mean load, fuel of a month
 * of full days, and quiet hours.
 * @throws Fault `supply/not-a-set`
 */
export function generatorSizing(task: GeneratorTask): GeneratorSizing {
  const { job, offer, needs, rules, system } = task
  const set = offer.generator
  if (set === undefined) throw new Fault('supply/not-a-set', offer.id)
  const left = deratedSet(set, { elevationM: job.site.elevationM, hottestC: job.site.designMaxC })
  const onePhase = system.legs.length < 3
  const availableKVA = onePhase ? ends(left.kVA.low * ONE_PHASE_FRAC, left.kVA.high) : left.kVA
  const total = needs.staging.peaks.find((p) => p.of === 'total')
  const stagedKW = (total?.after ?? needs.all.powerW) / 1000
  const vaPerW = needs.all.powerW > 0 ? needs.all.vectorVA.high / needs.all.powerW : 1
  const phaseA = onePhase ? (1000 * set.ratedKVA) / system.lineLineV : (1000 * set.ratedKVA) / (Math.sqrt(3) * system.lineLineV)
  const highestA = Math.max(...needs.demand.legs.map((l) => Math.min(l.allOnA, needs.demand.capA ?? Infinity)))
  const meanKW = needs.meanW.reduce((sum, w) => sum + w, 0) / needs.meanW.length / 1000
  const chart = table(rules, 'generator-fuel')
  const atMean = (w: number) => fuelLPerH(chart, set.ratedKW, Math.min(w / 1000, set.ratedKW))
  const litres = needs.meanW.reduce((sum, w) => sum + atMean(w) * SLOT_H, 0) * MONTH_DAYS
  const fuel = ends(litres * (1 - CHART_FRAC), litres * (1 + CHART_FRAC))
  const price = job.tariff.dieselMoneyPerL
  const quiet = quietLoadKW(offer, needs.staging.afterW)
  const largestStart = largestStartOf(task, availableKVA)
  const carries = worst([
    judgeEnds(judgeUpper(task.heldKW, left.kW.low, TIGHT_FRAC), judgeUpper(task.heldKW, left.kW.high, TIGHT_FRAC)),
    judgeEnds(judgeUpper(task.heldKVA, availableKVA.low, TIGHT_FRAC), judgeUpper(task.heldKVA, availableKVA.high, TIGHT_FRAC)),
    judgeUpper(highestA, phaseA, TIGHT_FRAC),
  ])
  const mean: Verdict = meanKW < MEAN_LEAST_FRAC * set.ratedKW || meanKW > MEAN_MOST_FRAC * set.ratedKW ? 'tight' : 'holds'
  return {
    offer: offer.id,
    ratedKW: set.ratedKW,
    ratedKVA: set.ratedKVA,
    availableKW: left.kW,
    availableKVA,
    sets: set.sets,
    stagedKW,
    allOnKW: needs.all.powerW / 1000,
    stagedKVA: stagedKW * vaPerW,
    allOnKVA: needs.all.vectorVA.high / 1000,
    onePhaseFrac: highestA / phaseA,
    meanKW,
    meanFrac: meanKW / set.ratedKW,
    meanLeastFrac: MEAN_LEAST_FRAC,
    largestStart,
    fuelLPerMonth: fuel,
    fuelMoneyPerMonth: price === null ? null : ends(fuel.low * price, fuel.high * price),
    quietKept: quiet === 0,
    quietLoadKW: quiet,
    verdict: worst([carries, mean, ...(largestStart ? [largestStart.verdict] : []), ...(quiet > 0 ? (['fails'] as const) : [])]),
  }
}

/** Highest load, staged, in the hours in which no set may run. */
function quietLoadKW(offer: Offer, afterW: readonly number[]): number {
  const quiet = offer.quietHours
  if (quiet === undefined) return 0
  const length = (((quiet.toH - quiet.fromH) % 24) + 24) % 24 || 24
  return Math.max(0, ...afterW.filter((_, s) => (((s * SLOT_H - quiet.fromH) % 24) + 24) % 24 < length)) / 1000
}

function largestStartOf(task: GeneratorTask, setKVA: Ends): GeneratorSizing['largestStart'] {
  const { job, needs, rules, offer } = task
  const tags = new Set(needs.rows.map((r) => r.tag))
  const plugs = job.plugs.filter((p) => tags.has(p.tag))
  const limitFrac = dipLimitFrac(rules, plugs)
  const transient = transientPu(rules, offer.generator?.ratedKVA ?? 0)
  let largest: { readonly plug: string; readonly startKVA: Ends } | null = null
  for (const plug of plugs) {
    const start = motorStart(plug, rules.tables['motor-code'])
    if (start === null) continue
    if (largest === null || start.apparentVA.high > largest.startKVA.high * 1000)
      largest = { plug: plug.tag, startKVA: ends(start.apparentVA.low / 1000, start.apparentVA.high / 1000) }
  }
  if (largest === null) return null
  const dipFrac = ends(
    startDipFrac(largest.startKVA.low, setKVA.high, transient),
    startDipFrac(largest.startKVA.high, setKVA.low, transient),
  )
  return {
    ...largest,
    dipFrac,
    limitFrac,
    verdict: judgeEnds(judgeUpper(dipFrac.low, limitFrac, TIGHT_FRAC), judgeUpper(dipFrac.high, limitFrac, TIGHT_FRAC)),
  }
}
