export const MONTHS = 12
const DAYS = [31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const
const YEAR_D = 365.25

/**
 * Share of the days of each month on which something works that works so many days a year: the coldest months first where cold is what it is
 * for, else all alike. A share for each month, 0 to 1; their days add up to the days told.
 */
export function monthShares(daysPerYear: number, coldFirst: boolean, meanCByMonth: readonly number[] | null): readonly number[] {
  const days = Math.min(Math.max(daysPerYear, 0), YEAR_D)
  if (!coldFirst || meanCByMonth === null) return Array.from({ length: MONTHS }, () => days / YEAR_D)
  const shares = Array.from({ length: MONTHS }, () => 0)
  let left = days
  const order = Array.from({ length: MONTHS }, (_, m) => m).toSorted((a, b) => meanCByMonth[a]! - meanCByMonth[b]! || a - b)
  for (const month of order) {
    const taken = Math.min(left, DAYS[month]!)
    shares[month] = taken / DAYS[month]!
    left -= taken
  }
  return shares
}
