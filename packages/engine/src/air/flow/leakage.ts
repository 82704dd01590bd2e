import { Fault, log } from '../../kernel/index.ts'
import { powerOf } from '../surface/roots.ts'
import { GRAVITY_M_PER_S2 } from './holes.ts'

const HOUR_S = 3600
/** Pressure of a leakage test. */
const TEST_PA = 50

/** A blown-up box that goes flat. */
export interface PressureDecay {
  readonly volumeM3: number
  readonly fromPa: number
  readonly toPa: number
  readonly timeS: number
  readonly exponentRatio: number
  readonly airPa: number
}

/**
 * Flow at 1 Pa of the cracks of a box from the time its overpressure takes to fall, m³/s:
 * V/p · dΔp/dt = −C·Δpⁿ, so C = V/p · (Δp₁^(1−n) − Δp₂^(1−n))/((1 − n)·t); for n = 1 V/p · ln(Δp₁/Δp₂)/t. No warming meanwhile.
 * @throws Fault `air/leak-range`
 * @source gas law; fumigation practice. Provenance: computed
 */
export function decayLeakM3s(of: PressureDecay): number {
  const { volumeM3, fromPa, toPa, timeS, exponentRatio: n, airPa } = of
  if (!(volumeM3 > 0 && toPa > 0 && fromPa > toPa && timeS > 0 && airPa > 0 && n >= 0.5 && n <= 1))
    throw new Fault('air/leak-range', of)
  const fall = n === 1 ? log(fromPa / toPa) : (powerOf(fromPa, 1 - n) - powerOf(toPa, 1 - n)) / (1 - n)
  return (volumeM3 * fall) / (airPa * timeS)
}

/** Air changes an hour at a pressure from those at another: Q ∝ Δpⁿ. @throws Fault `air/leak-range` */
export function changesAtPerH(changesPerH: number, atPa: number, wantedPa: number, exponentRatio: number): number {
  if (!(changesPerH >= 0 && atPa > 0 && wantedPa >= 0)) throw new Fault('air/leak-range', { changesPerH, atPa, wantedPa })
  return wantedPa === 0 ? 0 : changesPerH * powerOf(wantedPa / atPa, exponentRatio)
}

/** Flow at 1 Pa, m³/s, of a room that changes so often at 50 Pa. @throws Fault `air/leak-range` */
export function leakOfChangesM3s(changesAt50PerH: number, volumeM3: number, exponentRatio: number): number {
  if (!(changesAt50PerH >= 0 && volumeM3 > 0)) throw new Fault('air/leak-range', { changesAt50PerH, volumeM3 })
  return (changesAt50PerH * volumeM3) / HOUR_S / powerOf(TEST_PA, exponentRatio)
}

/** Sharp hole that passes the same at 1 Pa, m². @throws Fault `air/leak-range` */
export function leakHoleM2(at1PaM3s: number, dischargeRatio: number, densityKgPerM3: number): number {
  if (!(at1PaM3s >= 0 && dischargeRatio > 0 && densityKgPerM3 > 0))
    throw new Fault('air/leak-range', { at1PaM3s, dischargeRatio })
  return at1PaM3s / (dischargeRatio * Math.sqrt(2 / densityKgPerM3))
}

/** Exponent of cracks where none was measured; changes at 50 Pa taken where nobody tested, with the ends between which an answer is shown. */
export const LEAK_EXPONENT_RATIO = 0.65
/** @source table `box-leakage`. Provenance: common practice */
export const LEAK_CHANGES_PER_H = { taken: 5, low: 2, high: 15 } as const

/**
 * Flow by the leakage-area model, m³/s: (A/1000)·√(Cs·|ΔT| + Cw·V²), A in cm².
 * @throws Fault `air/leak-range`
 * @source ASHRAE Fundamentals ch. 16, basic model. Provenance: memory
 */
export function leakageAreaFlowM3s(
  areaCm2: number,
  stackRatio: number,
  windRatio: number,
  differenceK: number,
  windMPerS: number,
): number {
  if (!(areaCm2 >= 0 && stackRatio >= 0 && windRatio >= 0 && windMPerS >= 0) || Number.isNaN(differenceK))
    throw new Fault('air/leak-range', { areaCm2, stackRatio, windRatio, differenceK, windMPerS })
  return (areaCm2 / 1000) * Math.sqrt(stackRatio * Math.abs(differenceK) + windRatio * windMPerS * windMPerS)
}

/** Weight of a column by which a drive is lowered at a height: (ρ outside − ρ inside)·g·z, Pa. */
export const columnPa = (outsideKgPerM3: number, insideKgPerM3: number, heightM: number): number =>
  (outsideKgPerM3 - insideKgPerM3) * GRAVITY_M_PER_S2 * heightM
