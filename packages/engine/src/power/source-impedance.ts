import type { Assumption, Offer, SourceMode } from '../job/index.ts'
import { add, type Complex, cx, Fault, type Provenance, put, type Step, scale, source, step, weakest } from '../kernel/index.ts'
import type { RuleSet, System } from '../rules/index.ts'

/** `strong`: lowest impedance that is plausible (most current flows). `weak`: highest (fewest volts, least fault current). */
export type SourceEnd = 'strong' | 'weak'
/** What moves: nothing (a set's regulator holds its volts), a motor start, or the first cycles of a fault. Matters for sets only. */
export type SourceState = 'steady' | 'transient' | 'subtransient'

/** Loop impedances seen from a place, Ohm at the voltage of that place. Null where that loop does not exist. */
export interface Loops {
  /** Per phase of a three-phase fault (Z1). */
  readonly threePhase: Complex | null
  readonly lineLine: Complex
  readonly lineNeutral: Complex | null
  /** Through the protective conductor and the neutral–earth bond; null in TT, where the ground itself is the loop. */
  readonly lineEarth: Complex | null
}

/** What stands behind the point of supply, as the network, the faults and the book see it. */
export interface SourceImpedance {
  readonly mode: SourceMode
  readonly offer: string
  readonly end: SourceEnd
  readonly state: SourceState
  readonly system: System
  /** Positive-sequence impedance of one line of a three-phase source; for one phase, half of the line–line loop. */
  readonly z1: Complex
  /** Zero-sequence impedance of a wye source. */
  readonly z0: Complex
  readonly loops: Loops
  /** Rating that the impedance was worked from, when there is one. */
  readonly ratedKVA: number | null
  readonly steps: readonly Step[]
  readonly assumed: readonly Assumption[]
  readonly provenance: Provenance
}

export interface SourceTask {
  readonly offer: Offer
  readonly mode: SourceMode
  readonly system: System
  /** Rating of the service it feeds, A: bounds an unknown transformer from below. */
  readonly serviceA: number
  readonly end: SourceEnd
  readonly state: SourceState
  readonly rules: RuleSet
  /** The ±10 % that a maker may deviate, taken at the strong end. Default true; false gives the bare plate value. */
  readonly tolerance?: boolean
}

const BASE = source('per unit on its own rating, z·V²/S', 'computed')
const TOLERANCE = source('transformer impedance tolerance ±10 %', 'memory')
const CENTRE_TAP = source('interlaced centre-tapped transformer: primary 0.5 r + j 0.8 x, each half r + j 0.4 x', 'memory')

/**
 * Impedance behind the point of supply, at one end of what is not known.
 *
 * Network and neighbour: an infinite source behind the transformer named, z = u_z·V²/S, r and x from x/r; else behind a
 * written fault level, Z = V/(√3 I); else bounded by the rows of the transformer table. Own set: no impedance while its
 * regulator holds the volts, X′d for a motor start, X″d for a fault; sets in parallel share.
 * @throws Fault `power/source-kind` when a set is asked for and the offer has none
 * @source IEC 60909-0 for the network; trade data sheets for sets. Provenance: memory; common practice
 */
export function sourceImpedance(task: SourceTask): SourceImpedance {
  if (task.mode === 'own set') return setImpedance(task)
  const { offer } = task
  if (offer.transformer !== undefined) return behindTransformer(task)
  if (offer.faultA !== undefined) return behindFaultLevel(task, offer.faultA.value, offer.faultA.by)
  return task.mode === 'neighbour' ? behindNeighbour(task) : behindTypical(task)
}

/** r + jx of a magnitude and x/r. */
export function withXOverR(magnitude: number, xOverR: number): Complex {
  const r = magnitude / Math.sqrt(1 + xOverR * xOverR)
  return cx(r, r * xOverR)
}

/**
 * Loops at the terminals of a source given per phase.
 * Three-phase: line–line 2 Z1, line–neutral (2 Z1 + Z0)/3. Centre tap (z1 = half the line–line loop, on 240 V):
 * line–neutral (1.5 r + j 1.2 x) on the 120 V base, that is a quarter of the line–line base.
 */
export function terminalLoops(system: System, z1: Complex, z0: Complex): Loops {
  const lineLine = scale(z1, 2)
  if (system.kind === 'split') {
    const lineNeutral = cx((1.5 * lineLine.re) / 4, (1.2 * lineLine.im) / 4)
    return { threePhase: null, lineLine, lineNeutral, lineEarth: lineNeutral }
  }
  if (system.kind === 'single') return { threePhase: null, lineLine, lineNeutral: lineLine, lineEarth: lineLine }
  if (system.kind === 'delta') return { threePhase: z1, lineLine, lineNeutral: system.neutral ? lineLine : null, lineEarth: null }
  const lineNeutral = scale(add(scale(z1, 2), z0), 1 / 3)
  return { threePhase: z1, lineLine, lineNeutral, lineEarth: lineNeutral }
}

