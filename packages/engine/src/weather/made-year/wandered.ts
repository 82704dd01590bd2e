import type { Months } from '../normals.ts'
import type { Climate } from './climate.ts'
import type { Draws } from './draws.ts'
import { amount } from './figures.ts'
import { MONTH_DAYS } from './months.ts'
import { MEAN_MEMORY, SUN_MEMORY } from './residuals.ts'
import { warmthWithSun } from './temperature.ts'

const LASTS_K = amount('persists beyond a month')
const DAY_SCATTER = amount('clearness, scatter of days')

/** Spread of the mean of `days` values in a row, over that of one, each remembering the one before by `memory`. */
const meanSpread = (memory: number, days: number): number => Math.sqrt((1 + memory) / ((1 - memory) * days))

/**
 * Spread from year to year of a month's mean temperature: what days in a row leave of it, and 0.8 K that lasts beyond a month.
 *
 *   √(s²·(1 + r)/((1 − r)·days) + 0.8²),   s spread of the daily means, r their memory from day to day
 */
export const monthSpreadK = (spreadK: Months): number[] =>
  spreadK.map((s, m) => {
    const days = s * meanSpread(MEAN_MEMORY, MONTH_DAYS[m] as number)
    return Math.sqrt(days * days + LASTS_K * LASTS_K)
  })

/**
 * Mean temperature and clearness of the months of one year of many: off the normals by one normal number a month, the clearness by another that
 * goes with it as the day's sun goes with the day's warmth.
 */
export function wandered(climate: Climate, draws: Draws): { readonly meanC: Months; readonly clearnessFrac: Months } {
  const spread = monthSpreadK(climate.spreadK)
  const together = warmthWithSun(climate.meanC)
  const meanC: number[] = []
  const clearnessFrac: number[] = []
  for (let m = 0; m < 12; m++) {
    const warm = draws.normal()
    const bright = draws.normal()
    const r = together[m] as number
    const normal = climate.clearnessFrac[m] as number
    const scatter = DAY_SCATTER * normal * meanSpread(SUN_MEMORY, MONTH_DAYS[m] as number)
    meanC.push((climate.meanC[m] as number) + (spread[m] as number) * warm)
    clearnessFrac.push(
      normal === 0 ? 0 : Math.min(0.86, Math.max(0.035, normal + scatter * (r * warm + Math.sqrt(1 - r * r) * bright))),
    )
  }
  return { meanC, clearnessFrac }
}
