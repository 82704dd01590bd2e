import { drawnBoxes } from '@plugstead/drawings'
import { editDocument } from '@plugstead/engine/job'
import { newMemory, type Result } from '@plugstead/engine/kernel'
import { triedWith, tryMend } from '@plugstead/engine/plan'
import { jobAnswer } from './answer.ts'
import { type AtWork, worked } from './at-work.ts'
import type { TrialAnswer, TrialAsked } from './protocol.ts'
import { thingsByName } from './things.ts'

const memories = new WeakMap<AtWork, ReturnType<typeof newMemory>>()

/** A mend tried at once on the design as it stands; one that asks for a new plan is planned with its pin in the document. */
export function trial(at: AtWork, asked: TrialAsked): Result<{ readonly at: AtWork; readonly answer: TrialAnswer }> {
  const { job, shop, found } = at
  const memory = memories.get(at) ?? newMemory()
  memories.set(at, memory)
  const tried = tryMend(job, found.design, shop, found.assessment, asked, asked.mend, memory)
  if (tried !== null) {
    const { design, assessment } = tried
    const now: AtWork = { ...at, found: { ...found, design, assessment }, drawn: drawnBoxes({ job, design, assessment }) }
    return { ok: true, value: { at: now, answer: answerOf(at, now, asked, tried.tried, false) } }
  }
  const pin = { path: ['choices', asked.mend.path], value: { value: asked.mend.value, by: 'trial', why: asked.mend.words } }
  const text = editDocument(at.given.text, [pin])
  if (!text.ok) return text
  const planned = worked({ file: at.given.file, text: text.value }, shop, undefined, at.weather)
  if (!planned.ok) return planned
  const now = planned.value
  const difference = triedWith(found.design, now.found.design, shop, found.assessment, now.found.assessment, asked)
  return { ok: true, value: { at: now, answer: answerOf(at, now, asked, difference, true) } }
}

function answerOf(
  was: AtWork,
  now: AtWork,
  { mend }: TrialAsked,
  tried: { readonly verdict: TrialAnswer['verdict']; readonly moneyDelta: number | null },
  planned: boolean,
): TrialAnswer {
  return {
    answer: { ...jobAnswer(now), pins: was.job.pins },
    verdict: tried.verdict,
    moneyDelta: tried.moneyDelta,
    currency: was.found.currency,
    daysDelta: daysBetween(readyOf(was), readyOf(now)),
    planned,
    touched: touchedBy(now, mend.path),
  }
}

/** Day on which it is live, where its chain has a beginning; else on which the last box has its supply. Null: not known. */
function readyOf(at: AtWork): string | null {
  const { earliest } = at.found.assessment.results.dates
  if (earliest !== null) return earliest
  const days = at.found.assessment.results.supply.boxes.map((b) => b.chosenRow?.readyDate ?? null)
  return days.includes(null) ? null : ((days as readonly string[]).toSorted().at(-1) ?? null)
}

const daysBetween = (a: string | null, b: string | null): number | null =>
  a === null || b === null ? null : Math.round((Date.parse(b) - Date.parse(a)) / 86_400_000)

/** Things whose choice a path is: the outlet of a cord or circuit, the panel. */
function touchedBy(at: AtWork, path: string): TrialAnswer['touched'] {
  const [head, id] = path.split('.')
  const things = thingsByName(at)
  if (head === 'cords' || head === 'circuits') {
    const thing = id === undefined ? undefined : things.get(id)
    return thing === undefined ? [] : [{ box: thing.box, id: thing.line.id }]
  }
  if (head !== 'panel' && head !== 'service') return []
  return at.drawn.flatMap((d) =>
    d.build.fit.items.filter((item) => item.kind === 'panel').map((item) => ({ box: d.build.box, id: item.id })),
  )
}
