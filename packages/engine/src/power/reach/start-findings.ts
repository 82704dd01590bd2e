import {
  Fault,
  type Finding,
  judgeEnds,
  judgeUpper,
  type Mend,
  put,
  source,
  step,
  type Verdict,
  type Working,
  weakest,
  worst,
} from '../../kernel/index.ts'
import { worstState } from './drop-findings.ts'
import type { StartDip } from './result.ts'
import type { Setting } from './setting.ts'
import { solveYard } from './solve-yard.ts'
import { type Started, started, startsOnLine } from './starts.ts'
import { type Yard, yardOf } from './yard.ts'

export interface StartsJudged {
  readonly findings: readonly Finding[]
  readonly workings: readonly Working[]
  readonly starts: readonly StartDip[]
}

/** Every motor of a panel started with all else on: its own dip, the panel's, and who else sees it, at both ends of its power factor. */
export function startFindings(setting: Setting, panel: number): StartsJudged {
  const { ends, inputs, task } = setting
  const findings: Finding[] = []
  const workings: Working[] = []
  const starts: StartDip[] = []
  let transient: Yard | null = null
  ends.weak.plugs.forEach((p, k) => {
    if (ends.weak.circuits[p.circuit]!.panel !== panel || !startsOnLine(p.plug)) return
    transient ??= setting.mode === 'own set' ? yardOf(setting.root, { ...task, state: 'transient' }) : ends.weak
    const on = (worstState(setting, k) ?? setting.states[0]!).set.on
    const others = on.slice()
    others[k] = 0
    const before = solveYard(ends.weak, { on: others })
    const both = (['high', 'low'] as const).map((end) =>
      started({ steady: ends.weak, transient: transient!, plug: k, on, rules: inputs.rules, end, before }),
    )
    const one = judge(setting, p.tag, both)
    starts.push(one.worse)
    findings.push(one.finding)
    workings.push(one.working)
  })
  return { findings, workings, starts }
}

function dipLimit(setting: Setting, place: string): number {
  const table = setting.inputs.rules.tables['dip-limits']
  const row = table?.rows.find((r) => r[0] === place)
  if (row === undefined) throw new Fault('power/table-missing', `dip-limits: ${place}`)
  return Number(row[1])
}

const PRACTICE = source('table dip-limits, first plan', 'common practice')

function judge(
  setting: Setting,
  tag: string,
  both: readonly Started[],
): { readonly worse: StartDip; readonly finding: Finding; readonly working: Working } {
  const electronic = setting.ends.weak.plugs.some(
    (p) => p.plug !== null && (p.plug.kind === 'electronic' || p.plug.kind === 'charger'),
  )
  const panelPlace =
    setting.mode !== 'own set' ? 'at the panel with lights' : electronic ? 'generator with electronics' : 'generator, motors only'
  const panelLimit = dipLimit(setting, panelPlace)
  // A set's own row is wider than the motor's: what a set may dip by, its motor must bear.
  const machineLimit = Math.max(dipLimit(setting, 'at the starting motor'), setting.mode === 'own set' ? panelLimit : 0)
  const verdictOf = (s: Started): Verdict => {
    if (s.outcome !== 'solved') return s.outcome === 'none' ? 'fails' : 'unknown'
    const drops: Verdict = s.dip.below70.length > 0 ? 'fails' : s.dip.below85.length > 0 ? 'tight' : 'holds'
    return worst([judgeUpper(s.dip.atMachinePct, machineLimit), judgeUpper(s.dip.atPanelPct, panelLimit), drops])
  }
  const verdict = judgeEnds(verdictOf(both[0]!), verdictOf(both[1]!))
  const share = (s: Started) =>
    s.outcome !== 'solved' ? Infinity : Math.max(s.dip.atMachinePct / machineLimit, s.dip.atPanelPct / panelLimit)
  const worse = share(both[0]!) >= share(both[1]!) ? both[0]! : both[1]!
  const { dip } = worse
  const atMachine = dip.atMachinePct / machineLimit >= dip.atPanelPct / panelLimit
  const id = `${tag}/start${setting.suffix}`
  const provenance = weakest('common practice', ...worse.steps.map((s) => s.rests.provenance))
  const seen =
    dip.below85.length === 0
      ? 'no neighbour falls below 85 %'
      : `below 85 %: ${dip.below85.join(', ')}${dip.below70.length === 0 ? '' : `; below 70 %: ${dip.below70.join(', ')}`}`
  const said =
    worse.outcome === 'solved'
      ? `${tag} starts with ${dip.startA.toFixed(0)} A on ${setting.offer}: ${dip.atMachinePct.toFixed(1)} % dip at itself (${machineLimit} % is taken), ${dip.atPanelPct.toFixed(1)} % at the panel (${panelLimit} %); ${seen}.`
      : `${tag} cannot start on ${setting.offer}: the volts of ${worse.culprits.join(', ')} ${worse.outcome === 'none' ? 'collapse' : 'could not be solved'}.`
  return {
    worse: dip,
    finding: {
      code: 'reach/start',
      question: 'reach',
      subject: tag,
      verdict,
      basis: 'house',
      provenance,
      said,
      demand: atMachine ? put('dip', dip.atMachinePct, '%') : put('dip at panel', dip.atPanelPct, '%'),
      limit: atMachine ? put('dip max', machineLimit, '%') : put('dip max', panelLimit, '%'),
      assumed: setting.assumed,
      workings: [id],
      mends: verdict === 'holds' || verdict === 'tight' || !atMachine ? [] : heavierCord(setting, tag),
    },
    working: {
      id,
      title: `Start of ${tag} on ${setting.offer}`,
      steps: [
        ...worse.steps,
        step(
          'Z_st',
          'U²/S_st at standstill, the whole network solved again',
          [put('I_st', dip.startA, 'A'), put('cosφ', dip.startPowerFactorFrac)],
          dip.atMachinePct,
          '% dip',
          source('motor at standstill: constant impedance, pf 0.2–0.4', 'memory'),
        ),
        step(
          'dip',
          '1 − U_during/U_before at the panel',
          [put('source', setting.mode === 'own set' ? 'behind X′d' : 'behind its impedance')],
          dip.atPanelPct,
          '%',
          source('network solution', 'computed'),
        ),
      ],
      judgement: {
        demand: put('dip', dip.atMachinePct, '%'),
        relation: '≤',
        limit: put('dip max', machineLimit, '%'),
        tight: '10 %',
        rests: PRACTICE,
      },
      notes: [
        `Judged at locked-rotor power factors 0.2 and 0.4; the worse is shown. At the panel ${panelLimit} % (${panelPlace}).`,
      ],
    },
  }
}

/** The next heavier cord of a motor whose own wires lose too much at its start. */
function heavierCord(setting: Setting, tag: string): readonly Mend[] {
  const cord = setting.ends.weak.circuits.flatMap((c) => c.circuit.cords).find((c) => c.plug === tag)
  if (cord === undefined) return []
  const sizes = setting.inputs.rules.cordSizes()
  const next = sizes[sizes.indexOf(cord.size) + 1]
  return next === undefined ? [] : [{ path: `cords.${tag}.size`, value: next, words: `${next} cord instead of ${cord.size}` }]
}
