import { Fault } from '../../kernel/index.ts'

/** How a member is held and loaded, by the names of table `strut-load-cases`. */
export const LOAD_CASES = {
  'simple span, uniform': { moment: 1 / 8, bend: 5 / 384 },
  'simple span, one load at mid-span': { moment: 1 / 4, bend: 1 / 48 },
  'simple span, two equal loads at third points (total)': { moment: 1 / 6, bend: 23 / 1296 },
  'cantilever, uniform': { moment: 1 / 2, bend: 1 / 8 },
  'cantilever, load at tip': { moment: 1, bend: 1 / 3 },
  'both ends fixed, uniform': { moment: 1 / 12, bend: 1 / 384 },
  'two equal spans continuous, uniform, per span': { moment: 1 / 8, bend: (39 + 55 * Math.sqrt(33)) / 65536 },
} as const
export type LoadCase = keyof typeof LOAD_CASES

/**
 * Largest total load by bending: W = f·S/(m·L), m the moment's share of W·L: 1/8 for a uniform load on a simple span.
 * For a cantilever L is the arm. Self-weight is part of W.
 * @throws Fault `fit/beam-range`
 * @source beam theory; W = 8fS/L as the channel load catalogues take it. Provenance: computed
 */
export function mostLoadN(of: {
  readonly spanM: number
  readonly stressPa: number
  readonly sectionM3: number
  readonly case?: LoadCase
}): number {
  const { spanM, stressPa, sectionM3 } = of
  if (!(spanM > 0 && stressPa > 0 && sectionM3 > 0)) throw new Fault('fit/beam-range', of)
  return (stressPa * sectionM3) / (LOAD_CASES[of.case ?? 'simple span, uniform'].moment * spanM)
}

/**
 * Largest deflection: δ = k·W·L³/(E·I), k 5/384 for a uniform load on a simple span.
 * @throws Fault `fit/beam-range`
 * @source beam theory. Provenance: computed
 */
export function deflectionM(of: {
  readonly loadN: number
  readonly spanM: number
  readonly elasticityPa: number
  readonly inertiaM4: number
  readonly case?: LoadCase
}): number {
  const { loadN, spanM, elasticityPa, inertiaM4 } = of
  if (!(loadN >= 0 && spanM > 0 && elasticityPa > 0 && inertiaM4 > 0)) throw new Fault('fit/beam-range', of)
  return (LOAD_CASES[of.case ?? 'simple span, uniform'].bend * loadN * spanM ** 3) / (elasticityPa * inertiaM4)
}

/** Total load at which the deflection is the span over `part`: W = E·I·(L/part)/(k·L³). @throws Fault `fit/beam-range` */
export function loadAtDeflectionN(of: {
  readonly part: number
  readonly spanM: number
  readonly elasticityPa: number
  readonly inertiaM4: number
  readonly case?: LoadCase
}): number {
  if (!(of.part > 0)) throw new Fault('fit/beam-range', of)
  return of.spanM / of.part / deflectionM({ ...of, loadN: 1 })
}

/**
 * Fewest straps on a raceway between two boxes: n = 1 + ⌈(L − 2a)/s⌉ for L > 2a, else one.
 * @throws Fault `fit/strap-range`
 * @source NEC 358.30, 344.30 and their like. The count: computed
 */
export function leastStraps(of: { readonly lengthM: number; readonly fromBoxM: number; readonly everyM: number }): number {
  const { lengthM, fromBoxM, everyM } = of
  if (!(lengthM > 0 && fromBoxM > 0 && everyM > 0 && lengthM < Infinity)) throw new Fault('fit/strap-range', of)
  return lengthM <= 2 * fromBoxM ? 1 : 1 + Math.ceil((lengthM - 2 * fromBoxM) / everyM - 1e-9)
}
