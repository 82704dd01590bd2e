import { SIDES } from '../../job/index.ts'
import { type Step, source } from '../../kernel/index.ts'
import { airKgPerM3, humidityRatio } from '../../weather/index.ts'
import { naturalFilmWPerM2K } from '../surface/index.ts'
import { depositKgPerM2S, massFilmMPerS } from '../water/index.ts'
import type { BoxModel, YearRun } from '../year/types.ts'
import { amount } from './figures.ts'
import { COMPUTED, line } from './finding.ts'

const FACES = 6
/** Films that a hand check takes, W/m²K: still air inside, a light wind outside. */
const INSIDE = 3
const OUTSIDE = 15
const FILMS = source('films of 3 W/m²K inside and 15 outside', 'common practice')
/** J/kgK of air. */
const AIR_HEAT = 1006

/** What conducts from air to air through all faces, W/K: Σ A/(R + 1/3 + 1/15). */
export const conductsWPerK = (model: BoxModel): number =>
  [...model.faces, ...(model.parts ?? [])].reduce(
    (sum, face) =>
      sum +
      face.areaM2 *
        ((1 - face.bareFrac) / (face.layers.reduce((r, l) => r + l.resistanceM2KPerW, 0) + 1 / INSIDE + 1 / OUTSIDE) +
          face.bareFrac / (1 / INSIDE + 1 / OUTSIDE)),
    0,
  )

/**
 * Steady air of an hour by hand, from the run's own faces: t = (Σ 3·A·t_face + P + m·c·t_out)/(Σ 3·A + m·c). Beside the run's air, which
 * solves films, walls and openings together.
 */
export function steadyAir(model: BoxModel, run: YearRun, outsideC: Float64Array | null, h: number): readonly Step[] {
  if (outsideC === null) return []
  const { series } = run
  const heatW = (series.gearHeatWh[h] as number) + (series.heaterWh[h] as number)
  const flowWPerK = ((series.inflowKg[h] as number) * AIR_HEAT) / 3600
  let [films, heat] = [flowWPerK, heatW + flowWPerK * (outsideC[h] as number)]
  for (let side = 0; side < FACES; side += 1) {
    const filmWPerK = INSIDE * (model.faces[side]?.areaM2 ?? 0)
    films += filmWPerK
    heat += filmWPerK * (series.faceC[h * FACES + side] as number)
  }
  const steadyC = heat / films
  return [
    line(
      't steady',
      '(Σ 3·A·t_face + P + m·c·t_out)/(Σ 3·A + m·c)',
      [
        ['P', heatW, 'W'],
        ['m·c', flowWPerK, 'W/K'],
        ['Σ 3·A', films - flowWPerK, 'W/K'],
        ['t_out', outsideC[h] as number, '°C'],
      ],
      steadyC,
      '°C',
      FILMS,
    ),
    line(
      't run − t steady',
      'the run’s air beside the hand’s',
      [['t run', series.airC[h] as number, '°C']],
      (series.airC[h] as number) - steadyC,
      'K',
      COMPUTED,
    ),
  ]
}

/** Heater by hand: P = ΔT·(ΣUA + 0.34·Q). */
export function heaterByHand(of: {
  readonly model: BoxModel
  readonly insideC: number
  readonly outsideC: number
  readonly inflowKgPerH: number
  readonly runW: number
}): readonly Step[] {
  const { model, insideC, outsideC, inflowKgPerH, runW } = of
  const conducts = conductsWPerK(model)
  // 0.34 Wh/m³K stands for air of 1.2 kg/m³.
  const flowM3PerH = inflowKgPerH / 1.2
  const byHandW = (insideC - outsideC) * (conducts + amount('air-heat') * flowM3PerH)
  return [
    line('ΣUA', 'Σ A/(R + 1/3 + 1/15)', [['faces', model.faces.length, '']], conducts, 'W/K', FILMS),
    line(
      'P',
      'ΔT·(ΣUA + 0.34·Q)',
      [
        ['ΔT', insideC - outsideC, 'K'],
        ['Q', flowM3PerH, 'm³/h'],
      ],
      byHandW,
      'W',
      source('P = ΔT·(ΣUA + 0.34·Q)', 'computed'),
    ),
    line('P run', 'mean of the same 24 h in the run: gear and heater', [], runW, 'W', COMPUTED),
  ]
}

const ROOF = SIDES.indexOf('roof')

/**
 * Frost or dew of one hour under the roof by hand: film of still air under a colder ceiling, Lewis' relation, vapour of the air less that
 * over the sheet, both held for the hour.
 */
export function depositByHand(run: YearRun, h: number, pressurePa: number): readonly Step[] {
  const { series } = run
  // Readings stand at the ends of hours; the hand takes the middle of both ends.
  const middle = (values: Float64Array, at: number, each: number): number =>
    ((values[at] as number) + (values[Math.max(at - each, at % each)] as number)) / 2
  const airC = middle(series.airC, h, 1)
  const vapourPa = middle(series.vapourPa, h, 1)
  const roofC = middle(series.faceC, h * FACES + ROOF, FACES)
  const film = naturalFilmWPerM2K(roofC - airC, -1)
  const massFilm = massFilmMPerS(film, airKgPerM3({ airC, ratio: humidityRatio(vapourPa, pressurePa), pressurePa }), AIR_HEAT)
  const gPerM2 = depositKgPerM2S(massFilm, vapourPa, airC, roofC) * 3600 * 1000
  const grew =
    h === 0
      ? 0
      : ((series.filmKgPerM2[h * FACES + ROOF] as number) - (series.filmKgPerM2[(h - 1) * FACES + ROOF] as number)) * 1000
  return [
    line(
      'h_c',
      'natural film under a colder ceiling',
      [
        ['t_roof', roofC, '°C'],
        ['t_air', airC, '°C'],
      ],
      film,
      'W/m²K',
      source('TARP, Walton 1983', 'memory'),
    ),
    line('h_m', 'h_c/(ρ·c·0.87^(2/3))', [['h_c', film, 'W/m²K']], massFilm, 'm/s', source('Lewis relation', 'memory')),
    line(
      'g',
      'h_m·(ρ_v air − ρ_v over the sheet), one hour',
      [
        ['p_v', vapourPa, 'Pa'],
        ['h_m', massFilm, 'm/s'],
      ],
      gPerM2,
      'g/m²',
      source('mass transfer', 'computed'),
    ),
    line('g run', 'what the same hour of the run adds', [], grew, 'g/m²', COMPUTED),
  ]
}

/** Name of a face in a sentence. */
export const FACE_WORDS: Readonly<Record<(typeof SIDES)[number], string>> = {
  left: 'the left wall',
  right: 'the right wall',
  'blind end': 'the blind end',
  'door end': 'the door end',
  roof: 'the roof',
  floor: 'the floor',
}
