import { Fault } from '../../kernel/index.ts'
import { numberIn, rowOf } from '../shelf.ts'
import { dischargeInSeriesRatio, screenLossRatio } from './holes.ts'

/** Discharge of an opening of table `discharge`, alone. */
export const dischargeOf = (opening: string): number => numberIn(rowOf('discharge', opening), 'Cd')

/** What stands in the way of air besides the hole itself. */
export interface OpeningParts {
  /** Row of `discharge`. */
  readonly opening: string
  /** Row of `screens`, or none. */
  readonly screen: string | null
  /** Screen's share grown shut by dirt or frost, 0 to 1. Half in a season on a yard (common practice). */
  readonly cloggedFrac: number
  /** Hood or louvre over it, a row of `discharge`; none. */
  readonly hood: string | null
  /** Air moves at under 1 m/s through it: the screen counts double. */
  readonly slow: boolean
}

/**
 * Discharge of an opening with screen and hood in series on the same clear area: 1/Cd² = 1/Cd₀² + ζ screen + (1/Cd² − 1) hood. The hood's own hole
 * is a sharp one; what is over that is its loss.
 * @throws Fault `air/screen-range`, `air/no-row`
 * @source pressures in series; tables `discharge`, `screens`
 */
export function openingDischargeRatio(of: OpeningParts): number {
  if (!(of.cloggedFrac >= 0 && of.cloggedFrac < 1)) throw new Fault('air/screen-range', of)
  const hole = dischargeOf(of.opening)
  const open = of.screen === null ? 1 : numberIn(rowOf('screens', of.screen), 'open_fraction') * (1 - of.cloggedFrac)
  const screen = of.screen === null ? 0 : screenLossRatio(open) * (of.slow ? 2 : 1)
  const sharp = dischargeOf(SHARP_HOLE)
  const cover = of.hood === null ? 0 : Math.max(0, 1 / dischargeOf(of.hood) ** 2 - 1 / sharp ** 2)
  return dischargeInSeriesRatio(hole, screen + cover)
}

export const SHARP_HOLE = 'sharp-edged hole, sleeve shorter than its width'
