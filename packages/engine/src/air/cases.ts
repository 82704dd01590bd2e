import { clarkAllenFrac, dewOrFrostC, humidityRatio, PHYSICS, saturationPa, skyC, vapourOfRatioPa } from '../weather/index.ts'
import {
  carryingFlowM3s,
  changesAtPerH,
  crossWindFlowM3s,
  decayLeakM3s,
  dischargeInSeriesRatio,
  doorFlowM3s,
  fanLaws,
  fanWithNaturalM3s,
  holeFlowM3s,
  inRowM2,
  leakageAreaFlowM3s,
  leakHoleM2,
  levelFlowM3s,
  motorA,
  motorRpm,
  neutralLevelM,
  panelKneeV,
  screenLossRatio,
  solarFanAt,
  stackFlowM3s,
  stackPa,
  togetherFlowM3s,
  twoWayDischargeRatio,
  wallPressureRatio,
  windPa,
} from './flow/index.ts'
import { breakerHolds, cabinetHeaterW, hotRoomFrac, roomHeaterW } from './gear/index.ts'
import {
  bridgedUWPerM2K,
  layeredUWPerM2K,
  layerM2KPerW,
  mcAdamsFilmWPerM2K,
  naturalFilmWPerM2K,
  nodeAfter,
  nodeByEuler,
  reflectanceIndex,
  sheetTimeS,
  solAirC,
  standardSunC,
  steadySheetC,
  type WallLayer,
  wallRunC,
  windAtHeightRatio,
  windFilmWPerM2K,
} from './surface/index.ts'
import {
  criticalHumidityPct,
  depositKgPerM2S,
  firstYearLossUm,
  massFilmMPerS,
  mostMould,
  mouldClass,
  nightsUntil,
  steadyRatioKgPerKg,
  thawS,
  vapourFilmKgPerM2SPa,
  volumeOfExchangeM3,
  weeksToTraces,
  woodMoisturePct,
  woodWaterKg,
} from './water/index.ts'

const G_H = 3.6e6
const HOUR_S = 3600
const KELVIN = 273.15

/** “siding 9 mm 0.14, quilt 66 mm 0.04” as resistances. */
const layersOf = (words: string): readonly number[] =>
  [...words.matchAll(/([\d.]+) mm ([\d.]+)/g)].map(([, mm, k]) => layerM2KPerW(Number(mm) / 1000, Number(k)))

const clearSkyC = (airC: number, dewC: number): number =>
  skyC(clarkAllenFrac(dewC) * PHYSICS.stefanBoltzmannWPerM2K4 * (airC + KELVIN) ** 4)

/** A roof of the steady cases; `e` and films as they name them. */
const roofAtNoon = (given: any) => {
  const sky = clearSkyC(given.t_air_C, given.t_dew_C)
  return {
    sky_C: sky,
    roof_C: steadySheetC({
      absorbedWPerM2: (given.absorptance ?? 0) * (given.G_W_m2 ?? 0),
      emittanceFrac: given.emittance,
      skyC: sky,
      filmWPerM2K: given.h_c,
      airC: given.t_air_C,
      insideWPerM2K: given.h_inside ?? 0,
      insideC: given.t_inside_C ?? given.t_air_C,
    }),
  }
}

/** How far a thin roof over a shut box falls below the air on a clear night with natural films, K. */
function nightFallK(airC: number, dewC: number, windMPerS: number): number {
  const sky = clearSkyC(airC, dewC)
  let fallK = 5
  // Films hang on the fall: by repetition, half the way each time.
  for (let n = 0; n < 60; n++) {
    const roofC = steadySheetC({
      absorbedWPerM2: 0,
      emittanceFrac: 0.9,
      skyC: sky,
      filmWPerM2K: naturalFilmWPerM2K(-fallK, 1) + windFilmWPerM2K(windMPerS, 17, 14.8, 1.11, 1),
      airC,
      insideWPerM2K: naturalFilmWPerM2K(-fallK, -1),
      insideC: airC,
    })
    fallK = (fallK + airC - roofC) / 2
  }
  return fallK
}

const brickLayer = (material: any, thicknessM: number): WallLayer => ({
  resistanceM2KPerW: thicknessM / material.k,
  heatJPerM2K: thicknessM * material.rho * material.c,
  nodesCount: 20,
})

