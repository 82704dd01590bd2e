import { atan2, cos, sin } from '../../kernel/index.ts'
import { CELL_NAMES, type CellName, type FileRows } from './rows.ts'

/** Rows laid on whole hours of the place's clock, first to last; nothing filled yet. */
export interface HourSlots {
  /** Of the first hour: hours since 1 January 1970, or since 1 January of a typical year. */
  readonly firstH: number
  readonly hoursCount: number
  readonly cells: Readonly<Partial<Record<CellName, Float64Array>>>
  readonly readingAtH: number
  /** Lines that were not taken, and why. */
  readonly leapLines: readonly number[]
  readonly twiceLines: readonly number[]
  readonly unorderedLines: readonly number[]
  /** Hours without any row. */
  readonly absentCount: number
  /** Line of the row that an hour begins with; 0 where it has none. */
  readonly lineOf: Int32Array
}

const NEAR_H = 1e-6
const RAD = Math.PI / 180

/** Share of the rows of an hour that must be there for their mean to stand for it. Common practice. */
const LEAST_SHARE = 0.5

/** Null: no row has a time. Rows of less than an hour become its mean, rain its sum. */
export function slotsOf(rows: FileRows): HourSlots | null {
  const { startH, lines, stepH } = rows
  let least = Number.POSITIVE_INFINITY
  let most = Number.NEGATIVE_INFINITY
  const leapLines: number[] = []
  for (let i = 0; i < startH.length; i++) {
    const h = startH[i] as number
    if (Number.isNaN(h)) leapLines.push(lines[i] as number)
    else {
      if (h < least) least = h
      if (h > most) most = h
    }
  }
  if (least > most) return null
  const firstH = Math.floor(least + NEAR_H)
  const hoursCount = Math.floor(most + NEAR_H) - firstH + 1
  const perHour = Math.round(1 / stepH)
  const taken = new Uint8Array(hoursCount * perHour)
  const unorderedLines: number[] = []
  const twiceLines: number[] = []
  const lineOf = new Int32Array(hoursCount)
  const keep: number[] = []
  const slotAt: number[] = []
  let before = Number.NEGATIVE_INFINITY
  let fraction = 0
  for (let i = 0; i < startH.length; i++) {
    const h = startH[i] as number
    if (Number.isNaN(h)) continue
    if (h < before - NEAR_H) unorderedLines.push(lines[i] as number)
    before = h
    const slot = Math.floor(h + NEAR_H) - firstH
    const within = Math.max(0, h + NEAR_H - (slot + firstH))
    const part = slot * perHour + Math.min(perHour - 1, Math.floor(within * perHour + NEAR_H))
    if (taken[part] === 1) {
      twiceLines.push(lines[i] as number)
      continue
    }
    taken[part] = 1
    if (lineOf[slot] === 0) lineOf[slot] = lines[i] as number
    fraction += within
    keep.push(i)
    slotAt.push(slot)
  }
  const cells: Partial<Record<CellName, Float64Array>> = {}
  for (const name of CELL_NAMES) {
    const values = rows.cells[name]
    if (values === undefined) continue
    cells[name] =
      perHour === 1 ? placed(values, keep, slotAt, hoursCount) : pooled(name, values, rows, keep, slotAt, hoursCount, perHour)
  }
  const late = perHour === 1 ? fraction / keep.length : 0
  return {
    firstH,
    hoursCount,
    cells,
    readingAtH: perHour === 1 ? Math.min(1, rows.readingAtH + (late > 0.01 ? late : 0)) : 0.5,
    leapLines,
    twiceLines,
    unorderedLines,
    absentCount: lineOf.reduce((n, line) => n + (line === 0 ? 1 : 0), 0),
    lineOf,
  }
}

function placed(values: Float64Array, keep: readonly number[], slotAt: readonly number[], count: number): Float64Array {
  const out = new Float64Array(count).fill(Number.NaN)
  keep.forEach((i, k) => {
    out[slotAt[k] as number] = values[i] as number
  })
  return out
}

/** Means of the parts of an hour, rain their sum, wind direction that of the mean wind. */
function pooled(
  name: CellName,
  values: Float64Array,
  rows: FileRows,
  keep: readonly number[],
  slotAt: readonly number[],
  count: number,
  perHour: number,
): Float64Array {
  if (name === 'windFromDeg') return pooledDirection(values, rows.cells.windMPerS, keep, slotAt, count)
  const sums = new Float64Array(count)
  const counts = new Float64Array(count)
  keep.forEach((i, k) => {
    const value = values[i] as number
    if (Number.isNaN(value)) return
    const slot = slotAt[k] as number
    sums[slot] = (sums[slot] as number) + value
    counts[slot] = (counts[slot] as number) + 1
  })
  return sums.map((sum, slot) => {
    const n = counts[slot] as number
    if (n < perHour * LEAST_SHARE) return Number.NaN
    return name === 'rainMm' ? sum : sum / n
  })
}

function pooledDirection(
  values: Float64Array,
  speeds: Float64Array | undefined,
  keep: readonly number[],
  slotAt: readonly number[],
  count: number,
): Float64Array {
  const east = new Float64Array(count)
  const north = new Float64Array(count)
  keep.forEach((i, k) => {
    const deg = values[i] as number
    const speed = speeds === undefined ? 1 : (speeds[i] as number)
    if (!(speed > 0) || Number.isNaN(deg)) return
    const slot = slotAt[k] as number
    east[slot] = (east[slot] as number) + speed * sin(deg * RAD)
    north[slot] = (north[slot] as number) + speed * cos(deg * RAD)
  })
  return east.map((e, slot) => {
    const n = north[slot] as number
    if (e === 0 && n === 0) return Number.NaN
    return (atan2(e, n) / RAD + 360) % 360
  })
}
