import { Fault, put, type Source, source, step, type Worked } from '../kernel/index.ts'
import { bodyFigure, numberIn, rowOf, rowSource } from './shelf.ts'

/** One pitch of a corrugated sheet: flat out, slope, flat in, slope. */
export interface Profile {
  readonly outerFlatMm: number
  readonly innerFlatMm: number
  /** Horizontal run of one slope, not its slant length. */
  readonly slopeRunMm: number
  /** Between the middles of the outer and the inner flat. */
  readonly depthMm: number
}

export type Sheet = 'side wall' | 'front (end) wall' | 'roof, die-stamped'

/** A sheet's profile and thickness as the table has it; of two thicknesses the thinner. */
export function tableProfile(sheet: Sheet): Profile & { readonly thicknessMm: number; readonly rests: Source } {
  const row = rowOf('corrugation', sheet)
  return {
    outerFlatMm: numberIn(row.outer_flat),
    innerFlatMm: numberIn(row.inner_flat),
    slopeRunMm: numberIn(row.slope_run),
    depthMm: numberIn(row.depth),
    thicknessMm: numberIn(row.thickness),
    rests: rowSource('corrugation', sheet),
  }
}

export const pitchMm = (p: Profile): number => p.outerFlatMm + p.innerFlatMm + 2 * p.slopeRunMm

function demandProfile(p: Profile): void {
  const good = p.outerFlatMm > 0 && p.innerFlatMm > 0 && p.slopeRunMm >= 0 && p.depthMm >= 0 && pitchMm(p) < Infinity
  if (!good) throw new Fault('box/profile-range', p)
}

const geometry = source('geometry of a trapezoid', 'computed')
const thinWall = source('thin-wall section theory, lines of the middle of the sheet', 'computed')

/**
 * Developed length of one pitch, and its ratio to the pitch: the same for mass, paint, foam and heat.
 *
 *   l = √(r² + d²),  s = f_o + f_i + 2·l,  p = f_o + f_i + 2·r,  ratio = s/p
 *
 * @throws Fault `box/profile-range`
 * @source Geometry; agrees with case box-01 (1.065)
 */
export function developed(
  p: Profile,
): Worked<{ readonly slantMm: number; readonly developedMm: number; readonly pitchMm: number; readonly ratio: number }> {
  demandProfile(p)
  const slantMm = Math.hypot(p.slopeRunMm, p.depthMm)
  const developedMm = p.outerFlatMm + p.innerFlatMm + 2 * slantMm
  const pitch = pitchMm(p)
  const ratio = developedMm / pitch
  const flats = [put('f_o', p.outerFlatMm, 'mm'), put('f_i', p.innerFlatMm, 'mm')]
  return {
    value: { slantMm, developedMm, pitchMm: pitch, ratio },
    steps: [
      step('p', 'f_o + f_i + 2·r', [...flats, put('r', p.slopeRunMm, 'mm')], pitch, 'mm', geometry),
      step('l', '√(r² + d²)', [put('r', p.slopeRunMm, 'mm'), put('d', p.depthMm, 'mm')], slantMm, 'mm', geometry),
      step('s', 'f_o + f_i + 2·l', [...flats, put('l', slantMm, 'mm')], developedMm, 'mm', geometry),
      step('ratio', 's/p', [put('s', developedMm, 'mm'), put('p', pitch, 'mm')], ratio, '', geometry),
    ],
  }
}

/** Mass of corrugated sheet on a square metre of wall: m = t·ρ·ratio. @throws Fault `box/profile-range` */
export function sheetMass(p: Profile, thicknessMm: number): Worked<number> {
  if (!(thicknessMm > 0 && thicknessMm < 100)) throw new Fault('box/profile-range', { thicknessMm })
  const flat = developed(p)
  const density = bodyFigure('steel density')
  const massKgM2 = (thicknessMm / 1000) * density * flat.value.ratio
  return {
    value: massKgM2,
    steps: [
      ...flat.steps,
      step(
        'm',
        't·ρ·ratio',
        [put('t', thicknessMm, 'mm'), put('ρ', density, 'kg/m3'), put('ratio', flat.value.ratio)],
        massKgM2,
        'kg/m2',
        source('density of steel', 'common practice'),
      ),
    ],
  }
}

export interface SheetSection {
  readonly inertiaMm4PerPitch: number
  readonly sectionMm3PerPitch: number
  /** Per millimetre of wall, mm⁴/mm. */
  readonly inertiaMm4PerMm: number
  /** Per metre of wall. */
  readonly inertiaCm4PerM: number
  readonly sectionCm3PerM: number
}

/**
 * Bending stiffness of the sheet about its own middle, the ribs as the beam.
 *
 *   I = t·[(f_o + f_i)·(d/2)² + 2·l·d²/12],  S = I/(d/2 + t/2)
 *
 * Thin walls: good to about 2 % at these thicknesses. The outer and inner flat are taken as equally far from the middle, which is
 * true to the second order for flats that differ by a few millimetres.
 * @throws Fault `box/profile-range`
 * @source Thin-wall section theory; agrees with case box-02
 */
export function sheetSection(p: Profile, thicknessMm: number): Worked<SheetSection> {
  if (!(thicknessMm > 0 && thicknessMm < 100)) throw new Fault('box/profile-range', { thicknessMm })
  const flat = developed(p)
  const { slantMm, pitchMm: pitch } = flat.value
  const d = p.depthMm
  const inertia = thicknessMm * ((p.outerFlatMm + p.innerFlatMm) * (d / 2) ** 2 + (2 * slantMm * d ** 2) / 12)
  const section = inertia / (d / 2 + thicknessMm / 2)
  const perMm = inertia / pitch
  const value: SheetSection = {
    inertiaMm4PerPitch: inertia,
    sectionMm3PerPitch: section,
    inertiaMm4PerMm: perMm,
    inertiaCm4PerM: perMm / 10,
    sectionCm3PerM: section / pitch,
  }
  const t = put('t', thicknessMm, 'mm')
  return {
    value,
    steps: [
      ...flat.steps,
      step(
        'I',
        't·[(f_o + f_i)·(d/2)² + 2·l·d²/12]',
        [t, put('f_o + f_i', p.outerFlatMm + p.innerFlatMm, 'mm'), put('d', d, 'mm'), put('l', slantMm, 'mm')],
        inertia,
        'mm4 a pitch',
        thinWall,
      ),
      step('S', 'I/(d/2 + t/2)', [put('I', inertia, 'mm4'), put('d', d, 'mm'), t], section, 'mm3 a pitch', thinWall),
      step('I′', 'I/p', [put('I', inertia, 'mm4'), put('p', pitch, 'mm')], perMm / 10, 'cm4/m', thinWall),
      step('S′', 'S/p', [put('S', section, 'mm3'), put('p', pitch, 'mm')], section / pitch, 'cm3/m', thinWall),
    ],
  }
}
