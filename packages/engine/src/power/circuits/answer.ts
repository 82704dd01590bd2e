import { type Finding, source, type Verdict, type Working, worst } from '../../kernel/index.ts'
import type { Answer } from '../answer.ts'
import type { Inputs } from '../inputs.ts'
import { type BoxView, boxView, subjectIn } from './box-view.ts'
import { type Check, findingOf, provenanceOf, type Subject, shown, workingId, workingOf } from './check.ts'
import { builtChecks } from './judge-built.ts'
import { type JudgedCircuit, judgedCircuit, toldOnce } from './judge-circuit.ts'
import { feedChecks } from './judge-feed.ts'
import { shockExemptChecks } from './judge-outlet.ts'
import { judgedLegs, panelChecks } from './judge-panel.ts'
import type { BoxCircuits, CircuitsResult } from './result.ts'
import { scheduleOf } from './schedule.ts'

/**
 * Who plugs in where, and does it hold: every check of every circuit, cord, panel and feed of any design, whoever made it. What does not
 * hold has a finding of its own; what holds is told once a circuit, with the check that has the least room.
 */
export function answerCircuits(inputs: Inputs, _needs?: unknown): Answer<CircuitsResult> {
  const findings: Finding[] = []
  const workings: Working[] = []
  const boxes: BoxCircuits[] = []
  const built = builtChecks(inputs)
  if (built.length > 0) tell({ subject: 'built box', prefix: 'built' }, numbered(built), findings, workings)
  for (const box of inputs.design.boxes) {
    const view = boxView(inputs, box)
    boxes.push(answerBox(view, findings, workings))
  }
  if (boxes.length === 0) findings.push(nothingToJudge())
  return { findings, workings, result: { boxes } }
}

function answerBox(view: BoxView, findings: Finding[], workings: Working[]): BoxCircuits {
  const legs = judgedLegs(view)
  const panel = [...panelChecks(view, legs.sums), ...legs.checks]
  const feed = feedChecks(view, legs.sums)
  tell(view.subject, numbered([...panel, ...feed, ...shockExemptChecks(view)]), findings, workings)
  const cordSubject = (plug: string): Subject => {
    const named = subjectIn(view, plug)
    return { subject: named.subject, prefix: `${named.prefix}/cord` }
  }
  const judged = view.circuits.map((c) => {
    const subject = subjectIn(view, c.circuit.id)
    const told = toldOnce(view, c, `${subject.subject}|${subject.prefix}`, () => {
      const own: { readonly findings: Finding[]; readonly workings: Working[] } = { findings: [], workings: [] }
      const raw = judgedCircuit(view, c)
      const j: JudgedCircuit = { ...raw, checks: numbered(raw.checks) }
      tellCircuit(subject, j, cordSubject, own.findings, own.workings)
      return { ...own, j }
    })
    for (const finding of told.findings) findings.push(finding)
    for (const working of told.workings) workings.push(working)
    return { c, subject, j: told.j }
  })
  return scheduleOf({ view, judged, sums: legs.sums, balance: legs.balance, feed, cordSubject })
}

/** Two checks of one kind on one subject get a number, so that no two workings share an id. */
function numbered(checks: readonly Check[]): readonly Check[] {
  const seen = new Map<string, number>()
  let changed = false
  const out = checks.map((check) => {
    const n = (seen.get(check.what) ?? 0) + 1
    seen.set(check.what, n)
    if (n === 1) return check
    changed = true
    return { ...check, nth: n }
  })
  return changed ? out : checks
}

/** Findings of a panel, feed or built box: each check its own. */
function tell(subject: Subject, checks: readonly Check[], findings: Finding[], workings: Working[]): void {
  for (const check of checks) {
    findings.push(findingOf(subject, check))
    workings.push(workingOf(subject, check))
  }
}

/** Of a circuit and its cords: what does not hold one by one, the rest in one finding with the least room. */
function tellCircuit(
  subject: Subject,
  j: JudgedCircuit,
  cordSubject: (plug: string) => Subject,
  findings: Finding[],
  workings: Working[],
): void {
  const holding: { readonly subject: Subject; readonly check: Check }[] = []
  const each = (who: Subject, check: Check) => {
    workings.push(workingOf(who, check))
    if (check.verdict === 'holds') holding.push({ subject: who, check })
    else findings.push(findingOf(who, check))
  }
  for (const check of j.checks) each(subject, check)
  for (const k of j.cords) for (const check of k.checks) each(cordSubject(k.cord.plug), check)
  if (holding.length === 0) return
  const room =
    holding.filter((h) => h.check.marginFrac !== null).sort((a, b) => a.check.marginFrac! - b.check.marginFrac!)[0] ?? holding[0]!
  const { check } = room
  const found = findingOf(subject, check)
  const nearest =
    check.marginFrac === null
      ? ''
      : ` The least room is at ${check.title}: ${shown(Number(check.demand.value))} ${check.demand.unit} against ${shown(Number(check.limit.value))} ${check.limit.unit}.`
  const assumed = [...new Set(holding.flatMap((h) => h.check.assumed))]
  const memory = holding.some((h) => h.check.grave && provenanceOf(h.check) === 'memory')
  findings.push({
    ...found,
    code: 'circuits/circuit-holds',
    subject: subject.subject,
    verdict: worst(holding.map((h): Verdict => h.check.verdict)),
    said: `${subject.subject}: ${holding.length} checks hold.${nearest}`,
    ...(memory ? { confirm: true } : {}),
    assumed,
    workings: holding.map((h) => workingId(h.subject, h.check)),
    mends: [],
  })
}

/** A design without a box answers nothing. */
function nothingToJudge(): Finding {
  return {
    code: 'circuits/no-box',
    question: 'circuits',
    subject: 'job',
    verdict: 'unknown',
    basis: 'physics',
    said: 'The design holds no box: there is nothing to judge.',
    provenance: source('design', 'computed').provenance,
    assumed: [],
    workings: [],
    mends: [],
  }
}
