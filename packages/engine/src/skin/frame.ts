import { Fault, put, type Source, source, step, type Worked } from '../kernel/index.ts'
import { TUBES, type Tube } from '../parts/index.ts'
import { figure } from './figures.ts'

/** @throws Fault `skin/section-unknown` */
export function tubeNamed(section: string): Tube {
  const tube = TUBES.find((t) => t.section === section)
  if (tube === undefined) throw new Fault('skin/section-unknown', section)
  return tube
}

const GEOMETRY: Source = source('geometry of a square tube, sharp corners', 'computed')
const BEAM: Source = source('simple beam under a uniform load', 'computed')
const HALF: Source = source('half of the roof width to each wall', 'common practice')

/**
 * Square tube: A = b² − (b − 2t)²,  I = (b⁴ − (b − 2t)⁴)/12,  S = 2I/b. mm², mm⁴, mm³.
 * @throws Fault `skin/tube-range`
 */
export function tubeSection(of: {
  readonly bMm: number
  readonly tMm: number
}): Worked<{ readonly areaMm2: number; readonly inertiaMm4: number; readonly sectionMm3: number }> {
  const { bMm: b, tMm: t } = of
  if (!(t > 0 && b > 2 * t && b < 1e4)) throw new Fault('skin/tube-range', of)
  const areaMm2 = b ** 2 - (b - 2 * t) ** 2
  const inertiaMm4 = (b ** 4 - (b - 2 * t) ** 4) / 12
  const sectionMm3 = (2 * inertiaMm4) / b
  const puts = [put('b', b, 'mm'), put('t', t, 'mm')]
  return {
    value: { areaMm2, inertiaMm4, sectionMm3 },
    steps: [
      step('A', 'b² − (b − 2t)²', puts, areaMm2, 'mm2', GEOMETRY),
      step('I', '(b⁴ − (b − 2t)⁴)/12', puts, inertiaMm4, 'mm4', GEOMETRY),
      step('S', '2·I/b', [put('I', inertiaMm4, 'mm4'), put('b', b, 'mm')], sectionMm3, 'mm3', GEOMETRY),
    ],
  }
}

export interface LintelAsked {
  readonly snowPa: number
  readonly boxWidthM: number
  readonly openingM: number
  readonly tube: Tube
  /** Young's modulus of steel. */
  readonly youngPa?: number
}

/**
 * Lintel over an opening under roof snow: half of the roof to each wall, simple beam.
 *
 *   w = s·b/2,   M = w·a²/8,   σ = M/S,   δ = 5·w·a⁴/(384·E·I)
 *
 * @throws Fault `skin/lintel-range`
 * @source simple beam; half of the roof load to each wall. Provenance: common practice
 */
export function lintel(of: LintelAsked): Worked<{
  readonly loadNPerM: number
  readonly momentNm: number
  readonly stressPa: number
  readonly deflectionM: number
  readonly limitM: number
}> {
  const { snowPa: s, boxWidthM: b, openingM: a, tube, youngPa: e = STEEL_PA } = of
  if (![s, b, a].every((n) => n >= 0 && n < 1e6)) throw new Fault('skin/lintel-range', of)
  const { value: section, steps } = tubeSection(tube)
  const loadNPerM = (s * b) / 2
  const momentNm = (loadNPerM * a ** 2) / 8
  const stressPa = momentNm / (section.sectionMm3 * 1e-9)
  const deflectionM = (5 * loadNPerM * a ** 4) / (384 * e * section.inertiaMm4 * 1e-12)
  const over = figure('lintel deflection span over')
  const limitM = a / over.value
  return {
    value: { loadNPerM, momentNm, stressPa, deflectionM, limitM },
    steps: [
      ...steps,
      step('w', 's·b/2', [put('s', s, 'Pa'), put('b', b, 'm')], loadNPerM, 'N/m', HALF),
      step('M', 'w·a²/8', [put('w', loadNPerM, 'N/m'), put('a', a, 'm')], momentNm, 'N·m', BEAM),
      step('σ', 'M/S', [put('M', momentNm, 'N·m'), put('S', section.sectionMm3, 'mm3')], stressPa, 'Pa', BEAM),
      step(
        'δ',
        '5·w·a⁴/(384·E·I)',
        [put('w', loadNPerM, 'N/m'), put('a', a, 'm'), put('E', e, 'Pa'), put('I', section.inertiaMm4, 'mm4')],
        deflectionM,
        'm',
        BEAM,
      ),
      step('δ max', 'a/240', [put('a', a, 'm')], limitM, 'm', over.rests),
    ],
  }
}

const STEEL_PA = 210e9
/** Stress that a frame of ordinary steel may carry, with 1.5 on its yield of 235 N/mm². House rule. */
export const FRAME_STRESS_PA = 235e6 / 1.5

/**
 * What each jamb must have to replace the wall it stands for.
 *
 *   I_jamb ≥ i_wall · w/2,  i_wall in mm⁴ per mm of wall
 *
 * @source rule of the opening table. Provenance: common practice
 */
export function jambNeedMm4(of: { readonly wallMm4PerMm: number; readonly openingMm: number }): Worked<number> {
  if (!(of.wallMm4PerMm > 0 && of.openingMm > 0)) throw new Fault('skin/jamb-range', of)
  const need = (of.wallMm4PerMm * of.openingMm) / 2
  return {
    value: need,
    steps: [
      step(
        'I jamb',
        'i_wall·w/2',
        [put('i_wall', of.wallMm4PerMm, 'mm4/mm'), put('w', of.openingMm, 'mm')],
        need,
        'mm4',
        source('rule of the opening table', 'common practice'),
      ),
    ],
  }
}
