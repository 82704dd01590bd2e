import { type Finding, type Verdict, type Working, worst } from '../../kernel/index.ts'
import type { Answer } from '../answer.ts'
import type { Inputs } from '../inputs.ts'
import { cordFindings } from './cord-findings.ts'
import { dropFindings } from './drop-findings.ts'
import { panelFindings } from './panel-findings.ts'
import type { BoxReach, PlugVolts, ReachResult } from './result.ts'
import { limitOf, type Setting, settingsOf } from './setting.ts'
import { startFindings } from './start-findings.ts'
import { loadState } from './states.ts'

/**
 * Does it still work at the end of the cord? Every box and phase on every source that can feed it: volts at each plug with all on and
 * as staged, drops, heat left, motor starts, an open neutral, and each cord.
 */
export function answerReach(inputs: Inputs): Answer<ReachResult> {
  const findings: Finding[] = []
  const workings: Working[] = []
  const boxes: BoxReach[] = []
  const seen = new Set<string>()
  for (const setting of settingsOf(inputs)) {
    setting.ends.weak.panels.forEach((panel, k) => {
      const one = boxReach(setting, k)
      boxes.push(one.box)
      for (const f of one.findings) {
        // A cord's ampacity and jacket are the same on every source: said once.
        const key = SAME_ON_EVERY_SOURCE.has(f.code) ? `${panel.tree.box.phase} ${f.code} ${f.subject}` : ''
        if (key !== '' && seen.has(key)) continue
        if (key !== '') seen.add(key)
        findings.push(f)
      }
      workings.push(...one.workings)
    })
  }
  return { findings, workings, result: { boxes } }
}

const SAME_ON_EVERY_SOURCE: ReadonlySet<string> = new Set(['reach/cord-cold'])

function boxReach(
  setting: Setting,
  panel: number,
): { readonly box: BoxReach; readonly findings: readonly Finding[]; readonly workings: readonly Working[] } {
  const { ends } = setting
  const { box } = ends.weak.panels[panel]!.tree
  const whole = panelFindings(setting, panel)
  const drop = dropFindings(setting, panel)
  const states = setting.states.map((s) => loadState(ends, s, panel))
  const starts = startFindings(setting, panel)
  const worstRow = new Map<string, PlugVolts>()
  for (const s of states) {
    for (const r of s.plugs) if (!((worstRow.get(r.plug)?.voltageV ?? Infinity) <= r.voltageV)) worstRow.set(r.plug, r)
  }
  const verdicts = new Map<string, Verdict>()
  for (const f of drop.findings) {
    const known = verdicts.get(f.subject)
    verdicts.set(f.subject, known === undefined ? f.verdict : worst([known, f.verdict]))
  }
  const lost = new Map<string, { dropV: number; dropPct: number; verdict: Verdict }>()
  ends.weak.plugs.forEach((p) => {
    if (ends.weak.circuits[p.circuit]!.panel !== panel) return
    const cord = ends.weak.cords[p.cord]!.segment?.id.replace(/\/cord$/, '')
    const row = worstRow.get(p.tag)
    if (cord === undefined || row === undefined) return
    const verdict = verdicts.get(p.tag) ?? 'unknown'
    const dropV = row.branchDropFrac * row.nominalV
    const known = lost.get(cord)
    if (known === undefined || known.dropV < dropV) lost.set(cord, { dropV, dropPct: 100 * row.branchDropFrac, verdict })
  })
  const cords = cordFindings(setting, panel, drop.longest, lost)
  const first = ends.weak.plugs.findIndex((p) => ends.weak.circuits[p.circuit]!.panel === panel)
  const limit =
    first < 0 ? { branchFrac: null, totalFrac: NaN, basis: 'house' as const, place: 'no plug' } : limitOf(setting, first)
  return {
    box: {
      box: box.box,
      phase: box.phase,
      mode: setting.mode,
      offer: setting.offer,
      conductorC: setting.task.conductorC,
      limit: { branchFrac: limit.branchFrac, totalFrac: limit.totalFrac, basis: limit.basis, place: limit.place },
      states,
      starts: starts.starts,
      openNeutral: whole.openNeutral,
      cords: cords.cords,
    },
    findings: [...whole.findings, ...drop.findings, ...starts.findings, ...cords.findings],
    workings: [...whole.workings, ...drop.workings, ...starts.workings, ...cords.workings],
  }
}