/** Voltage between the lines of a system; of a two-wire one its only voltage. */
export const lineVolts = (system: System): number => (system.kind === 'single' ? system.lineNeutralV : system.lineLineV)

/** Per-phase value from the per-unit magnitude on S and the line voltage: V²/S for three phases, half the loop for one. */
function perPhase(system: System, zPu: number, xOverR: number, sVA: number): Complex {
  const v = lineVolts(system)
  const base = (v * v) / sVA
  return withXOverR(zPu * (isThree(system) ? base : base / 2), xOverR)
}

const isThree = (system: System): boolean => system.legs.length === 3

function behindTransformer(task: SourceTask): SourceImpedance {
  const t = task.offer.transformer!
  const strong = task.end === 'strong'
  const tolerant = strong && task.tolerance !== false
  const pct = (strong ? t.impedancePct.low : t.impedancePct.high) * (tolerant ? 0.9 : 1)
  const xr = strong ? t.xOverR.high : t.xOverR.low
  const z1 = perPhase(task.system, pct / 100, xr, t.kVA * 1000)
  const told = t.impedancePct.told
  const rests = source(t.impedancePct.basis, told ? 'told' : 'read')
  const steps: Step[] = [
    step(
      'u_z',
      tolerant ? '0.9·u_z,low' : strong ? 'u_z,low' : 'u_z,high',
      [put('u_z', strong ? t.impedancePct.low : t.impedancePct.high, '%')],
      pct,
      '%',
      tolerant ? TOLERANCE : rests,
    ),
    impedanceStep(task.system, pct, xr, t.kVA, z1),
  ]
  if (task.system.kind === 'split') steps.push(centreTapStep(z1))
  return finish(task, {
    z1,
    z0: z1,
    ratedKVA: t.kVA,
    steps,
    assumed: boundedSpans(task),
    provenance: weakest(rests.provenance, TOLERANCE.provenance),
  })
}

function boundedSpans(task: SourceTask): Assumption[] {
  const t = task.offer.transformer!
  const out: Assumption[] = []
  const path = `facts.supply.${task.offer.id}.transformer`
  if (!t.impedancePct.told) {
    out.push({
      path: `${path}.impedance`,
      said: `impedance taken at both ends, ${t.impedancePct.low} and ${t.impedancePct.high} %`,
      source: t.impedancePct.basis,
    })
  }
  if (!t.xOverR.told)
    out.push({
      path: `${path}.xOverR`,
      said: `x/r taken at both ends, ${t.xOverR.low} and ${t.xOverR.high}`,
      source: t.xOverR.basis,
    })
  return out
}

function impedanceStep(system: System, pct: number, xr: number, kVA: number, z1: Complex): Step {
  const three = isThree(system)
  return step(
    'Z_T',
    three ? 'u_z·V²/S = R + jX' : 'u_z·V²/S (both lines), one line half of it',
    [put('u_z', pct, '%'), put('V', lineVolts(system), 'V'), put('S', kVA, 'kVA'), put('x/r', xr)],
    `${fixed(z1.re * 1000)} + j${fixed(z1.im * 1000)}`,
    'mΩ per line',
    BASE,
  )
}

function centreTapStep(z1: Complex): Step {
  const { lineNeutral } = terminalLoops({ kind: 'split' } as System, z1, z1)
  return step(
    'Z_LN',
    '(1.5 R + j 1.2 X)/4 of the line–line loop',
    [put('R', 2 * z1.re, 'Ω'), put('X', 2 * z1.im, 'Ω')],
    `${fixed(lineNeutral!.re * 1000)} + j${fixed(lineNeutral!.im * 1000)}`,
    'mΩ',
    CENTRE_TAP,
  )
}

/** A written level is an upper value; half of it is taken as the weakest a network will show through the year. */
const WRITTEN_LOW_FRAC = 0.5

