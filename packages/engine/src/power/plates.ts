import { type Complex, cx, Fault, scale } from '../kernel/index.ts'

/**
 * R and X of a magnitude by its X/R.
 *
 *   R = |Z| / √(1 + (X/R)²),   X = R · X/R
 *
 * @throws Fault `power/impedance-range` when |Z| < 0, X/R < 0 or either is not a number
 */
export function withXOverR(magnitude: number, xOverR: number): Complex {
  if (!(magnitude >= 0 && xOverR >= 0)) throw new Fault('power/impedance-range', { magnitude, xOverR })
  if (xOverR === Infinity) return cx(0, magnitude)
  const r = magnitude / Math.sqrt(1 + xOverR * xOverR)
  return cx(r, r * xOverR)
}

export interface TransformerPlate {
  readonly ratedVA: number
  /** Line–line, of the side the impedance is wanted on. */
  readonly voltageV: number
  /** |z| as a share of its own base, tolerance already applied. 0–1 */
  readonly impedanceFrac: number
  readonly xOverRRatio: number
}

/** A maker may miss the printed impedance by a tenth: the highest fault takes nine tenths of it. */
export const LOW_TOLERANCE_FRAC = 0.9
/** And the lowest fault eleven tenths. */
export const HIGH_TOLERANCE_FRAC = 1.1

/**
 * Series impedance of a transformer, per phase (three-phase) or line–line (one phase), on the side of `voltageV`.
 *
 *   |Z| = z · V² / S, split by X/R
 *
 * @throws Fault `power/transformer-range`
 * @source per-unit base; tolerance ±10 %: IEC 60076-1, NEMA ST 20. Provenance: memory
 */
export function transformerZ(plate: TransformerPlate): Complex {
  const { ratedVA, voltageV, impedanceFrac, xOverRRatio } = plate
  if (!(ratedVA > 0 && voltageV > 0 && impedanceFrac > 0)) throw new Fault('power/transformer-range', plate)
  return withXOverR(impedanceFrac * ((voltageV * voltageV) / ratedVA), xOverRRatio)
}

/** The same from its load loss, as plates outside North America give it: R = P·V²/S², X = √(Z² − R²). @throws Fault `power/transformer-range` */
export function transformerZByLoss(plate: {
  readonly ratedVA: number
  readonly voltageV: number
  readonly impedanceFrac: number
  readonly lossW: number
}): Complex {
  const { ratedVA, voltageV, impedanceFrac, lossW } = plate
  const z = (impedanceFrac * voltageV * voltageV) / ratedVA
  const r = (lossW * voltageV * voltageV) / (ratedVA * ratedVA)
  if (!(ratedVA > 0 && voltageV > 0 && r >= 0 && r <= z)) throw new Fault('power/transformer-range', plate)
  return cx(r, Math.sqrt(z * z - r * r))
}

/** Rated current: S/(√3·V) three-phase, S/V one phase. @throws Fault `power/transformer-range` */
export function ratedCurrentA(rated: { readonly ratedVA: number; readonly voltageV: number; readonly phases: 1 | 3 }): number {
  if (!(rated.ratedVA > 0 && rated.voltageV > 0)) throw new Fault('power/transformer-range', rated)
  return rated.ratedVA / (rated.voltageV * (rated.phases === 3 ? Math.sqrt(3) : 1))
}

/**
 * Fault current at the terminals of a transformer on an infinite source.
 *
 *   I = rated / z
 *
 * three-phase for three, line–line for one phase. @throws Fault `power/transformer-range`
 */
export function infiniteSourceA(rated: {
  readonly ratedVA: number
  readonly voltageV: number
  readonly phases: 1 | 3
  readonly impedanceFrac: number
}): number {
  if (!(rated.impedanceFrac > 0)) throw new Fault('power/transformer-range', rated)
  return ratedCurrentA(rated) / rated.impedanceFrac
}

/**
 * Correction of a network transformer.
 *
 *   KT = 0.95 · cmax / (1 + 0.6 · xT)
 *
 * `reactanceFrac`: relative reactance, xT = XT/(V²/S).
 * @source IEC 60909-0:2016, 6.3.3. Provenance: read (as quoted in a public test of IEC TR 60909-4 clause 3)
 */
export function transformerCorrectionRatio(cMaxRatio: number, reactanceFrac: number): number {
  if (!(cMaxRatio > 0 && reactanceFrac >= 0)) throw new Fault('power/transformer-range', { cMaxRatio, reactanceFrac })
  return (0.95 * cMaxRatio) / (1 + 0.6 * reactanceFrac)
}

/**
 * A network feeder by its short-circuit current, seen from the low side.
 *
 *   |Z| = c · V / (√3 · Ik″) / t²
 *
 * `turnsRatio`: high-side over low-side voltage of the transformer between.
 * @throws Fault `power/feeder-range`
 * @source IEC 60909-0:2016, 6.2. Provenance: read (as above)
 */
export function feederZ(feeder: {
  readonly voltageV: number
  readonly shortCircuitA: number
  readonly cRatio: number
  readonly rOverXRatio: number
  readonly turnsRatio: number
}): Complex {
  const { voltageV, shortCircuitA, cRatio, rOverXRatio, turnsRatio } = feeder
  if (!(voltageV > 0 && shortCircuitA > 0 && cRatio > 0 && rOverXRatio >= 0 && turnsRatio > 0))
    throw new Fault('power/feeder-range', feeder)
  const z = withXOverR((cRatio * voltageV) / (Math.sqrt(3) * shortCircuitA), rOverXRatio === 0 ? Infinity : 1 / rOverXRatio)
  return scale(z, 1 / (turnsRatio * turnsRatio))
}

/** A network by its short-circuit power, on the base of `voltageV`: |Z| = c·V²/S″. @throws Fault `power/feeder-range` */
export function feederByPowerZ(feeder: {
  readonly shortCircuitVA: number
  readonly voltageV: number
  readonly cRatio: number
  readonly rOverXRatio: number
}): Complex {
  const { shortCircuitVA, voltageV, cRatio, rOverXRatio } = feeder
  if (!(shortCircuitVA > 0 && voltageV > 0 && cRatio > 0)) throw new Fault('power/feeder-range', feeder)
  return withXOverR((cRatio * voltageV * voltageV) / shortCircuitVA, rOverXRatio === 0 ? Infinity : 1 / rOverXRatio)
}

/**
 * A synchronous set behind its subtransient reactance, per phase.
 *
 *   Z = x″d · V²/S · (R/X + j),   R/X 0.15 for sets below 1 kV when the maker's sheet is missing
 *
 * @source IEC 60909-0:2016, 6.6.1 (RGf = 0.15 X″d for V ≤ 1 kV). Provenance: memory
 */
export function generatorZ(set: {
  readonly ratedVA: number
  readonly voltageV: number
  readonly subtransientFrac: number
  readonly rOverXRatio?: number
}): Complex {
  if (!(set.ratedVA > 0 && set.voltageV > 0 && set.subtransientFrac > 0)) throw new Fault('power/generator-range', set)
  const base = (set.voltageV * set.voltageV) / set.ratedVA
  return cx((set.rOverXRatio ?? 0.15) * set.subtransientFrac * base, set.subtransientFrac * base)
}
