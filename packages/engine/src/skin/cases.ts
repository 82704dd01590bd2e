import { acrossMm, CORD_TOLERANCE_FRAC, entriesInRow, entryFor, holeAreaM2 } from './entry.ts'
import { jambNeedMm4, lintel, tubeNamed, tubeSection } from './frame.ts'

type Given = any

/** Published cases of the skin, answered by the functions the question itself uses. */
export const skinCases: Record<string, (given: Given) => Record<string, unknown>> = {
  'open-01': (g) => {
    const { areaMm2, inertiaMm4, sectionMm3 } = tubeSection({ bMm: g.b_mm, tMm: g.t_mm }).value
    return { A_mm2: areaMm2, I_mm4: inertiaMm4, S_mm3: sectionMm3 }
  },
  'open-02': (g) => {
    const beam = lintel({
      snowPa: g.snow_kPa * 1000,
      boxWidthM: g.box_w_m,
      openingM: g.opening_w_m,
      tube: { section: '', bMm: g.b_mm, tMm: g.t_mm },
      youngPa: g.E_GPa * 1e9,
    }).value
    return {
      line_load_kN_per_m: beam.loadNPerM / 1000,
      moment_kNm: beam.momentNm / 1000,
      stress_MPa: beam.stressPa / 1e6,
      deflection_mm: beam.deflectionM * 1000,
    }
  },
  'open-04': (g) => {
    const need = jambNeedMm4({ wallMm4PerMm: g.wall_I_mm4_per_mm, openingMm: g.opening_w_mm }).value
    const forty = tubeSection(tubeNamed('tube 40 x 40 x 3')).value.inertiaMm4
    const fifty = tubeSection(tubeNamed('tube 50 x 50 x 3')).value.inertiaMm4
    return {
      needed_I_per_jamb_mm4: need,
      tube_40x40x3_I_mm4: forty,
      ok: forty >= need,
      tube_50x50x3_I_mm4: fifty,
      ok_50: fifty >= need,
    }
  },
  'entry-01': (g) => {
    const row = entriesInRow({ widthMm: g.plate_w_mm, edgeMm: g.edge_mm, acrossMm: acrossMm(32), gapMm: g.gap_mm }).value
    return { pitch_mm: row.pitchMm, per_row: row.count, total: row.count * g.rows }
  },
  'entry-03': (g) => {
    const od = g.cord_od_mm
    const { chosen, candidates } = entryFor({ low: od * (1 - CORD_TOLERANCE_FRAC), high: od * (1 + CORD_TOLERANCE_FRAC) }).value
    return { candidates: candidates.map((c) => c.thread), choose: chosen?.thread }
  },
  'entry-05': (g) => {
    const { holesM2, leakM2 } = holeAreaM2({ count: g.holes, holeMm: g.hole_mm, cordMm: g.cord_mm })
    return { hole_area_cm2: holesM2 * 1e4, leak_area_if_unsealed_cm2: leakM2 * 1e4 }
  },
}