function behindFaultLevel(task: SourceTask, faultA: number, by: string): SourceImpedance {
  const strong = task.end === 'strong'
  const level = strong ? faultA : WRITTEN_LOW_FRAC * faultA
  const v = lineVolts(task.system)
  const three = isThree(task.system)
  const xr = strong ? 3 : 1
  const z1 = withXOverR(three ? v / (Math.sqrt(3) * level) : v / (2 * level), xr)
  const rests = source(`written by ${by}`, 'told')
  const path = `facts.supply.${task.offer.id}.faultCurrent`
  const assumed: Assumption[] = [
    {
      path,
      said: `x/r of the written fault level taken as 1 to 3; at its weakest the source gives ${WRITTEN_LOW_FRAC * 100} % of it`,
      source: 'common practice',
    },
  ]
  const steps = [
    step(
      'Z_S',
      three ? 'V/(√3·I_k)' : 'V/I_k, one line half of it',
      [put('V', v, 'V'), put('I_k', level, 'A'), put('x/r', xr)],
      `${fixed(z1.re * 1000)} + j${fixed(z1.im * 1000)}`,
      'mΩ per line',
      rests,
    ),
  ]
  return finish(task, { z1, z0: z1, ratedKVA: null, steps, assumed, provenance: 'common practice' })
}

/** Nobody named the transformer: the largest of the table at its lowest z, or the smallest that carries the service at its highest. */
function behindTypical(task: SourceTask): SourceImpedance {
  const three = isThree(task.system)
  const needKVA = ((three ? Math.sqrt(3) : 1) * lineVolts(task.system) * task.serviceA) / 1000
  const rows = transformerRows(task.rules, three)
  const fits = rows.filter((r) => r.kVA >= needKVA * TYPICAL_LOADING_FRAC)
  const largest = rows[rows.length - 1]!
  const row = task.end === 'strong' ? largest : (fits[0] ?? largest)
  const pct = task.end === 'strong' ? row.lowPct * 0.9 : row.highPct
  const z1 = perPhase(task.system, pct / 100, row.xOverR, row.kVA * 1000)
  const rests = source('table transformer-typical', 'memory')
  const assumed: Assumption[] = [
    {
      path: `facts.supply.${task.offer.id}.transformer`,
      said: `transformer unknown: bounded by ${fits[0]?.kVA ?? largest.kVA} kVA at its highest and ${largest.kVA} kVA at its lowest impedance of the table`,
      source: 'table transformer-typical',
    },
  ]
  return finish(task, {
    z1,
    z0: z1,
    ratedKVA: row.kVA,
    steps: [{ ...impedanceStep(task.system, pct, row.xOverR, row.kVA, z1), rests }],
    assumed,
    provenance: 'memory',
  })
}

/** A utility loads its transformer by diversity: one of 80 % of the service's rating is plausible. */
const TYPICAL_LOADING_FRAC = 0.8

interface TypicalRow {
  readonly kVA: number
  readonly lowPct: number
  readonly highPct: number
  readonly xOverR: number
}

function transformerRows(rules: RuleSet, three: boolean): TypicalRow[] {
  const table = rules.tables['transformer-typical']
  if (table === undefined) throw new Fault('power/table-missing', 'transformer-typical')
  const kind = rules.frequencyHz === 50 ? 'intl 3-phase oil' : three ? 'us 3-phase pad' : 'us 1-phase pole'
  const rows = table.rows
    .filter((r) => String(r[0]) === kind)
    .map((r) => {
      const ends = (String(r[2]).match(/[\d.]+/g) ?? []).map(Number)
      return {
        kVA: Number(r[1]),
        lowPct: ends[0] ?? Number(r[3]),
        highPct: ends[1] ?? ends[0] ?? Number(r[3]),
        xOverR: Number(r[4]),
      }
    })
  if (rows.length === 0) throw new Fault('power/table-missing', kind)
  return rows.sort((a, b) => a.kVA - b.kVA)
}

/** The neighbour's panel: what stands behind it is not known. Weakest: 5 % lost in it at the current it spares. */
const NEIGHBOUR_WEAK_FRAC = 0.05

function behindNeighbour(task: SourceTask): SourceImpedance {
  const { offer } = task
  if (task.end === 'strong') return behindTypical(task)
  const three = isThree(task.system)
  const v = lineVolts(task.system)
  const spareA =
    offer.spareA ?? (offer.spareKVA !== undefined ? (offer.spareKVA * 1000) / ((three ? Math.sqrt(3) : 1) * v) : task.serviceA)
  const ohm = (NEIGHBOUR_WEAK_FRAC * v) / (three ? Math.sqrt(3) : 2) / Math.max(spareA, 1)
  const z1 = withXOverR(ohm, 1)
  const assumed: Assumption[] = [
    {
      path: `facts.supply.${offer.id}.faultCurrent`,
      said: `what stands behind the neighbour's panel is unknown: at its weakest it loses ${NEIGHBOUR_WEAK_FRAC * 100} % at ${fixed(spareA)} A`,
      source: 'common practice',
    },
  ]
  const steps = [
    step(
      'Z_S',
      '0.05·V/I_spare per line',
      [put('V', v, 'V'), put('I_spare', spareA, 'A')],
      `${fixed(z1.re * 1000)} + j${fixed(z1.im * 1000)}`,
      'mΩ per line',
      source('weakest plausible source', 'common practice'),
    ),
  ]
  return finish(task, { z1, z0: z1, ratedKVA: null, steps, assumed, provenance: 'common practice' })
}

