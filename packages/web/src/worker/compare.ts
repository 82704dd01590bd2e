import { drawnBoxes } from '@plugstead/drawings'
import { assess, rulesOf } from '@plugstead/engine/assess'
import { jobAsDesigned } from '@plugstead/engine/job'
import { QUESTIONS, type QuestionId } from '@plugstead/engine/kernel'
import { builtDesign, type Candidate } from '@plugstead/engine/plan'
import type { AtWork } from './at-work.ts'
import { glassView } from './glass.ts'
import type { CompareAsked, Compared, PairAnswer } from './protocol.ts'

/** Name of the design that stood before the last act. */
const BEFORE = 'before'

const others = new WeakMap<Candidate, AtWork>()

/** Another candidate of the same plan, judged and drawn as the chosen one is. */
function asChosen(at: AtWork, candidate: Candidate): AtWork {
  let other = others.get(candidate)
  if (other === undefined) {
    const { shop } = at
    const as = jobAsDesigned(at.job, candidate.design)
    const design =
      candidate.design.builds.length > 0
        ? candidate.design
        : builtDesign(as, candidate.design, rulesOf(at.job, shop), shop.prices)
    const assessment = assess(at.job, design, shop)
    const found = { ...at.found, design, assessment, chosen: candidate }
    other = { ...at, found, drawn: drawnBoxes({ job: at.job, design, assessment }) }
    others.set(candidate, other)
  }
  return other
}

/** The chosen design beside a runner-up, or beside what stood before the last act: one pair, drawn alike, and what differs. */
export function pairOf(at: AtWork, before: AtWork | null, asked: CompareAsked): PairAnswer | 'none' {
  const choices = [...(before === null ? [] : [BEFORE]), ...at.found.runnersUp.map((c) => c.id)]
  const wanted = choices.find((id) => id === asked.with) ?? choices[0]
  if (wanted === undefined) return 'none'
  const runner = at.found.runnersUp.find((c) => c.id === wanted)
  const other = wanted === BEFORE ? before : runner === undefined ? null : asChosen(at, runner)
  if (other === null) return 'none'
  const [left, right] = wanted === BEFORE ? [other, at] : [at, other]
  return { choices, with: wanted, left: comparedOf(left, asked), right: comparedOf(right, asked) }
}

function comparedOf(at: AtWork, asked: CompareAsked): Compared {
  const { chosen, design, assessment, currency } = at.found
  const boxes = design.boxes.filter((b) => b.box === asked.box)
  const build = design.builds.find((b) => b.box === asked.box)
  const cords = design.boxes.flatMap((b) => b.circuits.flatMap((c) => c.cords))
  const verdict = (id: QuestionId) => assessment.questions.find((q) => q.id === id)?.verdict ?? 'not built'
  return {
    name: chosen.id,
    view: glassView(at, { ...asked, side: null, alone: true }),
    verdicts: QUESTIONS.map((id) => ({ id, verdict: verdict(id) })),
    facts: [
      { key: 'cost', value: chosen.costMoney, unit: currency },
      { key: 'ready', value: chosen.ready, unit: '' },
      { key: 'service', value: boxes[0]?.serviceA ?? null, unit: 'A' },
      { key: 'ways', value: boxes[0]?.panel.ways ?? null, unit: '' },
      { key: 'things', value: build?.fit.items.length ?? null, unit: '' },
      { key: 'openings', value: build?.skin.openings.length ?? null, unit: '' },
      { key: 'clashes', value: build?.fit.clashes.length ?? null, unit: '' },
      { key: 'cord', value: Math.round(cords.reduce((sum, c) => sum + c.lengthM, 0)), unit: 'm' },
      { key: 'fails', value: assessment.findings.filter((f) => f.verdict === 'fails').length, unit: '' },
    ],
  }
}
