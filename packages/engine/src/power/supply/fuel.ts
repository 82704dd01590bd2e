import { Fault } from '../../kernel/index.ts'
import type { Table } from '../../rules/index.ts'

const SHARES = [0.25, 0.5, 0.75, 1] as const
/** The chart is an industry approximation: two printed copies differ by as much. Provenance: read */
export const CHART_FRAC = 0.15

/**
 * Fuel of a diesel set, L/h: linear in the share of load between the printed quarters, and between the printed sizes at the same share.
 * Below a quarter the line of the first two columns goes on to no load. Below the smallest and above the largest printed size the nearest
 * row is taken in proportion to size. Loads above the rating are outside the chart.
 * @throws Fault `supply/fuel-range`
 * @source generator fuel chart, table `generator-fuel`. Provenance: read
 */
export function fuelLPerH(chart: Table, ratedKW: number, loadKW: number): number {
  if (!(ratedKW > 0 && loadKW >= 0 && loadKW <= ratedKW * (1 + 1e-9))) throw new Fault('supply/fuel-range', { ratedKW, loadKW })
  const share = loadKW / ratedKW
  const rows = chart.rows.map((row) => row.map(Number)).sort((a, b) => (a[0] as number) - (b[0] as number))
  const first = rows[0] as number[]
  const last = rows[rows.length - 1] as number[]
  if (ratedKW <= (first[0] as number)) return (atShare(first, share) * ratedKW) / (first[0] as number)
  if (ratedKW >= (last[0] as number)) return (atShare(last, share) * ratedKW) / (last[0] as number)
  const above = rows.findIndex((row) => (row[0] as number) >= ratedKW)
  const low = rows[above - 1] as number[]
  const high = rows[above] as number[]
  const between = (ratedKW - (low[0] as number)) / ((high[0] as number) - (low[0] as number))
  return atShare(low, share) + between * (atShare(high, share) - atShare(low, share))
}

function atShare(row: readonly number[], share: number): number {
  const at = Math.min(SHARES.length - 2, Math.max(0, Math.floor(share * 4) - 1))
  const from = SHARES[at] as number
  const low = row[at + 1] as number
  const high = row[at + 2] as number
  return low + ((share - from) / 0.25) * (high - low)
}
