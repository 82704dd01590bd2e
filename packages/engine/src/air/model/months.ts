import { inSeason, type YearSeason } from '../../job/index.ts'

export const MONTHS = 12
const DAYS = [31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const
const YEAR_D = 365.25

/** Share of the days of each month that lies in a season. All year where none is told. */
export function seasonShares(season: YearSeason | null): readonly number[] {
  return DAYS.map((days, month) => {
    if (season === null) return 1
    const last = Math.floor(days)
    const within = Array.from({ length: last }, (_, d) => inSeason(season, { month: month + 1, day: d + 1 }))
    return within.filter(Boolean).length / last
  })
}

/** Days of a season in a mean year. */
export const seasonDays = (season: YearSeason): number =>
  seasonShares(season).reduce((sum, share, m) => sum + share * DAYS[m]!, 0)

/**
 * Share of the days of each month on which something works that works so many days a year: in its season first, there the coldest months
 * first where cold is what it is for, else all alike; what is left over on the other days of the year. A share for each month, 0 to 1; their
 * days add up to the days told.
 */
export function monthShares(
  daysPerYear: number,
  coldFirst: boolean,
  meanCByMonth: readonly number[] | null,
  season: YearSeason | null = null,
): readonly number[] {
  const inside = seasonShares(season)
  const within = inside.reduce((sum, share, m) => sum + share * DAYS[m]!, 0)
  const days = Math.min(Math.max(daysPerYear, 0), YEAR_D)
  const beyond = YEAR_D - within <= 0 ? 0 : Math.max(0, days - within) / (YEAR_D - within)
  if (!coldFirst || meanCByMonth === null) {
    const each = within <= 0 ? 0 : Math.min(1, days / within)
    return inside.map((share) => share * each + (1 - share) * beyond)
  }
  const shares = inside.map((share) => (1 - share) * beyond)
  let left = Math.min(days, within)
  const order = Array.from({ length: MONTHS }, (_, m) => m).toSorted((a, b) => meanCByMonth[a]! - meanCByMonth[b]! || a - b)
  for (const month of order) {
    const taken = Math.min(left, inside[month]! * DAYS[month]!)
    shares[month]! += taken / DAYS[month]!
    left -= taken
  }
  return shares
}
