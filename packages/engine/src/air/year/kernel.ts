import { Fault } from '../../kernel/index.ts'
import { cubeRoot, powerOf } from '../surface/index.ts'
import type { Engine } from './engine.ts'
import {
  cubeRootFast,
  POWER_CELLS,
  POWER_PER_ROOT,
  SAT_CELLS,
  SAT_LOW_C,
  SAT_PER_K,
  SATURATION,
  SATURATION_OVER_WATER,
} from './fast.ts'
import { WOOD_CONTENTS, WOOD_HUMIDITY, WOOD_LOW_C, WOOD_PER_UNIT, WOOD_STEP_C, WOOD_TEMPERATURES } from './wood.ts'

const KELVIN = 273.15
const SIGMA = 5.670374e-8
const DRY_AIR = 287.042
const VAPOUR = 461.524
const CP_AIR = 1006
const CP_VAPOUR = 1860
const LV = 2_501_000
const LF = 333_600
/** ρ·cp·Le^(2/3): the last factor. */
export const LEWIS_TWO_THIRDS = cubeRoot(0.87 * 0.87)
const STIRRED_FILM = 4
const RAIN_FILM = 50
/** Outside film of a face over a gap or ground. @source common practice */
const GAP_FILM = 6
/** Pull toward 0 °C of a face that carries frost and water together, W/m²K: within 0.005 K of it at 100 W/m². */
const MELT_PULL = 20_000
const SNOW_CONDUCTIVITY = 0.127
const SNOW_ABSORPTANCE = 0.25
const SNOW_EMITTANCE = 0.97
const SHADE_EMITTANCE = 0.9
/** A hole alone passes air both ways: share of A·V that wind stirs through it. @source ASHRAE, one-sided wind. Provenance: memory */
const ONE_SIDED = 0.025
/** Water lying on bare wood goes into it in about an hour, to fibre saturation. @source common practice */
const SOAK_S = 3600
const FIBRE_FULL = 0.3
const FAN_BAND_K = 1
const BALANCE_STEPS = 12
const HALVINGS = 60
/** Nearer than this share of all flows Newton's last step is taken along the slopes alone: what is then left is its square. */
const NEAR = 1e-6
/** Times that a step is taken again where dew, drying or melting came out otherwise than taken. */
/** No air of a box is told drier. */
const LEAST_PA = 0.1
const ROUNDS = 4
/** A step in whose middle the air, or what it touches in the mean, came out farther than this from where the last two states pointed is taken again in parts. */
const SPLIT_K = 0.3
const SPLIT_PARTS = 3
/** Air that holds more than it can over water gives the rest up as drops within so many seconds. */
const FOG_S = 5

const GAMMA = 1 - Math.SQRT1_2
const MOLAR = 0.621945
const GRAVITY = 9.80665
const LINEAR_PA = 0.01

/** Places of what belongs to a surface, and to a node: two arrays in place of sixty. */
const AREA_M2 = 0
const OUT_AREA_M2 = 1
const IN_AREA_M2 = 2
const ABSORPTANCE = 3
const EMITTANCE = 4
const WIND_FILM = 5
const OUT_WARM = 6
const OUT_COLD = 7
const IN_WARM = 8
const IN_COLD = 9
const STAR_M2 = 10
const HOLDS_KG_PER_M2 = 11
const SHADE_COVERS = 12
const SHADE_ABSORPTANCE = 13
const SHADE_JPER_K = 14
const SHADE_T = 15
const SHADE_TP = 16
const SHADE_T1 = 17
const SHADE_T2 = 18
const LIQUID = 19
const FROST = 20
const CARRY_J = 21
const OUT_G = 22
const OUT_R1 = 23
const OUT_R2 = 24
const UP_G = 25
const UP_LINK = 26
const UP_R1 = 27
const UP_R2 = 28
const UP_PIVOT = 29
const UP_HEAT = 30
const UP_RHO = 31
const GC = 32
const GR = 33
const MB = 34
const ME = 35
const MC = 36
const LAT = 37
const PULL = 38
const FORCED = 39
const SOURCE = 40
const INV = 41
const RHO = 42
const SETTLED = 43
const MELTED = 44
const WIDE = 45
const HEAT_J_PER_K = 0
const NEXT_W_PER_K = 1
const NOW = 2
const BEFORE = 3
const MIDDLE = 4
const FIRST = 5
const SECOND = 6
const INVERSE = 7
const RATIO = 8
const RHS = 9
const DEEP = 10

/** Places of what goes on from step to step. */
const AT_U1 = 0
const AT_U2 = 1
const AT_U1P = 2
const AT_U2P = 3
const AT_A = 4
const AT_AP = 5
const AT_R = 6
const AT_RP = 7
const AT_W = 8
const AT_WP = 9
const AT_INSIDE_PA = 10
const AT_FAN_ON = 11
const AT_DRY_KG_BEFORE = 12
const AT_DEW_C = 13
const AT_HEATER_J = 14
const AT_COOLER_J = 15
const AT_FAN_J = 16
const AT_GEAR_J = 17
const AT_INFLOW_KG = 18
const AT_ON_GEAR_KG = 19
const AT_HEATER_SUM = 20
const AT_COOLER_SUM = 21
const AT_FAN_SUM = 22
const AT_WATER_IN = 23
const AT_WATER_OUT = 24
const AT_WATER_STORED = 25
const AT_WORST_ENERGY = 26
const AT_WORST_WATER = 27
/** Length of the last step or part of one. */
const AT_BEFORE_S = 28
/** Times that the air's balance was struck, and all that it took: a test holds their share. */
const AT_BALANCES = 29
const AT_PASSES = 30
const STATE_COUNT = 31

/** The same places, and the step's share, for who fills and reads the arrays: a number that a module exports is not compiled into its own loop. */
export const PLACE = {
  GAMMA,
  AREA_M2,
  OUT_AREA_M2,
  IN_AREA_M2,
  ABSORPTANCE,
  EMITTANCE,
  WIND_FILM,
  OUT_WARM,
  OUT_COLD,
  IN_WARM,
  IN_COLD,
  STAR_M2,
  HOLDS_KG_PER_M2,
  SHADE_COVERS,
  SHADE_ABSORPTANCE,
  SHADE_JPER_K,
  SHADE_T,
  SHADE_TP,
  WIDE,
  HEAT_J_PER_K,
  NEXT_W_PER_K,
  NOW,
  BEFORE,
  DEEP,
  AT_U1,
  AT_U2,
  AT_U1P,
  AT_U2P,
  AT_A,
  AT_AP,
  AT_R,
  AT_RP,
  AT_W,
  AT_WP,
  AT_DRY_KG_BEFORE,
  AT_DEW_C,
  AT_HEATER_SUM,
  AT_COOLER_SUM,
  AT_FAN_SUM,
  AT_WATER_IN,
  AT_WATER_OUT,
  AT_WATER_STORED,
  AT_WORST_ENERGY,
  AT_WORST_WATER,
  AT_BEFORE_S,
  AT_BALANCES,
  AT_PASSES,
  STATE_COUNT,
} as const

/**
 * Steps `from` to `to` of a run, negative ones unseen. One loop, nothing allocated in it: the same loop is compiled to WebAssembly (`npm run loop`) for
 * `loop.ts`, and written in C for the bench.
 */
