import { lampsFor, lightFigure, roomIndex, utilisation } from '../parts/index.ts'
import { rulesFor } from '../rules/index.ts'
import { ecBolt, ecBoltBearing } from './fasteners/bolt.ts'
import { ecScrewBearing, screwPullOut, screwShear } from './fasteners/screw.ts'
import { fillet } from './fasteners/weld.ts'
import { between, curveOf, figureAt } from './shelf.ts'
import { patternFactor } from './strut/derate.ts'
import { deflectionM, leastStraps, loadAtDeflectionN, mostLoadN } from './strut/formulas.ts'
import { nutLimits } from './strut/nuts.ts'
import { GRAVITY_N_PER_KG, M_PER_IN, N_PER_LB, PA_PER_PSI, sectionOf } from './strut/section.ts'

type Given = any

const CHANNEL = '12 ga 1-5/8 x 1-5/8 (41 x 41, 2.6 mm)'
const E_PSI = 29.5e6
const ALLOW_PSI = 25e3
const M_PER_FT = 0.3048
const MM_PER_IN = 25.4
const MPA_PER_PSI = PA_PER_PSI / 1e6

const inch = (g: Given) => ({
  spanM: g.span_in * M_PER_IN,
  stressPa: (g.allow_psi ?? ALLOW_PSI) * PA_PER_PSI,
  sectionM3: g.S_in3 * M_PER_IN ** 3,
  elasticityPa: (g.E_psi ?? E_PSI) * PA_PER_PSI,
  inertiaM4: g.I_in4 * M_PER_IN ** 4,
})

/** Load of a simple span in pounds, its deflection in inches, and the load at a limit, as the catalogues print them. */
const span = (g: Given, factor = 1) => {
  const of = inch(g)
  const loadN = mostLoadN(of)
  const at = (part: number) => Math.min(loadN, loadAtDeflectionN({ ...of, part })) * (factor / N_PER_LB)
  return { lb: (loadN * factor) / N_PER_LB, defl: deflectionM({ ...of, loadN }) / M_PER_IN, at }
}

/** The catalogue prints the deflection at its own printed load, which is up to 1 % above 25 ksi · Sx. */
const uniform = (g: Given) => {
  const { lb, defl } = span(g)
  const printedN = figureAt('strut-beam-12ga', g.span_in, 'max_uniform').value * N_PER_LB
  const printed = deflectionM({ ...inch(g), loadN: printedN }) / M_PER_IN
  return { max_uniform_lb: lb, deflection_in: printed, formula_max_uniform_lb: lb, formula_deflection_in: defl }
}
const atLimit = (g: Given) => {
  const lb = loadAtDeflectionN({ ...inch(g), part: Number(String(g.limit).split('/')[1]) }) / N_PER_LB
  return { load_lb: lb, formula_lb: lb }
}
const screw = (g: Given) => {
  const sheet = { dMm: g.d_in * MM_PER_IN, t1Mm: g.t1_in * MM_PER_IN, t2Mm: g.t2_in * MM_PER_IN }
  const fu = g.Fu_psi * MPA_PER_PSI
  const { tiltingN, bearingN, allowedN } = screwShear({ ...sheet, fu1MPa: fu, fu2MPa: fu })
  return { allow_lb: allowedN / N_PER_LB, tilting_lb: (tiltingN ?? Number.NaN) / N_PER_LB, bearing_lb: bearingN / N_PER_LB }
}
const depthMm = (g: Given, condition: 1 | 2 | 3) =>
  Math.round(
    rulesFor('us').build.workingSpace({ voltsToEarthV: g.V_to_ground, condition, equipmentWidthM: 0, equipmentTopM: 0 }).value
      .depthM * 1000,
  )

