import type { BoxDesign, Circuit, FitDesign, Plug, YearSeason } from '../../job/index.ts'
import type { BoxReach } from '../../power/reach/result.ts'
import type { RuleSet } from '../../rules/index.ts'
import { amount } from '../figures.ts'
import { breakerHeatW, currentHeatW, transformerHeatW } from '../gear/heat.ts'
import type { ModelEnd } from './ends.ts'
import { MONTHS, monthShares } from './months.ts'

const HOURS = 24

export interface HeatTask {
  readonly designs: readonly BoxDesign[]
  readonly fit: FitDesign
  readonly plugs: readonly Pick<Plug, 'tag' | 'dutyFrac' | 'daysPerYear' | 'use' | 'kind'>[]
  /** Currents of each hour, of every phase and source of the job; of another box they are passed over. */
  readonly reach: readonly BoxReach[]
  readonly rules: Pick<RuleSet, 'sizes'>
  readonly meanCByMonth: readonly number[] | null
  /** When machines are plugged in. Absent: all year. */
  readonly season?: YearSeason | null
  /** Phases that run in each calendar month. Null or absent: any of them may. */
  readonly phasesByMonth?: readonly (readonly string[])[] | null
  readonly end: ModelEnd
}

/** Heat set free inside by month and hour, index `month * 24 + hour`: of the gear, and straight into the air. */
export interface GearHeat {
  readonly gearW: Float64Array
  readonly airW: Float64Array
  /** Circuits, or `main`, whose current nobody could work out: their heat is in neither. */
  readonly unsolved: readonly string[]
  /** A transformer hangs inside whose losses nobody told: its heat is in neither. */
  readonly lossUntold: boolean
}

/**
 * Heat of what carries current inside: breakers by the square of their current, the main by that of its worst leg, wires in their raceways
 * (into the air), a transformer that hangs inside (into the air: it stays at the room's, free of the cabinets), coils and controls, and light
 * (into the air). Currents of each hour are those of the
 * staged day; a plug that cycles heats by its duty. The box's own heater and fan are counted where they run, and a hand tool at the service
 * receptacle is not. Each month has the phases that run in it: of several, the one that heats most counts where heat is judged, the one that
 * heats least where cold and damp are. Of several sources of a phase the warmest hour counts.
 *
 *   W(hour) = Σ breakers k·(I/In)²·poles + Σ wires I²·R·n, each by duty and by the days of the month
 */
export function gearHeatOf(task: HeatTask): GearHeat {
  const gearW = new Float64Array(MONTHS * HOURS)
  const airW = new Float64Array(MONTHS * HOURS)
  const unsolved = new Set<string>()
  const least = task.end.load === 'mean day'
  const seen = new Uint8Array(MONTHS)
  for (const design of task.designs) {
    const phase = { gearW: new Float64Array(MONTHS * HOURS), airW: new Float64Array(MONTHS * HOURS), unsolved }
    const rows = task.reach.filter((r) => r.box === design.box && r.phase === design.phase)
    for (const reach of rows) addPhase(task, design, reach, phase)
    for (let month = 0; month < MONTHS; month++) {
      const runs = task.phasesByMonth?.[month]
      if (rows.length === 0 || (runs !== undefined && !runs.includes(design.phase))) continue
      for (let at = month * HOURS; at < (month + 1) * HOURS; at++) {
        const takes = seen[month] === 0 || phase.gearW[at]! + phase.airW[at]! < gearW[at]! + airW[at]! === least
        if (takes) [gearW[at], airW[at]] = [phase.gearW[at]!, phase.airW[at]!]
      }
      seen[month] = 1
    }
  }
  const lossUntold = task.designs.some((d) => hangsInside(task.fit, d) && lossesW(d) === null)
  return { gearW, airW, unsolved: [...unsolved], lossUntold }
}

