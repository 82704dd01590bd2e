import type { Plug } from '../../job/index.ts'
import {
  type Finding,
  judgeEnds,
  judgeLower,
  judgeUpper,
  type Mend,
  put,
  type Source,
  type Step,
  source,
  step,
  type Verdict,
  type Working,
  weakest,
  worst,
} from '../../kernel/index.ts'
import { runDropV } from './drop.ts'
import { longestCords } from './longest-cord.ts'
import type { CordReach, PlugVolts } from './result.ts'
import { limitOf, type Setting } from './setting.ts'
import { plugRows, plugVolts, type SolvedState, strongDrops } from './states.ts'

/** Least volts a machine is asked to work at, share of nominal. */
export const LEAST: Record<Plug['kind'], { readonly frac: number; readonly basis: 'maker' | 'house'; readonly rests: Source }> = {
  heater: {
    frac: 0.9,
    basis: 'house',
    rests: source('a heater keeps four fifths of its heat (90 % of its volts)', 'common practice'),
  },
  charger: { frac: 0.9, basis: 'maker', rests: source('input range of chargers, nominal − 10 %', 'common practice') },
  electronic: {
    frac: 0.9,
    basis: 'maker',
    rests: source('input range of electronic supplies, nominal − 10 %', 'common practice'),
  },
  motor: { frac: 0.9, basis: 'maker', rests: source('motors run at rated volts ± 10 % (NEMA MG 1)', 'memory') },
  drive: { frac: 0.9, basis: 'maker', rests: source('input range of drives, nominal − 10 %', 'common practice') },
  welder: { frac: 0.9, basis: 'maker', rests: source('input range of welders, nominal − 10 %', 'common practice') },
  mixed: { frac: 0.9, basis: 'house', rests: source('nominal − 10 %', 'common practice') },
}

const NETWORK: Source = source('network solution, backward–forward passes with neutral as a wire', 'computed')

/** The governing state in which a plug has the fewest volts. Undefined when no governing state has it on, or none is solved. */
export function worstState(setting: Setting, plug: number): SolvedState | undefined {
  let found: SolvedState | undefined
  let least = Infinity
  for (const s of setting.governing) {
    if (s.set.on[plug] !== 1 || s.weak.outcome !== 'solved') continue
    const v = plugVolts(setting.ends.weak, s.weak, plug)
    if (v >= least) continue
    least = v
    found = s
  }
  return found
}

export interface Judged {
  readonly findings: readonly Finding[]
  readonly workings: readonly Working[]
  readonly longest: ReadonlyMap<string, CordReach['longest']>
}

/** Drop and volts of every plug of a panel, judged in its worst governing state at both ends of what nobody told. */
export function dropFindings(setting: Setting, panel: number): Judged {
  const findings: Finding[] = []
  const workings: Working[] = []
  const longest = new Map<string, CordReach['longest']>()
  const { ends } = setting
  const rowsOf = new Map<SolvedState, ReadonlyMap<string, PlugVolts>>()
  ends.weak.plugs.forEach((p, k) => {
    if (ends.weak.circuits[p.circuit]!.panel !== panel) return
    const state = worstState(setting, k)
    if (state === undefined) return
    let rows = rowsOf.get(state)
    if (rows === undefined) {
      rows = new Map(plugRows(ends, state, panel).map((r) => [r.plug, r]))
      rowsOf.set(state, rows)
    }
    const row = rows.get(p.tag)!
    const one = judgePlug(setting, k, state, row)
    findings.push(...one.findings)
    workings.push(one.working)
    if (one.longest !== null) longest.set(p.tag, one.longest)
  })
  return { findings, workings, longest }
}

