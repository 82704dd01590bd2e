import { type Assessment, assess, type Shop } from '@plugstead/engine/assess'
import { type Job, readJob } from '@plugstead/engine/job'
import { plusDays, type QuestionId, type Result, type Verdict, worst } from '@plugstead/engine/kernel'
import type { PlanResult } from '@plugstead/engine/plan'
import type { DayAnswer, DayTask, Given, Planned } from './protocol.ts'

const WEEK_DAYS = 7
type Task = Assessment['results']['dates']['chain'][number]

interface Asked {
  readonly job: Job
  readonly shop: Shop
  readonly found: Pick<PlanResult, 'design' | 'beside'>
}

/** A day asks nothing of a design that another day did not: what was planned for the same document and shop is only judged anew. */
export function dayOfPlanned({ file, text }: Given, planned: Planned, shop: Shop, today: string): Result<DayAnswer> {
  const read = readJob(text, { file })
  if (!read.ok) return read
  const found = { design: JSON.parse(planned.design), beside: planned.beside }
  return { ok: true, value: dayAnswer({ job: read.value, shop, found }, today) }
}

/** What one job asks of the shop on a day: who is rung back, what is cut next, what is due, what waits to be signed. */
export function dayAnswer({ job, shop, found }: Asked, today: string): DayAnswer {
  const { design, beside } = found
  const assessment = assess(job, design, shop, { ...beside, today })
  const { chain } = assessment.results.dates
  const next = inOrder(chain.filter((t) => t.group === 'shop' && pressing(t, today)))[0]
  const due = inOrder(chain.filter((t) => t.group !== 'shop' && t.id !== 'order' && t.latestStart !== null && pressing(t, today)))
  return {
    ...{ title: job.title, invented: job.invented, ringBack: job.needs.ringBack ?? null },
    verdict: worst(assessment.questions.flatMap((q) => (q.verdict === 'not built' ? [] : [q.verdict]))),
    shop: next === undefined ? null : { verdict: verdictOf(assessment, 'shop'), task: taskOf(next) },
    due: due.length === 0 ? null : { verdict: verdictOf(assessment, 'dates'), tasks: due.map(taskOf) },
    sign: signOf(assessment),
  }
}

/** Past, today, or within the week: by its latest start, else by the start that is likely. */
const pressing = (t: Task, today: string): boolean =>
  t.must === 'past' ||
  t.must === 'today' ||
  t.must === 'soon' ||
  (t.must === 'not known' && t.start !== null && t.start <= plusDays(today, WEEK_DAYS))

const inOrder = (tasks: readonly Task[]): readonly Task[] =>
  tasks.toSorted((a, b) => ((byOf(a) ?? '') < (byOf(b) ?? '') ? -1 : (byOf(a) ?? '') > (byOf(b) ?? '') ? 1 : 0))

const byOf = (t: Task): string | null => t.latestStart ?? t.start
const taskOf = (t: Task): DayTask => ({ id: t.id, what: t.what, who: t.who, by: byOf(t), must: t.must })

function verdictOf({ questions }: Assessment, id: QuestionId): Verdict {
  const verdict = questions.find((q) => q.id === id)?.verdict
  return verdict === undefined || verdict === 'not built' ? 'unknown' : verdict
}

function signOf({ findings }: Assessment): DayAnswer['sign'] {
  const waiting = findings.filter((f) => f.decides !== undefined)
  if (waiting.length === 0) return null
  return {
    count: waiting.length,
    questions: [...new Set(waiting.map((f) => f.question))],
    roles: [...new Set(waiting.map((f) => f.decides!))],
  }
}
