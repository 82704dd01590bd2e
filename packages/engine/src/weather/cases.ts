import { acos } from '../kernel/index.ts'
import { groundC, snowConductivityWPerMK, snowResistanceM2KPerW } from './ground.ts'
import {
  airKgPerM3,
  enthalpyJPerKg,
  humidityRatio,
  pressureAtPa,
  ratioOfWetBulb,
  specificVolumeM3PerKg,
  vapourOfHumidityPa,
  vapourOfRatioPa,
  wetBulbC,
} from './moist-air.ts'
import { dewC, dewOrFrostC, saturationPa } from './saturation.ts'
import { degOf, radOf } from './shelf.ts'
import { berdahlMartinFrac, blackWPerM2, clarkAllenFrac, clarkAllenWPerM2, skyC, swinbankC } from './sky.ts'
import { beamOfGlobalWPerM2, clearnessFrac, diffuseFrac } from './split.ts'
import {
  anglesOf,
  cooperDeclinationRad,
  cosBetween,
  daysSince2000D,
  hourAngleRad,
  litHours,
  outsideLevelJPerM2,
  outsideWPerM2,
  planeNormal,
  refractionDeg,
  solarTimeH,
  spencerSun,
  sunOf,
  towardSun,
} from './sun.ts'
import {
  beamOnPlaneWPerM2,
  brightHorizonParts,
  fillBrightness,
  groundOnPlaneWPerM2,
  hayDaviesParts,
  isotropicWPerM2,
  perezParts,
  perezWPerM2,
} from './tilt.ts'

const cosDeg = (deg: number) => planeNormal({ slopeDeg: deg, facesDeg: 0 }).upRatio
const saturated = (airC: number, pressurePa: number) => humidityRatio(saturationPa(airC), pressurePa)
const kelvin = (tC: number) => tC + 273.15

/** An hour of a worked example: sun by Cooper and the book's own solar constant. */
const bookSun = (latitudeDeg: number, day: number, solarH: number) => {
  const declinationRad = cooperDeclinationRad(day)
  return { declinationRad, toward: towardSun({ latitudeDeg, declinationRad, hourAngleRad: hourAngleRad(solarH) }) }
}
const bookOutside = (latitudeDeg: number, day: number, solarWPerM2: number, [from, to]: readonly [number, number]) =>
  outsideLevelJPerM2({
    latitudeDeg,
    declinationRad: cooperDeclinationRad(day),
    outsideWPerM2: outsideWPerM2(spencerSun(day).distanceRatio, solarWPerM2),
    fromRad: hourAngleRad(from),
    toRad: hourAngleRad(to),
  })

/** Sky light on a plane as the cases on it give it. */
const skyLightOf = (given: any) => ({
  beamWPerM2: given.dni_W_m2,
  diffuseWPerM2: given.dhi_W_m2,
  outsideWPerM2: given.dni_extraterrestrial_W_m2,
  cosIncidence: cosBetween(
    planeNormal({ slopeDeg: given.apparent_zenith_deg, facesDeg: given.azimuth_from_north_deg }),
    planeNormal({ slopeDeg: given.tilt_deg, facesDeg: given.surface_azimuth_from_north_deg }),
  ),
  upRatio: cosDeg(given.apparent_zenith_deg),
  cosSlope: cosDeg(given.tilt_deg),
})

const hayDavies = (given: any) => {
  const { sunWPerM2, evenWPerM2 } = hayDaviesParts(skyLightOf(given))
  return {
    sky_diffuse_W_m2: sunWPerM2 + evenWPerM2,
    isotropic_part_W_m2: evenWPerM2,
    circumsolar_part_W_m2: sunWPerM2,
  }
}

