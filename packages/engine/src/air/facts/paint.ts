import { type Job, type Paint, paintsSaid } from '../../job/index.ts'
import { COAT_UNTOLD } from '../surface/optics.ts'
import { type Noticed, noticed } from './note.ts'

export interface Paints {
  readonly roof: Paint
  readonly walls: Paint
}

/**
 * Paint of roof and walls as it is told: of the box that stands where one does, else as it is wanted. Words that name no colour, or two for
 * one place, are said and not passed over; until they are mended a used box of unknown colour stands for it.
 */
export function paintsOf(job: Pick<Job, 'boxes' | 'builtBody'>, box: string): Noticed<Paints> {
  const at = job.boxes.findIndex((b) => b.id === box)
  const stands = job.boxes.length === 1 ? job.builtBody?.paint : undefined
  const [words, path] =
    stands === undefined ? ([job.boxes[at]?.paint, `boxes[${at}].paint`] as const) : ([stands, 'facts.built.paint'] as const)
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
