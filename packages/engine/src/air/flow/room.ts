import { Fault } from '../../kernel/index.ts'
import { balanceByHalvingPa, flowPaths } from './balance.ts'
import { type FanCurve, fanCoefficientM3s, fanDrivePa } from './fan.ts'
import { columnPa } from './leakage.ts'
import { windPa } from './wind-pressure.ts'

/** One way for air through the shell, as a hand check sees it. */
export interface RoomOpening {
  readonly id: string
  readonly areaM2: number
  readonly dischargeRatio: number
  /** Its middle over the floor. */
  readonly heightM: number
  /** Wind pressure there, as a share of ½ρV². */
  readonly windPressureRatio: number
}

/** A room in the wind, once. Cracks: flow at 1 Pa of each and exponent. */
export interface RoomInWind {
  readonly openings: readonly RoomOpening[]
  readonly cracks: readonly { readonly at1PaM3s: number; readonly heightM: number; readonly windPressureRatio: number }[]
  readonly exponentRatio: number
  readonly fan:
    | (FanCurve & {
        readonly speedFrac: number
        readonly blows: 'out' | 'in'
        readonly heightM: number
        readonly windPressureRatio: number
      })
    | null
  readonly windMPerS: number
  readonly outsideKgPerM3: number
  readonly insideKgPerM3: number
}

/** What goes in (positive) and out by each, m³/s of the air that passes. */
export interface RoomFlow {
  readonly insidePa: number
  readonly openingsM3s: readonly { readonly id: string; readonly flowM3s: number }[]
  readonly cracksM3s: readonly number[]
  readonly fanM3s: number
  /** Outside air that comes in by all ways together. */
  readonly freshM3s: number
}

/**
 * Warmth, wind and fan together through any number of openings by one inside pressure: the sure road, for workings and hand checks. The hours keep a
 * workspace of their own and go the fast road over the same laws.
 * @throws Fault `air/room-flow-range`
 * @source balance of mass, ASHRAE Fundamentals ch. 16. Provenance: memory
 */
export function roomFlow(of: RoomInWind): RoomFlow {
  const { openings, cracks, fan, windMPerS, outsideKgPerM3: out, insideKgPerM3: into } = of
  if (!(windMPerS >= 0 && out > 0 && into > 0 && openings.length + cracks.length + (fan === null ? 0 : 1) > 0))
    throw new Fault('air/room-flow-range', of)
  const holes = openings.length + (fan === null ? 0 : 1)
  const paths = flowPaths(holes, cracks.length, of.exponentRatio)
  const set = (
    i: number,
    at: { readonly heightM: number; readonly windPressureRatio: number },
    inKgS: number,
    outKgS: number,
  ) => {
    paths.drivePa[i] = windPa(at.windPressureRatio, out, windMPerS) - columnPa(out, into, at.heightM)
    paths.inKgS[i] = inKgS
    paths.outKgS[i] = outKgS
  }
  for (const [i, one] of openings.entries()) {
    const size = one.dischargeRatio * one.areaM2
    set(i, one, size * Math.sqrt(2 * out), size * Math.sqrt(2 * into))
  }
  if (fan !== null) {
    const size = fanCoefficientM3s(fan)
    set(openings.length, fan, size * out, size * into)
    paths.drivePa[openings.length]! += fanDrivePa(fan.shutPa, fan.speedFrac, fan.blows)
  }
  for (const [i, one] of cracks.entries()) set(holes + i, one, one.at1PaM3s * out, one.at1PaM3s * into)
  const insidePa = balanceByHalvingPa(paths)
  const volume = (i: number) => paths.flowKgS[i]! / (paths.flowKgS[i]! > 0 ? out : into)
  const all = Array.from(paths.flowKgS, (_, i) => volume(i))
  return {
    insidePa,
    openingsM3s: openings.map(({ id }, i) => ({ id, flowM3s: all[i]! })),
    cracksM3s: cracks.map((_, i) => all[holes + i]!),
    fanM3s: fan === null ? 0 : all[openings.length]!,
    freshM3s: all.reduce((sum, one) => sum + Math.max(one, 0), 0),
  }
}
