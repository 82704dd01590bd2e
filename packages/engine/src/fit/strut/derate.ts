import type { StrutPiece } from '../../job/index.ts'
import { Fault, type Figure } from '../../kernel/index.ts'
import { between, curveOf, figureAt } from '../shelf.ts'
import { M_PER_IN, N_PER_LB, type Section, sectionOf } from './section.ts'

/**
 * Share of the solid channel's load that a punched one keeps. Slots take the lower of the two catalogue families.
 * @source table `strut-derate`
 */
export function patternFactor(pattern: StrutPiece['pattern']): Figure {
  if (pattern === 'holes') return figureAt('strut-derate', '9/16 in round holes', 'factor')
  if (pattern === 'slots') return figureAt('strut-derate', 'long slots, other catalogues', 'factor')
  return { value: 1, rests: { place: 'solid channel', provenance: 'computed' } }
}

/**
 * Share of the load that a channel with its slot flange free keeps over an unbraced length. A channel held at every rib pitch is braced.
 * Null beyond the last printed span: nobody says.
 * @source table `strut-bracing`
 */
export function bracingFactor(section: Section, unbracedM: number): Figure | null {
  const { points, rests } = curveOf('strut-bracing', section.bracing)
  const value = between(points, unbracedM / M_PER_IN)
  return value === null ? null : { value: value * sideShare(section), rests }
}

/** What a channel of another metal keeps of the steel one's share before it buckles: by its E, over what its stress is lower. 1 for steel. */
const sideShare = (section: Section): number => {
  const steel = sectionOf(PRINTED)
  return Math.min(1, section.elasticityPa / steel.elasticityPa / (section.stressPa / steel.stressPa))
}

/**
 * Axial load that a channel bears on its slot face, by its unbraced height: the 12 ga 41 × 41 as printed, linear between rows; other
 * channels by area and, where they are slimmer, by the square of the radius; of another metal by the lesser of its E and its stress. Above the
 * last row by 1/h², which falls faster than the table.
 * @throws Fault `fit/strut-range` for a height that is not above nought
 * @source table `strut-column-12ga`; the proportion: computed
 */
export function slotFaceN(section: Section, heightM: number): Figure {
  if (!(heightM > 0 && heightM < Infinity)) throw new Fault('fit/strut-range', heightM)
  const { points, rests } = curveOf('strut-column-12ga', 'slot_face_load')
  const last = points[points.length - 1] as readonly [number, number]
  const heightIn = heightM / M_PER_IN
  const printed = between(points, heightIn) ?? last[1] * (last[0] / heightIn) ** 2
  const area = figureAt('strut-sections', PRINTED, 'area').value * M_PER_IN ** 2
  const radius = figureAt('strut-sections', PRINTED, 'rx').value * M_PER_IN
  const share = (section.areaM2 / area) * Math.min(1, section.rxM / radius) ** 2
  const steel = sectionOf(PRINTED)
  const metal = Math.min(section.elasticityPa / steel.elasticityPa, section.stressPa / steel.stressPa)
  return { value: printed * N_PER_LB * Math.min(1, share) * metal, rests }
}

const PRINTED = '12 ga 1-5/8 x 1-5/8 (41 x 41, 2.6 mm)'
