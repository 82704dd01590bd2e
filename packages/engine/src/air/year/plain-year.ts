import { SIDES } from '../../job/index.ts'
import { saturationOverLiquidPa, saturationPa, vapourKgPerM3 } from '../../weather/index.ts'
import { balanceByHalvingPa, flowPaths } from '../flow/index.ts'
import {
  insideFilmWPerM2K,
  naturalFilmWPerM2K,
  radiantWPerM2K,
  STEFAN_W_PER_M2K4,
  starAreaM2,
  windFilmWPerM2K,
} from '../surface/index.ts'
import { FUSION_J_PER_KG, massFilmMPerS, SUBLIMATION_J_PER_KG, VAPORISATION_J_PER_KG, woodHumidityFrac } from '../water/index.ts'
import { type Surroundings, windRatio } from './surroundings.ts'
import type { BoxFace, BoxModel } from './types.ts'

/**
 * The second road to a box's hours, for tests: the same equations as `yearOf`, written plainly with the exported formulas and taken explicitly in steps
 * of a few seconds (Heun). No extrapolation, no linearised radiation, no elimination, no pull toward 0 °C: a face that melts stands at 0. Knows faces with
 * layers and bare parts, openings, cracks, door, gear, heat and water set free, and the floor's wood; neither fan, heater, snow, rain nor second roof.
 */

const K = 273.15
interface Wall {
  readonly face: BoxFace
  readonly side: number
  readonly areaM2: number
  readonly sheetM2: number
  readonly innerM2: number
  readonly whole: number
  readonly star: number
  readonly heats: number[]
  readonly links: number[]
  t: number[]
  water: number
  frost: number
}

export interface PlainHours {
  readonly airC: Float64Array
  readonly vapourPa: Float64Array
  readonly gearC: Float64Array
  readonly faceC: Float64Array
  readonly filmKgPerM2: Float64Array
  readonly bareC: Float64Array
  readonly floorTopFrac: Float64Array
}

