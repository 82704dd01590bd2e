import { type Figure, shelfOf } from '../kernel/index.ts'
import { tables } from './tables.generated.ts'

export type BuildFigure = (typeof tables)['air-build-figures']['rows'][number][0]

const shelf = shelfOf('air', tables)

/** What is taken where nobody said, in the unit that its row prints. @throws Fault `air/no-row` */
export const buildFigure = (name: BuildFigure): Figure => shelf.figure('air-build-figures', name)

export const amount = (name: BuildFigure): number => buildFigure(name).value