function judgePlug(setting: Setting, k: number, state: SolvedState, row: PlugVolts) {
  const { ends, inputs, suffix, mode } = setting
  const yard = ends.weak
  const p = yard.plugs[k]!
  const limit = limitOf(setting, k)
  const least = LEAST[p.plug?.kind ?? 'mixed']
  const strong = ends.bounded ? strongDrops(ends, state, k) : { total: row.totalDropFrac, outlet: row.outletDropFrac }
  const id = `${p.tag}/drop${suffix}`
  const total = judgeEnds(judgeUpper(row.totalDropFrac, limit.totalFrac), judgeUpper(strong.total, limit.totalFrac))
  const branch: Verdict | null =
    limit.branchFrac === null
      ? null
      : judgeEnds(judgeUpper(row.outletDropFrac, limit.branchFrac), judgeUpper(strong.outlet, limit.branchFrac))
  // Volts have a margin of their own: 1 % of nominal above the least counts as tight.
  const volts = judgeEnds(
    judgeLower(row.voltagePct, 100 * least.frac, VOLTS_TIGHT_FRAC),
    judgeLower((100 * row.bestV) / row.nominalV, 100 * least.frac, VOLTS_TIGHT_FRAC),
  )
  const cord = yard.cords[p.cord]!
  const design = yard.circuits[p.circuit]!.circuit.cords.find((c) => c.plug === cord.segment?.id.replace(/\/cord$/, ''))
  const longest =
    design === undefined
      ? null
      : longestCords({
          yard,
          solution: state.weak,
          plug: k,
          rules: inputs.rules,
          ohmPerM: setting.cordOhmPerM,
          ampacityA: setting.cordAmpacityA(design.type, p.elements.length === 3 ? 3 : 2),
          leastFrac: leastShares(row, limit, least.frac),
        })
  const bad = worst([total, branch ?? 'holds', volts])
  const mends = bad === 'fails' || bad === 'unknown' ? mendsOf(setting, k, row, longest, design?.size, design?.lengthM) : []
  const where = mode === 'network' ? '' : mode === 'own set' ? ' on the own set' : " on the neighbour's supply"
  // Words are made when somebody reads them.
  const heat = () => (row.heatLeftFrac === null ? '' : `, ${pct(row.heatLeftFrac)} of its heat is left`)
  const when = state.set.hoursH.length === 0 ? 'with everything on' : `as staged, ${state.set.id}`
  const provenance = weakest(limit.rests.provenance, ...(ends.bounded ? (['assumed'] as const) : []))
  const base = { question: 'reach' as const, subject: p.tag, assumed: setting.assumed, workings: [id], mends }
  const findings: Finding[] = [
    {
      ...base,
      code: 'reach/drop',
      verdict: total,
      basis: limit.basis,
      provenance,
      get said() {
        return `${p.tag}${where}, ${when}: ${volt(row.voltageV)} of ${volt(row.nominalV)}${heat()}; the wires lose ${pct(row.totalDropFrac)}, ${pct(limit.totalFrac)} ${limit.basis === 'code' ? 'is allowed' : 'is the advice'}.`
      },
      demand: put('ΔU', 100 * row.totalDropFrac, '%'),
      limit: put('ΔU max', 100 * limit.totalFrac, '%'),
    },
  ]
  const branchLimit = limit.branchFrac
  if (branch !== null && branchLimit !== null) {
    findings.push({
      ...base,
      code: 'reach/branch-drop',
      verdict: branch,
      basis: limit.basis,
      provenance,
      get said() {
        return `${p.tag}${where}, ${when}: the branch loses ${pct(row.outletDropFrac)} from the panel to the outlet, ${pct(branchLimit)} ${limit.basis === 'code' ? 'is allowed' : 'is the advice'}.`
      },
      demand: put('ΔU branch', 100 * row.outletDropFrac, '%'),
      limit: put('ΔU branch max', 100 * branchLimit, '%'),
    })
  }
  findings.push({
    ...base,
    code: 'reach/volts',
    verdict: volts,
    basis: least.basis,
    provenance: weakest(least.rests.provenance, ...(ends.bounded ? (['assumed'] as const) : [])),
    get said() {
      return `${p.tag}${where}, ${when}: ${volt(row.voltageV)} at the plug, ${row.voltagePct.toFixed(1)} % of nominal${heat()}; it wants ${(100 * least.frac).toFixed(0)} %.`
    },
    demand: put('U', row.voltagePct, '%'),
    limit: put('U min', 100 * least.frac, '%'),
  })
  return { findings, working: dropWorking(setting, k, state, row, id, limit), longest }
}

