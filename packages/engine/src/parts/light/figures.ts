import { Fault, type Provenance, type Source, source } from '../../kernel/index.ts'
import { tables } from '../tables.generated.ts'

export type LightFigureName = (typeof tables)['light-figures']['rows'][number][0]

/** A figure of light and the row it stands in, in the printed unit. @throws Fault `parts/no-figure` */
export function lightFigure(name: LightFigureName): { readonly value: number; readonly rests: Source } {
  const row = tables['light-figures'].rows.find((one) => one[0] === name)
  if (row === undefined) throw new Fault('parts/no-figure', name)
  const [, value, , clause, how] = row
  const provenance: Provenance = how.startsWith('read') ? 'read' : 'common practice'
  return { value, rests: source(clause, provenance) }
}
