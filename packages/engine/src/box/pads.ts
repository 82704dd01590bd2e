import { bodyFigure } from './shelf.ts'

/** Ground to the underside of a box on its pads: the air that is asked for, and the span in which pads are built. @source table `body-figures` */
export const PADS = {
  leastAirMm: bodyFigure('pads least air'),
  lowestMm: bodyFigure('pads lowest'),
  highestMm: bodyFigure('pads highest'),
} as const
