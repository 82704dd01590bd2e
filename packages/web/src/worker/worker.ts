import './no-eval.ts'
import { workingBlock } from '@plugstead/book/working'
import { answerOf, jsonText, planAnswer } from '@plugstead/engine/answer'
import { Fault, type Result } from '@plugstead/engine/kernel'
import type { Watch } from '@plugstead/engine/plan'
import { keepAir } from './air/kept.ts'
import { loggerBeside, logTable } from './air/logger.ts'
import { remediesBegin, remedyOrder, remedyPart, remedyTask, remedyView } from './air/remedies.ts'
import { airHour, airMap, airReasonsView, airRoom, airTry } from './air/views.ts'
import { setWeather, weatherFileNow, weatherNow, weatherTable } from './air/weather.ts'
import { yearPart, yearsBegin, yearsFound, yearsKept } from './air/years.ts'
import { jobAnswer } from './answer.ts'
import { type AtWork, worked } from './at-work.ts'
import { pairOf } from './compare.ts'
import { dayAnswer, dayOfPlanned } from './day.ts'
import { firstAnswer } from './first.ts'
import { glassView } from './glass.ts'
import { heed, judged, plannedOf, standingOf } from './judge.ts'
import type { Calls, EngineCall, FromWorker, Given, ToWorker } from './protocol.ts'
import { rankedLines } from './ranked.ts'
import { roomTag } from './rooms/room-tag.ts'
import { roomView } from './rooms/room-view.ts'
import { setShop, shopNow } from './shop.ts'
import { thingAnswer } from './thing-facts.ts'
import { trial } from './trial.ts'
import { turning } from './turning.ts'
import { movedCords, standEdits } from './yard.ts'

let opened: AtWork | null = null
/** The same document before the last act. */
let before: AtWork | null = null
/** As if a mend were kept: answered from until it is kept or taken back. */
let tried: AtWork | null = null

type Handlers = {
  readonly [K in EngineCall]: (
    asked: Calls[K]['asked'],
    watch: (begunCount: number, knownCount: number) => void,
  ) => Calls[K]['answer'] | Promise<Calls[K]['answer']>
}

/** The book is loaded when the first sheet is asked for. */
const papers = () => import('./papers.ts')

/** Planned anew only when it is not what is open already. */
function workedHere(given: Given, watch?: Watch): Result<AtWork> {
  if (opened?.given.text === given.text && opened.given.file === given.file) return { ok: true, value: opened }
  const shop = shopNow()
  return shop.ok ? worked(given, shop.value, watch, weatherNow()) : shop
}

