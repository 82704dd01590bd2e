import { Fault } from '../../kernel/index.ts'
import { ZERO_C_K } from '../../weather/index.ts'
import { GRAVITY_M_PER_S2, holeFlowM3s } from './holes.ts'

/** kg·K/J·m/s² of the gas law: g/R of dry air, as printed with the stack rule. */
const STACK_K_PER_M = 0.0342

/**
 * Pull of a column of warm air, Pa: 0.0342·p·H·(1/To − 1/Ti). Positive when it is warmer inside.
 * @throws Fault `air/stack-range`
 * @source stack effect, liquisearch.com/stack_effect. Provenance: read (formula)
 */
export function stackPa(pressurePa: number, heightM: number, outsideC: number, insideC: number): number {
  const [out, into] = [outsideC + ZERO_C_K, insideC + ZERO_C_K]
  if (!(pressurePa > 0 && heightM >= 0 && out > 0 && into > 0))
    throw new Fault('air/stack-range', { pressurePa, heightM, outsideC, insideC })
  return STACK_K_PER_M * pressurePa * heightM * (1 / out - 1 / into)
}

/** One hole that passes what two in a row do: A₁A₂/√(A₁² + A₂²). @throws Fault `air/stack-range` */
export function inRowM2(oneM2: number, otherM2: number): number {
  if (!(oneM2 > 0 && otherM2 > 0)) throw new Fault('air/stack-range', { oneM2, otherM2 })
  return (oneM2 * otherM2) / Math.sqrt(oneM2 * oneM2 + otherM2 * otherM2)
}

/** Two openings over one another, in still air. */
export interface StackPair {
  readonly lowM2: number
  readonly highM2: number
  readonly heightM: number
  readonly dischargeRatio: number
  readonly insideC: number
  readonly outsideC: number
}

/**
 * Flow through a low and a high opening by warmth alone, m³/s: Cd·A*·√(2gH·|ΔT|/Ti). Densities taken as one in the flow.
 * @throws Fault `air/stack-range`
 * @source ASHRAE Fundamentals ch. 16. Provenance: memory
 */
export function stackFlowM3s(of: StackPair): number {
  const kelvin = of.insideC + ZERO_C_K
  if (!(kelvin > 0 && of.heightM >= 0 && of.dischargeRatio > 0) || Number.isNaN(of.outsideC))
    throw new Fault('air/stack-range', of)
  const pull = (2 * GRAVITY_M_PER_S2 * of.heightM * Math.abs(of.insideC - of.outsideC)) / kelvin
  return of.dischargeRatio * inRowM2(of.lowM2, of.highM2) * Math.sqrt(pull)
}

/**
 * Height over the low opening at which inside and outside press alike, m: H/(1 + (A low/A high)²·Ti/To).
 *
 * As much mass goes out as in; the lighter air needs more pressure for it, so with equal openings the level lies nearer the one by which the
 * warm air does not leave.
 * @throws Fault `air/stack-range`
 * @source ASHRAE Fundamentals ch. 16, neutral pressure level; mass balance of two orifices. Provenance: memory, recomputed
 */
export function neutralLevelM(of: Omit<StackPair, 'dischargeRatio'>): number {
  const warm = (of.insideC + ZERO_C_K) / (of.outsideC + ZERO_C_K)
  const share = of.lowM2 / of.highM2
  if (!(warm > 0 && share > 0 && of.heightM >= 0)) throw new Fault('air/stack-range', of)
  return of.heightM / (1 + share * share * warm)
}

/** Flow through an opening at a height from the neutral level, m³/s: Cd·A·√(2g·h·|ΔT|/Ti). @throws Fault `air/stack-range` @source ASHRAE Fundamentals 1997 p. 25.13 eq. 37. Provenance: read (formula) */
export function levelFlowM3s(
  areaM2: number,
  dischargeRatio: number,
  fromNeutralM: number,
  insideC: number,
  outsideC: number,
): number {
  const kelvin = insideC + ZERO_C_K
  if (!(areaM2 >= 0 && fromNeutralM >= 0 && kelvin > 0) || Number.isNaN(outsideC))
    throw new Fault('air/stack-range', { areaM2, fromNeutralM, insideC, outsideC })
  return dischargeRatio * areaM2 * Math.sqrt((2 * GRAVITY_M_PER_S2 * fromNeutralM * Math.abs(insideC - outsideC)) / kelvin)
}

/** Discharge of one opening that passes air both ways: 0.40 + 0.0045·|ΔT|. @source ASHRAE Fundamentals 1997 p. 25.13 eq. 38. Provenance: read (formula) */
export const twoWayDischargeRatio = (differenceK: number): number => 0.4 + 0.0045 * Math.abs(differenceK)

