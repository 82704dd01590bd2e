import type { BoxAirFacts, BoxSurvey, LeakClass } from '../../job/index.ts'
import { LEAK_CHANGES_PER_H, LEAK_EXPONENT_RATIO, leakOfChangesM3s } from '../flow/leakage.ts'
import { rowOf, wordsIn } from '../shelf.ts'
import { powerOf } from '../surface/roots.ts'
import type { AirNote } from './note.ts'

/** Cracks of a box at both ends of what is known of them, and between: flow at 1 Pa. */
export interface Leak {
  readonly tightM3s: number
  readonly usualM3s: number
  readonly leakyM3s: number
  readonly notes: readonly AirNote[]
}

const CLASS_ROWS: Readonly<Record<LeakClass, string>> = {
  'fumigation tight': 'fumigation-tight limit: 200 to 100 Pa in 10 s or more, 33 m3',
  'fair seals': 'used dry box, doors shut, seals fair',
  'bad seals': 'used box, seals bad, factory vents open',
  cut: 'cut box with cord slots and conduit entries, brush seals',
}

/** Changes of its air an hour at 50 Pa of a class, low and high, as its row prints them: “n50 3-10 per h”. */
export function changesOfClass(name: LeakClass): readonly [low: number, high: number] {
  const [, low = '', high = low] =
    /n50 ([\d.]+)(?:-([\d.]+))? per h/.exec(wordsIn(rowOf('box-leakage', CLASS_ROWS[name]), 'leak')) ?? []
  return [Number(low), Number(high)]
}

const TEST_PA = 50

/**
 * What goes through the cracks: as a logger or a test told it, at the ends of its band; else the class or figure that is told of the box; else
 * what the trade takes, from a tight box to a leaky one.
 */
export function leakOf(of: {
  readonly box: string
  /** Where the box stands in the job. */
  readonly at: number
  readonly facts: BoxAirFacts | undefined
  readonly survey: BoxSurvey | undefined
  readonly volumeM3: number
}): Leak {
  const measured = of.survey?.air?.leakM3SAt50Pa ?? null
  if (measured !== null) {
    const at1Pa = (m3s: number) => m3s / powerOf(TEST_PA, LEAK_EXPONENT_RATIO)
    const { low, value, high } = measured
    return { tightM3s: at1Pa(low), usualM3s: at1Pa(value), leakyM3s: at1Pa(high), notes: [] }
  }
  const told = of.facts?.leakage
  const changes = (perH: number) => leakOfChangesM3s(perH, of.volumeM3, LEAK_EXPONENT_RATIO)
  if (typeof told === 'number') return { tightM3s: changes(told), usualM3s: changes(told), leakyM3s: changes(told), notes: [] }
  if (told !== undefined) {
    const [low, high] = changesOfClass(told)
    return { tightM3s: changes(low), usualM3s: changes((low + high) / 2), leakyM3s: changes(high), notes: [] }
  }
  const { low, taken, high } = LEAK_CHANGES_PER_H
  const note: AirNote = {
    ...{ kind: 'assumed', path: `boxes[${of.at}].leakage`, source: 'table box-leakage; common practice' },
    said: `${of.box}: air goes through its cracks ${low} to ${high} times an hour at 50 Pa, ${taken} between`,
    mend: 'Write a class (“fair seals”, “bad seals”, “cut”) or a figure of a test (“6 an hour”).',
  }
  return { tightM3s: changes(low), usualM3s: changes(taken), leakyM3s: changes(high), notes: [note] }
}
