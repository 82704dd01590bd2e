import { SIDES } from '../../job/index.ts'
import { PHYSICS } from '../../weather/index.ts'
import { LINEAR_BELOW_PA } from '../flow/index.ts'
import { powerOf } from '../surface/index.ts'
import { powerCubics } from './fast.ts'
import { PLACE } from './kernel.ts'
import type { Layout } from './layout.ts'
import { type Loop, loopHere } from './loop.ts'
import type { Surroundings } from './surroundings.ts'
import type { BoxModel, HourSeries, YearRun } from './types.ts'
import { woodWaterRatio } from './wood.ts'

export interface KernelOptions {
  /** Hours from the end of the record that are run first, unseen. */
  readonly firstRunHours: number
  /** Where everything begins; null: the air outside at that moment. */
  readonly startC: number | null
  /** Vapour pressure inside at the start; null: that of the air outside. */
  readonly startVapourPa: number | null
}

const DELTA_AIR = 1.97e-10
const DOOR_DISCHARGE = 0.5

/** Runs a laid-out box through its surroundings. */
export function runKernel(
  model: BoxModel,
  lay: Layout,
  sur: Surroundings,
  options: KernelOptions,
  loop: Loop = loopHere,
): YearRun {
  const engine = engineOf(model, lay, sur, options)
  const { hoursCount, stepsPerHour, stepsCount, start, series, fellSum, state } = engine
  const first = start === stepsCount ? 0 : start - stepsCount
  loop(engine, first, stepsCount)
  return {
    hoursCount,
    stepsPerHour,
    series,
    heaterKWh: state[PLACE.AT_HEATER_SUM]! / 3.6e6,
    coolerKWh: state[PLACE.AT_COOLER_SUM]! / 3.6e6,
    fanKWh: state[PLACE.AT_FAN_SUM]! / 3.6e6,
    fellKg: Array.from(fellSum),
    waterInKg: state[PLACE.AT_WATER_IN]!,
    waterOutKg: state[PLACE.AT_WATER_OUT]!,
    waterStoredKg: state[PLACE.AT_WATER_STORED]!,
    energyResidualFrac: state[PLACE.AT_WORST_ENERGY]!,
    waterResidualFrac: state[PLACE.AT_WORST_WATER]!,
  }
}

export type Engine = ReturnType<typeof engineOf>

