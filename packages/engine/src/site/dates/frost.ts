import { Fault, isoDay } from '../../kernel/index.ts'
import type { DaySpan } from './season.ts'

/** Middle of each month, day of a year of 365. */
const MIDDLES = [15.5, 45, 74.5, 105, 135.5, 166, 196.5, 227.5, 258, 288.5, 319, 349.5]

/** Mean of a day of the year, straight between the middles of months. */
export function dayMeanC(meanCByMonth: readonly number[], dayOfYear: number): number {
  const after = MIDDLES.findIndex((m) => m > dayOfYear)
  const b = Math.max(after, 0)
  const a = (b + 11) % 12
  const from = MIDDLES[a]! - (b === 0 && dayOfYear < 180 ? 365 : 0)
  const to = MIDDLES[b]! + (b === 0 && dayOfYear >= 180 ? 365 : 0)
  return meanCByMonth[a]! + ((dayOfYear - from) / (to - from)) * (meanCByMonth[b]! - meanCByMonth[a]!)
}

export interface FrostAsked {
  readonly meanCByMonth: readonly number[]
  /** Depth of frost in the coldest usual winter. */
  readonly depthM: number
  /** Frozen deeper than this, nothing is done. */
  readonly crustM: number
  /** Until it has thawed to here from above. */
  readonly thawM: number
}

/**
 * Days of a year of 365 on which the ground is frozen too deep for a work, 1 for closed. Frost goes down and thaw comes after it with the
 * root of the degree-days below and above 0 °C, on the scale of the depth that is told for the whole winter.
 *
 *   d = D · √(F/F winter),   thawed to D · √(W/F winter)
 *
 * @source Stefan's solution, as used for frost depth in cold-regions engineering. Provenance: memory
 * @throws Fault `dates/frost-range`
 */
export function frozenDays(asked: FrostAsked): Uint8Array {
  const { meanCByMonth: mean, depthM } = asked
  if (mean.length !== 12 || !(depthM >= 0 && depthM <= 50)) throw new Fault('dates/frost-range', asked)
  const closed = new Uint8Array(365)
  const daily = Float64Array.from({ length: 365 }, (_, d) => dayMeanC(mean, d + 0.5))
  let winter = 0
  for (const c of daily) winter += Math.max(0, -c)
  if (winter <= 0 || depthM <= asked.crustM) return closed
  if (daily.every((c) => c <= 0)) return closed.fill(1)
  // Begins at the warmest day, where no frost of the last winter counts.
  const first = daily.indexOf(Math.max(...daily))
  let frost = 0
  let warm = 0
  for (let i = 0; i < 365; i += 1) {
    const day = (first + i) % 365
    const c = daily[day]!
    frost += Math.max(0, -c)
    if (frost > 0) warm = c > 0 ? warm + c : 0
    const deep = depthM * Math.sqrt(frost / winter) > asked.crustM
    const thawed = depthM * Math.sqrt(warm / winter) >= Math.min(asked.thawM, depthM)
    if (deep && !thawed) closed[day] = 1
  }
  return closed
}

/** The days of frozen ground between two days. 29 February is as the day before. */
export function frozenSpans(asked: FrostAsked, within: DaySpan): readonly DaySpan[] {
  const closed = frozenDays(asked)
  const spans: { fromD: number; toD: number }[] = []
  for (let d = within.fromD; d <= within.toD; d += 1) {
    if (closed[dayOfYear(isoDay(d))] !== 1) continue
    const last = spans[spans.length - 1]
    if (last !== undefined && last.toD === d - 1) last.toD = d
    else spans.push({ fromD: d, toD: d })
  }
  return spans
}

const BEFORE = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334]

function dayOfYear(iso: string): number {
  const [month, day] = [Number(iso.slice(5, 7)), Number(iso.slice(8, 10))]
  return month === 2 && day === 29 ? 58 : BEFORE[month - 1]! + day - 1
}