export function advance(engine: Engine, from: number, to: number): void {
  const {
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
    state,
    wholeS,
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
  } = engine
  let u1 = state[AT_U1]!
  let u2 = state[AT_U2]!
  let u1p = state[AT_U1P]!
  let u2p = state[AT_U2P]!
  let a = state[AT_A]!
  let ap = state[AT_AP]!
  let r = state[AT_R]!
  let rp = state[AT_RP]!
  let w = state[AT_W]!
  let wp = state[AT_WP]!
  let insidePa = state[AT_INSIDE_PA]!
  let fanOn = state[AT_FAN_ON]! > 0
  let dryKgBefore = state[AT_DRY_KG_BEFORE]!
  let dewC = state[AT_DEW_C]!
  let heaterJ = state[AT_HEATER_J]!
  let coolerJ = state[AT_COOLER_J]!
  let fanJ = state[AT_FAN_J]!
  let gearJ = state[AT_GEAR_J]!
  let inflowKg = state[AT_INFLOW_KG]!
  let onGearKg = state[AT_ON_GEAR_KG]!
  let heaterSum = state[AT_HEATER_SUM]!
  let coolerSum = state[AT_COOLER_SUM]!
  let fanSum = state[AT_FAN_SUM]!
  let waterIn = state[AT_WATER_IN]!
  let waterOut = state[AT_WATER_OUT]!
  let waterStored = state[AT_WATER_STORED]!
  let worstEnergy = state[AT_WORST_ENERGY]!
  let worstWater = state[AT_WORST_WATER]!
  let beforeS = state[AT_BEFORE_S]!
  let balances = state[AT_BALANCES]!
  let passes = state[AT_PASSES]!
  let stepHeatJ = 0
  let stepCoolJ = 0
  let stepInKg = 0
  let stepOutKg = 0
  let keptKg = 0
  let relJ = 0
  let relKg = 0
  for (let step = from; step < to; step++) {
    const seen = step >= 0
    const k = seen ? step : step + stepsCount
    const hh = (k / stepsPerHour) | 0
    const mo = month[hh]!
    const slot = mo * 24 + hour[hh]!
    // In one, or where the middle came out otherwise than carried on, from its beginning again in parts.
    let parts = 1
    let part = 0
    while (part < parts) {
      const first = part / parts
      const last = (part + 1) / parts
      const stepS = wholeS / parts
      const gh = GAMMA * stepS
      const perGh = 1 / gh
      const perStep = 1 / stepS
      const w1 = stepS * (1 - GAMMA)
      const w2 = stepS * GAMMA
      const half = (0.5 * stepS) / beforeS

      // The moments of the two stages, and the middle.
      const oRise = airC[k + 1]! - airC[k]!
      const oa = airC[k]! + first * oRise
      const ob = last === 1 ? airC[k + 1]! : airC[k]! + last * oRise
      const out1 = oa + GAMMA * (ob - oa)
      const out2 = ob
      const outM = 0.5 * (oa + ob)
      const wRise = waterRatio[k + 1]! - waterRatio[k]!
      const wa = waterRatio[k]! + first * wRise
      const wb = last === 1 ? waterRatio[k + 1]! : waterRatio[k]! + last * wRise
      const wo1 = wa + GAMMA * (wb - wa)
      const wo2 = wb
      const woM = 0.5 * (wa + wb)
      const pa = 0.5 * (pressurePa[k]! + pressurePa[k + 1]!)
      // Shares of the whole step at which the stages of this part stand.
      const at1 = parts === 1 ? GAMMA : (part + GAMMA) / parts
      const down1 = downWPerM2[k]! + at1 * (downWPerM2[k + 1]! - downWPerM2[k]!)
      const down2 = last === 1 ? downWPerM2[k + 1]! : downWPerM2[k]! + last * (downWPerM2[k + 1]! - downWPerM2[k]!)
      const wall1 = wallWPerM2[k]! + at1 * (wallWPerM2[k + 1]! - wallWPerM2[k]!)
      const wall2 = last === 1 ? wallWPerM2[k + 1]! : wallWPerM2[k]! + last * (wallWPerM2[k + 1]! - wallWPerM2[k]!)
      const ground1 = groundC[k]! + at1 * (groundC[k + 1]! - groundC[k]!)
      const ground2 = last === 1 ? groundC[k + 1]! : groundC[k]! + last * (groundC[k + 1]! - groundC[k]!)
      const wind = windMPerS[k]!
      const rootWind = Math.sqrt(wind)

      // States of the middle, carried on straight from the last step; of a step taken again, from what came out.
      let missK = 0
      /** Fog of this round: 0 as carried on, 1 forms, 2 does not. */
      let fogs = 0
      let fogKg = 0
      let newA = a
      let newR = r
      let newW = w
      let newU1 = u1
      let newU2 = u2
      let woodC1 = 0
      for (let s = 0; s < S; s++) {
        melts[s] = 0
        couples[s] = 0
      }
      let midA = a + half * (a - ap)
      let midR = r + half * (r - rp)
      let midW = w + half * (w - wp)
      const fanWas: boolean = fanOn
      let fanW = 0
      let dryKg = 0
      let flowKgS = 0
      for (let i = 0; i < N; i++) X[i * DEEP + MIDDLE] = X[i * DEEP + NOW]! + half * (X[i * DEEP + NOW]! - X[i * DEEP + BEFORE]!)
      for (let round = 0; round < ROUNDS; round++) {
        const aM = midA
        const rM = midR
        const wM = midW < 1e-7 ? 1e-7 : midW
        const aK = aM + KELVIN
        const oK = outM + KELVIN
        const kp = pa / (MOLAR + wM)
        const pvM = kp * wM
        const pvOut = (pa * woM) / (MOLAR + woM)
        const rhoIn = (pa - 0.378 * pvM) / (DRY_AIR * aK)
        const rhoOut = (pa - 0.378 * pvOut) / (DRY_AIR * oK)
        dryKg = (volumeM3 * (pa - pvM)) / (DRY_AIR * aK)

        // Air through openings, fan and cracks under one inside pressure.
        let exchange = 0
        const rootIn = Math.sqrt(rhoIn)
        const rootOut = Math.sqrt(rhoOut)
        const lift = (rhoOut - rhoIn) * GRAVITY
        const shutFrac = winter[mo]!
        const stir = Math.sqrt((GRAVITY * Math.abs(aM - outM)) / (0.5 * (aK + oK)))
        let low = 1e30
        let high = -1e30
        for (let i = 0; i < P; i++) {
          const d = windPa[k * 6 + pathSide[i]!]! - lift * pathM[i]!
          const share = shutFrac === 1 ? pathWinter[i]! : 1
          drive[i] = d
          if (i < holes) {
            const kk = pathK[i]! * share
            kWays[i * 2 + 1] = kk * rootOut
            kWays[i * 2] = kk * rootIn
          } else if (i >= firstCrack) {
            kWays[i * 2 + 1] = pathK[i]! * rhoOut
            kWays[i * 2] = pathK[i]! * rhoIn
          }
          if (i !== holes) {
            if (d < low) low = d
            if (d > high) high = d
          }
        }
        fanW = 0
        if (fan !== null) {
          let speed = 1
          if (fan.solar !== null) {
            const frac = (0.5 * (sunWPerM2[k * 6 + 4]! + sunWPerM2[k * 6 + 10]!)) / fan.solar.ratedWPerM2
            speed = frac < fan.solar.startsAtFrac ? 0 : frac < 1 ? cubeRootFast(frac) : 1
          }
          const warm: boolean = fanWas ? aM > fan.onAboveC - FAN_BAND_K : aM > fan.onAboveC
          const drier: boolean = fan.drierKgPerKg !== null && woM < wM - fan.drierKgPerKg
          fanOn = warm || drier
          const on = fanOn && speed > 0
          if (on) {
            drive[holes] = drive[holes]! + fanSign * speed * speed * fanShutPa
            kWays[holes * 2 + 1] = fanK * rhoOut
            kWays[holes * 2] = fanK * rhoIn
            const d = drive[holes]!
            if (d < low) low = d
            if (d > high) high = d
            if (fan.solar === null) fanW = fan.powerW
          } else {
            kWays[holes * 2 + 1] = 0
            kWays[holes * 2] = 0
            fanOn = fanOn && speed > 0
          }
        } else {
          kWays[holes * 2 + 1] = 0
          kWays[holes * 2] = 0
        }
        let p = insidePa < low ? low : Math.min(insidePa, high)
        let lo = low
        let hi = high
        let balanced = false
        balances += 1
        for (let pass = 0; pass < BALANCE_STEPS + HALVINGS; pass++) {
          passes += 1
          let net = 0
          let slope = 0
          let gross = 0
          let steepest = 0
          let atSteepest = 0
          // Flow is drive times what it is per pascal: so it has the drive's sign without asking for it.
          for (let i = 0; i < firstCrack; i++) {
            const d = drive[i]! - p
            const size = d < 0 ? -d : d
            const kk = kWays[i * 2 + (d > 0 ? 1 : 0)]!
            const linear = size < LINEAR_PA
            const perPa = linear ? kk * holeLinear : kk / Math.sqrt(size)
            const f = perPa * d
            flowOf[i] = f
            net += f
            const g = linear ? perPa : 0.5 * perPa
            slopeOf[i] = g
            slope += g
            if (g > steepest) {
              steepest = g
              atSteepest = d
            }
            gross += perPa * size
          }
          for (let i = firstCrack; i < P; i++) {
            const d = drive[i]! - p
            const size = d < 0 ? -d : d
            const kk = kWays[i * 2 + (d > 0 ? 1 : 0)]!
            let perPa = kk * leakLinear
            let falls = 1
            if (size >= LINEAR_PA) {
              falls = leakN
              const x = Math.sqrt(size) * POWER_PER_ROOT
              const cell = x | 0
              if (cell < POWER_CELLS) {
                const u = x - cell
                const c = cell * 4
                perPa = (kk * (law[c]! + u * (law[c + 1]! + u * (law[c + 2]! + u * law[c + 3]!)))) / size
              } else perPa = (kk * powerOf(size, leakN)) / size
            }
            const f = perPa * d
            flowOf[i] = f
            net += f
            const g = falls * perPa
            slopeOf[i] = g
            slope += g
            gross += perPa * size
          }
          const miss = net < 0 ? -net : net
          if (miss <= NEAR * gross || gross === 0) {
            balanced = true
            if (slope > 0) {
              const rest = net / slope
              p += rest
              for (let i = 0; i < P; i++) flowOf[i] = flowOf[i]! - slopeOf[i]! * rest
            }
            break
          }
          if (net > 0) lo = p
          else hi = p
          // Where a hole's root law rules, Newton in the root of its drive: in the drive itself it would leap across and back.
          let next = p + net / slope
          const size = atSteepest < 0 ? -atSteepest : atSteepest
          if (size >= LINEAR_PA) {
            const root = Math.sqrt(size)
            const way = atSteepest > 0 ? root - net / (2 * root * slope) : -root - net / (2 * root * slope)
            next = p + atSteepest - (way < 0 ? -way * way : way * way)
          }
          p = pass < BALANCE_STEPS && next > lo && next < hi ? next : 0.5 * (lo + hi)
        }
        if (!balanced && !(hi - lo < 1e-9)) throw new Fault('air/flow-balance', { hour: hh, insidePa: p })
        insidePa = p
        let inKgS = 0
        for (let i = 0; i < P; i++) {
          const f = flowOf[i]!
          if (f > 0) inKgS += f
          if (i < holes) {
            // What goes both ways through one hole by its own height and the gusts, beyond what goes through one way.
            const share = shutFrac === 1 ? pathWinter[i]! : 1
            const size = f < 0 ? -f : f
            const both =
              rhoOut *
              share *
              pathArea[i]! *
              (stir * Math.sqrt(Math.sqrt(pathArea[i]!)) * 0.3333333333333333 + ONE_SIDED * wind * roofWindRatio)
            if (both > size) exchange += both - size
          }
        }
        const doorS = doorOpenS[hour[hh]!]!
        if (doorS > 0)
          exchange += (rhoOut * doorS * (doorFlow * stir + ONE_SIDED * model.doorAreaM2 * wind * roofWindRatio)) / 3600
        if (model.toldInflowM3S !== undefined) exchange += model.toldInflowM3S * rhoIn
        // Air that the box breathes as it cools.
        if (dryKgBefore > 0 && dryKg > dryKgBefore) exchange += (dryKg - dryKgBefore) / (0.5 * (stepS + beforeS))
        flowKgS = (inKgS + exchange) / (1 + woM)
        const cpIn = CP_AIR + CP_VAPOUR * woM
        const flowWPerK = flowKgS * cpIn
        const airHeat = dryKg * (CP_AIR + CP_VAPOUR * wM)

        // Coefficients of surfaces.
        const wet = raining[k] === 1
        const snowM = roofSnowM[k]!
        const perRhoCp = 1 / (rhoIn * (CP_AIR + CP_VAPOUR * wM) * LEWIS_TWO_THIRDS)
        const invA = 1 / (VAPOUR * aK)

        woodC1 = 0
        stepHeatJ = 0
        stepCoolJ = 0
        stepInKg = 0
        stepOutKg = 0
        let woodY = 0
        let woodTau = 0
        let woodS1 = 0
        let woodA1 = 0
        let woodAc = 0
        let woodA2 = 0
        let woodS2 = 0
        let woodD1 = 1
        let woodD2 = 1
        let woodQ = 0
        // Fog: drops that settle on the floor; their heat stays in the air.
        let fogG = 0
        let fogSlope = 0
        let fogRest = 0
        {
          let x = (aM - SAT_LOW_C) * SAT_PER_K
          if (x < 0) x = 0
          if (x > SAT_CELLS - 1) x = SAT_CELLS - 1
          const cell = x | 0
          const u = x - cell
          const c4 = cell * 4
          const o1 = SATURATION_OVER_WATER[c4 + 1]!
          const o2 = SATURATION_OVER_WATER[c4 + 2]!
          const o3 = SATURATION_OVER_WATER[c4 + 3]!
          const full = SATURATION_OVER_WATER[c4]! + u * (o1 + u * (o2 + u * o3))
          if (fogs === 0 ? pvM > full : fogs === 1) {
            const left = pa - full
            fogG = dryKg / FOG_S
            fogSlope = (MOLAR * pa * SAT_PER_K * (o1 + u * (2 * o2 + 3 * u * o3))) / (left * left)
            fogRest = (MOLAR * full) / left - fogSlope * aM
          }
        }
        let a11 = airHeat * perGh + flowWPerK + LV * fogG * fogSlope
        let a12 = 0
        let a13 = -LV * fogG
        let a22 = 0
        let a23 = 0
        let a31 = -fogG * fogSlope
        let a32 = 0
        let a33 = dryKg * perGh + flowKgS + fogG
        for (let s = 0; s < S; s++) {
          const o = outer[s]!
          const n = inner[s]!
          const area = C[s * WIDE + AREA_M2]!
          const sd = side[s]!
          const view = sees[s]!
          const mid = X[o * DEEP + MIDDLE]!
          let heat0 = X[o * DEEP + HEAT_J_PER_K]! * perGh
          C[s * WIDE + UP_LINK] = 0
          if (view === 0) {
            const warmer = mid - outM
            const natural =
              cubeRootFast(warmer < 0 ? -warmer : warmer) * (warmer > 0 ? C[s * WIDE + OUT_WARM]! : C[s * WIDE + OUT_COLD]!)
            let film = natural + C[s * WIDE + WIND_FILM]! * rootWind * (windward[k * 6 + sd]! === 1 ? 1 : 0.5)
            let t1 = out1
            let t2 = out2
            if (wet && sd === 4) {
              film = Math.max(film, RAIN_FILM)
              t1 = t2 = wetBulbC[k]!
            }
            const sunA = sunWPerM2[k * 6 + sd]!
            const sunB = sunWPerM2[k * 6 + 6 + sd]!
            const sun2 = last === 1 ? sunB : sunA + last * (sunB - sunA)
            const sun1 = sunA + at1 * (sunB - sunA)
            const lw1 = sd === 4 ? down1 : wall1
            const lw2 = sd === 4 ? down2 : wall2
            const covers = C[s * WIDE + SHADE_COVERS]!
            const snowy = sd === 4 && snowM > 0
            if (covers > 0 || snowy) {
              // A sheet over the roof, or snow on it: one node more, hung on the roof.
              const share = covers > 0 ? covers : 1
              const upM = C[s * WIDE + SHADE_T]! + half * (C[s * WIDE + SHADE_T]! - C[s * WIDE + SHADE_TP]!)
              const upK = upM + KELVIN
              const up = area * share
              const upWarmer = upM - outM
              const upNatural =
                cubeRootFast(upWarmer < 0 ? -upWarmer : upWarmer) *
                (upWarmer > 0 ? C[s * WIDE + OUT_WARM]! : C[s * WIDE + OUT_COLD]!)
              const upFilm = wet ? film : upNatural + C[s * WIDE + WIND_FILM]! * rootWind
              const er = (snowy ? SNOW_EMITTANCE : SHADE_EMITTANCE) * SIGMA * up
              const rad = 4 * er * upK * upK * upK
              const conv = upFilm * up + (covers > 0 ? GAP_FILM * up : 0)
              C[s * WIDE + UP_G] = conv + rad
              const base = rad * upM - er * upK * upK * upK * upK
              const takes = (snowy ? SNOW_ABSORPTANCE : C[s * WIDE + SHADE_ABSORPTANCE]!) * up
              C[s * WIDE + UP_R1] = base + takes * sun1 + conv * t1 + (er / SIGMA) * lw1
              C[s * WIDE + UP_R2] = base + takes * sun2 + conv * t2 + (er / SIGMA) * lw2
              C[s * WIDE + UP_HEAT] = covers > 0 ? C[s * WIDE + SHADE_JPER_K]! : 0
              let link: number
              if (covers > 0) {
                const between = 0.5 * (upM + mid) + KELVIN
                link = (4 * SIGMA * between * between * between * up) / (1 / C[s * WIDE + EMITTANCE]! + 1 / SHADE_EMITTANCE - 1)
              } else link = (area * SNOW_CONDUCTIVITY) / snowM
              C[s * WIDE + UP_LINK] = link
              const pv = C[s * WIDE + UP_HEAT]! / gh + C[s * WIDE + UP_G]! + link
              C[s * WIDE + UP_PIVOT] = pv
              heat0 += link - (link * link) / pv
              const left = 1 - share
              const mk = mid + KELVIN
              const er2 = C[s * WIDE + EMITTANCE]! * SIGMA * area * left
              const rad2 = 4 * er2 * mk * mk * mk
              const conv2 = covers > 0 ? film * C[s * WIDE + OUT_AREA_M2]! : 0
              C[s * WIDE + OUT_G] = conv2 + rad2
              const base2 = rad2 * mid - er2 * mk * mk * mk * mk
              const takes2 = C[s * WIDE + ABSORPTANCE]! * area * left
              C[s * WIDE + OUT_R1] = base2 + takes2 * sun1 + conv2 * t1 + (er2 / SIGMA) * lw1
              C[s * WIDE + OUT_R2] = base2 + takes2 * sun2 + conv2 * t2 + (er2 / SIGMA) * lw2
            } else {
              const mk = mid + KELVIN
              const er = C[s * WIDE + EMITTANCE]! * SIGMA * area
              const cube = er * mk * mk * mk
              const conv = film * C[s * WIDE + OUT_AREA_M2]!
              const base = 4 * cube * mid - cube * mk
              const takes = C[s * WIDE + ABSORPTANCE]! * area
              C[s * WIDE + OUT_G] = conv + 4 * cube
              C[s * WIDE + OUT_R1] = base + takes * sun1 + conv * t1 + (er / SIGMA) * lw1
              C[s * WIDE + OUT_R2] = base + takes * sun2 + conv * t2 + (er / SIGMA) * lw2
            }
          } else if (view === 3) {
            C[s * WIDE + OUT_G] = 0
            C[s * WIDE + OUT_R1] = 0
            C[s * WIDE + OUT_R2] = 0
          } else {
            const g = GAP_FILM * C[s * WIDE + OUT_AREA_M2]!
            C[s * WIDE + OUT_G] = g
            C[s * WIDE + OUT_R1] = g * (view === 1 ? out1 : ground1)
            C[s * WIDE + OUT_R2] = g * (view === 1 ? out2 : ground2)
          }

          // Inside.
          const tn = X[n * DEEP + MIDDLE]!
          let gcs: number
          let grs: number
          if (view === 3) {
            gcs = gearWPerK
            grs = 0
          } else {
            const warmer = tn - aM
            let film =
              cubeRootFast(warmer < 0 ? -warmer : warmer) * (warmer > 0 ? C[s * WIDE + IN_WARM]! : C[s * WIDE + IN_COLD]!)
            if (fanOn && film < STIRRED_FILM) film = STIRRED_FILM
            gcs = film * C[s * WIDE + IN_AREA_M2]!
            const tk = 0.5 * (tn + rM) + KELVIN
            grs = 4 * SIGMA * tk * tk * tk * C[s * WIDE + STAR_M2]!
          }
          const at = (tn - SAT_LOW_C) * SAT_PER_K
          const cell = at | 0
          if (!(at >= 0 && cell < SAT_CELLS)) throw new Fault('air/not-a-number', { hour: hh, node: n, airC: tn })
          const u = at - cell
          const c4 = cell * 4
          const s1 = SATURATION[c4 + 1]!
          const s2 = SATURATION[c4 + 2]!
          const s3 = SATURATION[c4 + 3]!
          const ps = SATURATION[c4]! + u * (s1 + u * (s2 + u * s3))
          const dps = SAT_PER_K * (s1 + u * (2 * s2 + 3 * u * s3))
          const tnK = tn + KELVIN
          const invS = 1 / (VAPOUR * tnK)
          let beta = gcs * perRhoCp
          const film = C[s * WIDE + LIQUID]! + C[s * WIDE + FROST]!
          const over = pvM * invA - ps * invS
          coupled[s] = 0
          let b = 0
          let e = 0
          let c = 0
          C[s * WIDE + LAT] = tn < 0 ? LV + LF : LV
          if (s === floor && hasWood && film <= 0) {
            // Water goes between air and wood through the film and half the top layer; top and rest exchange.
            const resist = (beta > 1e-12 ? C[s * WIDE + AREA_M2]! / (beta * invA) : 1e15) + skinResists
            woodY = floorM2 / resist
            const um1 = u1 + half * (u1 - u1p)
            const um2 = u2 + half * (u2 - u2p)
            let row = (tn - WOOD_LOW_C) / WOOD_STEP_C
            if (row < 0) row = 0
            if (row > WOOD_TEMPERATURES - 1.001) row = WOOD_TEMPERATURES - 1.001
            const ri = row | 0
            const rf = row - ri
            let x = um1 * WOOD_PER_UNIT
            let ci = x < 0 ? 0 : x | 0
            if (ci > WOOD_CONTENTS - 2) ci = WOOD_CONTENTS - 2
            let q = ri * WOOD_CONTENTS + ci
            let left = WOOD_HUMIDITY[q]! + rf * (WOOD_HUMIDITY[q + WOOD_CONTENTS]! - WOOD_HUMIDITY[q]!)
            let right = WOOD_HUMIDITY[q + 1]! + rf * (WOOD_HUMIDITY[q + 1 + WOOD_CONTENTS]! - WOOD_HUMIDITY[q + 1]!)
            const phi1 = left + (x - ci) * (right - left)
            woodS1 = ps * (right - left) * WOOD_PER_UNIT
            woodTau = dps * phi1
            woodAc = ps * phi1 - woodS1 * um1
            woodA1 = woodAc - woodTau * tn
            x = um2 * WOOD_PER_UNIT
            ci = x < 0 ? 0 : x | 0
            if (ci > WOOD_CONTENTS - 2) ci = WOOD_CONTENTS - 2
            q = ri * WOOD_CONTENTS + ci
            left = WOOD_HUMIDITY[q]! + rf * (WOOD_HUMIDITY[q + WOOD_CONTENTS]! - WOOD_HUMIDITY[q]!)
            right = WOOD_HUMIDITY[q + 1]! + rf * (WOOD_HUMIDITY[q + 1 + WOOD_CONTENTS]! - WOOD_HUMIDITY[q + 1]!)
            woodS2 = ps * (right - left) * WOOD_PER_UNIT
            woodA2 = ps * (left + (x - ci) * (right - left)) - woodS2 * um2
            woodD2 = restKg * perGh + between * woodS2
            woodD1 = topKg * perGh + woodY * woodS1 + between * woodS1 - (between * woodS2 * between * woodS1) / woodD2
            woodQ = (woodY * woodS1) / woodD1
            b = woodY * kp * (1 - woodQ)
            e = woodY * woodTau * (1 - woodQ)
            c = 0
            C[s * WIDE + LAT] = LV
            woodC1 = 1
          } else if (couples[s] === 0 ? over > 0 || film > 0 : couples[s] === 1) {
            coupled[s] = 1
            if (over < 0 && film > 0) {
              const could = -over * beta * stepS
              const there = film * area
              if (could > there) beta *= there / could
            }
            b = beta * kp * invA
            e = beta * (dps * invS - (ps * invS) / tnK)
            c = beta * ps * invS - e * tn
          }
          // Water that a step gave off beyond what there was is taken back, with its heat.
          let owed = C[s * WIDE + LIQUID]! < 0 ? (-C[s * WIDE + LIQUID]! * area) / stepS : 0
          C[s * WIDE + SOURCE] = C[s * WIDE + CARRY_J]! * perStep + LV * owed
          if (couples[s] === 3) {
            // All that is there goes.
            owed -= (film * area) / stepS
            C[s * WIDE + SOURCE] = C[s * WIDE + SOURCE]! - (C[s * WIDE + LAT]! * film * area) / stepS
          }
          C[s * WIDE + FORCED] = owed
          let g0 = 0
          const melt = melts[s]!
          if (melt === 0) {
            if (
              C[s * WIDE + FROST]! > 0
                ? C[s * WIDE + LIQUID]! > 0 || (tn > 0 && X[n * DEEP + NOW]! > -0.5)
                : C[s * WIDE + LIQUID]! > 0 && tn < 0 && X[n * DEEP + NOW]! < 0.5
            )
              g0 = MELT_PULL * area
          } else if (melt === 1) g0 = MELT_PULL * area
          else if (melt === 3) C[s * WIDE + SOURCE] = C[s * WIDE + SOURCE]! - (C[s * WIDE + FROST]! * area * LF) / stepS
          else if (melt === 4) C[s * WIDE + SOURCE] = C[s * WIDE + SOURCE]! + (C[s * WIDE + LIQUID]! * area * LF) / stepS
          C[s * WIDE + PULL] = g0
          C[s * WIDE + GC] = gcs
          C[s * WIDE + GR] = grs
          C[s * WIDE + MB] = b
          C[s * WIDE + ME] = e
          C[s * WIDE + MC] = c

          // Chain from outside to inside.
          let piv = heat0 + C[s * WIDE + OUT_G]!
          for (let i = o; i < n; i++) {
            const link = X[i * DEEP + NEXT_W_PER_K]!
            piv += link
            const inverse = 1 / piv
            X[i * DEEP + INVERSE] = inverse
            const rr = link * inverse
            X[i * DEEP + RATIO] = rr
            piv = X[(i + 1) * DEEP + HEAT_J_PER_K]! * perGh + link - link * rr
          }
          const lb = C[s * WIDE + LAT]! * b
          const iD = 1 / (piv + gcs + grs + C[s * WIDE + LAT]! * e + g0)
          C[s * WIDE + INV] = iD
          a11 += gcs - gcs * gcs * iD
          a12 -= gcs * grs * iD
          a13 -= gcs * lb * iD
          a22 += grs - grs * grs * iD
          a23 -= grs * lb * iD
          a31 -= e * gcs * iD
          a32 -= e * grs * iD
          a33 += b - e * lb * iD
        }
        // Factors of the hub: air, star, vapour.
        const per11 = 1 / a11
        const l21 = a12 * per11
        const per22 = 1 / (a22 - l21 * a12)
        const u23 = a23 - l21 * a13
        const l31 = a31 * per11
        const l32 = (a32 - l31 * a12) * per22
        const per33 = 1 / (a33 - l31 * a13 - l32 * u23)
        // What a watt does, to the air and to the gear.
        let byA = 0
        let byR = 0
        let byW = 0
        let byGear = 0
        let setC = 0
        if (controlled) {
          const gG = C[gear * WIDE + GC]! * C[gear * WIDE + INV]!
          const x1 = heatsCabinet ? gG : 1
          const y2 = -l21 * x1
          const y3 = (heatsCabinet ? C[gear * WIDE + ME]! * C[gear * WIDE + INV]! : 0) - l31 * x1 - l32 * y2
          byW = y3 * per33
          byR = (y2 - u23 * byW) * per22
          byA = (x1 - a12 * byR - a13 * byW) * per11
          byGear =
            gG * byA +
            C[gear * WIDE + LAT]! * C[gear * WIDE + MB]! * C[gear * WIDE + INV]! * byW +
            (heatsCabinet ? C[gear * WIDE + INV]! : 0)
          if (byDew) {
            // Dew point of the air by Newton from the last one.
            for (let pass = 0; pass < 3; pass++) {
              let x = (dewC - SAT_LOW_C) * SAT_PER_K
              if (x < 0) x = 0
              if (x > SAT_CELLS - 1) x = SAT_CELLS - 1
              const cell = x | 0
              const u = x - cell
              const c4 = cell * 4
              const ps = SATURATION[c4]! + u * (SATURATION[c4 + 1]! + u * (SATURATION[c4 + 2]! + u * SATURATION[c4 + 3]!))
              const dps = SAT_PER_K * (SATURATION[c4 + 1]! + u * (2 * SATURATION[c4 + 2]! + 3 * u * SATURATION[c4 + 3]!))
              let move = (pvM - ps) / dps
              if (move > 8) move = 8
              if (move < -8) move = -8
              dewC += move
            }
            setC = dewC + dewMargin
          }
        }

        // The two stages.
        const gearHeat = gearHeatW[slot]!
        const airHeatIn = airHeatW[slot]! + (fanSign > 0 ? fanW : 0)
        const starHeat = radiantHeatW[slot]!
        const water = waterKgS[slot]!
        let baseA = a
        let baseW = w
        let baseU1 = u1
        let baseU2 = u2
        let energyIn = 0
        let energyAll = 1
        let wetIn = 0
        let wetAll = 1e-9
        for (let stage = 0; stage < 2; stage++) {
          const second = stage === 1
          const weight = second ? w2 : w1
          const OUT_R = second ? OUT_R2 : OUT_R1
          const UP_R = second ? UP_R2 : UP_R1
          const STAGE = second ? SECOND : FIRST
          const outS = second ? out2 : out1
          const woS = second ? wo2 : wo1
          let A = airHeat * perGh * baseA + flowWPerK * outS + airHeatIn - LV * fogG * fogRest
          let R = starHeat
          let W = dryKg * perGh * baseW + flowKgS * woS + water + fogG * fogRest
          let woodR1 = 0
          let woodR2 = 0
          if (woodC1 === 1) {
            woodR2 = restKg * perGh * baseU2 + between * (woodAc - woodA2)
            woodR1 = topKg * perGh * baseU1 - woodY * woodA1 - between * (woodAc - woodA2) + (between * woodS2 * woodR2) / woodD2
            C[floor * WIDE + MC] = woodY * woodA1 + woodQ * woodR1
          }
          for (let s = 0; s < S; s++) {
            const o = outer[s]!
            const n = inner[s]!
            let rr = C[s * WIDE + OUT_R]!
            if (C[s * WIDE + UP_LINK]! !== 0) {
              const base = second
                ? C[s * WIDE + SHADE_T]! + back * (C[s * WIDE + SHADE_T1]! - C[s * WIDE + SHADE_T]!)
                : C[s * WIDE + SHADE_T]!
              const ur = (C[s * WIDE + UP_HEAT]! / gh) * base + C[s * WIDE + UP_R]!
              C[s * WIDE + UP_RHO] = ur
              rr += (C[s * WIDE + UP_LINK]! / C[s * WIDE + UP_PIVOT]!) * ur
            }
            rr +=
              X[o * DEEP + HEAT_J_PER_K]! *
              perGh *
              (second ? X[o * DEEP + NOW]! + back * (X[o * DEEP + FIRST]! - X[o * DEEP + NOW]!) : X[o * DEEP + NOW]!)
            for (let i = o; i < n; i++) {
              X[i * DEEP + RHS] = rr
              const j = i + 1
              rr =
                X[i * DEEP + RATIO]! * rr +
                X[j * DEEP + HEAT_J_PER_K]! *
                  perGh *
                  (second ? X[j * DEEP + NOW]! + back * (X[j * DEEP + FIRST]! - X[j * DEEP + NOW]!) : X[j * DEEP + NOW]!)
            }
            rr += C[s * WIDE + SOURCE]! - C[s * WIDE + LAT]! * C[s * WIDE + MC]!
            if (s === gear) rr += gearHeat
            C[s * WIDE + RHO] = rr
            const x = rr * C[s * WIDE + INV]!
            A += C[s * WIDE + GC]! * x
            R += C[s * WIDE + GR]! * x
            W += C[s * WIDE + MC]! + C[s * WIDE + ME]! * x - C[s * WIDE + FORCED]!
          }
          const y2 = R - l21 * A
          const y3 = W - l31 * A - l32 * y2
          let wS = y3 * per33
          let rS = (y2 - u23 * wS) * per22
          let aS = (A - a12 * rS - a13 * wS) * per11
          let heatW = 0
          if (controlled) {
            if (holds !== null) {
              heatW = aS < holdFrom ? (holdFrom - aS) / byA : aS > holdTo ? (holdTo - aS) / byA : 0
            } else {
              const gearFree =
                (C[gear * WIDE + RHO]! + C[gear * WIDE + GC]! * aS + C[gear * WIDE + LAT]! * C[gear * WIDE + MB]! * wS) *
                C[gear * WIDE + INV]!
              heatW = (heatsRoom ? heaterSetC - aS : heaterSetC - gearFree) / (heatsRoom ? byA : byGear)
              if (byDew) {
                const more = (setC - gearFree) / byGear
                if (more > heatW) heatW = more
              }
              if (heatW < 0) heatW = 0
              if (heatW > heaterMaxW) heatW = heaterMaxW
            }
            aS += heatW * byA
            rS += heatW * byR
            wS += heatW * byW
            if (heatsCabinet) C[gear * WIDE + RHO] = C[gear * WIDE + RHO]! + heatW
            if (heatW > 0) stepHeatJ += weight * heatW
            else stepCoolJ -= weight * heatW
          }
          // Back into the surfaces, and the books of this stage.
          const fog = fogG * (wS - fogRest - fogSlope * aS)
          const fogW = LV * fog
          fogKg = second ? fogKg + weight * fog : weight * fog
          wetAll += weight * (fog < 0 ? -fog : fog)
          let net = airHeatIn + starHeat + gearHeat + heatW + fogW + flowWPerK * (outS - aS)
          const flowW = flowWPerK * (outS - aS)
          let gross =
            airHeatIn +
            starHeat +
            gearHeat +
            (heatW < 0 ? -heatW : heatW) +
            (flowW < 0 ? -flowW : flowW) +
            (fogW < 0 ? -fogW : fogW)
          for (let s = 0; s < S; s++) {
            const o = outer[s]!
            const n = inner[s]!
            let t =
              (C[s * WIDE + RHO]! +
                C[s * WIDE + GC]! * aS +
                C[s * WIDE + GR]! * rS +
                C[s * WIDE + LAT]! * C[s * WIDE + MB]! * wS) *
              C[s * WIDE + INV]!
            X[n * DEEP + STAGE] = t
            const put = C[s * WIDE + MB]! * wS - C[s * WIDE + ME]! * t - C[s * WIDE + MC]! + C[s * WIDE + FORCED]!
            const thaw = C[s * WIDE + PULL]! * t
            const across = C[s * WIDE + GC]! * (aS - t)
            if (second) {
              C[s * WIDE + SETTLED] = C[s * WIDE + SETTLED]! + weight * put
              C[s * WIDE + MELTED] = C[s * WIDE + MELTED]! + weight * thaw
            } else {
              C[s * WIDE + SETTLED] = weight * put
              C[s * WIDE + MELTED] = weight * thaw
            }
            const heat = C[s * WIDE + LAT]! * (put - C[s * WIDE + FORCED]!) + C[s * WIDE + SOURCE]! - thaw
            net += heat
            gross += (heat < 0 ? -heat : heat) + (across < 0 ? -across : across)
            wetAll += weight * (put < 0 ? -put : put)
            for (let i = n - 1; i >= o; i--) {
              t = X[i * DEEP + RHS]! * X[i * DEEP + INVERSE]! + X[i * DEEP + RATIO]! * t
              X[i * DEEP + STAGE] = t
            }
            let fo = C[s * WIDE + OUT_R]! - C[s * WIDE + OUT_G]! * t
            if (C[s * WIDE + UP_LINK]! !== 0) {
              const up = (C[s * WIDE + UP_RHO]! + C[s * WIDE + UP_LINK]! * t) / C[s * WIDE + UP_PIVOT]!
              const fu = C[s * WIDE + UP_R]! - C[s * WIDE + UP_G]! * up
              if (C[s * WIDE + UP_HEAT] === 0) fo += fu
              else {
                net += fu
                gross += fu < 0 ? -fu : fu
              }
              if (second) C[s * WIDE + SHADE_T2] = up
              else C[s * WIDE + SHADE_T1] = up
            }
            net += fo
            gross += fo < 0 ? -fo : fo
          }
          if (woodC1 === 1) {
            const tf = X[inner[floor]! * DEEP + STAGE]!
            const un1 = (woodR1 + woodY * kp * wS - woodY * woodTau * tf) / woodD1
            const un2 = (woodR2 + between * woodS1 * un1) / woodD2
            if (second) {
              newU2 = un2
              newU1 = un1
            } else {
              baseU1 = u1 + back * (un1 - u1)
              baseU2 = u2 + back * (un2 - u2)
            }
          }
          const moved = flowKgS * (woS - wS)
          energyIn += weight * net
          energyAll += weight * gross
          wetIn += weight * (moved + water)
          wetAll += weight * (flowKgS * (woS + wS) + water)
          stepInKg += weight * (flowKgS * woS + water)
          stepOutKg += weight * flowKgS * wS
          if (second) {
            // Stored heat and water against what came in.
            let stored = airHeat * (aS - a)
            for (let i = 0; i < N; i++) stored += X[i * DEEP + HEAT_J_PER_K]! * (X[i * DEEP + SECOND]! - X[i * DEEP + NOW]!)
            for (let s = 0; s < S; s++)
              if (C[s * WIDE + UP_LINK]! !== 0)
                stored += C[s * WIDE + UP_HEAT]! * (C[s * WIDE + SHADE_T2]! - C[s * WIDE + SHADE_T]!)
            let onFaces = 0
            for (let s = 0; s < S; s++) onFaces += C[s * WIDE + SETTLED]!
            keptKg = dryKg * (wS - w) + onFaces + fogKg
            const missJ = stored - energyIn
            let missKg = keptKg - wetIn
            if (woodC1 === 1) {
              const intoWood =
                topKg * (newU1 - u1) + restKg * (newU2 - u2) - C[floor * WIDE + SETTLED]! + C[floor * WIDE + FORCED]! * stepS
              missKg = (missKg < 0 ? -missKg : missKg) + (intoWood < 0 ? -intoWood : intoWood)
            }
            relJ = (missJ < 0 ? -missJ : missJ) / energyAll
            relKg = (missKg < 0 ? -missKg : missKg) / wetAll
            newA = aS
            newR = rS
            newW = wS
          } else {
            baseA = a + back * (aS - a)
            baseW = w + back * (wS - w)
          }
        }
        if (round === 0) {
          // How far the middle came out from where the last two states pointed: the air's, and that of what the air touches, by film and area.
          let pulls = 0
          for (let s = 0; s < S; s++) {
            const i = inner[s]! * DEEP
            const off = 0.5 * (X[i + NOW]! + X[i + SECOND]!) - X[i + MIDDLE]!
            missK += C[s * WIDE + GC]! * (off < 0 ? -off : off)
            pulls += C[s * WIDE + GC]!
          }
          missK /= pulls
          const off = Math.abs(0.5 * (a + newA) - midA)
          if (off > missK) missK = off
          if (parts === 1 && missK > SPLIT_K) break
        }
        // What the round took for granted of dew, drying and melting, against what came out.
        let again = false
        if (round < ROUNDS - 1) {
          if (fogG > 0) {
            if (fogKg < 0 && fogs === 0) {
              fogs = 2
              again = true
            }
          } else if (fogs === 0) {
            let x = (newA - SAT_LOW_C) * SAT_PER_K
            if (x < 0) x = 0
            if (x > SAT_CELLS - 1) x = SAT_CELLS - 1
            const cell = x | 0
            const u = x - cell
            const c4 = cell * 4
            const full =
              SATURATION_OVER_WATER[c4]! +
              u * (SATURATION_OVER_WATER[c4 + 1]! + u * (SATURATION_OVER_WATER[c4 + 2]! + u * SATURATION_OVER_WATER[c4 + 3]!))
            if (kp * newW > full) {
              fogs = 1
              again = true
            }
          }
          for (let s = 0; s < S; s++) {
            if (s === floor && woodC1 === 1) continue
            const film = C[s * WIDE + LIQUID]! + C[s * WIDE + FROST]!
            const t = X[inner[s]! * DEEP + SECOND]!
            if (film <= 0) {
              if (coupled[s] === 1) {
                if (C[s * WIDE + SETTLED]! < 0 && couples[s] === 0) {
                  couples[s] = 2
                  again = true
                }
              } else if (couples[s] === 0) {
                const x = (t - SAT_LOW_C) * SAT_PER_K
                const cell = x | 0
                if (x >= 0 && cell < SAT_CELLS) {
                  const u = x - cell
                  const c4 = cell * 4
                  const ps = SATURATION[c4]! + u * (SATURATION[c4 + 1]! + u * (SATURATION[c4 + 2]! + u * SATURATION[c4 + 3]!))
                  if (kp * newW * invA > ps / (VAPOUR * (t + KELVIN))) {
                    couples[s] = 1
                    again = true
                  }
                }
              }
              continue
            }
            const area = C[s * WIDE + AREA_M2]!
            const left = film * area + C[s * WIDE + SETTLED]! - C[s * WIDE + FORCED]! * stepS
            if (coupled[s] === 1 && left < 0 && couples[s] === 0) {
              couples[s] = 3
              again = true
            }
            const thawed = C[s * WIDE + MELTED]! / LF
            if (C[s * WIDE + PULL]! > 0) {
              if (thawed > C[s * WIDE + FROST]! * area) {
                melts[s] = C[s * WIDE + FROST]! > 0 ? 3 : 2
                again = true
              } else if (-thawed > C[s * WIDE + LIQUID]! * area) {
                melts[s] = C[s * WIDE + LIQUID]! > 0 ? 4 : 2
                again = true
              }
            } else if (melts[s] === 0 && ((C[s * WIDE + FROST]! > 0 && t > 0) || (C[s * WIDE + LIQUID]! > 0 && t < 0))) {
              melts[s] = 1
              again = true
            }
          }
        }
        if (!again) break
        midA = 0.5 * (a + newA)
        midR = 0.5 * (r + newR)
        midW = 0.5 * (w + newW)
        for (let i = 0; i < N; i++) X[i * DEEP + MIDDLE] = 0.5 * (X[i * DEEP + NOW]! + X[i * DEEP + SECOND]!)
      }
      if (parts === 1 && missK > SPLIT_K) {
        parts = SPLIT_PARTS
        fanOn = fanWas
        continue
      }
      part++
      beforeS = stepS
      if (!(relJ <= worstEnergy)) worstEnergy = relJ
      if (!(relKg <= worstWater)) worstWater = relKg
      if (seen) {
        waterStored += keptKg
        waterIn += stepInKg
        waterOut += stepOutKg
        heaterJ += stepHeatJ
        coolerJ += stepCoolJ
      }
      dryKgBefore = dryKg
      ap = a
      a = newA
      rp = r
      r = newR
      wp = w
      w = newW
      for (let s = 0; s < S; s++)
        if (C[s * WIDE + UP_LINK]! !== 0) {
          C[s * WIDE + SHADE_TP] = C[s * WIDE + SHADE_T]!
          C[s * WIDE + SHADE_T] = C[s * WIDE + SHADE_T2]!
        }
      for (let i = 0; i < N; i++) {
        X[i * DEEP + BEFORE] = X[i * DEEP + NOW]!
        X[i * DEEP + NOW] = X[i * DEEP + SECOND]!
      }

      // Films: what settled, melted, fell.
      u1p = u1
      u2p = u2
      if (woodC1 === 1) {
        // The floor's exchange went into its wood.
        u1 = newU1
        u2 = newU2
      } else if (hasWood) {
        // Under water that lies on it the top goes on giving to the rest.
        const tf = X[inner[floor]! * DEEP + NOW]!
        let x = (tf - SAT_LOW_C) * SAT_PER_K
        if (x < 0) x = 0
        if (x > SAT_CELLS - 1) x = SAT_CELLS - 1
        const cell = x | 0
        const u = x - cell
        const c4 = cell * 4
        const ps = SATURATION[c4]! + u * (SATURATION[c4 + 1]! + u * (SATURATION[c4 + 2]! + u * SATURATION[c4 + 3]!))
        let row = (tf - WOOD_LOW_C) / WOOD_STEP_C
        if (row < 0) row = 0
        if (row > WOOD_TEMPERATURES - 1.001) row = WOOD_TEMPERATURES - 1.001
        const ri = row | 0
        const rf = row - ri
        let deep = 0
        for (let layer = 0; layer < 2; layer++) {
          const at = (layer === 0 ? u1 : u2) * WOOD_PER_UNIT
          let ci = at < 0 ? 0 : at | 0
          if (ci > WOOD_CONTENTS - 2) ci = WOOD_CONTENTS - 2
          const q = ri * WOOD_CONTENTS + ci
          const left = WOOD_HUMIDITY[q]! + rf * (WOOD_HUMIDITY[q + WOOD_CONTENTS]! - WOOD_HUMIDITY[q]!)
          const right = WOOD_HUMIDITY[q + 1]! + rf * (WOOD_HUMIDITY[q + 1 + WOOD_CONTENTS]! - WOOD_HUMIDITY[q + 1]!)
          const phi = left + (at - ci) * (right - left)
          deep += layer === 0 ? phi : -phi
        }
        deep *= between * ps * stepS
        u1 -= deep / topKg
        u2 += deep / restKg
      }
      for (let s = 0; s < S; s++) {
        C[s * WIDE + CARRY_J] = 0
        if (s === floor && woodC1 === 1) {
          C[s * WIDE + LIQUID] = C[s * WIDE + LIQUID]! + (C[s * WIDE + FORCED]! * stepS) / C[s * WIDE + AREA_M2]!
          continue
        }
        const put = C[s * WIDE + SETTLED]!
        const area = C[s * WIDE + AREA_M2]!
        if (put === 0 && C[s * WIDE + LIQUID] === 0 && C[s * WIDE + FROST] === 0) continue
        const owed = C[s * WIDE + FORCED]! * stepS
        let f = C[s * WIDE + FROST]! * area
        let q = C[s * WIDE + LIQUID]! * area + owed
        if (C[s * WIDE + LAT]! > LV) f += put - owed
        else q += put - owed
        const melt =
          melts[s] === 3 && C[s * WIDE + PULL] === 0
            ? C[s * WIDE + FROST]! * area
            : melts[s] === 4 && C[s * WIDE + PULL] === 0
              ? -C[s * WIDE + LIQUID]! * area
              : C[s * WIDE + MELTED]! / LF
        f -= melt
        q += melt
        let heat = 0
        if (f < 0) {
          heat -= f * LF
          q += f
          f = 0
        }
        if (q < 0 && f > 0) {
          const x = Math.min(-q, f)
          f -= x
          q += x
          heat -= x * LF
        }
        const n = inner[s]!
        const cap = X[n * DEEP + HEAT_J_PER_K]!
        if (C[s * WIDE + PULL] === 0) {
          // Crossed freezing within the step: the heat beyond 0 °C goes into the change.
          if (f > 0 && X[n * DEEP + NOW]! > 0) {
            const can = (X[n * DEEP + NOW]! * cap) / LF
            const x = Math.min(can, f)
            X[n * DEEP + NOW] = X[n * DEEP + NOW]! - (x * LF) / cap
            f -= x
            q += x
          } else if (q > 0 && X[n * DEEP + NOW]! < 0) {
            const can = (-X[n * DEEP + NOW]! * cap) / LF
            const x = Math.min(can, q)
            X[n * DEEP + NOW] = X[n * DEEP + NOW]! + (x * LF) / cap
            q -= x
            f += x
          }
        }
        if (q > 0 && q + f > C[s * WIDE + HOLDS_KG_PER_M2]! * area) {
          let drop = q + f - C[s * WIDE + HOLDS_KG_PER_M2]! * area
          if (drop > q) drop = q
          q -= drop
          const sd = side[s]!
          if (sd >= 0) {
            if (seen) {
              fell[sd] = fell[sd]! + drop
              if (sd === 4) onGearKg += drop * onGearFrac
            }
            C[floor * WIDE + LIQUID] = C[floor * WIDE + LIQUID]! + drop / floorM2
          }
        }
        // Less than a microgram is none.
        C[s * WIDE + FROST] = f / area
        C[s * WIDE + LIQUID] = q / area
        C[s * WIDE + CARRY_J] = heat
      }
      // What left the air as fog lies on the floor; on a floor below freezing as frost, whose heat goes into the next step.
      if (fogKg !== 0) {
        if (fogKg > 0 && X[inner[floor]! * DEEP + NOW]! < 0) {
          C[floor * WIDE + FROST] = C[floor * WIDE + FROST]! + fogKg / floorM2
          C[floor * WIDE + CARRY_J] = C[floor * WIDE + CARRY_J]! + fogKg * LF
        } else C[floor * WIDE + LIQUID] = C[floor * WIDE + LIQUID]! + fogKg / floorM2
      }
      if (hasWood && C[floor * WIDE + LIQUID]! > 0 && u1 < FIBRE_FULL) {
        let soak = (C[floor * WIDE + LIQUID]! * floorM2 * stepS) / (SOAK_S * model.floor.paintedRatio)
        const there = C[floor * WIDE + LIQUID]! * floorM2
        if (soak > there || there < 1e-6) soak = there
        const room = (FIBRE_FULL - u1) * topKg
        if (soak > room) soak = room
        C[floor * WIDE + LIQUID] = C[floor * WIDE + LIQUID]! - soak / floorM2
        u1 += soak / topKg
      }

      if (seen) {
        gearJ += gearHeatW[slot]! * stepS
        fanJ += fanW * stepS
        inflowKg += flowKgS * stepS
      }
    }
    if (seen) {
      if ((k + 1) % stepsPerHour === 0) {
        let check = a + w + r
        for (let i = 0; i < N; i++) check += X[i * DEEP + NOW]!
        if (!(check - check === 0)) {
          let node = 0
          while (node < N - 1 && X[node * DEEP + NOW]! - X[node * DEEP + NOW]! === 0) node++
          throw new Fault('air/not-a-number', { hour: hh, node })
        }
        // Air through wide vents in deep cold may end a step a hair below no water at all.
        const pv = Math.max(LEAST_PA, (pressurePa[k + 1]! * w) / (MOLAR + w))
        series.airC[hh] = a
        series.vapourPa[hh] = pv
        let x = (a - SAT_LOW_C) * SAT_PER_K
        if (x < 0) x = 0
        if (x > SAT_CELLS - 1) x = SAT_CELLS - 1
        const cell = x | 0
        const u = x - cell
        const c4 = cell * 4
        series.relativeFrac[hh] =
          pv / (SATURATION[c4]! + u * (SATURATION[c4 + 1]! + u * (SATURATION[c4 + 2]! + u * SATURATION[c4 + 3]!)))
        series.gearC[hh] = X[gearInner * DEEP + NOW]!
        series.gearFilmKgPerM2[hh] = film0(C[gear * WIDE + LIQUID]! + C[gear * WIDE + FROST]!)
        series.floorWaterKg[hh] = film0(C[floor * WIDE + LIQUID]! + C[floor * WIDE + FROST]!) * floorM2 + u1 * topKg + u2 * restKg
        series.floorTopFrac[hh] = u1
        series.floorRestFrac[hh] = u2
        series.inflowKg[hh] = inflowKg
        series.heaterWh[hh] = heaterJ / 3600
        series.coolerWh[hh] = coolerJ / 3600
        series.fanWh[hh] = fanJ / 3600
        series.gearHeatWh[hh] = gearJ / 3600
        series.fellOnGearKg[hh] = onGearKg
        for (let d = 0; d < 6; d++) {
          const s = faceOf[d]!
          const v = bareOf[d]!
          const j = hh * 6 + d
          series.faceC[j] = X[inner[s]! * DEEP + NOW]!
          series.outsideFaceC[j] = X[outer[s]! * DEEP + NOW]!
          series.filmKgPerM2[j] = film0(C[s * WIDE + LIQUID]! + C[s * WIDE + FROST]!)
          series.frostKgPerM2[j] = C[s * WIDE + FROST]!
          series.bareC[j] = X[inner[v]! * DEEP + NOW]!
          series.bareFilmKgPerM2[j] = film0(C[v * WIDE + LIQUID]! + C[v * WIDE + FROST]!)
          series.fellKg[j] = fell[d]!
          fellSum[d] = fellSum[d]! + fell[d]!
          fell[d] = 0
        }
        heaterSum += heaterJ
        coolerSum += coolerJ
        fanSum += fanJ
        heaterJ = 0
        coolerJ = 0
        fanJ = 0
        gearJ = 0
        inflowKg = 0
        onGearKg = 0
      }
    }
  }
  state[AT_U1] = u1
  state[AT_U2] = u2
  state[AT_U1P] = u1p
  state[AT_U2P] = u2p
  state[AT_A] = a
  state[AT_AP] = ap
  state[AT_R] = r
  state[AT_RP] = rp
  state[AT_W] = w
  state[AT_WP] = wp
  state[AT_INSIDE_PA] = insidePa
  state[AT_FAN_ON] = fanOn ? 1 : 0
  state[AT_DRY_KG_BEFORE] = dryKgBefore
  state[AT_DEW_C] = dewC
  state[AT_HEATER_J] = heaterJ
  state[AT_COOLER_J] = coolerJ
  state[AT_FAN_J] = fanJ
  state[AT_GEAR_J] = gearJ
  state[AT_INFLOW_KG] = inflowKg
  state[AT_ON_GEAR_KG] = onGearKg
  state[AT_HEATER_SUM] = heaterSum
  state[AT_COOLER_SUM] = coolerSum
  state[AT_FAN_SUM] = fanSum
  state[AT_WATER_IN] = waterIn
  state[AT_WATER_OUT] = waterOut
  state[AT_WATER_STORED] = waterStored
  state[AT_WORST_ENERGY] = worstEnergy
  state[AT_WORST_WATER] = worstWater
  state[AT_BEFORE_S] = beforeS
  state[AT_BALANCES] = balances
  state[AT_PASSES] = passes
}

const film0 = (kgPerM2: number): number => Math.max(kgPerM2, 0)
