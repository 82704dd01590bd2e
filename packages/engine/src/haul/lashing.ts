import { cos, Fault, sin } from '../kernel/index.ts'
import { finite, numberIn, radOf, rowsOf } from './shelf.ts'

/** Lengths and mass of the North American count of tie-downs. @source 49 CFR 393.110. Provenance: memory */
const EACH_M = 3.048
const SHORT_M = 1.524
const SHORT_KG = 1100 * 0.45359237

/**
 * Tie-downs that the length of a load asks for.
 *
 *   blocked in front: one a 10 ft or part; else 1 up to 5 ft and 1100 lb, 2 up to 10 ft, one more a 10 ft or part
 *
 * @throws Fault `haul/tie-range`
 * @source 49 CFR 393.110; NSC Standard 10 alike. Provenance: memory
 */
export function tiesByLengthCount(of: { readonly lengthM: number; readonly massKg: number; readonly blocked: boolean }): number {
  if (!(of.lengthM > 0 && of.massKg >= 0)) throw new Fault('haul/tie-range', of)
  const parts = Math.ceil(of.lengthM / EACH_M - EXACT)
  if (of.blocked) return parts
  if (of.lengthM <= SHORT_M + EXACT) return of.massKg <= SHORT_KG ? 1 : 2
  return 1 + parts
}

/** Lengths that come from feet differ in their last bits. */
const EXACT = 1e-9

/**
 * Tie-downs that the aggregate working load asks for: half the mass, each counted whole over the top, half from deck to load.
 * @throws Fault `haul/tie-range`
 * @source 49 CFR 393.106. Provenance: read
 */
export function tiesByWllCount(of: {
  readonly massKg: number
  readonly wllKg: number
  readonly over: 'over the top' | 'deck to cargo'
}): number {
  if (!(of.massKg >= 0 && of.wllKg > 0)) throw new Fault('haul/tie-range', of)
  return Math.max(1, Math.ceil(of.massKg / 2 / (of.wllKg * COUNTED[of.over]) - EXACT))
}

/** Share of a tie-down's working load that counts. @source 49 CFR 393.106(d). Provenance: read in part */
export const COUNTED: Readonly<Record<'over the top' | 'deck to cargo', number>> = { 'over the top': 1, 'deck to cargo': 0.5 }

/** Marked or default working load of a North American tie-down; null when the table has none of this kind. */
export function tieWllKg(kind: string): number | null {
  const row = rowsOf('tiedown-wll').find((one) => one.kind === kind)
  return row === undefined ? null : numberIn(row, 'wll')
}

/**
 * Straps over the top against sliding, by friction.
 *
 *   n ≥ (c − µ·cz)·m·g·fs / (2·µ·sin α·F_T)
 *
 * 0 where c ≤ µ·cz: nothing is needed for sliding; tipping is judged apart. F_T: tension of the ratchet, not its strength.
 * @throws Fault `haul/friction-range`
 * @source EN 12195-1:2010. Provenance: memory
 */
export function frictionLashings(of: {
  readonly massKg: number
  readonly c: number
  readonly cz: number
  readonly friction: number
  readonly angleDeg: number
  readonly tensionN: number
  readonly safety: number
  readonly gravity: number
}): number {
  finite('friction-range', of)
  const { massKg, c, cz, friction, angleDeg, tensionN, safety, gravity } = of
  if (!(massKg >= 0 && friction > 0 && angleDeg > 0 && angleDeg <= 90 && tensionN > 0 && safety >= 1))
    throw new Fault('haul/friction-range', of)
  return Math.max(0, ((c - friction * cz) * massKg * gravity * safety) / (2 * friction * sin(radOf(angleDeg)) * tensionN))
}

/**
 * What a direct lashing must bear against sliding one way, when `pulling` of the lashings pull against that way.
 *
 *   F = m·g·(c − µ·fµ·cz) / (n·(cos α·cos β + µ·fµ·sin α))
 *
 * α from the deck, β in plan from the way the load would go.
 * @throws Fault `haul/friction-range`
 * @source EN 12195-1:2010, direct lashing. Provenance: memory
 */
export function directLashingN(of: {
  readonly massKg: number
  readonly c: number
  readonly cz: number
  readonly friction: number
  readonly frictionShare: number
  readonly alphaDeg: number
  readonly betaDeg: number
  readonly pulling: number
  readonly gravity: number
}): number {
  finite('friction-range', of)
  const grip = of.friction * of.frictionShare
  const hold = cos(radOf(of.alphaDeg)) * cos(radOf(of.betaDeg)) + grip * sin(radOf(of.alphaDeg))
  if (!(of.massKg >= 0 && of.pulling > 0 && hold > 0)) throw new Fault('haul/friction-range', of)
  return Math.max(0, (of.massKg * of.gravity * (of.c - grip * of.cz)) / (of.pulling * hold))
}

/**
 * Does a load stand by itself while it is pushed sideways with a share of its weight?
 *
 *   stable where arm · cz ≥ c · height; arm: level distance of its centre from the edge it would tip over
 */
export function tipShareFrac(of: { readonly armM: number; readonly heightM: number; readonly cz: number }): number {
  finite('tip-range', of)
  if (!(of.heightM > 0)) throw new Fault('haul/tip-range', of)
  return (of.armM * of.cz) / of.heightM
}

/**
 * Number of straps by the older factor of transfer against both sides with it, and by safety since 2009: 2/fs stands where k stood.
 * @source EN 12195-1:2004 (k 1.5) and 2009 (fs 1.1), comparison. Provenance: read
 */
export const equivalentTransfer = (of: {
  readonly sides: number
  readonly safety: number
  readonly oneSide: number
}): {
  readonly k: number
  readonly moreRatio: number
} => ({ k: of.sides / of.safety, moreRatio: of.sides / of.oneSide })
