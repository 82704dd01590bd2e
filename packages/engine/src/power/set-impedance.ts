import type { Assumption } from '../job/index.ts'
import { cx, Fault, put, scale, source, step, weakest } from '../kernel/index.ts'
import type { RuleSet } from '../rules/index.ts'
import { generatorZ } from './plates.ts'
import type { Found, Loops, SourceTask } from './source-task.ts'
import { isThree, lineVolts } from './systems.ts'

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

export function setImpedance(task: SourceTask): Found {
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
  const behind = (subtransientFrac: number) =>
    scale(generatorZ({ ratedVA: kVA * 1000, voltageV: v, subtransientFrac, rOverXRatio: STATOR_R_FRAC }), three ? 1 : 1 / 2)
  const still = task.state === 'steady'
  const z1 = still ? cx(0) : cx(behind(xd2).re, behind(xPu).im)
  const z0 = still ? cx(0) : cx(behind(xd2).re, behind(x.x0Pu).im)
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
  return { z1, z0, ratedKVA: kVA, steps, assumed, provenance: weakest(rests.provenance, row.provenance) }
}

/** A one-phase set is not a centre-tapped transformer: each half winding carries half of the line–line loop. */
export function setLoops(task: SourceTask, found: Found): Loops | null {
  if (task.mode !== 'own set' || task.system.kind !== 'split') return null
  return { threePhase: null, lineLine: scale(found.z1, 2), lineNeutral: found.z1, lineEarth: found.z1 }
}
