import './no-eval.ts'
import { workingBlock } from '@plugstead/book/working'
import { answerOf, jsonText, planAnswer } from '@plugstead/engine/answer'
import { Fault } from '@plugstead/engine/kernel'
import { jobAnswer } from './answer.ts'
import { type AtWork, worked } from './at-work.ts'
import { pairOf } from './compare.ts'
import { glassView } from './glass.ts'
import type { CallName, Calls, FromWorker, ToWorker } from './protocol.ts'
import { inventedShop } from './shop.ts'
import { thingAnswer } from './thing-facts.ts'
import { movedCords, standEdits } from './yard.ts'

let at: AtWork | null = null
/** The same document before the last act. */
let before: AtWork | null = null

type Handlers = {
  readonly [K in Exclude<CallName, 'edit' | 'read'>]: (
    asked: Calls[K]['asked'],
    watch: (begunCount: number, knownCount: number) => void,
  ) => Calls[K]['answer']
}

const handlers: Handlers = {
  open: (given, watch) => {
    const result = worked(given, inventedShop(), watch)
    if (!result.ok) return result
    if (at === null || at.given.file !== given.file) before = null
    else if (at.given.text !== given.text) before = at
    at = result.value
    return { ok: true, value: jobAnswer(at) }
  },
  sheet: (asked) => (at === null ? null : glassView(at, asked)),
  thing: ({ box, id }) => (at === null ? null : thingAnswer(at, box, id)),
  working: ({ ids }) => {
    if (at === null) return []
    const { workings, findings } = at.found.assessment
    return workings.filter((w) => ids.includes(w.id)).map((w) => workingBlock(w, findings))
  },
  results: ({ question }) => at?.found.assessment.results[question] ?? null,
  cords: ({ lengthM }) => (at === null ? null : movedCords(at, lengthM)),
  pair: (asked) => (at === null ? null : pairOf(at, before, asked)),
  stand: (asked) => (at === null ? null : standEdits(at, asked)),
  json: (given) => {
    const same = at !== null && at.given.text === given.text && at.given.file === given.file
    const result = same ? { ok: true as const, value: at! } : worked(given, inventedShop())
    return jsonText(answerOf('plan', result.ok ? planAnswer(result.value.found) : { problems: result.problems, result: null }))
  },
}

const post = (message: FromWorker): void => self.postMessage(message)

self.addEventListener('message', ({ data }: MessageEvent<ToWorker>) => {
  const { id, call, asked } = data
  try {
    if (call === 'edit' || call === 'read') return
    const handler = handlers[call] as (asked: unknown, watch: (begunCount: number, knownCount: number) => void) => unknown
    const answer = handler(asked, (begunCount, knownCount) => post({ id, kind: 'work', begunCount, knownCount }))
    post({ id, kind: 'answer', answer })
  } catch (thrown) {
    const code = thrown instanceof Fault ? thrown.code : 'web/unforeseen'
    post({ id, kind: 'fault', code, said: thrown instanceof Error ? thrown.message : String(thrown) })
  }
})