/** Step outside, cell shut and without mass inside. `construction` names materials and thicknesses. */
const wallStep = (given: any) => {
  const named = [...String(given.construction).matchAll(/([a-z]+) ([\d.]+)/g)]
    .filter(([, name]) => name! in given.materials)
    .map(([, name, m]) => brickLayer(given.materials[name!], Number(m)))
  // The cases name layers from inside; a wall here runs from outside.
  const layers = named.toReversed()
  const ramp = (s: number) => given.start_C + 10 * Math.min(s / HOUR_S, 1)
  return {
    inside_air_C: wallRunC(
      layers,
      { outsideWPerM2K: given.h_outside_W_m2K, insideWPerM2K: null, outsideC: ramp, insideC: () => given.start_C },
      given.start_C,
      60,
      given.time_h.map((h: number) => h * HOUR_S),
    ),
  }
}

const index = (given: any) => ({ index: reflectanceIndex(given.reflectance, given.emittance) })

const wood = (given: any) => ({ moisture_pct: given.rh_pct.map((rh: number) => woodMoisturePct(given.t_C, rh / 100)) })

const terrainOf = (words: string) => {
  const [a, d] = words.match(/[\d.]+/g)!.map(Number)
  return { exponentRatio: a!, layerM: d! }
}

const panelOf = (panel: any) => ({
  lightWPerM2: panel.G_ref,
  shortA: panel.Isc_A,
  openV: panel.Voc_V,
  bestW: panel.Pmax_W,
  bestV: panel.Vmp_V,
})
const motorOf = (motor: any) => ({
  armatureOhm: motor.Ra_ohm,
  speedVPerRpm: motor.Ke_V_per_rpm,
  loadNmPerRpm2: motor.load_torque_N_m_per_rpm2,
})
/** Case fan-02 drives the motor of case fan-01. */
const MOTOR = motorOf({ Ra_ohm: 6, Ke_V_per_rpm: 0.0054, load_torque_N_m_per_rpm2: 5.1e-10 })