export interface SetReactances {
  readonly xd2Pu: number
  readonly xd1Pu: number
  readonly xdPu: number
  readonly x0Pu: number
  readonly td2S: number
  readonly td1S: number
}

/** Reactances and time constants of a small set of this rating; beyond the table its nearest row. */
export function setReactances(rules: RuleSet, kVA: number): SetReactances {
  const table = rules.tables['generator-react']
  if (table === undefined) throw new Fault('power/table-missing', 'generator-react')
  const at = (name: string) => table.columns.indexOf(name)
  const rows = table.rows.map((r) => ({ r, upTo: Number(String(r[at('kVA')]).split('-')[1]) }))
  const row = (rows.find((x) => kVA <= x.upTo) ?? rows[rows.length - 1])!.r
  const n = (name: string) => Number(row[at(name)])
  return { xd2Pu: n('xd2'), xd1Pu: n('xd1'), xdPu: n('xd'), x0Pu: n('x0'), td2S: n('td2'), td1S: n('td1') }
}

/** Resistance of the stator, share of X″d: small, kept so that x/r is finite. */
const STATOR_R_FRAC = 0.1

function setImpedance(task: SourceTask): SourceImpedance {
  const g = task.offer.generator
  if (g === undefined) throw new Fault('power/source-kind', { offer: task.offer.id, mode: task.mode })
  const kVA = g.ratedKVA * g.sets
  const x = setReactances(task.rules, g.ratedKVA)
  const strong = task.end === 'strong'
  const xd2 = strong ? g.subtransientPct.low / 100 : g.subtransientPct.high / 100
  // X′d is not on the offer: it moves with X″d, in the ratio of the table's row.
  const xPu = task.state === 'steady' ? 0 : task.state === 'subtransient' ? xd2 : (xd2 * x.xd1Pu) / x.xd2Pu
  const three = isThree(task.system)
  const v = lineVolts(task.system)
  const base = (v * v) / (kVA * 1000) / (three ? 1 : 2)
  const z1 = cx(task.state === 'steady' ? 0 : STATOR_R_FRAC * xd2 * base, xPu * base)
  const z0 = task.state === 'steady' ? cx(0) : cx(STATOR_R_FRAC * xd2 * base, x.x0Pu * base)
  const row = source('table generator-react', 'common practice')
  const rests = g.subtransientPct.told && task.state === 'subtransient' ? source(g.subtransientPct.basis, 'told') : row
  const symbol = task.state === 'transient' ? 'X′d' : task.state === 'subtransient' ? 'X″d' : 'Z_G'
  const steps = [
    task.state === 'steady'
      ? step(
          symbol,
          'the regulator holds the volts at the terminals',
          [put('S', kVA, 'kVA')],
          0,
          'Ω',
          source('automatic voltage regulator', 'common practice'),
        )
      : step(symbol, 'x·V²/S', [put('x', xPu, 'pu'), put('V', v, 'V'), put('S', kVA, 'kVA')], z1.im, 'Ω per line', rests),
  ]
  const assumed: Assumption[] = g.subtransientPct.told
    ? []
    : [
        {
          path: `facts.supply.${task.offer.id}.generator.subtransient`,
          said: `subtransient reactance taken at both ends, ${g.subtransientPct.low} and ${g.subtransientPct.high} %`,
          source: g.subtransientPct.basis,
        },
      ]
  return finish(task, { z1, z0, ratedKVA: kVA, steps, assumed, provenance: weakest(rests.provenance, row.provenance) })
}

type Found = Pick<SourceImpedance, 'z1' | 'z0' | 'ratedKVA' | 'steps' | 'assumed' | 'provenance'>

function finish(task: SourceTask, found: Found): SourceImpedance {
  const { offer, mode, end, state, system } = task
  const base = {
    mode,
    offer: offer.id,
    end,
    state,
    system,
    loops: setLoops(task, found) ?? terminalLoops(system, found.z1, found.z0),
  }
  return { ...base, ...found }
}

/** A one-phase set is not a centre-tapped transformer: each half winding carries half of the line–line loop. */
function setLoops(task: SourceTask, found: Found): Loops | null {
  if (task.mode !== 'own set' || task.system.kind !== 'split') return null
  return { threePhase: null, lineLine: scale(found.z1, 2), lineNeutral: found.z1, lineEarth: found.z1 }
}

const fixed = (n: number): string => Number(n.toPrecision(4)).toString()
