/** Up to here a gap is bridged by a straight line, and up to there by the same hours of the days around it. */
export const LINE_H = 6
export const NEIGHBOUR_H = 48
const DAY_H = 24

export interface Gap {
  readonly from: number
  readonly count: number
}

/** Runs of NaN. */
export function gapsIn(values: Float64Array): readonly Gap[] {
  const gaps: Gap[] = []
  let from = -1
  for (let i = 0; i <= values.length; i++) {
    const missing = i < values.length && Number.isNaN(values[i] as number)
    if (missing && from < 0) from = i
    if (!missing && from >= 0) {
      gaps.push({ from, count: i - from })
      from = -1
    }
  }
  return gaps
}

export interface Filled {
  readonly values: Float64Array
  readonly lineCount: number
  readonly neighbourCount: number
  /** Gaps that stay: longer than 48 hours, or with no day beside them. */
  readonly long: readonly Gap[]
}

/**
 * Fills gaps of up to 6 hours by a straight line, of up to 48 by the same hours of the nearest days before and after, weighted by how near
 * they are. At an end of the record the one neighbour there is serves alone. Longer ones stay.
 */
export function filledGaps(given: Float64Array): Filled {
  const gaps = gapsIn(given)
  if (gaps.length === 0) return { values: given, lineCount: 0, neighbourCount: 0, long: [] }
  const values = given.slice()
  const long: Gap[] = []
  let lineCount = 0
  let neighbourCount = 0
  for (const gap of gaps) {
    if (gap.count <= LINE_H && fillLine(values, gap)) lineCount += gap.count
    else if (gap.count <= NEIGHBOUR_H && fillFromDays(values, given, gap)) neighbourCount += gap.count
    else long.push(gap)
  }
  return { values, lineCount, neighbourCount, long }
}

function fillLine(values: Float64Array, { from, count }: Gap): boolean {
  const before = from > 0 ? (values[from - 1] as number) : Number.NaN
  const after = from + count < values.length ? (values[from + count] as number) : Number.NaN
  const start = Number.isNaN(before) ? after : before
  const end = Number.isNaN(after) ? before : after
  if (Number.isNaN(start)) return false
  for (let i = 0; i < count; i++) values[from + i] = start + ((end - start) * (i + 1)) / (count + 1)
  return true
}

/** The whole gap or nothing: half a filled gap would look measured. */
function fillFromDays(values: Float64Array, given: Float64Array, { from, count }: Gap): boolean {
  const made = new Float64Array(count)
  for (let i = 0; i < count; i++) {
    const back = dayAway(given, from + i, -DAY_H)
    const on = dayAway(given, from + i, DAY_H)
    if (back === null && on === null) return false
    if (back === null || on === null) made[i] = (back ?? on)!.value
    else made[i] = (back.value * on.days + on.value * back.days) / (back.days + on.days)
  }
  values.set(made, from)
  return true
}

/** The same hour of the nearest day that has it, at most three days away. */
function dayAway(given: Float64Array, at: number, step: number): { readonly value: number; readonly days: number } | null {
  for (let days = 1; days <= 3; days++) {
    const value = given[at + step * days]
    if (value !== undefined && !Number.isNaN(value)) return { value, days }
  }
  return null
}