const handlers: Handlers = {
  shop: (folder) => {
    opened = null
    before = null
    tried = null
    return setShop(folder)
  },
  first: () => answered(firstAnswer, null),
  rank: ({ call }) => answered((at) => rankedLines(at, call), null),
  day: ({ today, planned, ...given }, watch) => {
    const shop = shopNow()
    if (planned !== null && shop.ok) {
      const answer = dayOfPlanned(given, planned, shop.value, today)
      return answer.ok ? { ok: true, value: { answer: answer.value, planned } } : answer
    }
    const result = workedHere(given, watch)
    if (!result.ok) return result
    return { ok: true, value: { answer: dayAnswer(result.value, today), planned: plannedOf(result.value) } }
  },
  open: (given, watch) => {
    const result = workedHere(given, watch)
    if (!result.ok) return result
    if (opened === null || opened.given.file !== given.file) before = null
    else if (opened.given.text !== given.text) before = opened
    opened = result.value
    tried = null
    return { ok: true, value: jobAnswer(opened) }
  },
  sheet: (asked) => answered((at) => glassView(at, asked), null),
  thing: ({ box, id }) => answered((at) => thingAnswer(at, box, id), null),
  working: ({ ids }) =>
    answered((at) => {
      const { assessment } = at.found
      return assessment.workings.filter((w) => ids.includes(w.id)).map((w) => workingBlock(w, assessment))
    }, []),
  room: (asked) => answered((at) => roomView(at, asked), null),
  roomTag: ({ question }) => answered((at) => roomTag(at, question), { choices: [], facts: [] }),
  airRoom: (asked) => answered((at) => airRoom(at, asked), null),
  airMap: (asked) => answered((at) => airMap(at, asked), null),
  airHour: (asked) => answered((at) => airHour(at, asked), null),
  airReasons: (asked) => answered((at) => airReasonsView(at, asked), null),
  airTry: (asked) => answered((at) => airTry(at, asked), null),
  remedyTask: ({ box }) => answered((at) => remedyTask(at, box), null),
  remediesBegin,
  remedyPart: ({ step, order }) => remedyPart(step, order),
  remedyOrder: ({ alone }) => remedyOrder(alone),
  remedyView,
  weatherTable,
  weatherGiven: weatherFileNow,
  loggerBeside,
  logTable,
  yearsBegin,
  yearPart: ({ year }) => yearPart(year),
  yearsFound: ({ parts }) => yearsFound(parts),
  keepAir: (asked) => answered((at) => keepAir(at, asked), false),
  yearsKept: ({ box }) => answered((at) => yearsKept(at, box), null),
  weatherFile: (asked) => {
    const read = setWeather(asked)
    // What is open was answered by other hours.
    if (read === null || read.ok) {
      opened = null
      before = null
      tried = null
    }
    return read
  },
  try: (asked) => {
    tried = null
    if (asked === null || opened === null) return null
    const found = trial(opened, asked)
    if (!found.ok) return found
    tried = found.value.at
    return { ok: true, value: found.value.answer }
  },
  turning: ({ working, n }) => answered((at) => turning(at, working, n), null),
  cords: ({ lengthM }) => answered((at) => movedCords(at, lengthM), null),
  pair: (asked) => answered((at) => pairOf(at, before, asked), null),
  stand: (asked) => answered((at) => standEdits(at, asked), null),
  sheets: async (asked) => (await papers()).sheetsAnswer(opened, asked),
  page: async (asked) => (await papers()).pageAnswer(opened, asked),
  book: async (asked) => (await papers()).bookAnswer(opened, asked),
  offer: async (asked) => (await papers()).offerAnswer(opened, asked),
  offerBook: async (asked) => (await papers()).offerBookAnswer(opened, asked),
  files: async () => (await papers()).filesAnswer(opened),
  file: async ({ kind }) => (await papers()).fileAnswer(opened, kind),
  derivations: async (asked) => (await papers()).derivationsAnswer(tried ?? opened, asked),
  standing: ({ job }) => (opened === null ? null : standingOf(job, opened)),
  heed,
  judge: judged,
  json: (given) => {
    const result = workedHere(given)
    return jsonText(answerOf('plan', result.ok ? planAnswer(result.value.found) : { problems: result.problems, result: null }))
  },
}

/** Of the job that is open, with the mend that is being tried; `otherwise` while none is. */
function answered<T>(of: (at: AtWork) => T, otherwise: T): T {
  const at = tried ?? opened
  return at === null ? otherwise : of(at)
}

const post = (message: FromWorker): void => self.postMessage(message)

self.addEventListener('message', async ({ data }: MessageEvent<ToWorker>) => {
  const { id, call, asked } = data
  try {
    if (!(call in handlers)) return
    const handler = handlers[call as EngineCall] as (
      asked: unknown,
      watch: (begunCount: number, knownCount: number) => void,
    ) => unknown
    const answer = await handler(asked, (begunCount, knownCount) => post({ id, kind: 'work', begunCount, knownCount }))
    post({ id, kind: 'answer', answer })
  } catch (thrown) {
    const code = thrown instanceof Fault ? thrown.code : 'web/unforeseen'
    post({ id, kind: 'fault', code, said: thrown instanceof Error ? thrown.message : String(thrown) })
  }
})
