import type { BuildRules } from '../rules/index.ts'
import { numberIn, rowOf, sourceOf } from './shelf.ts'

/** Shares of a standard's combination. */
export function combination(by: BuildRules['windBy'] | BuildRules['snowBy']) {
  const row = rowOf('load-combinations', { by })
  const share = (column: string): number => numberIn(row, column)
  return {
    dead: share('dead'),
    wind: share('wind'),
    ultimateOverService: share('ultimate_over_service'),
    snow: share('snow'),
    deadWithSnow: share('dead_with_snow'),
    steel: share('steel'),
    rests: sourceOf('load-combinations', row, by),
  }
}
