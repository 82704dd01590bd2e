import {
  type Finding,
  judgeEnds,
  judgeUpper,
  put,
  source,
  step,
  type Verdict,
  type Working,
  weakest,
  worst,
} from '../../kernel/index.ts'
import { feedMend } from './drop-findings.ts'
import { openNeutral } from './open-neutral.ts'
import type { OpenNeutral } from './result.ts'
import type { Setting } from './setting.ts'
import { loadState, type SolvedState } from './states.ts'

export interface PanelJudged {
  readonly findings: readonly Finding[]
  readonly workings: readonly Working[]
  readonly openNeutral: OpenNeutral | null
}

/** What concerns the panel as a whole: is there a solution, do its volts stay in the band, what happens when its neutral opens. */
export function panelFindings(setting: Setting, panel: number): PanelJudged {
  const box = setting.ends.weak.panels[panel]!.tree.box.box
  const unsolved = setting.states
    .filter((s) => s.weak.outcome !== 'solved' || s.strong.outcome !== 'solved')
    .map((s) => unsolvedFinding(setting, box, s))
  const solved = setting.governing.filter((s) => s.weak.outcome === 'solved')
  const band = solved.length === 0 ? null : bandFinding(setting, panel, box, solved)
  const open = openNeutralFinding(setting, panel, box)
  return {
    findings: [...unsolved, ...(band === null ? [] : [band.finding]), ...(open === null ? [] : [open.finding])],
    workings: [...(band === null ? [] : [band.working]), ...(open === null ? [] : [open.working])],
    openNeutral: open?.result ?? null,
  }
}

/** Proven to have none: fails. Given up: unknown. Only one end has none: unknown, what was not told decides. */
function unsolvedFinding(setting: Setting, box: string, state: SolvedState): Finding {
  const bad = state.weak.outcome === 'solved' ? state.strong : state.weak
  const of = (outcome: string): Verdict => (outcome === 'solved' ? 'holds' : outcome === 'none' ? 'fails' : 'unknown')
  const governs = setting.governing.includes(state)
  const names = bad.culprits.length === 0 ? box : bad.culprits.join(', ')
  const when = state.set.hoursH.length === 0 ? 'with everything on' : `as staged, ${state.set.id}`
  const ends = judgeEnds(of(state.weak.outcome), of(state.strong.outcome))
  return {
    // One state of a box has one such finding: its subject is the machine, its code says what happened.
    code: bad.outcome === 'none' ? 'reach/collapse' : 'reach/given-up',
    question: 'reach',
    subject: bad.culprits[0] ?? box,
    verdict: governs || ends !== 'fails' ? ends : 'tight',
    basis: 'physics',
    provenance: 'computed',
    said:
      bad.outcome === 'none'
        ? `${names} on ${setting.offer}, ${when}: there are no volts at which it can take its power; the volts collapse.`
        : `${names} on ${setting.offer}, ${when}: the network was not solved within the work allowed, so it cannot be judged.`,
    assumed: setting.assumed,
    workings: [],
    mends: [],
  }
}

