import { type DesignYear, type DesignYears, yearsHeld } from '@plugstead/engine/air'
import { designYearsFor } from '@plugstead/engine/plan'
import type { AtWork } from '../at-work.ts'
import { keptAir } from './kept.ts'
import { readTask } from './remedies.ts'
import type { RemedyTask, YearsBegun, YearsFound, YearsView } from './types.ts'

let begun: DesignYears | null = null

/** Asked of a worker that does pieces: the years there are. */
export function yearsBegin(task: RemedyTask): YearsBegun {
  begun = null
  const read = readTask(task)
  if (read === null) return { is: 'lacks', lacks: [] }
  const made = designYearsFor(read)
  if ('lacks' in made) return { is: 'lacks', lacks: made.lacks }
  begun = made
  return { is: 'begun', years: made.years }
}

export const yearPart = (year: number): DesignYear | null => begun?.part(year) ?? null

/** Of all its years: what is kept with the answer, and what is said. */
export function yearsFound(parts: readonly DesignYear[]): YearsFound | null {
  if (begun === null || parts.length < begun.years.length) return null
  const held = begun.held(parts)
  return { held, view: viewOf(held) }
}

/** What was found of this answer before; null: nothing yet. */
export function yearsKept(at: AtWork, box: string): YearsView | null {
  const held = keptAir(at).years[box]
  return held === undefined ? null : viewOf(held)
}

function viewOf(held: YearsFound['held']): YearsView {
  const { verdict, said } = yearsHeld(held).finding
  return { verdict, said }
}
