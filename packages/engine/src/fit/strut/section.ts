import type { Source } from '../../kernel/index.ts'
import { weakest } from '../../kernel/index.ts'
import { figureAt, strutFigure, wordAt } from '../shelf.ts'

export const M_PER_IN = 0.0254
export const N_PER_LB = 4.4482216152605
export const KG_PER_LB = 0.45359237
export const PA_PER_PSI = N_PER_LB / (M_PER_IN * M_PER_IN)
export const GRAVITY_N_PER_KG = 9.80665

export type StrutMetal = 'steel' | 'aluminium'

/** A channel: x bends it with the slot up, y with the slot sideways. SI. */
export interface Section {
  readonly name: string
  readonly widthM: number
  readonly depthM: number
  readonly thicknessM: number
  readonly gauge: number
  readonly metal: StrutMetal
  /** Allowed in bending, and where it tears. */
  readonly stressPa: number
  readonly stress: Source
  readonly tensileMPa: number
  readonly elasticityPa: number
  readonly massKgPerM: number
  readonly areaM2: number
  readonly ixM4: number
  readonly sxM3: number
  readonly iyM4: number
  readonly syM3: number
  readonly rxM: number
  /** Column of table `strut-bracing`. */
  readonly bracing: string
  readonly rests: Source
}

/**
 * A channel by its name in table `strut-sections`. The 14 ga single takes Sx from its back-to-back row, not the figure printed.
 * @throws Fault `fit/no-row` for a name that is not in the table
 */
export function sectionOf(name: string): Section {
  const known = sections.get(name)
  if (known !== undefined) return known
  const read = readSection(name)
  sections.set(name, read)
  return read
}

/** Sections already read: printed tables never change. */
const sections = new Map<string, Section>()

function readSection(name: string): Section {
  const table = name.startsWith('aluminium') ? 'strut-sections-aluminium' : 'strut-sections'
  const get = (column: string) => figureAt(table, name, column)
  const size = (column: string) => figureAt('strut-sizes', name, column).value
  const sx = name === SINGLE_14 ? strutFigure('sx-14-ga-single') : get('Sx')
  const mass = get('mass')
  const metal: StrutMetal = wordAt('strut-sizes', name, 'metal') === 'aluminium' ? 'aluminium' : 'steel'
  const ofMetal = (column: string) => figureAt('strut-metals', metal, column)
  const stress = ofMetal('allowable_stress')
  return {
    name,
    widthM: size('width') / 1000,
    depthM: size('depth') / 1000,
    thicknessM: size('thickness') / 1000,
    gauge: size('gauge'),
    metal,
    stressPa: stress.value * PA_PER_PSI,
    stress: stress.rests,
    tensileMPa: ofMetal('tensile').value,
    elasticityPa: ofMetal('elasticity').value * PA_PER_PSI,
    massKgPerM: (mass.value * KG_PER_LB) / M_PER_FT,
    areaM2: get('area').value * M_PER_IN ** 2,
    ixM4: get('Ix').value * M_PER_IN ** 4,
    sxM3: sx.value * M_PER_IN ** 3,
    iyM4: get('Iy').value * M_PER_IN ** 4,
    syM3: get('Sy').value * M_PER_IN ** 3,
    rxM: get('rx').value * M_PER_IN,
    bracing: wordAt('strut-sizes', name, 'bracing'),
    rests: { ...mass.rests, provenance: weakest(mass.rests.provenance, sx.rests.provenance) },
  }
}

const SINGLE_14 = '14 ga 1-5/8 x 1-5/8 (41 x 41, 1.9 mm)'
const M_PER_FT = 0.3048