/** Published cases of hanging, light and room, answered by the functions the question itself uses. */
export const fitCases: Record<string, (given: Given) => Record<string, unknown>> = {
  'strut-24': uniform,
  'strut-48': uniform,
  'strut-72': uniform,
  'strut-96': uniform,
  'strut-d180-60': atLimit,
  'strut-d240-84': atLimit,
  'strut-d360-96': atLimit,
  'strut-metric': (g) => {
    const of = {
      spanM: g.span_mm / 1000,
      stressPa: g.allow_MPa * 1e6,
      sectionM3: g.S_cm3 * 1e-6,
      elasticityPa: g.E_GPa * 1e9,
      inertiaM4: g.I_cm4 * 1e-8,
    }
    const loadN = mostLoadN(of)
    return {
      max_uniform_kN: loadN / 1000,
      deflection_mm: deflectionM({ ...of, loadN }) * 1000,
      L240_kN: loadAtDeflectionN({ ...of, part: 240 }) / 1000,
    }
  },
  'strut-b2b': (g) => {
    const { lb, defl, at } = span(g)
    return { max_uniform_lb: lb, deflection_in: defl, L360_lb: at(360) }
  },
  'strut-35-solid-vs-slot': () => ({ factor: figureAt('strut-derate', '13/32 x 3 in long slots', 'factor').value }),
  'strut-14-24': (g) => {
    const { lb, defl, at } = span(g, patternFactor('holes').value)
    return { max_uniform_lb: lb, deflection_in: defl, L240_lb: at(240) }
  },
  'strut-1000-36': (g) => {
    const { lb, defl, at } = span(g)
    const centre = mostLoadN({ ...inch(g), case: 'simple span, one load at mid-span' }) / N_PER_LB
    return { max_uniform_lb: lb, deflection_in: defl, L240_lb: at(240), L360_lb: at(360), centre_point_load_lb: centre }
  },
  'strut-cant': (g) => {
    const of = { ...inch({ ...g, span_in: g.arm_in }), case: 'cantilever, load at tip' } as const
    const loadN = mostLoadN(of)
    return { tip_load_lb: loadN / N_PER_LB, tip_deflection_in: deflectionM({ ...of, loadN }) / M_PER_IN }
  },
  'strut-shelf': (g) => {
    const railN = (g.mass_kg * GRAVITY_N_PER_KG) / g.rails
    const of = { spanM: g.span_mm / 1000, stressPa: g.allow_MPa * 1e6, sectionM3: g.S_cm3 * 1e-6 }
    const mostN = mostLoadN({ ...of, case: 'simple span, two equal loads at third points (total)' })
    const momentNm = (railN * of.sectionM3 * of.stressPa) / mostN
    return { load_per_rail_N: railN, moment_Nm: momentNm, stress_MPa: momentNm / of.sectionM3 / 1e6, ok: railN <= mostN }
  },
  'strut-nut-panel': (g) => {
    const one = (inLastInch: boolean) =>
      nutLimits({ bolt: '1/2 in', section: sectionOf(CHANNEL), inLastInch })?.slipN ?? Number.NaN
    const slipN = (g.nuts - g.channel_end_nuts) * one(false) + g.channel_end_nuts * one(true)
    const loadN = g.mass_kg * GRAVITY_N_PER_KG
    return { slip_capacity_lb: slipN / N_PER_LB, load_lb: loadN / N_PER_LB, ok: loadN <= slipN }
  },
  'strut-col': (g) => ({
    max_axial_lb: between(curveOf('strut-column-12ga', `K${g.K.toFixed(2)}`).points, g.height_in),
    slot_face_lb: between(curveOf('strut-column-12ga', 'slot_face_load').points, g.height_in),
  }),
  'strut-mass': (g) => {
    const lengthM = g.pieces_m.reduce((a: number, b: number) => a + b, 0)
    return { length_m: lengthM, mass_kg: lengthM * sectionOf(CHANNEL).massKgPerM }
  },
  'conduit-strap': (g) => ({
    straps: leastStraps({
      lengthM: g.run_ft * M_PER_FT,
      fromBoxM: g.from_box_ft * M_PER_FT,
      everyM: g.spacing_ft * M_PER_FT,
    }),
  }),
  'screw-10-018': screw,
  'screw-10-036': screw,
  'screw-10-060': screw,
  'screw-pullout': (g) => {
    const { nominalN, allowedN } = screwPullOut({ dMm: g.d_mm, tMm: g.t_mm, fuMPa: g.Fu_MPa })
    return { nominal_N: nominalN, allow_N: allowedN }
  },
  'ec-screw': (g) => {
    const { alpha, resistanceN } = ecScrewBearing({ dMm: g.d_mm, tMm: g.t_mm, t1Mm: g.t1_mm, fuMPa: g.fu_MPa })
    return { alpha, Fb_Rd_N: resistanceN }
  },
  'ec-bolt-sheet': (g) => {
    const { alphaB, kt, resistanceN } = ecBoltBearing({ dMm: g.d_mm, tMm: g.t_mm, endMm: g.e1_mm, fuMPa: g.fu_MPa })
    return { alpha_b: alphaB, kt, Fb_Rd_kN: resistanceN / 1000 }
  },
  'ec-bolt': (g) => {
    const { shearN, tensionN, punchingN } = ecBolt({
      areaMm2: g.As_mm2,
      fubMPa: g.fub_MPa,
      dmMm: g.dm_mm,
      plateMm: g.tp_mm,
      fuMPa: g.fu_MPa,
    })
    return { Fv_Rd_kN: shearN / 1000, Ft_Rd_kN: tensionN / 1000, Bp_Rd_kN: punchingN / 1000 }
  },
  'weld-01': (g) => {
    const { strengthMPa, perMmN } = fillet({ fuMPa: g.fu_MPa, bw: g.bw, throatMm: g.a_mm })
    return { fvwd_MPa: strengthMPa, Fw_Rd_N_per_mm: perMmN }
  },
  'weld-03': (g) => {
    const { strengthMPa, perMmN } = fillet({ fuMPa: g.fu_MPa, bw: g.bw, throatMm: g.a_mm })
    return { fvwd_MPa: strengthMPa, F_Rd_kN: (perMmN * g.effective_length_mm) / 1000 }
  },
  'lux-01': (g) => {
    const exact = lampsFor({
      levelLx: g.E_lx,
      areaM2: g.L_m * g.W_m,
      fluxLm: g.lm_per_lamp,
      utilisation: g.UF,
      maintenance: g.MF,
    })
    return { n_exact: exact, n: Math.ceil(exact) }
  },
  'lux-02': (g) => ({ UF: utilisation({ ceiling: g.ceiling, wall: g.wall, floor: g.floor, index: g.room_index }).factor }),
  'lux-03': (g) => {
    const index = roomIndex({ lengthM: g.L_m, widthM: g.W_m, aboveM: g.mounting_above_task_m })
    const [ceiling, wall, floor] = g.reflectances
    const { factor } = utilisation({ ceiling, wall, floor, index })
    const exact = lampsFor({
      levelLx: g.E_lx,
      areaM2: g.L_m * g.W_m,
      fluxLm: g.lm_per_fixture,
      utilisation: factor,
      maintenance: lightFigure('maintenance').value,
    })
    return { room_index: index, UF: factor, n_exact: exact, n: Math.ceil(exact) }
  },
  'space-01': (g) => {
    const depth = depthMm(g, g.condition)
    const free = g.int_w_mm - g.depth_behind_mm - depth
    return { depth_ft: depth / 1000 / M_PER_FT, depth_mm: depth, fits: free >= 0, free_mm: free }
  },
  'space-03': (g) => {
    const depth = depthMm(g, 2)
    const free = g.int_w_mm - g.depth_behind_mm - g.opposite_equipment_depth_mm
    return { depth_mm: depth, fits: free >= depth, short_by_mm: depth - free }
  },
  'space-04': (g) => ({
    width_in: g.panel_widths_in.map((w: number) =>
      Math.round(
        rulesFor('us').build.workingSpace({
          voltsToEarthV: 120,
          condition: 1,
          equipmentWidthM: w * M_PER_IN,
          equipmentTopM: 0,
        }).value.widthM / M_PER_IN,
      ),
    ),
  }),
  'space-05': (g) => {
    const handle = g.panel_bottom_mm + g.panel_h_mm - g.top_handle_below_top_mm
    return { handle_mm: handle, ok: handle <= rulesFor('us').build.handleAtMostM.value * 1000 }
  },
}
