import { type Job, type Paint, paintsSaid } from '../../job/index.ts'
import { amount } from '../figures.ts'
import { COAT_UNTOLD, opticsOf } from '../surface/optics.ts'
import { type AirNote, type Noticed, noticed } from './note.ts'

export interface Paints {
  readonly roof: Paint
  readonly walls: Paint
}

/**
 * Paint of roof and walls as it is told: of the box that stands where one does, else as it is wanted. Words that name no colour, or two for
 * one place, are said and not passed over; until they are mended a used box of unknown colour stands for it.
 */
export function paintsOf(job: Pick<Job, 'boxes' | 'builtBody'>, box: string): Noticed<Paints> {
  const { words, path } = paintTold(job, box)
  const untold = { roof: COAT_UNTOLD, walls: COAT_UNTOLD } as const
  if (words === undefined)
    return noticed(untold, {
      ...{ kind: 'assumed', path, said: `${box}: painted like a used box of unknown colour, ${COAT_UNTOLD}` },
      ...{ source: 'table surface-optics: absorptance 0.75, emittance 0.9; common practice', mend: '' },
    })
  const read = paintsSaid(words)
  if (read !== null) return noticed(read)
  return noticed(untold, {
    ...{
      kind: 'unread',
      path,
      said: `${box}: its paint is told as “${words}”, which names no colour, or more than one for one place.`,
    },
    ...{ source: '', mend: 'Write one colour, for example “white”, “dark green” or “grey, white roof”.' },
  })
}

/** Words of a box's paint, and where they stand or would stand. */
function paintTold(job: Pick<Job, 'boxes' | 'builtBody'>, box: string): { readonly words?: string; readonly path: string } {
  const at = job.boxes.findIndex((b) => b.id === box)
  const stands = job.boxes.length === 1 ? job.builtBody?.paint : undefined
  if (stands !== undefined) return { words: stands, path: 'facts.built.paint' }
  const words = job.boxes[at]?.paint
  return { ...(words === undefined ? {} : { words }), path: `boxes[${at}].paint` }
}

/** A coat that takes in less of the sun when new gets darker by dirt; others hardly do, or get lighter. @source common practice */
const LIGHT_BELOW_FRAC = 0.6

/**
 * Said where roof or walls are light and no figure says how that coat ages: the box may get hotter than its aged end shows. Named is the
 * pin where the coat is pinned or chosen, else where the paint is told.
 */
export function ageingNotes(of: {
  readonly job: Pick<Job, 'boxes' | 'builtBody'>
  readonly box: string
  readonly paints: Paints
  /** Coat as it is taken; null: measured, and not taken from its coat. */
  readonly roof: string | null
  readonly walls: string | null
  readonly pinned: ReadonlySet<string>
}): readonly AirNote[] {
  const { job, box, paints, roof, walls, pinned } = of
  const places = [
    { coat: roof, told: paints.roof, choice: 'roof-paint' },
    { coat: walls, told: paints.walls, choice: 'wall-paint' },
  ]
  const doubtful = places.flatMap(({ coat, told, choice }) => {
    if (coat === null) return []
    const { ageUnknown } = opticsOf(coat, amount('paint-aged'))
    if (!ageUnknown || opticsOf(coat, 0).absorptanceFrac >= LIGHT_BELOW_FRAC) return []
    return [{ coat, path: pinned.has(choice) || coat !== told ? `air.${box}.${choice}` : paintTold(job, box).path }]
  })
  const [first] = doubtful
  if (first === undefined) return []
  const names = [...new Set(doubtful.map(({ coat }) => `“${coat}”`))].join(' and ')
  return [
    {
      ...{ kind: 'assumed', path: first.path, source: 'common practice', mend: '' },
      said: `${box}: nothing published says how its paint ${names} ages; it is taken as new at both ends, and light coats get darker, so the box may get hotter than shown`,
    },
  ]
}
