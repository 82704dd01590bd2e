import type { BoxDesign, Leg } from '../../job/index.ts'
import type { Finding, Working } from '../../kernel/index.ts'
import type { Answer } from '../answer.ts'
import type { Inputs } from '../inputs.ts'
import { type BoxLoad, boxesBehind, boxLoads, dutyBound, ownTag, stagingOf } from '../staging/index.ts'
import { boxFindings } from './box-findings.ts'
import { demandOf } from './demand.ts'
import { type BoxFacts, found, subjectOf } from './finding.ts'
import { physicalPlugs, plugFindings } from './plug-findings.ts'
import { hourlyKWh, meanProfileW } from './profile.ts'
import type { BoxNeeds, NeedsResult } from './result.ts'
import { plugNeed, plugWorking } from './rows.ts'
import { sumsOf } from './sums.ts'

/** Legs of every plug and own load, as the circuits of these boxes have them. */
export function legsOfDesign(boxes: readonly BoxDesign[]): Record<string, readonly Leg[]> {
  const legs: Record<string, readonly Leg[]> = {}
  for (const box of boxes) {
    for (const circuit of box.circuits) {
      for (const plug of circuit.plugs) legs[plug] = circuit.legs
      if (circuit.own !== null && circuit.own !== 'stub' && circuit.own !== 'spare')
        legs[ownTag(box.box, circuit.own)] = circuit.legs
    }
  }
  return legs
}

/**
 * What has to run, and when: the machine list with W, VA and A, legs, profiles before and after staging with bound and proof, demand,
 * growth and the restart after an outage. A box fed from another is counted in both: in its own answer and in that of the box that feeds it.
 */
export function answerNeeds(inputs: Inputs): Answer<NeedsResult> {
  const { job, design, rules } = inputs
  const findings: Finding[] = []
  const workings = new Map<string, Working>()
  const boxes: BoxNeeds[] = []
  const seen = new Map<string, BoxLoad>()

  for (const box of design.boxes) {
    const ids = new Set(boxesBehind(job, box.box).map((b) => b.id))
    const behind = design.boxes.filter((b) => b.phase === box.phase && ids.has(b.box))
    const loads = boxLoads({ job, boxId: box.box, phaseId: box.phase, rules, legsOf: legsOfDesign(behind) })
    for (const load of loads) if (load.plug && !seen.has(load.tag)) seen.set(load.tag, load)
    const startH = Object.assign({}, ...behind.map((b) => b.staging.startH)) as Record<string, number>
    const staging = stagingOf(loads, { boxId: box.box, phaseId: box.phase, control: box.staging.control, startH })
    const worked = demandOf(loads, { job, boxId: box.box, phaseId: box.phase, rules, staging: box.staging, staged: staging })
    const plugs = loads.flatMap((load) => (load.plug && load.box === box.box ? [load.plug] : []))
    const facts: BoxFacts = { subject: subjectOf(design, box), box, behind, loads, plugs, rules, staging, worked }
    const sums = {
      machines: sumsOf(loads.filter((l) => l.own === null)),
      own: sumsOf(loads.filter((l) => l.own !== null)),
      all: sumsOf(loads),
    }
    const ofBox = boxFindings(inputs, facts, sums)
    const ofPlugs = plugFindings(facts)
    findings.push(...ofBox.findings, ...ofPlugs.findings)
    for (const w of [...ofBox.workings, ...ofPlugs.workings, ...loads.map(plugWorking)])
      if (!workings.has(w.id)) workings.set(w.id, w)
    const meanW = meanProfileW(loads, box.staging.control === 'none' ? {} : startH)
    boxes.push({
      box: box.box,
      phase: box.phase,
      rows: loads.map((load) => plugNeed(load, rules)),
      ...sums,
      control: box.staging.control,
      staging,
      demand: worked.demand,
      coldRestart: worked.coldRestart,
      meanW,
      hourlyKWh: hourlyKWh(meanW),
      sharedPlugs: physicalPlugs(plugs)
        .filter((group) => group.length > 1)
        .map((group) => ({
          plug: group[0]?.plugShared ?? '',
          tags: group.map((p) => p.tag),
          currentA: group.reduce((sum, p) => sum + p.currentA, 0),
          powerW: group.reduce((sum, p) => sum + p.powerW, 0),
        })),
    })
  }
  const unfed = job.plugs.filter((plug) => !seen.has(plug.tag))
  for (const plug of unfed) {
    findings.push(
      found({
        code: 'needs/not-fed',
        subject: plug.tag,
        verdict: 'fails',
        basis: 'physics',
        provenance: 'told',
        said: `${plug.tag} (${plug.what}) is fed by no box of the design in any phase.`,
      }),
    )
  }
  const machines = [...seen.values()]
  return {
    findings: unique(findings),
    workings: [...workings.values()],
    result: { boxes, machines: sumsOf(machines), dutyBoundW: machines.length === 0 ? 0 : dutyBound(machines).value },
  }
}

/** A plug in two phases of one box says the same thing once. */
function unique(findings: readonly Finding[]): Finding[] {
  const seen = new Set<string>()
  return findings.filter((f) => {
    const key = `${f.code}|${f.subject}|${f.said}`
    if (seen.has(key)) return false
    seen.add(key)
    return true
  })
}
