import {
  bottomFittingLoad,
  floorLineLoad,
  postArea,
  roofProof,
  sideWallsMass,
  stackingPerPost,
  wallProof,
  widthMargin,
} from './loads.ts'
import { developed, type Profile, sheetMass, sheetSection } from './profile.ts'

const KG_PER_LB = 0.45359237
const G_POUND = 9.80665
const PA_PER_PSI = 6894.757293
const MM_PER_IN = 25.4

const profileOf = (given: {
  readonly outer_flat_mm: number
  readonly inner_flat_mm: number
  readonly slope_run_mm: number
  readonly depth_mm: number
}): Profile => ({
  outerFlatMm: given.outer_flat_mm,
  innerFlatMm: given.inner_flat_mm,
  slopeRunMm: given.slope_run_mm,
  depthMm: given.depth_mm,
})

/** The profile that the first two cases state as closed, the side wall as the sheet that was read would have to be. */
const STATED: Profile = { outerFlatMm: 72, innerFlatMm: 72, slopeRunMm: 67, depthMm: 36 }

export const boxCases: Record<string, (given: any) => Record<string, unknown>> = {
  'box-01': (given) => {
    const { pitchMm, developedMm, ratio } = developed(profileOf(given)).value
    return {
      pitch_mm: pitchMm,
      developed_mm: developedMm,
      ratio,
      mass_kg_per_m2_at_1p6mm: sheetMass(profileOf(given), 1.6).value,
    }
  },
  'box-02': (given) => {
    const section = sheetSection(STATED, given.thickness_mm).value
    return {
      I_mm4_per_pitch: section.inertiaMm4PerPitch,
      I_cm4_per_m: section.inertiaCm4PerM,
      S_cm3_per_m: section.sectionCm3PerM,
    }
  },
  'box-05': (given) => {
    const { usedMm, freeMm } = widthMargin({
      innerWidthMm: given.int_w_mm,
      depthsMm: [given.strut_mm, given.panel_depth_mm],
      workingDepthMm: given.working_depth_mm,
    }).value
    return { used_mm: usedMm, free_mm: freeMm }
  },
  'box-06': (given) => {
    const load = floorLineLoad({
      massKg: given.item_mass_kg,
      lengthM: given.item_length_m,
      mostTonnePerM: given.allowed_t_per_m,
    }).value
    return { line_load_t_per_m: load.lineTonnePerM, ok: load.holds }
  },
  'box-08': (given) => {
    const area = postArea({ forceN: given.load_lb * KG_PER_LB * G_POUND, yieldPa: given.yield_psi * PA_PER_PSI }).value
    return { area_in2: area / MM_PER_IN ** 2 }
  },
  'box-09': (given) => ({
    load_lb:
      bottomFittingLoad({ stackKg: given.stack_load_lb * KG_PER_LB, grossKg: given.box_gross_lb * KG_PER_LB }).value / KG_PER_LB,
  }),
  'box-10': (given) => ({
    per_post_kg: stackingPerPost({
      boxesAbove: given.boxes_above,
      grossKg: given.gross_each_kg,
      factorRatio: given.factor,
      posts: given.posts,
    }).value,
  }),
  'box-11': (given) => {
    const proof = wallProof({
      ratingKg: given.rating_kg,
      tareKg: given.tare_kg,
      shareFrac: given.fraction,
      lengthM: given.wall_l_m,
      heightM: given.wall_h_m,
    }).value
    return { force_kN: proof.forceN / 1000, pressure_kPa: proof.pressurePa / 1000 }
  },
  'box-13': (given) => ({
    patch_kPa: roofProof({ massKg: given.mass_kg, aMm: given.patch_mm[0], bMm: given.patch_mm[1] }).value / 1000,
  }),
  'box-14': (given) => ({
    mass_kg: sideWallsMass({ lengthM: given.len_m, heightM: given.h_m, sheetKgPerM2: given.kg_per_m2 }).value,
  }),
}
