import { ruleSets } from '../rules/index.ts'
import { forkCapacity, forkSplit } from './forks.ts'
import { equivalentTransfer, frictionLashings, tiesByLengthCount, tiesByWllCount } from './lashing.ts'
import { conductorKg, conduitKgPerM, massCentre } from './mass.ts'
import {
  bridle,
  diagonalShareFrac,
  evenCornerShareFrac,
  legTension,
  meanLegDeg,
  setWll,
  stiffSetWll,
  twoPointShare,
} from './slings.ts'
import { asceRoofSnow, nbcRoofSnow } from './snow.ts'
import { axleShare } from './truck.ts'
import { anchorTensionN, asceKz, asceVelocityPa, broadside, enPeakPressure, speedOfPressure, tippingPa } from './wind.ts'

const FOOT_M = 0.3048
const POUND_KG = 0.45359237
const INCH_M = 0.0254
const MPH_M_S = 0.44704
const PSF_PA = 47.88025898
const G = 9.81

const told = (kg: number) => ({ low: kg, high: kg, basis: 'case', told: true })

/** The told empty box in told wind, as the cases on it share it. */
const boxInWind = (given: any) => {
  const velocityPa = asceVelocityPa({ kz: given.Kz, kzt: 1, kd: given.Kd, speedMPerS: given.V_m_s })
  const side = broadside({ velocityPa, netRatio: given.net_coefficient, lengthM: given.L_m, heightM: given.h_m })
  return { velocityPa, ...side, rightNm: (given.mass_kg * G * given.b_m) / 2 }
}

