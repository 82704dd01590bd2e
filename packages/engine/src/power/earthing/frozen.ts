import { Fault, power } from '../../kernel/index.ts'
import { type Rod, type Rows, rodOhm } from './rods.ts'

/**
 * One rod through a frozen top layer: the part below the frost in thawed soil, the part in the frost in frozen soil, side by side.
 *
 *   1/R = 1/R_below(L − h, ρ thawed) + 1/R_top(h, ρ frozen)
 *
 * Whole in frost when h ≥ L. Conservative: leaves out what the deeper soil lends the upper part.
 * @throws Fault `earthing/rod-range`
 * @source common practice
 */
export function rodInFrostOhm(
  rod: Omit<Rod, 'soilOhmM'> & { readonly thawedOhmM: number; readonly frozenOhmM: number; readonly frostM: number },
): number {
  const { lengthM, diameterM, thawedOhmM, frozenOhmM, frostM } = rod
  if (!(frostM >= 0)) throw new Fault('earthing/rod-range', rod)
  const top = Math.min(frostM, lengthM)
  const below = lengthM - top
  const parts: number[] = []
  // A stub shorter than ten diameters is outside the rod formula: it is left out, which only raises the resistance.
  if (top > 10 * diameterM) parts.push(rodOhm({ soilOhmM: frozenOhmM, lengthM: top, diameterM }))
  if (below > 10 * diameterM) parts.push(rodOhm({ soilOhmM: thawedOhmM, lengthM: below, diameterM }))
  if (parts.length === 0) throw new Fault('earthing/rod-range', rod)
  return 1 / parts.reduce((sum, ohm) => sum + 1 / ohm, 0)
}

/**
 * Resistivity of soil at a temperature over that at 10 °C; between printed points log-linear, outside them the end value. Water down to
 * 0 °C, ice below.
 * @source US Bureau of Standards data in an earth-testing handbook, table `soil-temperature` (°C, Ω·m). Provenance: read
 */
export function soilRatio(soilC: number, table: Rows): number {
  if (Number.isNaN(soilC)) throw new Fault('earthing/soil-range', soilC)
  const points = table
    .filter(([at]) => (soilC < 0 ? !/water/.test(String(at)) : !/ice/.test(String(at))))
    .map(([at, rho]) => [Number.parseFloat(String(at)), Number(rho)] as const)
    .filter(([at]) => (soilC < 0 ? at <= 0 : at >= 0))
    .sort((a, b) => a[0] - b[0])
  const baseOhmM = Number(table.find(([at]) => at === 10)?.[1])
  let [t0, rho0] = points[0]!
  for (const [t1, rho1] of points) {
    if (soilC <= t1) return (t1 === t0 ? rho1 : rho0 * power(rho1 / rho0, (Math.max(soilC, t0) - t0) / (t1 - t0))) / baseOhmM
    t0 = t1
    rho0 = rho1
  }
  return rho0 / baseOhmM
}
