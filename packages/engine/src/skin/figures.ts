import { type Figure, shelfOf, source } from '../kernel/index.ts'
import { tables } from './tables.generated.ts'

type FigureName = (typeof tables)['opening-figures']['rows'][number][0]

const shelf = shelfOf('skin', tables)

/** A limit by its name in table `opening-figures`. @throws Fault `skin/no-row` */
export function figure(name: FigureName): Figure {
  const { value, rests } = shelf.figure('opening-figures', name)
  return { value, rests: source(`opening rules: ${name}`, rests.provenance) }
}
