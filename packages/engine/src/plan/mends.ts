import { type Assessment, assess, type Shop } from '../assess/index.ts'
import type { BoxDesign, Circuit, Design, Job, Wire } from '../job/index.ts'
import { type Finding, type Memory, type Mend, newMemory, QUESTIONS, type Verdict, worst } from '../kernel/index.ts'
import { materialMoney } from '../parts/index.ts'
import { choiceAt, SHOCK } from './grow.ts'

/** Work is counted, not timed: so many changes are tried for one assessment, worst findings first. */
const MOST_TRIED = 24

/**
 * The same assessment with every mend of a failing finding tried: what its verdict becomes, which other questions move, what it costs.
 * A mend that cannot be applied to a design (it asks for a new plan) stays untried and says nothing.
 */
export function withMendsTried(job: Job, design: Design, shop: Shop, assessment: Assessment): Assessment {
  let left = MOST_TRIED
  const before = moneyOf(design, shop)
  const memory = newMemory()
  const findings = assessment.findings.map((finding) => {
    if (finding.verdict !== 'fails' || finding.mends.length === 0) return finding
    const mends = finding.mends.map((mend) => {
      if (left === 0) return mend
      const changed = applied(design, mend)
      if (changed === null) return mend
      left--
      return { ...mend, tried: triedMend(job, changed, shop, assessment, finding, before, memory) }
    })
    return { ...finding, mends }
  })
  return { ...assessment, findings }
}

function triedMend(
  job: Job,
  changed: Design,
  shop: Shop,
  was: Assessment,
  finding: Finding,
  before: number,
  memory: Memory,
): NonNullable<Mend['tried']> {
  const now = assess(job, changed, shop, { memory })
  return { ...comparedMend(was, now, finding), moneyDelta: cents(moneyOf(changed, shop) - before) }
}

/** What a mend does: the finding's verdict with it, and which questions move. */
function comparedMend(was: Assessment, now: Assessment, finding: Pick<Finding, 'code' | 'subject'>) {
  const same = now.findings.find((f) => f.code === finding.code && f.subject === finding.subject)
  const moved = QUESTIONS.flatMap((id, i) => {
    const [a, b] = [was.questions[i]?.verdict, now.questions[i]?.verdict]
    return a === b ? [] : [`${id} becomes ${b}`]
  })
  const verdict: Verdict = same?.verdict ?? renamedVerdict(now.findings, finding)
  return { verdict, moved }
}

const cents = (money: number): number => Math.round(money * 100) / 100

/** One mend on its own, tried at once. */
export interface MendTried {
  readonly design: Design
  readonly assessment: Assessment
  readonly tried: NonNullable<Mend['tried']>
}

/** A mend of any finding, tried when somebody asks. Null: it asks for a new plan. */
export function tryMend(
  job: Job,
  design: Design,
  shop: Shop,
  was: Assessment,
  finding: Pick<Finding, 'code' | 'subject'>,
  mend: Pick<Mend, 'path' | 'value'>,
  memory: Memory,
): MendTried | null {
  const changed = applied(design, mend)
  if (changed === null) return null
  const assessment = assess(job, changed, shop, { memory })
  return { design: changed, assessment, tried: triedWith(design, changed, shop, was, assessment, finding) }
}

/** What another design of the same job does to one finding. */
export const triedWith = (
  design: Design,
  changed: Design,
  shop: Shop,
  was: Assessment,
  now: Assessment,
  finding: Pick<Finding, 'code' | 'subject'>,
): NonNullable<Mend['tried']> => ({
  ...comparedMend(was, now, finding),
  moneyDelta: cents(moneyOf(changed, shop) - moneyOf(design, shop)),
})

/**
 * Verdict where the mended thing goes by another name, as gear does that is called by its rating: the worst of that code at the same
 * panel or circuit. A code that is only said of what fails is gone when it is mended.
 */
function renamedVerdict(now: readonly Finding[], was: Pick<Finding, 'code' | 'subject'>): Verdict {
  const [at] = was.subject.split(' ')
  const like = now.filter((f) => f.code === was.code && f.subject.split(' ')[0] === at).map((f) => f.verdict)
  return like.length === 0 ? 'holds' : worst(like)
}

function moneyOf(design: Design, shop: Shop): number {
  const built = design.boxes.filter((b, i, all) => all.findIndex((o) => o.box === b.box) === i)
  return built.reduce((sum, box) => sum + materialMoney(box, shop.prices).totalMoney, 0)
}

/** The design with one choice changed; null when the path is not a choice of a finished design. */
export function applied(design: Design, mend: Pick<Mend, 'path' | 'value'>): Design | null {
  const { head, id, what } = choiceAt(mend.path)
  let touched = false
  const boxes = design.boxes.map((box): BoxDesign => {
    if (head === 'panel' && id === 'interruptingKA' && typeof mend.value === 'number') {
      touched = true
      return withInterrupting(box, mend.value)
    }
    const circuits = box.circuits.map((c): Circuit => {
      if (head === 'cords' && what === 'size' && c.cords.some((cord) => cord.plug === id)) {
        touched = true
        return { ...c, cords: c.cords.map((cord) => (cord.plug === id ? { ...cord, size: String(mend.value) } : cord)) }
      }
      if (head !== 'circuits' || c.id !== id) return c
      if (what === 'line') {
        touched = true
        const size = String(mend.value)
        const as = (wire: Wire | null) => (wire === null ? null : { ...wire, size })
        return { ...c, run: { ...c.run, line: { ...c.run.line, size }, neutral: as(c.run.neutral) } }
      }
      if (what === 'protective' && c.run.protective !== null) {
        touched = true
        return { ...c, run: { ...c.run, protective: { ...c.run.protective, size: String(mend.value) } } }
      }
      if (what === 'shock' && SHOCK[String(mend.value)] !== undefined) {
        touched = true
        return { ...c, shock: SHOCK[String(mend.value)]! }
      }
      if (what === 'device' && typeof mend.value === 'number') {
        touched = true
        return { ...c, device: { ...c.device, ratingA: mend.value } }
      }
      if (what === 'family') {
        touched = true
        return { ...c, device: { ...c.device, family: String(mend.value) } }
      }
      return c
    })
    return { ...box, circuits }
  })
  return touched ? { ...design, boxes } : null
}

function withInterrupting(box: BoxDesign, interruptingKA: number): BoxDesign {
  return {
    ...box,
    panel: { ...box.panel, interruptingKA, main: { ...box.panel.main, interruptingKA } },
    circuits: box.circuits.map((c) => ({ ...c, device: { ...c.device, interruptingKA } })),
  }
}
