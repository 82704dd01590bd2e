import { Fault, type Provenance, type Source, source } from '../kernel/index.ts'
import { tables } from './tables.generated.ts'

type FigureName = (typeof tables)['opening-figures']['rows'][number][0]

export interface Figure {
  readonly value: number
  readonly rests: Source
}

/** A limit by its name in table `opening-figures`. @throws Fault `skin/no-figure` */
export function figure(name: FigureName): Figure {
  const row = tables['opening-figures'].rows.find((r) => r[0] === name)
  if (row === undefined) throw new Fault('skin/no-figure', name)
  return { value: row[1], rests: source(`opening rules: ${name}`, firmness(row[3])) }
}

export const firmness = (said: string): Provenance =>
  said.startsWith('memory') ? 'memory' : said.startsWith('read') ? 'read' : 'common practice'
