import { setImmediate } from 'node:timers/promises'
import type { RemediesMade } from '@plugstead/book'
import type { Assessment } from '@plugstead/engine/assess'
import type { BoxYears } from '@plugstead/engine/plan'
import type { Given } from './command-line.ts'
import type { Judged, Opened } from './job-file.ts'
import { Unreadable } from './problem.ts'
import { remediesInThreads } from './remedies-in-threads.ts'

/** How many made years are asked for; null: none. @throws Unreadable */
export async function yearsAsked({ options }: Given): Promise<number | null> {
  const told = options.years
  if (told === undefined) return null
  const { REMEDY_YEARS } = await engine()
  const count = Number(told)
  if (Number.isInteger(count) && count >= 1 && count <= REMEDY_YEARS) return count
  throw new Unreadable({
    ...{ code: 'command-line/years', found: `--years ${String(told)}`, wanted: `a whole number from 1 to ${REMEDY_YEARS}` },
    mend: 'Write for example --years 10.',
  })
}

/** Loaded only where it is asked: a document that cannot be read is refused without waiting for the engine. */
const engine = () => import('@plugstead/engine/plan')

type Steps<T> = Generator<{ readonly doneCount: number; readonly ofCount: number }, T>

const TOLD_EACH_MS = 1000

/** Piece by piece, told on standard error about once a second. An interrupt ends it between two pieces: null, and the program goes on. */
export async function inSteps<T>(said: string, steps: Steps<T>): Promise<T | null> {
  let stopped = false
  const stop = () => {
    stopped = true
  }
  let toldAt = Date.now()
  process.once('SIGINT', stop)
  try {
    for (;;) {
      const next = steps.next()
      if (next.done === true) return next.value
      // Only here may an interrupt be heard.
      await setImmediate()
      const { doneCount, ofCount } = next.value
      if (stopped) {
        process.stderr.write(`${said}: stopped after ${doneCount} of ${ofCount}\n`)
        return null
      }
      if (Date.now() - toldAt < TOLD_EACH_MS) continue
      toldAt = Date.now()
      process.stderr.write(`${said}: ${doneCount} of ${ofCount}\n`)
    }
  } finally {
    process.off('SIGINT', stop)
  }
}

/** What came of the made years of a design. */
export type Years =
  | { readonly is: 'not asked' | 'stopped' }
  | { readonly is: 'run'; readonly yearsCount: number; readonly boxes: readonly BoxYears[] }

/** The design judged in made years too, where the line asks for them; else the judgement as it was. */
export async function yearsOf(
  yearsCount: number | null,
  { job, shop }: Opened,
  { design, assessment }: Pick<Judged, 'design' | 'assessment'>,
): Promise<{ readonly assessment: Assessment; readonly years: Years }> {
  if (yearsCount === null) return { assessment, years: { is: 'not asked' } }
  const { withYearsHeld } = await engine()
  const asked = await inSteps('made years', withYearsHeld({ job, shop, design, assessment, yearsCount }))
  if (asked === null) return { assessment, years: { is: 'stopped' } }
  return { assessment: asked.assessment, years: { is: 'run', yearsCount, boxes: asked.boxes } }
}

/** For a program: each box that was run, with what failed in which year. Null: not asked, or stopped. */
export const yearsResult = (years: Years): readonly BoxYears[] | null => (years.is === 'run' ? years.boxes : null)

export interface RemediesRun {
  readonly tables: Readonly<Record<string, RemediesMade>>
  /** Boxes without one, and why. */
  readonly lacks: readonly { readonly box: string; readonly lacks: readonly string[] }[]
}

/** The table of remedies of every box that is laid out. Null: stopped. */
export async function remediesOfAll(
  { job, shop }: Opened,
  { design, assessment }: Pick<Judged, 'design' | 'assessment'>,
  asked: number | null,
): Promise<RemediesRun | null> {
  const { REMEDY_YEARS, remediesFor } = await engine()
  const yearsCount = asked ?? REMEDY_YEARS
  const tables: Record<string, RemediesMade> = {}
  const lacks: RemediesRun['lacks'][number][] = []
  for (const { box } of design.builds) {
    const piece = { job, shop, design, results: assessment.results, box, yearsCount }
    const remedies = remediesFor(piece)
    if ('lacks' in remedies) {
      lacks.push({ box, lacks: remedies.lacks })
      continue
    }
    const table = await remediesInThreads(`years of remedies, ${box}`, piece, remedies)
    if (table === null) return null
    tables[box] = { table, aloneYearsCount: yearsCount, stackedYearsCount: yearsCount }
  }
  return { tables, lacks }
}
