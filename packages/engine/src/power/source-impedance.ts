import type { Assumption } from '../job/index.ts'
import { type Complex, Fault, put, type Step, scale, source, step, weakest } from '../kernel/index.ts'
import type { RuleSet, System } from '../rules/index.ts'
import { halfWindingZ, terminalLoops } from './loops.ts'
import { feederZ, LOW_TOLERANCE_FRAC, transformerZ, withXOverR } from './plates.ts'
import { setImpedance, setLoops } from './set-impedance.ts'
import type { Found, SourceImpedance, SourceTask } from './source-task.ts'
import { isThree, lineVolts } from './systems.ts'

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
  if (task.mode === 'own set') return finish(task, setImpedance(task))
  const { offer } = task
  if (offer.transformer !== undefined) return behindTransformer(task)
  if (offer.faultA !== undefined) return behindFaultLevel(task, offer.faultA)
  return task.mode === 'neighbour' ? behindNeighbour(task) : behindTypical(task)
}

/** Per-phase value from the per-unit magnitude on S and the line voltage: V²/S for three phases, half the loop for one. */
function perPhase(system: System, zPu: number, xOverR: number, sVA: number): Complex {
  const z = transformerZ({ ratedVA: sVA, voltageV: lineVolts(system), impedanceFrac: zPu, xOverRRatio: xOverR })
  return isThree(system) ? z : scale(z, 0.5)
}

function behindTransformer(task: SourceTask): SourceImpedance {
  const t = task.offer.transformer!
  const strong = task.end === 'strong'
  const tolerant = strong && task.tolerance !== false
  const pct = (strong ? t.impedancePct.low : t.impedancePct.high) * (tolerant ? LOW_TOLERANCE_FRAC : 1)
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
  const lineNeutral = halfWindingZ(scale(z1, 2))
  return step(
    'Z_LN',
    '(1.5 R + j 1.2 X)/4 of the line–line loop',
    [put('R', 2 * z1.re, 'Ω'), put('X', 2 * z1.im, 'Ω')],
    `${fixed(lineNeutral.re * 1000)} + j${fixed(lineNeutral.im * 1000)}`,
    'mΩ',
    CENTRE_TAP,
  )
}

/** A written level is an upper value; half of it is taken as the weakest a network will show through the year. */
const WRITTEN_LOW_FRAC = 0.5

function behindFaultLevel(task: SourceTask, written: NonNullable<SourceTask['offer']['faultA']>): SourceImpedance {
  const { value: faultA, by } = written
  const strong = task.end === 'strong'
  const level = strong ? faultA : WRITTEN_LOW_FRAC * faultA
  const v = lineVolts(task.system)
  const three = isThree(task.system)
  const xr = strong ? 3 : 1
  const between = three
    ? feederZ({ voltageV: v, shortCircuitA: level, cRatio: 1, rOverXRatio: 1 / xr, turnsRatio: 1 })
    : withXOverR(v / (2 * level), xr)
  const toNeutral = written.ofAny === true ? neutralShare(task.system, between) : 1
  const z1 = { re: between.re * toNeutral, im: between.im * toNeutral }
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
      `${three ? 'V/(√3·I_k)' : 'V/I_k, one line half of it'}${toNeutral > 1 ? ' · k' : ''}`,
      [put('V', v, 'V'), put('I_k', level, 'A'), put('x/r', xr), ...(toNeutral > 1 ? [put('k', toNeutral)] : [])],
      `${fixed(z1.re * 1000)} + j${fixed(z1.im * 1000)}`,
      'mΩ per line',
      rests,
    ),
  ]
  return finish(task, { z1, z0: z1, ratedKVA: null, steps, assumed, provenance: 'common practice' })
}

/**
 * How much more flows to the tap of a centre-tapped winding than between its lines, at its terminals; 1 for every other system. A level
 * written as the highest of any kind is that one.
 */
function neutralShare(system: System, z1: Complex): number {
  const { lineLine, lineNeutral } = terminalLoops(system, z1, z1)
  if (system.kind !== 'split' || lineNeutral === null) return 1
  return Math.max(
    1,
    ((Math.hypot(lineLine.re, lineLine.im) / system.lineLineV) * system.lineNeutralV) /
      Math.hypot(lineNeutral.re, lineNeutral.im),
  )
}

/** Nobody named the transformer: the largest of the table at its lowest z, or the smallest that carries the service at its highest. */
function behindTypical(task: SourceTask): SourceImpedance {
  const three = isThree(task.system)
  const needKVA = ((three ? Math.sqrt(3) : 1) * lineVolts(task.system) * task.serviceA) / 1000
  const rows = transformerRows(task.rules, three)
  const fits = rows.filter((r) => r.kVA >= needKVA * TYPICAL_LOADING_FRAC)
  const largest = rows[rows.length - 1]!
  const row = task.end === 'strong' ? largest : (fits[0] ?? largest)
  const pct = task.end === 'strong' ? row.lowPct * LOW_TOLERANCE_FRAC : row.highPct
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

export function finish(task: SourceTask, found: Found): SourceImpedance {
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

const fixed = (n: number): string => Number(n.toPrecision(4)).toString()
