import { abs, add, type Complex, cx, scale } from '../../kernel/index.ts'
import { tables } from '../../rules/index.ts'
import {
  coverRatio,
  parallelMOhm,
  ringOhm,
  rodOhm,
  rodsByFactorOhm,
  rodsByLambda,
  shapeFactorOhm,
  touchTnV,
} from '../earthing/index.ts'
import { halfWindingZ } from '../loops.ts'
import {
  feederByPowerZ,
  feederZ,
  generatorZ,
  infiniteSourceA,
  ratedCurrentA,
  transformerCorrectionRatio,
  transformerZ,
  transformerZByLoss,
} from '../plates.ts'
import { arcingKA, incidentEnergy, leeJPerCm2 } from './arc-flash.ts'
import { decrementA } from './decrement.ts'
import { faultBoundA } from './fault-bound.ts'
import { withMotorsA } from './motor-contribution.ts'
import { kappaRatio } from './peak.ts'
import { loopA } from './place.ts'
import { pointToPoint } from './point-to-point.ts'

type Given = any

const FT_PER_KM = 3280.84
const MILLI = 1000

/** Published cases of faults and earthing, answered by the functions the question itself uses. */
export const faultCases: Record<string, (given: Given) => Record<string, unknown>> = {
  'flt-01': (g) => {
    const rated = { ratedVA: g.kVA * 1000, voltageV: g.V, phases: 3 as const }
    const source = infiniteSourceA({ ...rated, impedanceFrac: (g.z_pct / 100) * g.tolerance })
    const end = pointToPoint({ currentA: source, runFt: g.run_ft, cValue: g.C, sets: g.sets, voltageV: g.V, phases: 3 })
    return { fla_A: ratedCurrentA(rated), Isc_secondary_A: source, f: end.fRatio, M: end.mRatio, I_panel_A: end.currentA }
  },
  'flt-02': (g) => {
    const end = pointToPoint({ currentA: g.I_A, runFt: g.run_ft, cValue: g.C_2AWG_steel, sets: 1, voltageV: g.V, phases: 3 })
    return { f: end.fRatio, M: end.mRatio, I_A: end.currentA }
  },
  'flt-03': (g) => {
    const rated = { ratedVA: g.kVA * 1000, voltageV: g.V, phases: 1 as const }
    const source = infiniteSourceA({ ...rated, impedanceFrac: (g.z_pct / 100) * g.tolerance })
    const [service, panel, branch] = chainA(source, g.runs, g.V)
    return { fla_A: ratedCurrentA(rated), Isc_A: source, I_service_A: service, I_panel_A: panel, I_branch_A: branch }
  },
  'flt-04': (g) => {
    const source = infiniteSourceA({
      ratedVA: g.kVA * 1000,
      voltageV: g.V,
      phases: 1,
      impedanceFrac: (g.z_pct / 100) * g.tolerance,
    })
    const neutralV = g.V / 2
    const first = pointToPoint({ ...runOf(g.runs[0], neutralV), currentA: source })
    const sheet = [first.currentA * g.multiplier_LN, ...chainA(first.currentA * g.multiplier_LN, g.runs.slice(1), neutralV)]
    const rule = chainA(source * g.multiplier_LN, g.runs, neutralV)
    return {
      ...{ worksheet_service_A: sheet[0], worksheet_panel_A: sheet[1], worksheet_branch_A: sheet[2] },
      ...{ rule_service_A: rule[0], rule_panel_A: rule[1], rule_branch_A: rule[2] },
    }
  },
  'flt-06': (g) => ({
    Isc_kA: g.cases.map((c: Given) => faultBoundA({ kVA: c.kVA, voltageV: c.V, impedancePct: c.z_pct, phases: 3 }) / 1000),
  }),
  'flt-07': (g) => {
    const wholeZ = transformerZ({ ratedVA: g.kVA * 1000, voltageV: g.V, impedanceFrac: g.z_pct / 100, xOverRRatio: g.x_over_r })
    return {
      I_LL_A: loopA({ voltageV: g.V, cRatio: 1, loopZ: wholeZ }),
      I_LN_A: loopA({ voltageV: g.V / 2, cRatio: 1, loopZ: halfWindingZ(wholeZ) }),
    }
  },
  'flt-09': (g) => {
    const { feeder, T1, T2 } = g
    const turnsRatio = T1.kV[0] / T1.kV[1]
    const z = feederZ({
      voltageV: feeder.kV * 1000,
      shortCircuitA: feeder.Ik2_kA * 1000,
      cRatio: feeder.c,
      rOverXRatio: feeder.R_X,
      turnsRatio,
    })
    const pair = ({ re, im }: Complex) => [re * MILLI, im * MILLI]
    return {
      Z_feeder_mohm: pair(z),
      Z_T1_K_mohm: pair(correctedByLoss(T1, g.cmax)),
      Z_T2_K_mohm: pair(correctedByLoss(T2, g.cmax)),
    }
  },
  'flt-11': (g) => ({ kappa: g.R_over_X.map((ratio: number) => kappaRatio(ratio)) }),
  'flt-12': (g) => {
    const network = feederByPowerZ({ shortCircuitVA: g.source_MVA * 1e6, voltageV: g.V, cRatio: g.cmax, rOverXRatio: 0.1 })
    const ratedVA = g.S_kVA * 1000
    const plain = transformerZ({ ratedVA, voltageV: g.V, impedanceFrac: g.uk_pct / 100, xOverRRatio: g.x_over_r })
    const kt = transformerCorrectionRatio(g.cmax, plain.im / ((g.V * g.V) / ratedVA))
    const busbar = cx((g.busbar.rho * g.busbar.m) / g.busbar.mm2)
    const z1 = add(add(network, scale(plain, kt)), busbar)
    return {
      KT: kt,
      Z_network_mohm: abs(network) * MILLI,
      Ik_kA: loopA({ voltageV: g.V / Math.sqrt(3), cRatio: g.cmax, loopZ: z1 }) / 1000,
    }
  },
  'flt-18': (g) => {
    const cold = (g.r1r2_mohm_m * g.length_m) / MILLI
    const hot = g.ze_ohm + cold * g.hot_factor
    return {
      r1r2_cold_ohm: cold,
      zs_hot_ohm: hot,
      If_min_A: loopA({ voltageV: g.Uo_V, cRatio: g.Cmin, loopZ: cx(hot) }),
    }
  },
  'flt-19': (g) => {
    const at75 = (2 * g.one_way_m * g.r_75C_ohm_kft * FT_PER_KM) / 1e6
    const currentA = (copperC: number) =>
      loopA({ voltageV: g.V, cRatio: 0.95, loopZ: cx(g.panel_loop_ohm + at75 * (1 + COPPER_PER_K * (copperC - 75))) })
    const sureA = 10 * 20
    return { I_hot_A: currentA(75), I_minus30C_A: currentA(-30), instant: currentA(75) >= sureA || currentA(-30) >= sureA }
  },
  'flt-20': (g) => {
    const ratedVA = (g.kW * 1000) / g.pf
    const { im } = generatorZ({ ratedVA, voltageV: g.V, subtransientFrac: g.xd2_pct / 100, rOverXRatio: 0 })
    return {
      fla_A: ratedCurrentA({ ratedVA, voltageV: g.V, phases: 3 }),
      Z_ohm: im,
      Isc_A: loopA({ voltageV: g.V / Math.sqrt(3), cRatio: 1, loopZ: cx(0, im) }),
    }
  },
  'flt-21': (g) => {
    const set = {
      ratedA: ratedCurrentA({ ratedVA: g.kVA * 1000, voltageV: g.V, phases: 3 }),
      ...{
        subtransientPu: g.xd2,
        transientPu: g.xd1,
        steadyPu: g.xd,
        subtransientS: g.Td2_s,
        transientS: g.Td1_s,
        sustainedRatio: null,
      },
    }
    return { I_A: g.t_s.map((timeS: number) => decrementA(set, timeS)) }
  },
  'flt-22': (g) => ({
    I_kA: g.cases.map((c: Given) => faultBoundA({ kVA: c.kVA, voltageV: c.V, impedancePct: c.z_pct, phases: c.phases }) / 1000),
  }),
  'flt-23': (g) => ({ total_A: withMotorsA({ sourceA: g.transformer_fault_A, motorsA: g.motor_fla_total_A, ratio: g.factor }) }),
  'ear-01': (g) => ({ R_ohm: rodOhm({ soilOhmM: g.rho_ohm_m, lengthM: g.L_m, diameterM: g.d_m }) }),
  'ear-02': (g) => {
    const group = { oneOhm: g.R1_ohm, soilOhmM: g.rho_ohm_m, spacingM: g.s_m, count: g.n, shape: 'line' as const }
    // The report took the factor of two rods for nine.
    const asTwo = rodsByLambda({ ...group, count: 2 }, tables['rod-lambda'].rows)
    return {
      a: coverRatio(group),
      report_ohm: (asTwo.ohm * asTwo.rods) / g.n,
      correct_ohm: rodsByLambda(group, tables['rod-lambda'].rows).ohm,
    }
  },
  'ear-04': (g) => ({ R_ohm: shapeFactorOhm({ soil: g.rho_ohm_cm, shape: g.K, length: g.L_ft }) }),
  'ear-06': (g) => {
    const one = g.rho_ohm_m.map((soilOhmM: number) => rodOhm({ soilOhmM, lengthM: g.L_m, diameterM: g.d_m }))
    const two = one.map((ohm: number) => rodsByFactorOhm(ohm, g.n, tables['rod-multiple'].rows))
    return { R1_ohm: one, R2rods_ohm: two, ok_25ohm: two.every((ohm: number) => ohm <= 25) }
  },
  'ear-07': (g) => ({
    R_ohm: ringOhm({ soilOhmM: g.rho_ohm_m, perimeterM: g.perimeter_m, wireM: g.wire_d_m, depthM: g.depth_m }),
  }),
  'ear-08': (g) => ({
    U_touch_V: touchTnV({ lineEarthV: g.Uo_V, lineOhm: 1 / g.phase_mm2, protectiveOhm: 1 / g.pe_mm2, shareFrac: g.share }),
  }),
  'tst-02': (g) => {
    const parallel = parallelMOhm(g.each_Mohm, g.circuits)
    return { parallel_Mohm: parallel, ok: parallel >= g.limit_Mohm }
  },
  'arc-01': (g) => {
    const arc = arcingKA({ boltedKA: g.Ibf_kA, voltageKV: g.V_kV, gapMm: g.gap_mm, k: g.K })
    return { Ia_kA: arc, reduced_85pct_kA: 0.85 * arc }
  },
  'arc-02': (g) => {
    const energy = incidentEnergy({
      ...{ arcingKA: g.Ia_kA, k1: g.K1, k2: g.K2, gapMm: g.gap_mm, cf: g.Cf, timeS: g.t_s, distanceMm: g.D_mm, exponent: g.x },
    })
    return { En: energy.normal, E_cal_cm2: energy.calPerCm2, E_J_cm2: energy.jPerCm2 }
  },
  'arc-03': (g) => {
    const energy = leeJPerCm2({ voltageKV: g.V_kV, boltedKA: g.Ibf_kA, timeS: g.t_s, distanceMm: g.D_mm })
    return { E_J_cm2: energy, E_cal_cm2: energy / 4.184 }
  },
}

const COPPER_PER_K = 0.00323

const runOf = (run: { readonly ft: number; readonly C: number }, voltageV: number) => ({
  ...{ runFt: run.ft, cValue: run.C, sets: 1, voltageV, phases: 1 as const },
})

/** Current at the end of each run of a chain, one after the other. */
function chainA(
  sourceA: number,
  runs: readonly { readonly ft: number; readonly C: number }[],
  voltageV: number,
): readonly number[] {
  let currentA = sourceA
  return runs.map((run) => {
    currentA = pointToPoint({ ...runOf(run, voltageV), currentA }).currentA
    return currentA
  })
}

function correctedByLoss(t: Given, cMax: number) {
  const voltageV = t.kV[1] * 1000
  const ratedVA = t.kVA * 1000
  const plain = transformerZByLoss({ ratedVA, voltageV, impedanceFrac: t.ukr_pct / 100, lossW: t.PkrT_kW * 1000 })
  return scale(plain, transformerCorrectionRatio(cMax, plain.im / ((voltageV * voltageV) / ratedVA)))
}