export const airCases: Record<string, (given: any) => Record<string, unknown>> = {
  'film-01': ({ dT_K }) => ({
    roof_warmer_than_air: naturalFilmWPerM2K(dT_K, 1),
    roof_colder_than_air: naturalFilmWPerM2K(-dT_K, 1),
    wall: naturalFilmWPerM2K(dT_K, 0),
    unit: 'W/m2K',
  }),
  'film-02': (given) => {
    const wind = (long: number, short: number, windward: number) =>
      given.wind_m_s.map((v: number) => windFilmWPerM2K(v, 2 * (long + short), long * short, 1.11, windward))
    return { wall_windward: wind(6.058, 2.591, 1), wall_lee: wind(6.058, 2.591, 0.5), roof: wind(6.058, 2.438, 1), unit: 'W/m2K' }
  },
  'film-03': (given) => ({ h_W_m2K: given.wind_m_s.map(mcAdamsFilmWPerM2K) }),
  'u-01': (given) => ({
    U_W_m2K: given.foam_t_m.map((foamM: number) =>
      layeredUWPerM2K(given.rsi, [layerM2KPerW(given.steel.t_m, given.steel.k), layerM2KPerW(foamM, given.foam_k)], given.rse),
    ),
  }),
  'u-02': (given) => {
    const [wall, roof, floor] = [given.wall, given.roof, given.floor].map(layersOf)
    return {
      U_wall: layeredUWPerM2K(given.rsi, wall!, given.rse),
      U_roof: layeredUWPerM2K(given.rsi, roof!, given.rse),
      U_floor: layeredUWPerM2K(given.rsi, [Number(String(given.floor).match(/R ([\d.]+)/)![1]), ...floor!], given.rse_floor),
      R_surface_to_surface_wall: wall!.reduce((sum, one) => sum + one, 0),
    }
  },
  'u-03': (given) => {
    const mean = bridgedUWPerM2K([
      { areaFrac: given.fraction_bare, uWPerM2K: given.U_bare },
      { areaFrac: 1 - given.fraction_bare, uWPerM2K: given.U_foam_50mm },
    ])
    return { U_mean_W_m2K: mean, rise_pct: 100 * (mean / given.U_foam_50mm - 1) }
  },
  'wall-step-1': wallStep,
  'wall-step-3': wallStep,
  'node-01': ({ sheet, h_outside, h_inside, outside_and_inside_step_K: step }) => {
    const tau = sheetTimeS(sheet.t_m * sheet.rho * sheet.c, h_outside + h_inside)
    return { time_constant_s: tau, after_60_s_K: nodeAfter(0, step, 60, tau), after_900_s_K: nodeAfter(0, step, 900, tau) }
  },
  'node-02': ({ tau_s, step_s, start_K, target_K }) => ({
    after_one_step_K: step_s.map((s: number) => nodeByEuler(start_K, target_K, s, tau_s)),
    exact_K: step_s.map((s: number) => nodeAfter(start_K, target_K, s, tau_s)),
  }),
  'roof-01': roofAtNoon,
  'roof-02': roofAtNoon,
  'roof-03': roofAtNoon,
  'roof-04': (given) => {
    const night = roofAtNoon(given)
    return { ...night, below_air_K: given.t_air_C - night.roof_C }
  },
  'roof-05': (given) => ({ excess_K: given.absorptance.map((a: number) => solAirC(0, a * given.G_W_m2, given.h_o)) }),
  'roof-06': index,
  'roof-07': index,
  'roof-09': index,
  'roof-11': ({ standard_black: black, standard_white: white }) => ({
    black_C: standardSunC(black.reflectance, black.emittance),
    white_C: standardSunC(white.reflectance, white.emittance),
  }),
  // A clear tropical night and one of a temperate coast, in light air.
  'roof-12': () => ({ below_air_K: nightFallK(25, 18, 1), code_says_up_to_K: nightFallK(8, 5, 1) }),
  'vent-01': (given) => ({ flow_m3_s: holeFlowM3s(given.dp_Pa, given.area_m2, given.cd, given.rho) }),
  'vent-02': (given) => {
    const pair = {
      lowM2: given.area_each_m2,
      highM2: given.area_each_m2,
      heightM: given.height_between_m,
      dischargeRatio: given.cd,
      insideC: given.t_in_C,
      outsideC: given.t_out_C,
    }
    return {
      flow_m3_s: stackFlowM3s(pair),
      neutral_level_above_lower_m: neutralLevelM(pair),
      dp_total_Pa: stackPa(101_325, pair.heightM, pair.outsideC, pair.insideC),
    }
  },
  'vent-03': (given) => {
    const pair = { lowM2: given.a_low_m2, highM2: given.a_high_m2, heightM: given.height_m, insideC: 20, outsideC: 20 }
    const level = neutralLevelM(pair)
    return {
      effective_area_m2: inRowM2(pair.lowM2, pair.highM2),
      neutral_level_above_lower_m: level,
      note: `${level > pair.heightM / 2 === pair.highM2 > pair.lowM2 ? 'nearer the larger opening' : 'nearer the smaller opening'}; densities taken equal`,
    }
  },
  'vent-04': (given) => ({ cd: twoWayDischargeRatio(given.t_in_C - given.t_out_C) }),
  'vent-05': (given) => ({
    flow_m3_s: levelFlowM3s(
      given.area_m2,
      twoWayDischargeRatio(given.t_in_C - given.t_out_C),
      given.height_to_neutral_m,
      given.t_in_C,
      given.t_out_C,
    ),
  }),
  'vent-06': (given) => ({
    flow_each_way_m3_s: doorFlowM3s(
      given.width_m,
      given.height_m,
      given.cd,
      given.t_in_C - given.t_out_C,
      given.t_mean_K - KELVIN,
    ),
  }),
  'vent-07': (given) => ({ cp: given.angle_deg.map((deg: number) => wallPressureRatio(deg, given.length_ratio)) }),
  'vent-08': (given) => ({
    cp_long_wall: given.angle_deg.map((deg: number) => wallPressureRatio(deg, given.long_over_short)),
    cp_short_wall: given.angle_deg.map((deg: number) => wallPressureRatio(deg, 1 / given.long_over_short)),
  }),
  'vent-09': (given) => {
    const difference = given.cp[0] - given.cp[1]
    return {
      dp_total_Pa: windPa(difference, given.rho, given.wind_m_s),
      flow_m3_s: crossWindFlowM3s(given.area_each_m2, given.area_each_m2, given.cd, given.wind_m_s, difference),
    }
  },
  'vent-10': (given) => {
    const flow = (stack: number, wind: number) =>
      togetherFlowM3s(stack, wind, given.two_equal_openings_m2, given.two_equal_openings_m2, given.cd, given.rho)
    const both = flow(given.dp_stack_Pa, given.dp_wind_Pa)
    return { flow_m3_s: both, ratio_to_either_alone: both / flow(given.dp_stack_Pa, 0) }
  },
  'vent-11': (given) => ({
    wind_m_s: given.terrains.map(
      (words: string) =>
        given.met_wind_m_s *
        windAtHeightRatio(terrainOf(given.met_terrain), given.met_height_m, terrainOf(words), given.box_height_m),
    ),
  }),
  'vent-12': (given) => {
    const at1 = decayLeakM3s({
      volumeM3: given.volume_m3,
      fromPa: given.from_Pa,
      toPa: given.to_Pa,
      timeS: given.time_s,
      exponentRatio: given.exponent,
      airPa: given.p_Pa,
    })
    const at50 = at1 * Math.sqrt(50) * HOUR_S
    return {
      coefficient_m3_s_Pa05: at1,
      flow_at_50_Pa_m3_h: at50,
      n50_per_h: at50 / given.volume_m3,
      leak_area_cd06_cm2: leakHoleM2(at1, 0.6, 1.2) * 1e4,
    }
  },
  'vent-13': (given) => ({
    per_h: given.dp_natural_Pa.map((pa: number) => changesAtPerH(given.n50_per_h, 50, pa, given.exponent)),
  }),
  'vent-14': (given) => {
    const combined = given.open_fraction.map((f: number) => dischargeInSeriesRatio(given.orifice_cd, screenLossRatio(f)))
    return {
      loss_coefficient_on_approach_speed: given.open_fraction.map(screenLossRatio),
      combined_cd: combined,
      factor_on_flow: combined.map((cd: number) => cd / given.orifice_cd),
    }
  },
  'vent-15': (given) => {
    const flow = carryingFlowM3s(given.heat_W, given.rise_K, given.rho, given.c)
    return { flow_m3_s: flow, flow_m3_h: flow * HOUR_S }
  },
  'vent-16': (given) => ({ dp_Pa: stackPa(given.p_Pa, given.height_m, given.t_out_C, given.t_in_C) }),
  'vent-17': (given) => {
    const flow = leakageAreaFlowM3s(given.leakage_area_cm2, given.cs, given.cw, given.dT_K, given.wind_m_s)
    return { flow_m3_s: flow, changes_per_h: (flow * HOUR_S) / given.volume_m3 }
  },
  'fan-01': (given) => {
    const motor = motorOf(given.motor)
    const rpm = given.voltage_V.map((v: number) => motorRpm(motor, v))
    const current = rpm.map((n: number) => motorA(motor, n))
    return {
      speed_rpm: rpm,
      current_A: current,
      power_W: current.map((i: number, at: number) => i * given.voltage_V[at]),
    }
  },
  'fan-02': (given) => {
    const panel = panelOf(given.panel)
    const points = given.irradiance_W_m2.map((light: number) => solarFanAt(panel, MOTOR, light, 0))
    const full = solarFanAt(panel, MOTOR, given.panel.G_ref, 0).rpm
    return {
      a_V: panelKneeV(panel),
      voltage_V: points.map((point: any) => point.voltageV),
      speed_rpm: points.map((point: any) => point.rpm),
      speed_over_speed_at_750: points.map((point: any) => point.rpm / full),
    }
  },
  'fan-03': (given) => {
    const { flowRatio, pressureRatio, powerRatio } = fanLaws(given.speed_ratio)
    return { flow_ratio: flowRatio, pressure_ratio: pressureRatio, power_ratio: powerRatio }
  },
  'fan-04': (given) => ({
    quadrature_m3_s: fanWithNaturalM3s(given.fan_m3_s, given.natural_m3_s),
    half_sum_rule_m3_s: given.fan_m3_s + given.natural_m3_s / 2,
  }),
  'box-air-01': (given) => ({ volume_m3: volumeOfExchangeM3(given.air_m3_in_8_h, 8, given.changes_per_h) }),
  'moist-01': (given) => {
    const films = given.h_c.map((h: number) => massFilmMPerS(h, given.rho, given.cp))
    return {
      h_m_m_s: films,
      beta_p_kg_m2sPa_at_273K: films.map((film: number) => vapourFilmKgPerM2SPa(film, 0)),
    }
  },
  'moist-02': (given) => {
    const film = massFilmMPerS(given.h_c, 1.2, PHYSICS.dryAirHeatJPerKgK)
    return {
      g_m2_h: given.cases.map(
        (one: any) => depositKgPerM2S(film, one.rh * saturationPa(one.t_in_C), one.t_in_C, one.t_roof_C) * G_H,
      ),
    }
  },
  'moist-04': (given) => ({
    nights: nightsUntil(given.stage5_g_m2 / 1000, given.rate_g_m2_h / G_H, given.night_h * HOUR_S),
  }),
  'moist-05': (given) => {
    const { warmS, meltS } = thawS({
      frostKgPerM2: given.frost_g_m2 / 1000,
      fromC: given.roof_warms_from_C,
      netWPerM2: given.sun_absorbed_net_W_m2,
      sheetJPerM2K: given.sheet.t_m * given.sheet.rho * given.sheet.c,
      fusionJPerKg: given.latent_fusion_J_kg,
      iceJPerKgK: given.ice_c,
    })
    return { warm_to_zero_min: warmS / 60, melt_min: meltS / 60 }
  },
  'moist-06': (given) => {
    const outside = humidityRatio(given.outside.rh * saturationPa(given.outside.t_C), given.p_Pa)
    const inside = steadyRatioKgPerKg(outside, given.source_g_h / G_H, (given.flow_m3_h * 1.29) / HOUR_S)
    const vapourPa = vapourOfRatioPa(inside, given.p_Pa)
    return {
      w_outside_g_kg: outside * 1000,
      w_inside_g_kg: inside * 1000,
      rh_inside: vapourPa / saturationPa(given.inside_t_C),
      frost_point_C: dewOrFrostC(vapourPa),
    }
  },
  'wood-01': wood,
  'wood-02': wood,
  'wood-04': wood,
  'wood-06': (given) => {
    const dry = given.floor_m2 * given.thickness_m * given.dry_density_kg_m3
    const [from, to] = [given.rh_from, given.rh_to].map((rh: number) => woodMoisturePct(given.t_C, rh))
    return { dry_mass_kg: dry, water_kg: -woodWaterKg(dry, from!, to!) }
  },
  'mould-01': (given) => ({
    rh_critical_pct: given.t_C.map((t: number) => criticalHumidityPct(t, 80)),
    weeks_to_index_1: given.growth_at.rh_pct.map((rh: number) => weeksToTraces(given.growth_at.t_C, rh)),
  }),
  'mould-02': (given) => ({
    m_max: given.rh_pct.map((rh: number) =>
      mostMould({ ...mouldClass('very sensitive'), aRatio: given.A, bRatio: given.B, cRatio: given.C }, given.t_C, rh),
    ),
  }),
  'corr-01': (given) => ({
    r_corr_um_a: firstYearLossUm('steel', {
      airC: given.t_C,
      relativePct: given.rh_pct,
      sulphurMgPerM2D: given.so2_mg_m2d,
      chlorideMgPerM2D: given.chloride_mg_m2d,
    }),
  }),
  'heater-01': (given) => {
    const { bare_steel_m2, U, floor_m2, U_floor } = given.surfaces
    return {
      W: given.rise_K.map((k: number) =>
        roomHeaterW(k, bare_steel_m2 * U + floor_m2 * U_floor, given.air_m3_h, given.rho_c_Wh_m3K),
      ),
    }
  },
  'heater-02': (given) => {
    const at = (outdoors: boolean) =>
      cabinetHeaterW({
        areaM2: given.area_m2,
        lossWPerM2K: given.k_painted_steel_W_m2K,
        riseK: given.rise_K,
        ownHeatW: given.own_heat_W,
        outdoors,
      })
    return { indoors_W: at(false), outdoors_W: at(true) }
  },
  'hot-01': (given) => {
    const factor = hotRoomFrac(given.ambient_C)
    return { factor, rating_A: factor * given.rating_at_40_C_A }
  },
  'hot-02': (given) => ({
    hold_A: Object.fromEntries(
      given.rated_A.map((rated: number) => [rated, given.ambient_C.map((t: number) => breakerHolds(rated, t).currentA)]),
    ),
  }),
}
