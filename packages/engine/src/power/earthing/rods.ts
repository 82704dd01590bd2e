import { Fault, log } from '../../kernel/index.ts'
import type { Table } from '../../rules/index.ts'

export interface Rod {
  readonly soilOhmM: number
  /** In soil. > diameter */
  readonly lengthM: number
  readonly diameterM: number
}

/**
 * Resistance of one vertical rod in even soil.
 *
 *   R = ρ/(2πL) · (ln(8L/d) − 1)
 *
 * @throws Fault `earthing/rod-range`
 * @source BS 7430:2011, 9.5.3; Dwight 1936. Provenance: read (as used in a published earthing report)
 */
export function rodOhm(rod: Rod): number {
  const { soilOhmM, lengthM, diameterM } = rod
  if (!(soilOhmM > 0 && lengthM > 0 && diameterM > 0 && lengthM > diameterM)) throw new Fault('earthing/rod-range', rod)
  return (soilOhmM / (2 * Math.PI * lengthM)) * (log((8 * lengthM) / diameterM) - 1)
}

/**
 * Two rods joined, farther apart than they are long.
 *
 *   R = ρ/(4πL)·(ln(4L/a) − 1) + ρ/(4πs)·(1 − L²/(3s²) + 2L⁴/(5s⁴)),   a radius
 *
 * s > L. @throws Fault `earthing/rod-range`
 * @source Dwight 1936, as in IEEE 142 Table 4-5. Provenance: memory
 */
export function twoRodsOhm(rod: Rod & { readonly spacingM: number }): number {
  const { soilOhmM, lengthM: l, diameterM, spacingM: s } = rod
  if (!(soilOhmM > 0 && l > diameterM && diameterM > 0 && s > l)) throw new Fault('earthing/rod-range', rod)
  const own = (soilOhmM / (4 * Math.PI * l)) * (log((8 * l) / diameterM) - 1)
  const q = (l * l) / (s * s)
  return own + (soilOhmM / (4 * Math.PI * s)) * (1 - q / 3 + (2 * q * q) / 5)
}

/** Rows of a printed table, as `rules.tables` carries them. */
export type Rows = Table['rows']

/**
 * Several rods one length apart: R = R1·F/n. F between printed counts by straight line. 1–24 rods.
 * @throws Fault `earthing/rod-count`
 * @source IEEE 142 (Green Book) Table 4-5, table `rod-multiple`. Provenance: memory
 */
export function rodsByFactorOhm(oneOhm: number, count: number, factors: Rows): number {
  return (oneOhm * rodFactorRatio(count, factors)) / count
}

/** F of a count of rods. @throws Fault `earthing/rod-count` outside the table */
export function rodFactorRatio(count: number, factors: Rows): number {
  if (!(Number.isInteger(count) && count >= 1)) throw new Fault('earthing/rod-count', count)
  let n0 = 1
  let f0 = 1
  for (const row of [ALONE, ...factors]) {
    const n1 = Number(row[0])
    const f1 = Number(row[1])
    if (count === n1) return f1
    if (count < n1) return f0 + ((f1 - f0) * (count - n0)) / (n1 - n0)
    n0 = n1
    f0 = f1
  }
  throw new Fault('earthing/rod-count', count)
}

export interface RodGroup {
  readonly oneOhm: number
  readonly soilOhmM: number
  readonly spacingM: number
  /** Rods in line, or along one side of a hollow square. 2–10 */
  readonly count: number
  readonly shape: 'line' | 'hollow square'
}

/**
 * Rods in line or in a hollow square.
 *
 *   R = R1·(1 + λ·a)/N,   a = ρ/(2π·R1·s),   N = n in line, 4(n − 1) in a square
 *
 * Above 0.5 or so a strains the formula: the rods stand closer than they are long.
 * @throws Fault `earthing/rod-count`
 * @source BS 7430, 9.5.4–9.5.8, table `rod-lambda` (n, λ in line, λ hollow square). Provenance: memory
 */
export function rodsByLambda(
  group: RodGroup,
  lambdas: Rows,
): { readonly aRatio: number; readonly lambdaRatio: number; readonly rods: number; readonly ohm: number } {
  const row = lambdas.find(([n]) => n === group.count)
  if (row === undefined) throw new Fault('earthing/rod-count', group)
  const lambdaRatio = Number(group.shape === 'line' ? row[1] : row[2])
  const rods = group.shape === 'line' ? group.count : 4 * (group.count - 1)
  const aRatio = coverRatio(group)
  return { aRatio, lambdaRatio, rods, ohm: (group.oneOhm * (1 + lambdaRatio * aRatio)) / rods }
}

/** a = ρ/(2π·R1·s): how much one rod lifts the soil at the next. */
export function coverRatio(group: { readonly oneOhm: number; readonly soilOhmM: number; readonly spacingM: number }): number {
  if (!(group.oneOhm > 0 && group.soilOhmM > 0 && group.spacingM > 0)) throw new Fault('earthing/rod-range', group)
  return group.soilOhmM / (2 * Math.PI * group.oneOhm * group.spacingM)
}

/** Vertical electrode by a shape factor: R = ρ·K/L, K in the units of the table it came from. @source UFC 3-570-02N. Provenance: read */
export function shapeFactorOhm(task: { readonly soil: number; readonly shape: number; readonly length: number }): number {
  if (!(task.soil > 0 && task.shape > 0 && task.length > 0)) throw new Fault('earthing/rod-range', task)
  return (task.soil * task.shape) / task.length
}

const ALONE = [1, 1] as const