/** `from`: hour of the surroundings at which it begins, with everything at `startC` and the floor's wood at `startWood`. */
export function plainHours(
  model: BoxModel,
  sur: Surroundings,
  start: { readonly airC: number; readonly vapourPa: number; readonly woodFrac: number },
  stepS: number,
): PlainHours {
  const walls: Wall[] = []
  const emittances: number[] = []
  const add = (face: BoxFace, side: number, areaM2: number, layers: BoxFace['layers'], emittance: number) => {
    const heats = [0]
    const links: number[] = []
    layers.forEach((layer, n) => {
      const heat = layer.heatJPerM2K * areaM2 * (n === 0 ? face.developedRatio : 1)
      if (layer.resistanceM2KPerW < 1e-3) {
        heats[heats.length - 1]! += heat
        return
      }
      for (let p = 0; p < layer.nodesCount; p++) {
        heats[heats.length - 1]! += heat / layer.nodesCount / 2
        links.push((areaM2 * layer.nodesCount) / layer.resistanceM2KPerW)
        heats.push(heat / layer.nodesCount / 2)
      }
    })
    emittances.push(emittance)
    walls.push({
      face,
      side,
      areaM2,
      sheetM2: areaM2 * face.developedRatio,
      innerM2: areaM2 * (links.length === 0 ? face.developedRatio : 1),
      whole: face.areaM2,
      star: 0,
      heats,
      links,
      t: heats.map(() => start.airC),
      water: 0,
      frost: 0,
    })
  }
  model.faces.forEach((face, side) => {
    add(face, side, face.areaM2 * (1 - face.bareFrac), face.layers, face.insideEmittanceFrac)
    if (face.bareFrac > 0) add(face, side, face.areaM2 * face.bareFrac, face.layers.slice(0, 1), 0.9)
  })
  const all = walls.reduce((sum, one) => sum + one.areaM2, 0)
  const stars = walls.map((one, i) => starAreaM2(one.areaM2, all, emittances[i]!))
  const floor = walls.findIndex((one) => one.side === 5)
  const floorM2 = walls[floor]!.areaM2
  const hc = sur.hoursCount
  const out = {
    airC: new Float64Array(hc),
    vapourPa: new Float64Array(hc),
    gearC: new Float64Array(hc),
    faceC: new Float64Array(hc * 6),
    filmKgPerM2: new Float64Array(hc * 6),
    bareC: new Float64Array(hc * 6),
    floorTopFrac: new Float64Array(hc),
  }
  const p0 = sur.pressurePa[0]!
  let air = start.airC
  let gear = start.airC
  let gearWater = 0
  let gearFrost = 0
  let w = (0.621945 * start.vapourPa) / (p0 - start.vapourPa)
  let u1 = start.woodFrac
  let u2 = start.woodFrac
  const { floor: wood } = model
  const topFrac = wood.topM / wood.thicknessM
  const topKg = wood.dryKgPerM2 * topFrac * floorM2
  const restKg = wood.dryKgPerM2 * (1 - topFrac) * floorM2
  const holes = model.openings.length
  const paths = flowPaths(holes, 8, model.leakExponent)
  const wallM2 = model.faces.slice(0, 4).reduce((sum, f) => sum + f.areaM2 * (1 - f.bareFrac), 0)
  const winds = walls.map((one) => windRatio(model, one.face.middleM))
  const perStepCount = Math.round(3600 / sur.stepsPerHour / stepS)

  const flowAt = (k: number, hour: number, month: number, f: number) => {
    const outC = sur.airC[k]! + f * (sur.airC[k + 1]! - sur.airC[k]!)
    const pa = 0.5 * (sur.pressurePa[k]! + sur.pressurePa[k + 1]!)
    const wo = sur.waterRatio[k]! + f * (sur.waterRatio[k + 1]! - sur.waterRatio[k]!)
    const pin = (pa * w) / (0.621945 + w)
    const pout = (pa * wo) / (0.621945 + wo)
    const rhoIn = (pa - 0.378 * pin) / (287.042 * (air + K))
    const rhoOut = (pa - 0.378 * pout) / (287.042 * (outC + K))
    const wintry = model.winterMonths.includes(month)
    const stir = Math.sqrt((9.80665 * Math.abs(air - outC)) / ((air + outC) / 2 + K))
    let extra = 0
    for (let i = 0; i < holes + 8; i++) {
      const crack = i - holes
      const side = crack < 0 ? SIDES.indexOf(model.openings[i]!.side) : crack >> 1
      const z = crack < 0 ? model.openings[i]!.heightM : (crack & 1) === 0 ? 0.1 * model.insideHeightM : 0.9 * model.insideHeightM
      paths.drivePa[i] = sur.windPa[k * 6 + side]! - (rhoOut - rhoIn) * 9.80665 * z
      if (crack < 0) {
        const o = model.openings[i]!
        const c = o.areaM2 * o.dischargeRatio * (wintry ? o.winterFrac : 1)
        paths.inKgS[i] = c * Math.sqrt(2 * rhoOut)
        paths.outKgS[i] = c * Math.sqrt(2 * rhoIn)
      } else {
        const f = model.faces[side]!
        const c = (0.5 * model.leakM3SAt1Pa * f.areaM2 * (1 - f.bareFrac)) / wallM2
        paths.inKgS[i] = c * rhoOut
        paths.outKgS[i] = c * rhoIn
      }
    }
    balanceByHalvingPa(paths)
    let inward = 0
    for (let i = 0; i < holes + 8; i++) {
      const flow = paths.flowKgS[i]!
      if (flow > 0) inward += flow
      if (i < holes) {
        const o = model.openings[i]!
        const c = o.areaM2 * o.dischargeRatio
        const both =
          rhoOut *
          c *
          (wintry ? o.winterFrac : 1) *
          ((stir * Math.sqrt(Math.sqrt(c))) / 3 + 0.025 * sur.windMPerS[k]! * sur.boxWindRatio)
        extra += Math.max(0, both - Math.abs(flow))
      }
    }
    extra +=
      (rhoOut *
        model.doorOpenS[hour]! *
        (((0.5 * model.doorAreaM2) / 3) * Math.sqrt(model.doorHeightM) * stir +
          0.025 * model.doorAreaM2 * sur.windMPerS[k]! * sur.boxWindRatio)) /
      3600
    const dryKg = (model.volumeM3 * (pa - pin)) / (287.042 * (air + K))
    return { flow: (inward + extra) / (1 + wo), pa, dryKg }
  }

  let dryBefore = -1
  for (let h = 0; h < hc; h++) {
    const slot = sur.month[h]! * 24 + sur.hour[h]!
    for (let j = 0; j < sur.stepsPerHour; j++) {
      const k = h * sur.stepsPerHour + j
      let flow = 0
      let pa = p0
      let dryKg = 1
      for (let n = 0; n < perStepCount; n++) {
        const f = (n + 0.5) / perStepCount
        if (n % 6 === 0) {
          const now = flowAt(k, sur.hour[h]!, sur.month[h]!, f)
          flow = now.flow
          pa = now.pa
          dryKg = now.dryKg
          const breath = dryBefore < 0 ? 0 : Math.max(0, (dryKg - dryBefore) / (6 * stepS))
          dryBefore = dryKg
          flow += breath
        }
        const outC = sur.airC[k]! + f * (sur.airC[k + 1]! - sur.airC[k]!)
        const wo = sur.waterRatio[k]! + f * (sur.waterRatio[k + 1]! - sur.waterRatio[k]!)
        const down = sur.downWPerM2[k]! + f * (sur.downWPerM2[k + 1]! - sur.downWPerM2[k]!)
        const level = sur.wallWPerM2[k]! + f * (sur.wallWPerM2[k + 1]! - sur.wallWPerM2[k]!)
        const wind = sur.windMPerS[k]!

        const rates = (t: readonly number[][], a: number, g: number, ww: number, x1: number, x2: number) => {
          const pv = (pa * ww) / (0.621945 + ww)
          const rho = (pa - 0.378 * pv) / (287.042 * (a + K))
          const cp = 1006 + 1860 * ww
          const vapour = vapourKgPerM3(a, pv)
          // Star: where what all faces send balances, its conductances about the mean of face and star.
          let star = 0
          for (let pass = 0, s = a; pass < 3; pass++, s = star) {
            let up = 0
            let under = 0
            walls.forEach((_, i) => {
              const tn = t[i]!.at(-1)!
              const c = radiantWPerM2K((tn + s) / 2) * stars[i]!
              up += c * tn
              under += c
            })
            star = up / under
          }
          let toAir = flow * (1006 + 1860 * wo) * (outC - a) + model.airHeatW[slot]!
          let toVapour = flow * (wo - ww) + model.waterKgS[slot]!
          let dx1 = 0
          let dx2 = 0
          const puts: number[] = []
          const dts = walls.map((one, i) => {
            const ti = t[i]!
            const d = ti.map(() => 0)
            const n1 = ti.length - 1
            const { face } = one
            if (face.sees === 'sky') {
              const tilt = one.side === 4 ? 1 : 0
              const film =
                naturalFilmWPerM2K(ti[0]! - outC, tilt) +
                windFilmWPerM2K(
                  wind * winds[i]!,
                  face.perimeterM,
                  one.whole,
                  face.roughnessRatio,
                  sur.windward[k * 6 + one.side] === 1 ? 1 : 0.5,
                )
              const tk = ti[0]! + K
              d[0]! +=
                film * one.sheetM2 * (outC - ti[0]!) +
                face.absorptanceFrac *
                  (sur.sunWPerM2[k * 6 + one.side]! +
                    f * (sur.sunWPerM2[k * 6 + 6 + one.side]! - sur.sunWPerM2[k * 6 + one.side]!)) *
                  one.areaM2 +
                face.outsideEmittanceFrac * one.areaM2 * ((one.side === 4 ? down : level) - STEFAN_W_PER_M2K4 * tk * tk * tk * tk)
            } else d[0]! += 6 * one.sheetM2 * (outC - ti[0]!)
            for (let q = 0; q < n1; q++) {
              const q1 = one.links[q]! * (ti[q]! - ti[q + 1]!)
              d[q]! -= q1
              d[q + 1]! += q1
            }
            const tn = ti[n1]!
            const film = insideFilmWPerM2K(tn - a, one.side === 4 ? -1 : one.side === 5 ? 1 : 0, false)
            const heat = film * one.innerM2 * (tn - a)
            toAir += heat
            d[n1]! -= heat
            d[n1]! += radiantWPerM2K((tn + star) / 2) * stars[i]! * (star - tn)
            const mass = massFilmMPerS(film, rho, cp) * one.innerM2
            let put = 0
            let open = false
            if (i === floor && wood.dryKgPerM2 > 0) {
              const ps = saturationPa(tn)
              const p1 = ps * woodHumidityFrac(tn, 100 * x1)
              const p2 = ps * woodHumidityFrac(tn, 100 * x2)
              // Under a puddle too the top goes on giving to the rest.
              const deep = (one.areaM2 * 1.97e-10 * (p1 - p2)) / ((wood.thicknessM / 2) * wood.vapourResistanceRatio)
              open = one.water + one.frost <= 0
              if (open) {
                const resist =
                  one.areaM2 / Math.max(mass / (461.524 * (a + K)), 1e-12) / one.areaM2 +
                  ((wood.topM / 2) * (wood.vapourResistanceRatio / 1.97e-10) * wood.paintedRatio) / one.areaM2
                put = (pv - p1) / resist
              }
              dx1 += (put - deep) / topKg
              dx2 += deep / restKg
            }
            if (open) {
              d[n1]! += VAPORISATION_J_PER_KG * put
              puts.push(0)
            } else {
              put = mass * (vapour - vapourKgPerM3(tn, saturationPa(tn)))
              if (put < 0 && one.water + one.frost <= 0) put = 0
              d[n1]! += (tn < 0 ? SUBLIMATION_J_PER_KG : VAPORISATION_J_PER_KG) * put
              puts.push(put)
            }
            toVapour -= put
            return d.map((x, q) => x / one.heats[q]!)
          })
          const gearHeat = model.gear.toAirWPerK * (g - a)
          toAir += gearHeat
          let gearPut = (massFilmMPerS(model.gear.toAirWPerK / model.gear.areaM2, rho, cp) *
            model.gear.areaM2 *
            (vapour - vapourKgPerM3(g, saturationPa(g)))) as number
          if (gearPut < 0 && gearWater + gearFrost <= 0) gearPut = 0
          toVapour -= gearPut
          const dg =
            (model.gearHeatW[slot]! - gearHeat + (g < 0 ? SUBLIMATION_J_PER_KG : VAPORISATION_J_PER_KG) * gearPut) /
            model.gear.heatJPerK
          return { dts, puts, gearPut, dg, da: toAir / (dryKg * cp), dw: toVapour / dryKg, dx1, dx2 }
        }

        const t0 = walls.map((one) => one.t)
        const r1 = rates(t0, air, gear, w, u1, u2)
        const r2 = rates(
          t0.map((ti, i) => ti.map((x, q) => x + stepS * r1.dts[i]![q]!)),
          air + stepS * r1.da,
          gear + stepS * r1.dg,
          Math.max(1e-9, w + stepS * r1.dw),
          u1 + stepS * r1.dx1,
          u2 + stepS * r1.dx2,
        )
        air += (stepS / 2) * (r1.da + r2.da)
        w = Math.max(1e-9, w + (stepS / 2) * (r1.dw + r2.dw))
        // What the air cannot hold over water falls as fog; so much more can it hold by the heat of it.
        const full = saturationOverLiquidPa(air)
        const most = (0.621945 * full) / (pa - full)
        if (w > most) {
          const slope = ((0.621945 * pa) / (pa - full) ** 2) * ((saturationOverLiquidPa(air + 0.01) - full) / 0.01)
          const fog = (w - most) / (1 + (VAPORISATION_J_PER_KG * slope) / (1006 + 1860 * w))
          w -= fog
          air += (VAPORISATION_J_PER_KG * fog) / (1006 + 1860 * w)
          walls[floor]!.water += (fog * dryKg) / floorM2
        }
        u1 += (stepS / 2) * (r1.dx1 + r2.dx1)
        u2 += (stepS / 2) * (r1.dx2 + r2.dx2)
        walls.forEach((one, i) => {
          one.t = one.t.map((x, q) => x + (stepS / 2) * (r1.dts[i]![q]! + r2.dts[i]![q]!))
          const put = ((stepS / 2) * (r1.puts[i]! + r2.puts[i]!)) / one.areaM2
          settle(one, put)
          const n1 = one.t.length - 1
          const per = one.heats[n1]! / one.areaM2
          const tn = one.t[n1]!
          const can = (tn * per) / FUSION_J_PER_KG
          const x = tn > 0 ? Math.min(one.frost, can) : -Math.min(one.water, -can)
          one.frost -= x
          one.water += x
          one.t[n1] = tn - (x * FUSION_J_PER_KG) / per
          const over = one.water + one.frost - one.face.holdsKgPerM2
          if (over > 0 && one.water > 0) {
            const drop = Math.min(over, one.water)
            one.water -= drop
            walls[floor]!.water += (drop * one.areaM2) / floorM2
          }
        })
        gear += (stepS / 2) * (r1.dg + r2.dg)
        const box = { t: [gear], water: gearWater, frost: gearFrost }
        settle(box, ((stepS / 2) * (r1.gearPut + r2.gearPut)) / model.gear.areaM2)
        const per = model.gear.heatJPerK / model.gear.areaM2
        const can = (gear * per) / FUSION_J_PER_KG
        const x = gear > 0 ? Math.min(box.frost, can) : -Math.min(box.water, -can)
        gearFrost = box.frost - x
        gearWater = box.water + x
        gear -= (x * FUSION_J_PER_KG) / per
        const pool = walls[floor]!
        if (wood.dryKgPerM2 > 0 && pool.water > 0 && u1 < 0.3) {
          let soak = Math.min(
            pool.water * floorM2,
            (pool.water * floorM2 * stepS) / (3600 * wood.paintedRatio),
            (0.3 - u1) * topKg,
          )
          if (pool.water * floorM2 < 1e-6) soak = pool.water * floorM2
          pool.water -= soak / floorM2
          u1 += soak / topKg
        }
      }
    }
    out.airC[h] = air
    out.vapourPa[h] = (sur.pressurePa[(h + 1) * sur.stepsPerHour]! * w) / (0.621945 + w)
    out.gearC[h] = gear
    out.floorTopFrac[h] = u1
    walls.forEach((one, i) => {
      const bare = i > 0 && walls[i - 1]!.side === one.side
      const at = h * 6 + one.side
      if (!bare) {
        out.faceC[at] = one.t.at(-1)!
        out.filmKgPerM2[at] = one.water + one.frost
      }
      out.bareC[at] = one.t.at(-1)!
    })
  }
  return out
}

function settle(one: { readonly t: readonly number[]; water: number; frost: number }, put: number): void {
  if (put >= 0) {
    if (one.t.at(-1)! < 0) one.frost += put
    else one.water += put
    return
  }
  const fromFrost = one.t.at(-1)! < 0 ? Math.min(one.frost, -put) : 0
  one.frost -= fromFrost
  const rest = -put - fromFrost
  const fromWater = Math.min(one.water, rest)
  one.water -= fromWater
  one.frost = Math.max(0, one.frost - (rest - fromWater))
}