function bandFinding(
  setting: Setting,
  panel: number,
  box: string,
  solved: readonly SolvedState[],
): { readonly finding: Finding; readonly working: Working } {
  const { ends, suffix, mode } = setting
  const { system } = ends.weak
  const lowest = { key: '', frac: Infinity, best: Infinity, v: 0 }
  for (const s of solved) {
    const state = loadState(ends, s, panel)
    for (const [key, v] of Object.entries(state.panelV)) {
      const nominal = nominalOf(setting, key)
      if (v / nominal >= lowest.frac) continue
      Object.assign(lowest, { key, frac: v / nominal, best: (state.panelBestV[key] ?? NaN) / nominal, v })
    }
  }
  // Written −0.05 in the tables: how far below nominal.
  const room = Math.abs(system.bandLowFrac)
  const low = 1 - room
  const lost = 1 - lowest.frac
  // The band is the supplier's; what our load takes from it may use all of it, and what is left is the supplier's own spread.
  const verdict = judgeEnds(judgeUpper(lost, room), judgeUpper(1 - lowest.best, room))
  const heavier = feedMend(setting)
  const id = `${box}/panel-volts${suffix}`
  const where = mode === 'network' ? '' : `, fed by ${setting.offer}`
  return {
    finding: {
      code: 'reach/panel-volts',
      question: 'reach',
      subject: box,
      verdict,
      basis: 'code',
      provenance: weakest(system.source.provenance, ...(ends.bounded ? (['assumed'] as const) : [])),
      said: `At the panel of ${box}${where} the lowest volts are ${lowest.key} ${lowest.v.toFixed(1)} V, ${(100 * lowest.frac).toFixed(1)} % of nominal, when the source stands at nominal; the band ends at ${(100 * low).toFixed(1)} %.`,
      demand: put('U', 100 * lowest.frac, '%'),
      limit: put('U min', 100 * low, '%'),
      assumed: setting.assumed,
      workings: [id],
      mends: verdict === 'fails' && heavier !== null ? [heavier] : [],
    },
    working: {
      id,
      title: `Volts at the panel of ${box}`,
      steps: [
        ...ends.weak.panels[panel]!.tree.source.source.steps,
        step(
          'U',
          'network solution, lowest of all legs and states that govern',
          [put('wires', lowest.key)],
          lowest.v,
          'V',
          source('network solution', 'computed'),
        ),
      ],
      judgement: {
        demand: put('U', 100 * lowest.frac, '%'),
        relation: '≥',
        limit: put('U min', 100 * low, '%'),
        tight: '10 % of the band',
        rests: system.source,
      },
      notes: ['The source is taken at nominal behind its impedance; a supplier who stands low in his own band leaves less.'],
    },
  }
}

function nominalOf(setting: Setting, key: string): number {
  const { system } = setting.ends.weak
  if (!key.endsWith('-N')) return system.lineLineV
  return system.kind === 'delta' && key.startsWith('B') ? system.lineNeutralV * Math.sqrt(3) : system.lineNeutralV
}

function openNeutralFinding(
  setting: Setting,
  panel: number,
  box: string,
): { readonly finding: Finding; readonly working: Working; readonly result: OpenNeutral } | null {
  const { ends, states, suffix } = setting
  let found: OpenNeutral | null = null
  let at: SolvedState | null = null
  // The worst state is the one that puts most on a machine; a bare leg harms nobody.
  const most = (o: OpenNeutral) =>
    (o.over[0]?.voltagePct ?? 0) + (1e-3 * Math.max(...Object.values(o.legV))) / ends.weak.system.lineNeutralV
  for (const s of states) {
    const one = openNeutral(ends.weak, s.set.on, panel)
    if (one === null || (found !== null && most(one) <= most(found))) continue
    found = one
    at = s
  }
  if (found === null || at === null) return null
  const id = `${box}/open-neutral${suffix}`
  const highest = Object.entries(found.legV).reduce((a, b) => (b[1] > a[1] ? b : a))
  const when = at.set.hoursH.length === 0 ? 'with everything on' : `as staged, ${at.set.id}`
  const verdict: Verdict = worst([found.over.length > 0 ? 'tight' : 'holds'])
  const named = found.over
    .slice(0, 4)
    .map((o) => `${o.plug} ${o.voltageV.toFixed(0)} V`)
    .join(', ')
  return {
    result: found,
    finding: {
      code: 'reach/open-neutral',
      question: 'reach',
      subject: box,
      verdict,
      basis: 'physics',
      provenance: 'computed',
      said: `If the neutral of the feed of ${box} opens ${when}, leg ${highest[0]} goes to ${highest[1].toFixed(0)} V${found.over.length === 0 ? '' : `; above 110 %: ${named}${found.over.length > 4 ? ` and ${found.over.length - 4} more` : ''}`}.`,
      assumed: [],
      workings: [id],
      mends: [],
      caution:
        'An open neutral burns what hangs on the lightly loaded leg and can set it alight: torque and test the neutral first, open it last.',
    },
    working: {
      id,
      title: `Open neutral at the feed of ${box}, ${when}`,
      steps: Object.entries(found.legV).map(([leg, v]) =>
        step(
          `U_${leg}`,
          '|V_leg − Σ Y·V / Σ Y|',
          [
            put(
              'loads',
              at.set.on.reduce((a, b) => a + b, 0),
            ),
          ],
          v,
          'V',
          source("Millman's theorem, loads as constant impedances", 'computed'),
        ),
      ),
      notes: ['A load that holds its power behaves worse than this; one that switches off behaves better.'],
    },
  }
}