/** Puts the larger of what stands there and what this phase gives into each hour. */
function addPhase(
  task: HeatTask,
  design: BoxDesign,
  reach: BoxReach,
  { gearW, airW, unsolved }: Pick<GearHeat, 'gearW' | 'airW'> & { readonly unsolved: Set<string> },
): void {
  const shares = sharesOf(task)
  for (let hour = 0; hour < HOURS; hour++) {
    const state = reach.states.find((s) => s.hoursH.includes(hour))
    for (let month = 0; month < MONTHS; month++) {
      const at = month * HOURS + hour
      let gear = controlsW(design)
      let air = lightW(design, hour)
      let weightedA = 0
      let wholeA = 0
      for (const circuit of design.circuits) {
        if (circuit.own !== null) continue
        const on = (state?.plugs ?? []).filter((p) => p.circuit === circuit.id)
        const currentA = on.reduce((sum, p) => sum + p.currentA, 0)
        if (!Number.isFinite(currentA)) unsolved.add(circuit.id)
        if (!(currentA > 0 && currentA < Number.POSITIVE_INFINITY)) continue
        // Plugs of one circuit work on the same days: heat of the full current by the share of days, never of a mean current squared.
        const weight = on.reduce((sum, p) => sum + p.currentA * shares(p.plug, month), 0) / currentA
        gear += weight * breakerHeatW(circuit.device.ratingA, currentA, circuit.device.poles)
        air += weight * wireHeatW(task, circuit, currentA)
        weightedA += weight * currentA
        wholeA += currentA
      }
      const carried = wholeA > 0 ? weightedA / wholeA : 0
      const legA = Math.max(0, ...Object.values(state?.legA ?? {}))
      const main = design.panel.main
      const sourceW = state?.sourceW ?? 0
      if (Number.isFinite(legA) && Number.isFinite(sourceW)) {
        gear += carried * breakerHeatW(main.ratingA, Math.min(legA, main.ratingA), main.poles)
        air += transformerW(task.fit, design, carried * sourceW)
      } else unsolved.add('main')
      gearW[at] = Math.max(gearW[at]!, gear)
      airW[at] = Math.max(airW[at]!, air)
    }
  }
}

/** Share of the time of a working hour that a plug heats in a month: its duty, and on a mean day the share of its days. */
function sharesOf({ plugs, end, meanCByMonth, season }: HeatTask): (tag: string, month: number) => number {
  const months = new Map(
    plugs.map((p) => {
      const days = monthShares(p.daysPerYear, FOR_COLD.has(p.use), meanCByMonth, season ?? null)
      return [p.tag, days.map((share) => p.dutyFrac * (end.load === 'mean day' ? share : share > 0 ? 1 : 0))] as const
    }),
  )
  return (tag, month) => months.get(tag)?.[month] ?? 0
}
/** What is plugged in because it is cold. */
const FOR_COLD: ReadonlySet<Plug['use']> = new Set(['vehicle-heater', 'heat-trace'])

/** Live wires of a circuit from the panel to its outlet. */
function wireHeatW({ rules }: HeatTask, { run, connection }: Circuit, currentA: number): number {
  const areaMm2 = rules.sizes.find((s) => s.name === run.line.size)?.areaMm2
  if (areaMm2 === undefined) return 0
  const ohmMm2PerM = amount(run.line.metal === 'al' ? 'aluminium-warm' : 'copper-warm')
  const wires = connection === 'LLL' || connection === 'LLLN' ? 3 : 2
  return currentHeatW(currentA / run.sets, (ohmMm2PerM * run.lengthM) / areaMm2, wires * run.sets)
}

const controlsW = (design: BoxDesign): number =>
  design.circuits.reduce((sum, c) => sum + (c.own === 'control' ? (c.ownLoad?.powerW ?? 0) : 0), 0)

function lightW(design: BoxDesign, hour: number): number {
  return design.circuits.reduce((sum, { own, ownLoad }) => {
    if (own !== 'light' || ownLoad === undefined) return sum
    const since = (((hour - ownLoad.fromH) % HOURS) + HOURS) % HOURS
    return since < ownLoad.hoursPerDay ? sum + ownLoad.powerW : sum
  }, 0)
}

/** A transformer that hangs inside heats by its load; it always has its no-load loss. */
function transformerW(fit: FitDesign, design: BoxDesign, loadW: number): number {
  const losses = lossesW(design)
  if (losses === null || !hangsInside(fit, design)) return 0
  return transformerHeatW(losses.noLoadW, losses.loadW, Math.max(0, loadW) / (losses.kVA * 1000))
}

const hangsInside = (fit: FitDesign, { transformer }: BoxDesign): boolean =>
  transformer !== null && fit.items.some((i) => i.kind === 'transformer' && i.face === 'inside')

function lossesW({ transformer }: BoxDesign): { readonly noLoadW: number; readonly loadW: number; readonly kVA: number } | null {
  const { noLoadLossW, fullLoadLossW, kVA } = transformer ?? { noLoadLossW: null, fullLoadLossW: null, kVA: 0 }
  if (noLoadLossW === null || fullLoadLossW === null) return null
  return { noLoadW: noLoadLossW, loadW: Math.max(0, fullLoadLossW - noLoadLossW), kVA }
}
