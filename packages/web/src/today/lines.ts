import type { QuestionId, Verdict } from '@plugstead/engine/kernel'
import type { Route } from '../route.ts'
import type { Words } from '../words/en.ts'
import type { DayAnswer, DayTask } from '../worker/protocol.ts'
import type { DayNow } from './use-day.ts'

export type Part = 'answer' | 'cut' | 'due' | 'sign'
export const PARTS: readonly Part[] = ['answer', 'cut', 'due', 'sign']

/** One line of the day sheet: mark, job, what, by when, who. */
export interface Line {
  readonly part: Part
  readonly id: string
  readonly mark: Verdict | 'others'
  readonly job: string
  readonly invented: boolean
  readonly what: string
  /** ISO, for the order; null: no day. */
  readonly day: string | null
  readonly by: string
  readonly who: string
  readonly to: Route
  /** *Rang back* and *Print* stand on some. */
  readonly act: 'rang' | 'print' | null
}

/** The lines of one part, the most pressing first. */
export function linesOf(part: Part, { jobs, answers, day }: DayNow, words: Words): readonly Line[] {
  return jobs
    .flatMap(({ id }) => {
      const answer = answers[id]
      const line = answer === undefined ? null : LINE[part](id, answer, day, words)
      return line === null ? [] : [{ part, id, job: answer!.title, invented: answer!.invented, ...line }]
    })
    .toSorted((a, b) => ((a.day ?? '9') < (b.day ?? '9') ? -1 : (a.day ?? '9') > (b.day ?? '9') ? 1 : a.job < b.job ? -1 : 1))
}

type Rest = Omit<Line, 'part' | 'id' | 'job' | 'invented'>

const LINE: Readonly<Record<Part, (id: string, answer: DayAnswer, day: string, words: Words) => Rest | null>> = {
  answer: (id, { ringBack, verdict }, day, words) =>
    ringBack === null
      ? null
      : {
          mark: verdict,
          what: words.today.ring[verdict],
          ...{ day: ringBack, by: dayWords(ringBack, day, words), who: words.today.desk },
          ...{ to: { page: 'six sides', job: id }, act: 'rang' },
        },
  cut: (id, { shop }, day, words) =>
    shop === null ? null : { mark: shop.verdict, ...taskLine(shop.task, day, words), to: room(id, 'shop'), act: 'print' },
  due: (id, { due }, day, words) => {
    const [first, ...more] = due?.tasks ?? []
    if (due === null || first === undefined) return null
    const line = taskLine(first, day, words)
    const what = more.length === 0 ? line.what : `${line.what}, ${words.today.more(more.length)}`
    return { mark: due.verdict, ...line, what, to: room(id, 'dates'), act: null }
  },
  sign: (id, { sign }, _day, words) => {
    const [role, ...others] = sign?.roles ?? []
    const [question] = sign?.questions ?? []
    if (sign === null || role === undefined || question === undefined) return null
    const names = words.listed(sign.questions.map((q) => words.questions[q]))
    return {
      ...{ mark: 'others', what: words.today.sign(sign.count, names), day: null, by: words.today.noDay },
      who: others.length === 0 ? role : `${role}, ${words.today.more(others.length)}`,
      ...{ to: room(id, question), act: null },
    }
  },
}

const room = (job: string, question: QuestionId): Route => ({ page: 'room', job, question })

function taskLine({ what, who, by }: DayTask, day: string, words: Words): Pick<Rest, 'what' | 'day' | 'by' | 'who'> {
  return { what, who, day: by, by: by === null ? words.today.noDay : dayWords(by, day, words) }
}

const dayWords = (by: string, day: string, words: Words): string =>
  by < day ? words.today.late(words.day(by)) : by === day ? words.today.now : words.day(by)