export const haulCases: Record<string, (given: any) => Record<string, unknown>> = {
  'cg-01': (given) => {
    // Distances from the centre of gravity: x1 to the far support, x2 to the near one.
    const shared = twoPointShare({ load: given.load_lb, nearM: given.x2, farM: given.x1 })
    return { near_lb: shared.near, far_lb: shared.far }
  },
  'cg-02': (given) => {
    const centre = massCentre(
      given.items.map((item: any) => ({
        id: item.item,
        what: item.item,
        massKg: told(item.mass_kg),
        atMm: [item.x_m * 1000, 0, 0],
        bandXMm: 0,
      })),
      { state: 'fitted', lengthMm: given.length_m * 1000, widthMm: 0 },
    ).value
    return {
      mass_kg: centre.massKg.high,
      x_m: centre.centreMm[0] / 1000,
      offset_from_middle_mm: centre.centreMm[0] - (given.length_m * 1000) / 2,
    }
  },
  'sling-01': (given) => ({ leg_lb: given.angles_deg.map((deg: number) => legTension(given.load_lb / 2, deg)) }),
  'sling-02': (given) => ({ leg_lb: given.angle_deg.map((deg: number) => legTension(given.load_lb / 2, deg)) }),
  'sling-03': (given) => ({
    set_WLL_t: given.b_deg_from_vertical.map((deg: number) =>
      setWll({ legs: given.legs, legWll: given.single_leg_WLL_t, fromVerticalDeg: deg }),
    ),
    two_leg_rule_WLL_t: given.b_deg_from_vertical.map((deg: number) => stiffSetWll(given.single_leg_WLL_t, deg)),
  }),
  'sling-04': (given) => {
    const four = {
      lengthM: given.fitting_l_m,
      widthM: given.fitting_w_m,
      offLengthM: given.cg_offset_l_m,
      offWidthM: given.cg_offset_w_m,
    }
    const angle = meanLegDeg(given.hook_height_m, Math.hypot(four.lengthM, four.widthM) / 2)
    const weightKN = (given.mass_kg * given.g) / 1000
    return {
      angle_deg: angle,
      largest_corner_share: evenCornerShareFrac(four),
      largest_leg_bilinear_kN: legTension(weightKN * evenCornerShareFrac(four), angle),
      two_leg_share: diagonalShareFrac(four),
      design_leg_two_leg_rule_kN: legTension(weightKN * diagonalShareFrac(four), angle),
    }
  },
  'sling-06': (given) => {
    const legs = bridle({ load: given.load_lb, d1M: given.D1, d2M: given.D2, hookM: given.H, s1M: given.S1, s2M: given.S2 })
    return { T1_lb: legs.t1, T2_lb: legs.t2, horizontal_1_lb: legs.level1, horizontal_2_lb: legs.level2 }
  },
  'sling-angle': (given) => ({ factor: given.angle_deg.map((deg: number) => legTension(1, deg)) }),
  'fork-01': (given) => ({
    capacity_lb: forkCapacity({
      rated: given.rated_lb,
      ratedCentreM: given.rated_lc_in * INCH_M,
      actualCentreM: given.actual_lc_in * INCH_M,
    }),
  }),
  'fork-02': (given) => ({
    capacity_lb: forkCapacity({
      rated: given.rated_lb,
      ratedCentreM: given.rated_lc_in * INCH_M,
      actualCentreM: given.actual_lc_in * INCH_M,
    }),
  }),
  'fork-04': (given) => {
    const actualCentreM = given.box_w_m / 2
    const capacity = forkCapacity({ rated: given.rated_kg, ratedCentreM: given.rated_lc_m, actualCentreM })
    return {
      load_centre_m: actualCentreM,
      capacity_kg: capacity,
      ok: capacity >= given.box_mass_kg,
      margin_kg: capacity - given.box_mass_kg,
    }
  },
  'fork-05': (given) => {
    const split = forkSplit({ load: (given.mass_kg * given.g) / 1000, spacingM: given.pocket_spacing_m, offM: given.offset_m })
    return { near_kN: split.near, far_kN: split.far, tips: split.tips, tip_offset_m: split.tipOffM }
  },
  'tie-01': (given) => {
    const massKg = given.mass_lb * POUND_KG
    const byWll = tiesByWllCount({ massKg, wllKg: 6600 * POUND_KG, over: 'over the top' })
    const byLength = tiesByLengthCount({ lengthM: given.length_ft * FOOT_M, massKg, blocked: given.blocked_front })
    return { by_wll: byWll, by_length: byLength, needed: Math.max(byWll, byLength) }
  },
  'tie-03': (given) => {
    const { forwardG, rearG, sideG } = ruleSets.ca.build.securing.value
    return { forward_lb: given.weight_lb * forwardG, rearward_lb: given.weight_lb * rearG, lateral_lb: given.weight_lb * sideG }
  },
  'lash-01': (given) => {
    const n = frictionLashings({
      massKg: given.mass_kg,
      c: given.c,
      cz: given.cz,
      friction: given.mu,
      angleDeg: given.angle_deg,
      tensionN: given.F_T_kN * 1000,
      safety: given.fs,
      gravity: given.g,
    })
    return { n_exact: n, n: Math.ceil(n) }
  },
  'lash-03': (given) => {
    const { k, moreRatio } = equivalentTransfer({
      sides: given.k_2004_two_sides,
      safety: given.fs_2009,
      oneSide: given.k_2004_one_side,
    })
    return { equivalent_k_2009: k, more_straps_2004_vs_2_sided: moreRatio }
  },
  'haul-01': (given) => {
    const shares = axleShare({
      massKg: given.box_kg,
      kingpinToAxleM: given.kingpin_to_axle_m,
      centreM: given.cg_from_kingpin_m,
    })
    return { axle_kg: shares.axleKg, kingpin_kg: shares.kingpinKg }
  },
  'wind-01': (given) => {
    const { qpPa } = enPeakPressure({ vbMPerS: given.vb, z0M: given.z0_m, heightM: given.z_m })
    return { qp_kPa: qpPa / 1000, formula_kPa: qpPa / 1000 }
  },
  'wind-02': (given) => {
    const p = enPeakPressure({ vbMPerS: given.vb, z0M: given.z0_m, heightM: given.z_m })
    return { kr: p.kr, cr: p.cr, vm_m_s: p.vmMPerS, qb_kPa: p.qbPa / 1000, qp_kPa: p.qpPa / 1000 }
  },
  'wind-04': (given) => ({
    q_N_m2: asceVelocityPa({ kz: given.Kz, kzt: given.Kzt, kd: given.Kd, speedMPerS: given.V_m_s }),
  }),
  'wind-05': (given) => ({
    q_psf: asceVelocityPa({ kz: given.Kz, kzt: given.Kzt, kd: given.Kd, speedMPerS: given.V_mph * MPH_M_S }) / PSF_PA,
  }),
  'wind-07': (given) => {
    const { velocityPa, forceN, momentNm, rightNm } = boxInWind(given)
    const factored = [momentNm, rightNm].map((m) => (0.6 * m) / 1000) as [number, number]
    return {
      q_kPa: velocityPa / 1000,
      force_kN: forceN / 1000,
      overturning_kNm: momentNm / 1000,
      righting_kNm: rightNm / 1000,
      safety_unfactored: rightNm / momentNm,
      asd_check: `0.6 D + 0.6 W: ${factored[0].toFixed(1)} ${factored[0] < factored[1] ? '<' : '>'} ${factored[1].toFixed(1)}`,
    }
  },
  'wind-08': (given) => {
    const frictionKN = (given.mass_kg * G * given.mu) / 1000
    return {
      friction_kN: frictionKN,
      slides: given.force_kN > frictionKN,
      anchor_shear_needed_kN_unfactored: given.force_kN - frictionKN,
    }
  },
  'wind-10': (given) => {
    const q = tippingPa({
      weightN: given.mass_kg * G,
      armM: given.b_m / 2,
      netRatio: given.net_coefficient,
      lengthM: given.L_m,
      heightM: given.h_m,
    })
    const speed = speedOfPressure(q, given.Kz, given.Kd)
    return { V_m_s: speed, V_mph: speed / MPH_M_S }
  },
  'wind-12': (given) => ({
    tension_each_kN: anchorTensionN({
      overturnNm: given.overturning_kNm,
      rightNm: given.righting_kNm,
      deadFrac: 0.6,
      leverM: given.lever_m,
      windwardCount: given.anchors_windward,
    }),
  }),
  'wind-kz-15ft': (given) => ({ Kz: given.exposure.map((one: 'B' | 'C' | 'D') => asceKz(one, given.height_ft * FOOT_M)) }),
  'snow-01': (given) => {
    const snow = asceRoofSnow({ ground: given.pg_psf, ce: given.Ce, ct: given.Ct, is: given.Is, leastTo: 20 })
    return { pf_psf: snow.flat, minimum_psf: snow.least, design_psf: snow.design }
  },
  'snow-02': (given) => {
    const at = (is: number) =>
      nbcRoofSnow({ ss: given.Ss_kPa, sr: given.Sr_kPa, cb: given.Cb, cw: given.Cw, cs: given.Cs, ca: given.Ca, is })
    const [uls, sls] = [at(given.Is_uls), at(given.Is_sls)]
    return { Sr_used_kPa: uls.rain, S_uls_kPa: uls.load, S_sls_kPa: sls.load, S_uls_psf: (uls.load * 1000) / PSF_PA }
  },
  'mass-01': (given) => ({
    mass_kg: conductorKg({ areaMm2: given.area_mm2, lengthM: given.length_m, count: given.conductors, metal: 'cu' }),
  }),
  'mass-02': (given) => {
    const perM = conduitKgPerM('RMC', given.trade_size) ?? Number.NaN
    return { kg_per_m: perM, mass_kg: perM * given.length_m }
  },
  'mass-04': (given) => {
    const item = (id: string, kg: number) => ({
      id,
      what: id,
      massKg: told(kg),
      atMm: [0, 0, 0] as const,
      bandXMm: 0,
    })
    const all = [item('tare', given.tare_kg), item('fit-out', given.fit_out_kg), item('cords', given.cords_kg)]
    const total = massCentre(all, { state: 'fitted with cords', lengthMm: 0, widthMm: 0 }).value.massKg.high
    return {
      total_kg: total,
      ok_plate: total <= given.plate_gross_kg,
      ok_truck: total <= Math.min(given.truck_allow_kg, given.truck_limit_kg),
    }
  },
  'copper-mass': (given) => ({
    kg_per_m: given.area_mm2.map((areaMm2: number) => conductorKg({ areaMm2, lengthM: 1, count: 1, metal: 'cu' })),
  }),
  'conduit-mass-2in': (given) => ({
    lb_per_100ft: given.kinds.map(
      (kind: string) => (((conduitKgPerM(kind, given.trade_size) ?? Number.NaN) * FOOT_M) / POUND_KG) * 100,
    ),
  }),
}