const VOLTS_TIGHT_FRAC = 0.01 / 0.9

/** Shares of nominal that the end of the cord must keep: by the limit on drop, and by the machine. */
function leastShares(row: PlugVolts, limit: ReturnType<typeof limitOf>, machineFrac: number) {
  const here = row.voltagePct / 100
  return [
    { by: 'drop' as const, frac: here + row.totalDropFrac - limit.totalFrac },
    { by: 'volts at the machine' as const, frac: machineFrac },
  ]
}

function mendsOf(
  setting: Setting,
  k: number,
  row: PlugVolts,
  longest: CordReach['longest'] | null,
  size: string | undefined,
  lengthM: number | undefined,
): readonly Mend[] {
  const { ends, inputs } = setting
  const p = ends.weak.plugs[k]!
  const out: Mend[] = []
  // Where the feed takes most of it, no cord can give it back.
  const feed = feedMend(setting)
  if (feed !== null && row.totalDropFrac - row.branchDropFrac > row.branchDropFrac) out.push(feed)
  const sizes = longest?.map((l) => l.size) ?? []
  if (longest !== null && size !== undefined && lengthM !== undefined) {
    const found = longest.find((l) => sizes.indexOf(l.size) > sizes.indexOf(size) && l.lengthM !== null && l.lengthM >= lengthM)
    if (found !== undefined)
      out.push({ path: `cords.${p.tag}.size`, value: found.size, words: `${found.size} cord instead of ${size}` })
  }
  const circuit = ends.weak.circuits[p.circuit]!.circuit
  const names = inputs.rules.sizes.map((s) => s.name)
  const heavier = names[names.indexOf(circuit.run.line.size) + 1]
  if (heavier !== undefined && circuit.run.lengthM > 0) {
    out.push({
      path: `circuits.${circuit.id}.line`,
      value: heavier,
      words: `${heavier} branch conductors instead of ${circuit.run.line.size}`,
    })
  }
  return out
}

/** The next heavier feed of the box; null at the end of the list. */
export function feedMend({ inputs, root: box }: Pick<Setting, 'inputs' | 'root'>): Mend | null {
  const names = inputs.rules.sizes.map((s) => s.name)
  const size = box.panel.feed.line.size
  const heavier = names[names.indexOf(size) + 1]
  return heavier === undefined ? null : { path: 'feed.line', value: heavier, words: `${heavier} feed instead of ${size}` }
}

/** Steps are made when somebody reads them: a box has a working for every plug and most are never opened. */
function dropWorking(
  setting: Setting,
  k: number,
  state: SolvedState,
  row: PlugVolts,
  id: string,
  limit: ReturnType<typeof limitOf>,
): Working {
  const { ends } = setting
  const yard = ends.weak
  const p = yard.plugs[k]!
  const when = state.set.hoursH.length === 0 ? 'everything on' : `as staged, ${state.set.id}`
  return {
    id,
    title: `Volts at ${p.tag}, ${when}${setting.suffix}`,
    get steps() {
      return dropSteps(setting, k, state, row)
    },
    judgement: {
      demand: put('ΔU', 100 * row.totalDropFrac, '%'),
      relation: '≤',
      limit: put('ΔU max', 100 * limit.totalFrac, '%'),
      tight: '10 %',
      rests: limit.rests,
    },
    get crossCheck() {
      return handCheck(setting, k, row)
    },
    notes: [
      `Conductors at ${setting.task.conductorC} °C, cords at ${setting.task.cordC ?? setting.task.conductorC} °C: their working temperatures, at which they resist most.`,
      `Solved in ${state.weak.passes} passes; largest current left over ${state.weak.residualA.toExponential(1)} A, power left over ${state.weak.imbalanceW.toExponential(1)} W.`,
      'Wires are counted from the point of supply, or from the own transformer; what the source itself loses is in the volts, not in the drop.',
      ...(ends.bounded ? ['What nobody told, named under “assumed”, is taken at both ends.'] : []),
    ],
  }
}