/** All arrays and numbers of a run, made once: nothing is allocated after. */
export function engineOf(model: BoxModel, lay: Layout, sur: Surroundings, options: KernelOptions) {
  const { hoursCount, stepsPerHour, stepsCount } = sur
  const S = lay.surfacesCount
  const N = lay.nodesCount
  const { outer, inner, side, sees } = lay
  const { faceOf, bareOf, gearAt: gear, floorAt: floor } = lay
  const { airC, waterRatio, pressurePa, downWPerM2, wallWPerM2, groundC, sunWPerM2, windMPerS, windPa } = sur
  const { windward, raining, wetBulbC, roofSnowM, month, hour } = sur

  const stepS = 3600 / stepsPerHour
  const back = (1 - PLACE.GAMMA) / PLACE.GAMMA

  // Everything of a surface stands together, and everything of a node: two arrays in place of sixty.
  const C = new Float64Array(S * PLACE.WIDE)
  const X = new Float64Array(N * PLACE.DEEP)
  for (let s = 0; s < S; s++) {
    C[s * PLACE.WIDE + PLACE.AREA_M2] = lay.areaM2[s]!
    C[s * PLACE.WIDE + PLACE.OUT_AREA_M2] = lay.outAreaM2[s]!
    C[s * PLACE.WIDE + PLACE.IN_AREA_M2] = lay.inAreaM2[s]!
    C[s * PLACE.WIDE + PLACE.ABSORPTANCE] = lay.absorptance[s]!
    C[s * PLACE.WIDE + PLACE.EMITTANCE] = lay.emittance[s]!
    C[s * PLACE.WIDE + PLACE.WIND_FILM] = lay.windFilm[s]!
    C[s * PLACE.WIDE + PLACE.OUT_WARM] = lay.outWarm[s]!
    C[s * PLACE.WIDE + PLACE.OUT_COLD] = lay.outCold[s]!
    C[s * PLACE.WIDE + PLACE.IN_WARM] = lay.inWarm[s]!
    C[s * PLACE.WIDE + PLACE.IN_COLD] = lay.inCold[s]!
    C[s * PLACE.WIDE + PLACE.STAR_M2] = lay.starM2[s]!
    C[s * PLACE.WIDE + PLACE.HOLDS_KG_PER_M2] = lay.holdsKgPerM2[s]!
    C[s * PLACE.WIDE + PLACE.SHADE_COVERS] = lay.shadeCovers[s]!
    C[s * PLACE.WIDE + PLACE.SHADE_ABSORPTANCE] = lay.shadeAbsorptance[s]!
    C[s * PLACE.WIDE + PLACE.SHADE_JPER_K] = lay.shadeJPerK[s]!
  }
  for (let i = 0; i < N; i++) {
    X[i * PLACE.DEEP + PLACE.HEAT_J_PER_K] = lay.heatJPerK[i]!
    X[i * PLACE.DEEP + PLACE.NEXT_W_PER_K] = lay.nextWPerK[i]!
  }

  // Air paths: openings, the fan, cracks low and high on four walls.
  const openings = model.openings
  const holes = openings.length
  const P = holes + 1 + 8
  const pathSide = new Int32Array(P)
  const pathM = new Float64Array(P)
  const pathK = new Float64Array(P)
  const pathWinter = new Float64Array(P).fill(1)
  const pathArea = new Float64Array(P)
  const drive = new Float64Array(P)
  /** What a path passes per root pascal or per pascal to its exponent: out of the box, into it. */
  const kWays = new Float64Array(P * 2)
  const flowOf = new Float64Array(P)
  const slopeOf = new Float64Array(P)
  openings.forEach((one, i) => {
    pathSide[i] = SIDES.indexOf(one.side)
    pathM[i] = one.heightM
    pathK[i] = one.dischargeRatio * one.areaM2 * Math.SQRT2
    pathWinter[i] = one.winterFrac
    pathArea[i] = one.areaM2 * one.dischargeRatio
  })
  const fan = model.fan
  const fanShutPa = fan === null ? 0 : fan.shutPressurePa
  const fanK = fan === null ? 0 : fan.freeFlowM3S / Math.sqrt(fan.shutPressurePa)
  const fanSign = fan !== null && fan.blows === 'in' ? 1 : -1
  if (fan !== null) {
    pathSide[holes] = SIDES.indexOf(fan.side)
    pathM[holes] = fan.heightM
  }
  const walls = lay.faceOf
  let wallM2 = 0
  for (let i = 0; i < 4; i++) wallM2 += C[walls[i]! * PLACE.WIDE + PLACE.AREA_M2]!
  for (let i = 0; i < 8; i++) {
    pathSide[holes + 1 + i] = i >> 1
    pathM[holes + 1 + i] = (i & 1) === 0 ? 0.1 * model.insideHeightM : 0.9 * model.insideHeightM
    pathK[holes + 1 + i] = (0.5 * model.leakM3SAt1Pa * C[walls[i >> 1]! * PLACE.WIDE + PLACE.AREA_M2]!) / wallM2
  }
  const leakN = model.leakExponent
  const law = powerCubics(leakN)
  const leakLinear = powerOf(LINEAR_BELOW_PA, leakN) / LINEAR_BELOW_PA
  const holeLinear = 1 / Math.sqrt(LINEAR_BELOW_PA)
  const firstCrack = holes + 1

  // State.
  const start = stepsCount - Math.min(options.firstRunHours, hoursCount) * stepsPerHour
  // Where nothing runs first, the air of the first hour, not of the last.
  const begin = start % stepsCount
  const startC = options.startC ?? airC[begin]!
  for (let i = 0; i < N; i++) {
    X[i * PLACE.DEEP + PLACE.NOW] = startC
    X[i * PLACE.DEEP + PLACE.BEFORE] = startC
  }
  for (let s = 0; s < S; s++) {
    C[s * PLACE.WIDE + PLACE.SHADE_T] = startC
    C[s * PLACE.WIDE + PLACE.SHADE_TP] = startC
  }
  /** Film of this round: 0 as carried on, 1 coupled, 2 not, 3 all of it dries. */
  const couples = new Uint8Array(S)
  const coupled = new Uint8Array(S)
  /** Freezing point of this round: 0 as carried on, 1 held at 0 °C, 2 not, 3 all frost melts, 4 all water freezes. */
  const melts = new Uint8Array(S)
  const fell = new Float64Array(6)
  const fellSum = new Float64Array(6)

  const hc = hoursCount
  const series: HourSeries = {
    airC: new Float64Array(hc),
    vapourPa: new Float64Array(hc),
    relativeFrac: new Float64Array(hc),
    gearC: new Float64Array(hc),
    faceC: new Float64Array(hc * 6),
    outsideFaceC: new Float64Array(hc * 6),
    filmKgPerM2: new Float64Array(hc * 6),
    frostKgPerM2: new Float64Array(hc * 6),
    fellKg: new Float64Array(hc * 6),
    gearFilmKgPerM2: new Float64Array(hc),
    floorWaterKg: new Float64Array(hc),
    inflowKg: new Float64Array(hc),
    heaterWh: new Float64Array(hc),
    fanWh: new Float64Array(hc),
    gearHeatWh: new Float64Array(hc),
    bareC: new Float64Array(hc * 6),
    bareFilmKgPerM2: new Float64Array(hc * 6),
    fellOnGearKg: new Float64Array(hc),
    floorTopFrac: new Float64Array(hc),
    floorRestFrac: new Float64Array(hc),
    coolerWh: new Float64Array(hc),
  }

  // Floor wood.
  const dry = model.floor.dryKgPerM2
  const hasWood = dry > 0
  const floorM2 = C[floor * PLACE.WIDE + PLACE.AREA_M2]!
  const topFrac = hasWood ? Math.min(0.9, model.floor.topM / model.floor.thicknessM) : 0
  const topKg = dry * topFrac * floorM2
  const restKg = dry * (1 - topFrac) * floorM2
  const muPerDelta = model.floor.vapourResistanceRatio / DELTA_AIR
  /** m²·s·Pa/kg */
  const skinResists = hasWood ? (model.floor.topM / 2) * muPerDelta * model.floor.paintedRatio : 0
  const between = hasWood ? floorM2 / ((model.floor.thicknessM / 2) * muPerDelta) : 0
  const roofM2 =
    C[faceOf[4]! * PLACE.WIDE + PLACE.AREA_M2]! + (bareOf[4] !== faceOf[4] ? C[bareOf[4]! * PLACE.WIDE + PLACE.AREA_M2]! : 0)
  let openGearM2 = 0
  for (const one of model.below) if (!one.hooded) openGearM2 += one.areaM2
  const onGearFrac = Math.min(1, openGearM2 / roofM2)

  const winter = new Uint8Array(12)
  for (const m of model.winterMonths) winter[m] = 1
  const { gearHeatW, airHeatW, waterKgS, doorOpenS } = model
  const radiantHeatW = model.radiantHeatW ?? new Float64Array(288)
  const gearWPerK = model.gear.toAirWPerK
  const gearInner = inner[gear]!
  const heater = model.heater
  const heatsRoom = heater !== null && heater.at === 'room'
  const heatsCabinet = heater !== null && heater.at === 'cabinet'
  const heaterMaxW = heater === null ? 0 : heater.powerW
  const heaterSetC = heater === null ? 0 : heater.onBelowC + heater.deadBandK / 2
  const dewMargin = heater === null || heater.dewMarginK === null ? Number.NaN : heater.dewMarginK
  const byDew = !Number.isNaN(dewMargin)
  const holds = model.holds ?? null
  const holdFrom = holds === null ? 0 : holds.fromC
  const holdTo = holds === null ? 0 : holds.toC
  const controlled = heater !== null || holds !== null
  const roofWindRatio = sur.boxWindRatio
  const volumeM3 = model.volumeM3
  // Times √(g·|ΔT|/T), which the loop has for the openings too.
  const doorFlow = ((DOOR_DISCHARGE * model.doorAreaM2) / 3) * Math.sqrt(model.doorHeightM)

  const p0 = pressurePa[begin]!
  const startPv = options.startVapourPa ?? sur.vapourPa[begin]!

  const startWood = hasWood ? woodWaterRatio(Math.min(sur.earlierFrac, 0.97), sur.earlierC) : 0
  const startRatio = (PHYSICS.molarRatio * startPv) / (p0 - startPv)
  // What goes on from step to step.
  const state = new Float64Array(PLACE.STATE_COUNT)
  state[PLACE.AT_U1] = startWood
  state[PLACE.AT_U2] = startWood
  state[PLACE.AT_U1P] = startWood
  state[PLACE.AT_U2P] = startWood
  state[PLACE.AT_A] = startC
  state[PLACE.AT_AP] = startC
  state[PLACE.AT_R] = startC
  state[PLACE.AT_RP] = startC
  state[PLACE.AT_W] = startRatio
  state[PLACE.AT_WP] = startRatio
  state[PLACE.AT_DRY_KG_BEFORE] = -1
  state[PLACE.AT_DEW_C] = startC
  state[PLACE.AT_BEFORE_S] = stepS
  return {
    C,
    N,
    P,
    S,
    X,
    airC,
    airHeatW,
    back,
    bareOf,
    between,
    byDew,
    controlled,
    coupled,
    couples,
    dewMargin,
    doorFlow,
    doorOpenS,
    downWPerM2,
    drive,
    faceOf,
    fan,
    fanK,
    fanShutPa,
    fanSign,
    fell,
    fellSum,
    firstCrack,
    floor,
    floorM2,
    flowOf,
    gear,
    gearHeatW,
    gearInner,
    gearWPerK,
    groundC,
    hasWood,
    heaterMaxW,
    heaterSetC,
    heatsCabinet,
    heatsRoom,
    holdFrom,
    holdTo,
    holds,
    holeLinear,
    holes,
    hour,
    hoursCount,
    inner,
    kWays,
    law,
    leakLinear,
    leakN,
    melts,
    model,
    month,
    onGearFrac,
    outer,
    pathArea,
    pathK,
    pathM,
    pathSide,
    pathWinter,
    pressurePa,
    radiantHeatW,
    raining,
    restKg,
    roofSnowM,
    roofWindRatio,
    sees,
    series,
    side,
    skinResists,
    slopeOf,
    start,
    state,
    wholeS: stepS,
    stepsCount,
    stepsPerHour,
    sunWPerM2,
    topKg,
    volumeM3,
    wallWPerM2,
    waterKgS,
    waterRatio,
    wetBulbC,
    windMPerS,
    windPa,
    windward,
    winter,
  }
}
