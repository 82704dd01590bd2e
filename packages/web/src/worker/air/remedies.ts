import { airRemedies, remedyParts } from '@plugstead/drawings'
import type { Remedies, RemedyPart, RemedyStep, RemedyTable } from '@plugstead/engine/air'
import { type Design, readJob } from '@plugstead/engine/job'
import { type MadeYearsAsked, remediesFor } from '@plugstead/engine/plan'
import type { AtWork } from '../at-work.ts'
import { shopNow } from '../shop.ts'
import { numberOf } from './kept.ts'
import type { RemediesBegun, RemedyTask, RemedyView, RemedyViewAsked } from './types.ts'

/** What other workers need to do pieces of the table: plain data as text. */
export function remedyTask(at: AtWork, box: string | null): RemedyTask {
  const { reach, haul } = at.found.assessment.results
  return {
    at: numberOf(at),
    box: box ?? at.found.design.builds[0]?.box ?? '',
    given: at.given,
    design: JSON.stringify(at.found.design),
    results: JSON.stringify({ reach, haul }),
  }
}

/** Document, shop and design of a task; null: one of them cannot be read here. */
export function readTask({ box, given, design, results }: RemedyTask): MadeYearsAsked | null {
  const [read, shop] = [readJob(given.text, { file: given.file }), shopNow()]
  if (!read.ok || !shop.ok) return null
  return { job: read.value, shop: shop.value, design: JSON.parse(design) as Design, results: JSON.parse(results), box }
}

let begun: Remedies | null = null

/** Asked of a worker that does pieces: the pieces there are. */
export function remediesBegin(task: RemedyTask): RemediesBegun {
  begun = null
  const read = readTask(task)
  if (read === null) return { is: 'lacks', lacks: [] }
  const made = remediesFor(read)
  if ('lacks' in made) return { is: 'lacks', lacks: made.lacks }
  begun = made
  return { is: 'begun', alone: made.steps('alone'), stacked: made.steps('stacked') }
}

export const remedyPart = (step: RemedyStep, order: readonly string[]): RemedyPart | null => begun?.part(step, order) ?? null

export const remedyOrder = (alone: readonly RemedyPart[]): readonly string[] => begun?.orderOf(alone) ?? []

/** The table of the pieces that are done: at least one of those in which each measure stands alone. */
export function remedyView({ alone, stacked, widthPx, letterPx, units }: RemedyViewAsked): RemedyView | null {
  if (begun === null || alone.length === 0) return null
  const all = begun.table(alone, stacked)
  // What was not run at all has no figures, and none are made up.
  const table: RemedyTable = stacked.length === 0 ? { ...all, stacked: [] } : all
  const perMm = letterPx / LETTERING_MM
  const scene = airRemedies({
    ...remedyParts({ table, aloneYearsCount: alone.length, stackedYearsCount: stacked.length }),
    widthMm: widthPx / perMm,
    units,
  })
  return {
    table,
    hasDesign: stacked.length > 0,
    aloneCount: alone.length,
    stackedCount: stacked.length,
    drawing: {
      ...{ widthPx: scene.sizeMm[0] * perMm, heightPx: scene.sizeMm[1] * perMm, pxPerMm: perMm },
      ...{ said: scene.said, items: scene.items, places: [] },
    },
  }
}
const LETTERING_MM = 2.65