/**
 * Air that an open door or single tall opening swaps, each way, m³/s: (Cd·W/3)·√(g·H³·|ΔT|/T), T the mean of both airs.
 * @throws Fault `air/door-range`
 * @source Brown & Solvason 1962, as in ASHRAE Refrigeration. Provenance: memory
 */
export function doorFlowM3s(widthM: number, heightM: number, dischargeRatio: number, differenceK: number, meanC: number): number {
  const kelvin = meanC + ZERO_C_K
  if (!(widthM >= 0 && heightM >= 0 && dischargeRatio >= 0 && kelvin > 0) || Number.isNaN(differenceK))
    throw new Fault('air/door-range', { widthM, heightM, dischargeRatio, differenceK, meanC })
  const pull = (GRAVITY_M_PER_S2 * heightM * heightM * heightM * Math.abs(differenceK)) / kelvin
  return ((dischargeRatio * widthM) / 3) * Math.sqrt(pull)
}

/** Share of the wind that one opening alone swaps. @source ASHRAE, single-sided ventilation. Provenance: memory */
const ONE_SIDED_RATIO = 0.025

/**
 * What an opening alone on its wall swaps, m³/s: the larger of its buoyancy Cd·A·√(gH|ΔT|/T)/3 and of the wind's 0.025·A·V.
 * @throws Fault `air/door-range`
 */
export function oneSidedFlowM3s(of: {
  readonly widthM: number
  readonly heightM: number
  readonly dischargeRatio: number
  readonly differenceK: number
  readonly meanC: number
  readonly windMPerS: number
}): number {
  if (!(of.windMPerS >= 0)) throw new Fault('air/door-range', of)
  const warm = doorFlowM3s(of.widthM, of.heightM, of.dischargeRatio, of.differenceK, of.meanC)
  return Math.max(warm, ONE_SIDED_RATIO * of.widthM * of.heightM * of.windMPerS)
}

/** Wind through two openings in a row, m³/s: Cd·A*·V·√ΔCp. @throws Fault `air/stack-range` @source ASHRAE Fundamentals ch. 16. Provenance: memory */
export function crossWindFlowM3s(
  oneM2: number,
  otherM2: number,
  dischargeRatio: number,
  windMPerS: number,
  pressureDifferenceRatio: number,
): number {
  if (!(windMPerS >= 0 && dischargeRatio > 0) || Number.isNaN(pressureDifferenceRatio))
    throw new Fault('air/stack-range', { windMPerS, pressureDifferenceRatio })
  return dischargeRatio * inRowM2(oneM2, otherM2) * windMPerS * Math.sqrt(Math.abs(pressureDifferenceRatio))
}

/** Pressures of warmth and wind on two openings in a row add with their signs; the flow is that of their sum. @throws Fault `air/hole-range` */
export const togetherFlowM3s = (
  stack: number,
  wind: number,
  oneM2: number,
  otherM2: number,
  dischargeRatio: number,
  densityKgPerM3: number,
): number => holeFlowM3s(stack + wind, inRowM2(oneM2, otherM2), dischargeRatio, densityKgPerM3)

/** Fresh air that carries a heat away at a rise, m³/s: P/(ρ·c·ΔT). @throws Fault `air/carry-range` */
export function carryingFlowM3s(heatW: number, riseK: number, densityKgPerM3: number, heatJPerKgK: number): number {
  if (!(heatW >= 0 && riseK > 0 && densityKgPerM3 > 0 && heatJPerKgK > 0))
    throw new Fault('air/carry-range', { heatW, riseK, densityKgPerM3, heatJPerKgK })
  return heatW / (densityKgPerM3 * heatJPerKgK * riseK)
}

/** Clear opening that passes a flow by warmth alone, m²: A* = Q/(Cd·√(2gH·ΔT/Ti)). Of two equal ones, low and high, each is √2 times this. @throws Fault `air/carry-range` */
export function neededOpeningM2(
  flowM3s: number,
  heightM: number,
  riseK: number,
  insideC: number,
  dischargeRatio: number,
): number {
  const kelvin = insideC + ZERO_C_K
  if (!(flowM3s >= 0 && heightM > 0 && riseK > 0 && kelvin > 0 && dischargeRatio > 0))
    throw new Fault('air/carry-range', { flowM3s, heightM, riseK, insideC, dischargeRatio })
  return flowM3s / (dischargeRatio * Math.sqrt((2 * GRAVITY_M_PER_S2 * heightM * riseK) / kelvin))
}
