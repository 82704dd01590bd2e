import { drawnBoxes } from '@plugstead/drawings'
import type { WeatherGiven } from '@plugstead/engine/air'
import { type Assessment, assess, type Shop } from '@plugstead/engine/assess'
import { type Design, type Job, readJob } from '@plugstead/engine/job'
import { BUILT, type Memory, newMemory, QUESTIONS, type QuestionId } from '@plugstead/engine/kernel'
import { weatherNow } from './air/weather.ts'
import { judgementOf } from './answer.ts'
import type { AtWork } from './at-work.ts'
import type { JudgeAsked, JudgedNow, Planned, Standing } from './protocol.ts'
import { shopNow } from './shop.ts'

/** The questions that are counted after the others: those that read the layout, the bill, or need draws. In the order in which one reads the other. */
const LATER: ReadonlySet<string> = new Set<QuestionId>(['skin', 'haul', 'air', 'shop', 'dates', 'money'])

interface Stands {
  readonly of: Standing
  readonly job: Job
  /** The shop it was judged for. */
  readonly shop: Shop
  readonly design: Design
}

const memory = newMemory()
/** What each of the later questions was answered last. */
const answered = new Map<string, unknown>()
let stands: Stands | null = null

export function standingOf(job: string, at: AtWork): Standing {
  return { job, given: at.given, ...plannedOf(at) }
}

export const plannedOf = ({ found }: AtWork): Planned => ({ design: JSON.stringify(found.design), beside: found.beside })

/** Takes over the design that was planned, and judges it once, so that after a change only what depends on it is answered anew. */
export function heed(of: Standing): true {
  const read = readJob(of.given.text, { file: of.given.file })
  const shop = shopNow()
  stands = read.ok && shop.ok ? { of, job: read.value, shop: shop.value, design: JSON.parse(of.design) as Design } : null
  if (stands !== null) assess(stands.job, stands.design, stands.shop, { ...of.beside, ...hours(), memory: noting })
  return true
}

/** The design that stands, held to a changed document. Judges only: where another design is asked for, it says nothing. */
export function judged({ job: id, file, text, all }: JudgeAsked): JudgedNow | null {
  if (stands === null || stands.of.job !== id) return null
  const read = readJob(text, { file })
  if (!read.ok || !sameDesignAsked(stands.job, read.value)) return null
  const job = read.value
  const design = withCords(stands.design, stands.job, job)
  const due = new Set<string>()
  const assessment: Assessment = assess(job, design, stands.shop, {
    ...stands.of.beside,
    ...hours(),
    memory: all ? noting : postponing(due),
  })
  const found = { design, assessment }
  const fresh = QUESTIONS.filter((id) => BUILT.has(id) && !due.has(id))
  return { judgement: judgementOf({ job, shop: stands.shop, found, drawn: drawnBoxes({ job, design, assessment }) }), fresh }
}

/** Of a file, where one stands for the year. */
const hours = (): { readonly weather?: WeatherGiven } => {
  const weather = weatherNow()
  return weather === null ? {} : { weather }
}

const noting: Memory = {
  settle: memory.settle,
  recall: (name, reads, answer) => {
    const given = memory.recall(name, reads, answer)
    if (LATER.has(name)) answered.set(name, given)
    return given
  },
}

const POSTPONED = Symbol('postponed')

/** Answers no later question whose inputs have changed: gives what was answered last, and notes that it is due. */
const postponing = (due: Set<string>): Memory => ({
  settle: memory.settle,
  recall: <R extends object, T>(name: string, reads: R, answer: (reads: R) => T): T => {
    if (!LATER.has(name) || !answered.has(name)) return memory.recall(name, reads, answer)
    // What reads a question that is due is due as well.
    if (due.size > 0) {
      due.add(name)
      return answered.get(name) as T
    }
    try {
      return memory.recall(name, reads, () => {
        throw POSTPONED
      })
    } catch (thrown) {
      if (thrown !== POSTPONED) throw thrown
      due.add(name)
      return answered.get(name) as T
    }
  },
})

/** Does a document ask for the boxes, phases, plugs and pins that were planned for? Then the design that stands can be held to it. */
export function sameDesignAsked(was: Job, is: Job): boolean {
  const asked = ({ boxes, phases, offers, pins, system, plugs }: Job) => [
    boxes.map((b) => [b.id, b.fedFrom?.box]),
    ...[phases, pins, system, offers.map((o) => o.id)],
    plugs.map(({ tag, machine, plugShared, fedBy }) => [tag, machine, plugShared, fedBy]),
  ]
  return JSON.stringify(asked(was)) === JSON.stringify(asked(is))
}

/** Cords as long as the document now has them. */
function withCords(design: Design, was: Job, is: Job): Design {
  const before = new Map(was.plugs.map((p) => [p.tag, p.cordM]))
  const moved = new Map(is.plugs.flatMap((p) => (before.get(p.tag) === p.cordM ? [] : [[p.tag, p.cordM] as const])))
  if (moved.size === 0) return design
  return {
    ...design,
    boxes: design.boxes.map((box) => ({
      ...box,
      circuits: box.circuits.map((c) => ({
        ...c,
        cords: c.cords.map((cord) => ({ ...cord, lengthM: moved.get(cord.plug) ?? cord.lengthM })),
      })),
    })),
  }
}
