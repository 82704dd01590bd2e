import type { Circuit, Shock } from '../../job/index.ts'
import { exp, power } from '../../kernel/index.ts'
import type { RuleSet, TripBand } from '../../rules/index.ts'
import type { Place, SetAt } from './levels.ts'
import { kindA, withSourceReactance } from './place.ts'
import type { FaultKind, LowestFault, TripTime } from './result.ts'
import { type TripTask, tripTime } from './trip-time.ts'

/** Least currents at a place, hot and weak. */
export interface Least {
  /** Line to neutral, or line to line where the circuit has no neutral. */
  readonly shortKind: FaultKind
  readonly shortA: number
  /** Through metal; null where only the ground is there (TT). */
  readonly earthA: number | null
}

/** Least fault currents of a place. Null: no loop of the circuit is known. */
export function leastAt(place: Place, cRatio: number, weak = place.weak): Least | null {
  const shortKind: FaultKind = place.kinds.includes('line-neutral') ? 'line-neutral' : 'line-line'
  const shortA = kindA(place.system, weak, shortKind, cRatio)
  if (shortA === null) return null
  return { shortKind, shortA, earthA: kindA(place.system, weak, 'line-earth', cRatio) }
}

/** Current from a set at a time: three pieces, each behind its own reactance, dying away with the set's time constants. */
export interface SetCurrent {
  readonly subtransientA: number
  readonly transientA: number
  /** Without help for the field. */
  readonly steadyA: number
  /** With it: three times rated, or what the loop lets through. */
  readonly boostedA: number
  /** One cycle after the fault: what a magnetic part sees. */
  readonly cycleA: number
}

/** What boost excitation keeps up. @source table generator-react. Provenance: common practice */
export const BOOST_RATIO = 3

export function setCurrent(place: Place, kind: FaultKind, set: SetAt, cRatio: number, frequencyHz: number): SetCurrent | null {
  const first = kindA(place.system, place.weak, kind, cRatio)
  const second = kindA(place.system, withSourceReactance(place.system, place.weak, set.toTransientOhm), kind, cRatio)
  const last = kindA(place.system, withSourceReactance(place.system, place.weak, set.toSteadyOhm), kind, cRatio)
  if (first === null || second === null || last === null) return null
  const t = 1 / frequencyHz
  return {
    subtransientA: first,
    transientA: second,
    steadyA: last,
    boostedA: Math.min(second, Math.max(last, BOOST_RATIO * set.ratedA)),
    cycleA: (first - second) * exp(-t / set.subtransientS) + (second - last) * exp(-t / set.transientS) + last,
  }
}

/**
 * When a device opens on a set: by its magnetic part when the current one cycle on still makes it sure, else by its thermal part at the
 * current that stays.
 */
export function tripOnSet(task: Omit<TripTask, 'currentA'>, current: SetCurrent, boost: boolean): TripTime {
  const atOnce = tripTime({ ...task, currentA: current.cycleA })
  if (atOnce.sure) return atOnce
  const stays = tripTime({ ...task, currentA: boost ? current.boostedA : current.steadyA })
  // What stays heats the trip and the wire; at once it may still open magnetically.
  return { ...stays, fastS: Math.min(atOnce.fastS, stays.slowS) }
}

/** Time a residual device takes on a fault well above its sensitivity. Null: none that acts. */
export function residualS(shock: Shock, currentA: number): number | null {
  if (shock.kind === 'none' || shock.sensitivityMA === null) return null
  const timesRatio = (currentA * 1000) / shock.sensitivityMA
  if (timesRatio < 1) return null
  if (shock.kind === 'class A') return currentA >= 0.264 ? 0.025 : Math.min(7.26, power(20 / (currentA * 1000), 1.43))
  if (shock.kind === 'equipment 30 mA') return timesRatio >= 5 ? 0.1 : 0.5
  return timesRatio >= 5 ? 0.04 : timesRatio >= 2 ? 0.15 : 0.3
}

/** Where those times come from. */
export const RESIDUAL_SOURCES: Readonly<Record<Shock['kind'], string>> = {
  none: '',
  'class A': 'UL 943',
  'equipment 30 mA': 'UL 1053',
  rcd: 'IEC 61008-1 Table 3',
}

export interface CircuitClearing {
  readonly circuit: Circuit
  /** Cord end, or receptacle where nothing is plugged in by a cord. */
  readonly place: Place
  readonly least: Least
  readonly short: TripTime
  /** Null in TT: the overcurrent device is not asked. */
  readonly earth: TripTime | null
  readonly residualS: number | null
  readonly band: TripBand
}

export type Bands = (family: string, ratingA: number) => TripBand

const kept = new WeakMap<RuleSet, Bands>()

/** Bands asked for once each, for as long as the rule set lives. */
export function bandsOf(rules: RuleSet): Bands {
  const before = kept.get(rules)
  if (before !== undefined) return before
  const known = new Map<string, TripBand>()
  const bands: Bands = (family, ratingA) => {
    const key = `${family}|${ratingA}`
    let band = known.get(key)
    if (band === undefined) {
      band = rules.tripBand(family, ratingA)
      known.set(key, band)
    }
    return band
  }
  kept.set(rules, bands)
  return bands
}

export function lowestOf(
  place: Place,
  least: Least,
  task: { readonly at: string; readonly conductorC: number; readonly soilA: number },
): LowestFault {
  const z = place.weak.lineNeutral ?? place.weak.lineLine
  const e = place.weak.lineEarth
  const lineNeutral = least.shortKind === 'line-neutral'
  return {
    lineNeutralA: lineNeutral ? least.shortA : null,
    lineLineA: lineNeutral ? null : least.shortA,
    lineEarthA: least.earthA ?? task.soilA,
    leastA: Math.min(least.shortA, least.earthA ?? Infinity),
    loopOhm: Math.hypot(z.re, z.im),
    earthLoopOhm: e === null ? Infinity : Math.hypot(e.re, e.im),
    at: task.at,
    conductorC: task.conductorC,
  }
}
