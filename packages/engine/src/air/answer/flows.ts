import { SIDES, type Side } from '../../job/index.ts'
import { exp, log } from '../../kernel/index.ts'
import { type WeatherHours, ZERO_C_K } from '../../weather/index.ts'
import { balancePa, flowPaths, GRAVITY_M_PER_S2 } from '../flow/index.ts'
import type { AirSpell } from '../result.ts'
import { surroundingsOf } from '../year/index.ts'
import type { BoxModel, YearRun } from '../year/types.ts'
import { DAY_H } from './hours.ts'

const FACES = 6
const ROOF = SIDES.indexOf('roof')
const STEPS = 4
const DRY_AIR_J_PER_KGK = 287.042
/** What vapour takes off the weight of air: 1 − 0.622. */
const LIGHTER = 0.378
const RATIO = 0.621945
/** Cracks of each long wall and end lie in two lines, low and high. */
const CRACK_LINES = [0.1, 0.9] as const
const CRACKED: readonly Side[] = SIDES.filter((side) => side !== 'roof' && side !== 'floor')

/**
 * What passes each opening, and the fan under the name `fan`, at the end of each hour of a stretch: in is positive, m³/s of the air that
 * passes. The run itself keeps no flow of a single opening; the same balance of its inside air, the weather and the cracks gives it.
 */
export function openingFlows(of: {
  readonly model: BoxModel
  readonly run: Pick<YearRun, 'series'>
  readonly weather: WeatherHours
  readonly fromH: number
  readonly toH: number
}): AirSpell['openings'] {
  const { model, run, weather, fromH, toH } = of
  const { openings, fan } = model
  const holes = openings.length + (fan === null ? 0 : 1)
  // A record of one hour has no hour beside it to go to.
  if (holes === 0 || toH - fromH < 2) return []
  const sur = surroundingsOf(model, hoursOf(weather, fromH, toH), { stepsPerHour: STEPS })
  const paths = flowPaths(holes, CRACKED.length * CRACK_LINES.length, model.leakExponent)
  const flows = Array.from({ length: holes }, () => [] as number[])
  const wallM2 = model.faces.reduce((sum, f) => sum + (CRACKED.includes(f.side) ? f.areaM2 * (1 - f.bareFrac) : 0), 0)
  let insidePa = 0
  for (let h = fromH; h < toH; h += 1) {
    const step = (h - fromH) * STEPS + STEPS - 1
    const pressurePa = sur.pressurePa[step + 1]!
    const outRatio = sur.waterRatio[step + 1]!
    const airC = run.series.airC[h]!
    const vapourPa = run.series.vapourPa[h]!
    const density = (vapour: number, c: number) => (pressurePa - LIGHTER * vapour) / (DRY_AIR_J_PER_KGK * (c + ZERO_C_K))
    const into = density(vapourPa, airC)
    const out = density((pressurePa * outRatio) / (RATIO + outRatio), sur.airC[step + 1]!)
    const set = (i: number, side: number, heightM: number, inKgS: number, outKgS: number, addedPa = 0) => {
      paths.drivePa[i] = sur.windPa[step * FACES + side]! - (out - into) * GRAVITY_M_PER_S2 * heightM + addedPa
      paths.inKgS[i] = inKgS
      paths.outKgS[i] = outKgS
    }
    const wintry = model.winterMonths.includes(sur.month[h - fromH]!)
    for (const [i, o] of openings.entries()) {
      const size = o.areaM2 * o.dischargeRatio * (wintry ? o.winterFrac : 1)
      set(i, SIDES.indexOf(o.side), o.heightM, size * Math.sqrt(2 * out), size * Math.sqrt(2 * into))
    }
    if (fan !== null) {
      const sun =
        fan.solar === null
          ? 1
          : speedFrac(sur.sunWPerM2[(step + 1) * FACES + ROOF]! / fan.solar.ratedWPerM2, fan.solar.startsAtFrac)
      const insideRatio = (RATIO * vapourPa) / (pressurePa - vapourPa)
      const wanted =
        fan.solar === null
          ? run.series.fanWh[h]! > fan.powerW / 2
          : airC > fan.onAboveC || (fan.drierKgPerKg !== null && outRatio < insideRatio - fan.drierKgPerKg)
      const speed = wanted ? sun : 0
      const size = speed > 0 ? fan.freeFlowM3S / Math.sqrt(fan.shutPressurePa) : 0
      const pushPa = (fan.blows === 'in' ? 1 : -1) * speed * speed * fan.shutPressurePa
      set(openings.length, SIDES.indexOf(fan.side), fan.heightM, size * out, size * into, pushPa)
    }
    for (const [nth, side] of CRACKED.entries()) {
      const face = model.faces.find((f) => f.side === side)
      const share = face === undefined ? 0 : (face.areaM2 * (1 - face.bareFrac)) / wallM2
      const at1Pa = (model.leakM3SAt1Pa * share) / CRACK_LINES.length
      for (const [line, up] of CRACK_LINES.entries())
        set(holes + nth * CRACK_LINES.length + line, SIDES.indexOf(side), up * model.insideHeightM, at1Pa * out, at1Pa * into)
    }
    insidePa = balancePa(paths, insidePa)
    for (let i = 0; i < holes; i += 1) {
      const flow = paths.flowKgS[i]!
      flows[i]!.push(rounded(flow / (flow > 0 ? out : into)))
    }
  }
  return flows.map((flowM3S, i) => ({ id: openings[i]?.id ?? 'fan', flowM3S }))
}

/** Speed of a fan that a panel drives, as the run takes it: cube root of the light's share, none below its start. */
const speedFrac = (light: number, startsAt: number): number => (light < startsAt ? 0 : light < 1 ? exp(log(light) / 3) : 1)

/** A hundredth of a litre a second: finer than any drawing. */
const rounded = (m3s: number): number => Math.round(m3s * 1e5) / 1e5 || 0

/** The hours of a stretch as a record of their own. */
function hoursOf(of: WeatherHours, fromH: number, toH: number): WeatherHours {
  const begins = of.firstHour + fromH
  return {
    ...of,
    ...{
      firstDay: ((of.firstDay - 1 + Math.floor(begins / DAY_H)) % 366) + 1,
      firstHour: begins % DAY_H,
      hoursCount: toH - fromH,
    },
    columns: Object.fromEntries(
      Object.entries(of.columns).map(([name, values]) => [name, values === null ? null : values.slice(fromH, toH)]),
    ) as WeatherHours['columns'],
  }
}