export const weatherCases: Record<string, (given: any) => Record<string, unknown>> = {
  'psy-01': (given) => ({ p_ws_Pa: given.t_C.map(saturationPa) }),
  'psy-02': (given) => ({ w_s: given.t_C.map((t: number) => saturated(t, given.p_Pa)) }),
  'psy-04': (given) => ({ h_J_kg: given.t_C.map((t: number) => enthalpyJPerKg(t, saturated(t, given.p_Pa))) }),
  'psy-06': (given) => {
    const air = { airC: given.t_C, ratio: given.w, pressurePa: given.p_Pa }
    return {
      h_J_kg: enthalpyJPerKg(air.airC, air.ratio),
      v_m3_kg: specificVolumeM3PerKg(air),
      rho_kg_m3: airKgPerM3(air),
    }
  },
  'psy-07': (given) => ({ p_Pa: given.altitude_m.map(pressureAtPa) }),
  'psy-08': (given) => {
    const ratio = ratioOfWetBulb({ airC: given.t_C, wetC: given.t_wb_C, pressurePa: given.p_Pa })
    const vapourPa = vapourOfRatioPa(ratio, given.p_Pa)
    return {
      w: ratio,
      t_dew_C: dewC(vapourPa),
      rh: vapourPa / saturationPa(given.t_C),
      h_J_kg: enthalpyJPerKg(given.t_C, ratio),
      v_m3_kg: specificVolumeM3PerKg({ airC: given.t_C, ratio, pressurePa: given.p_Pa }),
    }
  },
  'psy-10': (given) => {
    const vapourPa = vapourOfHumidityPa({ airC: given.t_C, relativeFrac: given.rh, over: 'liquid' })
    return {
      t_wb_C: wetBulbC({ airC: given.t_C, ratio: humidityRatio(vapourPa, given.p_Pa), pressurePa: given.p_Pa }),
    }
  },
  'psy-11': ({ indoor, outdoor }) => ({
    p_indoor_Pa: indoor.rh * saturationPa(indoor.t_C),
    p_outdoor_Pa: outdoor.rh * saturationPa(outdoor.t_C),
  }),
  'psy-12': ({ indoor, outdoor_t_C, surface_rh }) => {
    const surfaceC = dewOrFrostC((indoor.rh * saturationPa(indoor.t_C)) / surface_rh)
    return { t_surface_min_C: surfaceC, f_Rsi: (surfaceC - outdoor_t_C) / (indoor.t_C - outdoor_t_C) }
  },
  'psy-13': (given) => {
    const ratio = humidityRatio(given.start.rh * saturationPa(given.start.t_C), given.p_Pa)
    const dryKg = given.volume_m3 / specificVolumeM3PerKg({ airC: given.start.t_C, ratio, pressurePa: given.p_Pa })
    return { dry_air_kg: dryKg, water_released_g: dryKg * (ratio - saturated(given.end_t_C, given.p_Pa)) * 1000 }
  },
  'sun-01': (given) => {
    const [year, month, day] = given.date.split('-').map(Number) as [number, number, number]
    const [h, min, s] = given.local_time.split(':').map(Number) as [number, number, number]
    // 17 October of a common year is day 290.
    const dayOfYear = month === 10 ? 273 + day : Number.NaN
    const clockH = h + min / 60 + s / 3600
    const place = { latitudeDeg: given.lat_deg, longitudeDeg: given.lon_deg, utcOffsetH: given.utc_offset_h }
    const { declinationRad, equationMin } = sunOf(daysSince2000D(year, dayOfYear, clockH - place.utcOffsetH))
    const solarH = solarTimeH({ ...place, clockH, equationMin })
    const { zenithDeg, azimuthDeg } = anglesOf(
      towardSun({ latitudeDeg: place.latitudeDeg, declinationRad, hourAngleRad: hourAngleRad(solarH) }),
    )
    const seenDeg =
      zenithDeg - refractionDeg({ altitudeDeg: 90 - zenithDeg, pressurePa: given.pressure_hPa * 100, airC: given.temperature_C })
    const plane = planeNormal({ slopeDeg: given.surface_slope_deg, facesDeg: 180 + given.surface_azimuth_from_south_deg })
    const litOn = (d: number) => litHours({ place, year, day: d, horizonDeg: -0.8333 })
    const lit = litOn(dayOfYear)
    // The report counts what falls into the day of universal time: where our evening is past it, its sunset is the evening before.
    const setDay = (lit.setH ?? 0) - place.utcOffsetH >= 24 ? dayOfYear - 1 : dayOfYear
    return {
      zenith_deg: seenDeg,
      azimuth_from_north_deg: azimuthDeg,
      incidence_deg: degOf(acos(cosBetween(planeNormal({ slopeDeg: seenDeg, facesDeg: azimuthDeg }), plane))),
      declination_topocentric_deg: degOf(declinationRad),
      sunrise_h: lit.riseH,
      transit_h: lit.noonH,
      sunset_h: litOn(setDay).setH,
    }
  },
  'sun-02': (given) => {
    const { declinationRad, toward } = bookSun(given.lat_deg, given.day_of_year, given.solar_time_h)
    const plane = planeNormal({ slopeDeg: given.tilt_deg, facesDeg: 180 + given.surface_azimuth_from_south_deg })
    return { declination_deg: degOf(declinationRad), incidence_deg: degOf(acos(cosBetween(toward, plane))) }
  },
  'sun-03': (given) => {
    const { zenithDeg, azimuthDeg } = anglesOf(bookSun(given.lat_deg, given.day_of_year, given.solar_time_h).toward)
    return { zenith_deg: zenithDeg, azimuth_from_south_deg: azimuthDeg - 180 }
  },
  'sun-05': (given) => {
    const over = (hours: readonly [number, number]) =>
      bookOutside(given.lat_deg, given.day_of_year, given.solar_constant_W_m2, hours) / 1e6
    return { day_MJ_m2: over([0, 24]), hour_MJ_m2: over(given.hour_solar) }
  },
  'tilt-01': (given) => ({
    sky_diffuse_W_m2: given.dhi_W_m2.map((d: number) => isotropicWPerM2(d, cosDeg(given.tilt_deg))),
  }),
  'tilt-02b': hayDavies,
  'tilt-02c': hayDavies,
  'tilt-03b': (given) => {
    const light = skyLightOf(given)
    const brightness = { sunRatio: 0, horizonRatio: 0 }
    const { beamWPerM2, diffuseWPerM2, outsideWPerM2, cosIncidence, upRatio, cosSlope } = light
    const zenithRad = radOf(given.apparent_zenith_deg)
    fillBrightness(brightness, beamWPerM2, diffuseWPerM2, outsideWPerM2, zenithRad, given.relative_air_mass)
    const { evenWPerM2, sunWPerM2, horizonWPerM2 } = perezParts({ ...light, ...brightness })
    const sinSlope = Math.sqrt(1 - cosSlope * cosSlope)
    return {
      sky_diffuse_W_m2: perezWPerM2(brightness, diffuseWPerM2, cosIncidence, upRatio, cosSlope, sinSlope),
      isotropic_part_W_m2: evenWPerM2,
      circumsolar_part_W_m2: sunWPerM2,
      horizon_part_W_m2: horizonWPerM2,
    }
  },
  'split-01': (given) => {
    const upRatio = cosDeg(given.zenith_deg)
    const each = given.day_of_year.map((day: number) => {
      const outside = outsideWPerM2(spencerSun(day).distanceRatio, 1366.1)
      const beam = beamOfGlobalWPerM2(given.ghi_W_m2, outside, upRatio)
      return { kt: clearnessFrac(given.ghi_W_m2, outside, upRatio), dhi: given.ghi_W_m2 - beam * upRatio, dni: beam }
    })
    return {
      kt: each.map((one: any) => one.kt),
      dhi_W_m2: each.map((one: any) => one.dhi),
      dni_W_m2: each.map((one: any) => one.dni),
    }
  },
  'tilt-04': (given) => {
    const outsideJ = bookOutside(given.lat_deg, given.day_of_year, 1367, given.hour_solar)
    const kt = (given.I_MJ_m2 * 1e6) / outsideJ
    const share = diffuseFrac(kt)
    const middle = (given.hour_solar[0] + given.hour_solar[1]) / 2
    const { toward } = bookSun(given.lat_deg, given.day_of_year, middle)
    const cosSlope = cosDeg(given.tilt_deg)
    const cosIncidence = cosBetween(toward, planeNormal({ slopeDeg: given.tilt_deg, facesDeg: 180 }))
    // MJ of the hour stand for watts: all is in proportion.
    const light = {
      beamWPerM2: (given.I_MJ_m2 * (1 - share)) / toward.upRatio,
      diffuseWPerM2: given.I_MJ_m2 * share,
      outsideWPerM2: outsideJ / 1e6 / toward.upRatio,
      cosIncidence,
      upRatio: toward.upRatio,
      cosSlope,
    }
    const rest =
      beamOnPlaneWPerM2(light.beamWPerM2, cosIncidence) + groundOnPlaneWPerM2(given.I_MJ_m2, given.ground_reflectance, cosSlope)
    const bright = brightHorizonParts(light)
    return {
      io_MJ_m2: outsideJ / 1e6,
      kt,
      diffuse_fraction: share,
      Rb: cosIncidence / toward.upRatio,
      isotropic_total_MJ_m2: rest + isotropicWPerM2(light.diffuseWPerM2, cosSlope),
      hdkr_total_MJ_m2: rest + bright.sunWPerM2 + bright.evenWPerM2,
    }
  },
  'sky-01': (given) => ({
    horizontal_infrared_W_m2: given.t_C.map((airC: number, i: number) =>
      clarkAllenWPerM2({ airC, dewC: given.t_dew_C[i], cloudFrac: given.opaque_cover_tenths[i] / 10 }),
    ),
  }),
  'sky-04': (given) => {
    const berdahl = berdahlMartinFrac({
      dewC: given.t_dew_C,
      midnightH: given.hour_from_midnight,
      pressurePa: given.p_Pa,
    })
    const clark = clarkAllenFrac(given.t_dew_C)
    const skyK = (frac: number) => kelvin(skyC(frac * blackWPerM2(given.t_C)))
    return {
      berdahl_martin_emissivity: berdahl,
      clark_allen_emissivity: clark,
      swinbank_sky_t_K: kelvin(swinbankC(given.t_C)),
      sky_t_K: { berdahl_martin: skyK(berdahl), clark_allen: skyK(clark) },
    }
  },
  'ground-01': (given) => ({
    t_C: given.depth_m.map((depthM: number) =>
      given.day.map((dayD: number) =>
        groundC({
          meanC: given.mean_C,
          swingK: given.amplitude_K,
          coldestDayD: given.day_of_min,
          diffusivityM2PerD: given.diffusivity_m2_day,
          depthM,
          dayD,
        }),
      ),
    ),
  }),
  'air-snow-01': (given) => ({
    k_W_mK: given.density_kg_m3.map(snowConductivityWPerMK),
    R_m2K_W: given.density_kg_m3.map((snowKgPerM3: number) => snowResistanceM2KPerW({ snowKgPerM3, depthM: given.depth_m })),
  }),
}