function dropSteps(setting: Setting, k: number, state: SolvedState, row: PlugVolts): readonly Step[] {
  const yard = setting.ends.weak
  const p = yard.plugs[k]!
  const circuit = yard.circuits[p.circuit]!
  const { tree } = yard.panels[circuit.panel]!
  const cord = yard.cords[p.cord]!.segment
  const el = yard.elements[p.elements[0]!]!
  const source = tree.source.source.steps
  const lost = (from: string, frac: number) =>
    step(
      'ΔU',
      `(U_${from} − U)/U_n`,
      [
        put(`U_${from}`, (row.voltagePct / 100 + frac) * row.nominalV, 'V'),
        put('U', row.voltageV, 'V'),
        put('U_n', row.nominalV, 'V'),
      ],
      100 * frac,
      '%',
      NETWORK,
    )
  return [
    ...source,
    ...tree.trunk.flatMap((s) => s.steps),
    ...circuit.run.steps,
    ...(cord?.steps ?? []),
    step(
      'I',
      el.model === 'Z' ? 'S/U_n · U/U_n' : el.model === 'I' ? 'S/U_n' : 'S/U',
      [put('S', Math.hypot(el.sVA.re, el.sVA.im) * p.elements.length, 'VA'), put('U', row.voltageV, 'V')],
      row.currentA,
      'A',
      NETWORK,
    ),
    step(
      'U',
      'all wires solved together',
      [
        put(
          'legs',
          Object.entries(panelAmps(setting, state, circuit.panel))
            .map(([l, a]) => `${l} ${a.toFixed(1)} A`)
            .join(', '),
        ),
      ],
      row.voltageV,
      'V',
      NETWORK,
    ),
    lost('panel', row.branchDropFrac),
    lost('supply', row.totalDropFrac),
  ]
}

function panelAmps(setting: Setting, state: SolvedState, panel: number): Record<string, number> {
  const out: Record<string, number> = {}
  setting.ends.weak.system.legs.forEach((leg) => {
    const w = { A: 0, B: 1, C: 2 }[leg]
    out[leg] = Math.hypot(state.weak.panelA[8 * panel + 2 * w]!, state.weak.panelA[8 * panel + 2 * w + 1]!)
  })
  return out
}

/** The hand's formula for run and cord beside the network's answer. */
function handCheck(setting: Setting, k: number, row: PlugVolts): readonly Step[] {
  const yard = setting.ends.weak
  const p = yard.plugs[k]!
  const circuit = yard.circuits[p.circuit]!
  const cord = yard.cords[p.cord]!.segment
  const el = yard.elements[p.elements[0]!]!
  const pf = el.sVA.re / Math.max(Math.hypot(el.sVA.re, el.sVA.im), 1e-9)
  const phases = p.elements.length === 3 ? 3 : 1
  const rests = source('ΔU = k·I·L·(r·cosφ + x·sinφ), k = 2 one phase, √3 three-phase', 'memory')
  const lines: Step[] = []
  for (const s of [circuit.run, cord]) {
    if (s === null) continue
    const { re: r, im: x } = s.phase.ohmPerM
    const v = runDropV({
      lengthM: s.lengthM,
      currentA: row.currentA,
      resistanceOhmPerM: r,
      reactanceOhmPerM: x,
      powerFactorFrac: Math.min(1, Math.max(0, pf)),
      phases,
    })
    lines.push(
      step(
        `ΔU ${s.kind}`,
        phases === 3 ? '√3·I·L·(r·cosφ + x·sinφ)' : '2·I·L·(r·cosφ + x·sinφ)',
        [put('I', row.currentA, 'A'), put('L', s.lengthM, 'm'), put('r', r, 'Ω/m'), put('x', x, 'Ω/m'), put('cosφ', pf)],
        v,
        'V',
        rests,
      ),
    )
  }
  return lines
}

const pct = (frac: number): string => `${(100 * frac).toFixed(1)} %`
const volt = (v: number): string => `${v.toFixed(1)} V`
