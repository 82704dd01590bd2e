import { Fault } from '../kernel/index.ts'
import { amount, finite } from './shelf.ts'

/**
 * What a fork truck may lift when the load's centre lies farther out than its plate says.
 *
 *   capacity ≈ rated · rated centre / actual centre
 *
 * An estimate by the load's moment alone: the truck's own plate governs. Nearer than rated, the rated mass stands.
 * Any unit of mass, the same back.
 * @throws Fault `haul/fork-range`
 */
export function forkCapacity(of: {
  readonly rated: number
  readonly ratedCentreM: number
  readonly actualCentreM: number
}): number {
  finite('fork-range', of)
  if (!(of.rated > 0 && of.ratedCentreM > 0 && of.actualCentreM > 0)) throw new Fault('haul/fork-range', of)
  return of.rated * Math.min(1, of.ratedCentreM / of.actualCentreM)
}

/**
 * How two forks share a load whose centre lies off the middle between them, and whether it tips over the near one.
 *
 *   near = W(½ + e/s), far = W(½ − e/s); tips beyond e = s/2; for travel |e| ≤ 0.1 s
 *
 * @throws Fault `haul/fork-range`
 */
export function forkSplit(of: { readonly load: number; readonly spacingM: number; readonly offM: number }): {
  readonly near: number
  readonly far: number
  readonly tips: boolean
  readonly tipOffM: number
  readonly travelOffM: number
} {
  finite('fork-range', of)
  if (!(of.load >= 0 && of.spacingM > 0)) throw new Fault('haul/fork-range', of)
  const share = Math.abs(of.offM) / of.spacingM
  return {
    near: of.load * (0.5 + share),
    far: of.load * (0.5 - share),
    tips: share > 0.5,
    tipOffM: of.spacingM / 2,
    travelOffM: of.spacingM * amount('fork-offset-share'),
  }
}
