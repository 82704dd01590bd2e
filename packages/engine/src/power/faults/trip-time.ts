import { Fault, log, power } from '../../kernel/index.ts'
import type { TripBand } from '../../rules/index.ts'
import type { TripPart, TripTime } from './result.ts'

/**
 * Share by which a thermal trip carries more per kelvin below its reference (less above): 5 to 8 % per 10 K. The slow edge takes what
 * makes it slower, the fast edge what makes it faster.
 * @source table `trip-bands`, note on temperature. Provenance: common practice
 */
const THERMAL_LEAST_FRAC_PER_K = 0.005
const THERMAL_MOST_FRAC_PER_K = 0.008

/** Thermal current of a trip at a temperature over that at its reference: > 1 in the cold. Held above 0.2 so that it stays a device. */
export function thermalShiftRatio(deviceC: number, referenceC: number, edge: 'slow' | 'fast'): number {
  const colderK = referenceC - deviceC
  const perK = colderK > 0 === (edge === 'slow') ? THERMAL_MOST_FRAC_PER_K : THERMAL_LEAST_FRAC_PER_K
  return Math.max(0.2, 1 + perK * colderK)
}

/**
 * Seconds on a thermal edge at a multiple of the rating: log-log between the printed points, Infinity below the first, beyond the last by
 * constant I²t.
 */
function thermalS(points: TripBand['thermalSlow'], ratio: number): number {
  const first = points[0]
  if (first === undefined || ratio < first[0]) return Infinity
  let before = first
  for (let i = 1; i < points.length; i++) {
    const point = points[i]!
    if (ratio <= point[0]) return before[1] * power(point[1] / before[1], log(ratio / before[0]) / log(point[0] / before[0]))
    before = point
  }
  return (before[1] * before[0] * before[0]) / (ratio * ratio)
}

export interface TripTask {
  readonly band: TripBand
  readonly ratingA: number
  readonly currentA: number
  /** Coldest the device stands at: makes the slow edge. */
  readonly coldC: number
  /** Hottest: makes the fast edge. */
  readonly hotC: number
  /** Takes the place of both: thermal current over that at the reference, the same for both edges. */
  readonly shiftRatio?: number
}

/** Slowest time in which it surely opens; Infinity when nothing makes it. @throws Fault `faults/trip-range` */
export function slowTripS(task: TripTask): number {
  const { band, ratingA, currentA } = task
  if (!(ratingA > 0 && currentA >= 0)) throw new Fault('faults/trip-range', task)
  const ratio = currentA / ratingA
  const thermal = thermalS(band.thermalSlow, ratio / (task.shiftRatio ?? thermalShiftRatio(task.coldC, band.referenceC, 'slow')))
  return ratio >= band.magneticSureRatio ? Math.min(band.magneticS, thermal) : thermal
}

/** Fastest time in which it may open; 0 from the lower magnetic edge on, Infinity below what it holds. */
export function fastTripS(task: TripTask): number {
  const { band, ratingA, currentA } = task
  const ratio = currentA / ratingA
  if (ratio >= band.magneticFromRatio) return 0
  const effective = ratio / (task.shiftRatio ?? thermalShiftRatio(task.hotC, band.referenceC, 'fast'))
  if (effective < band.holdsRatio) return Infinity
  // No printed fast points: it may open at once as far as is known.
  if (band.thermalFast.length === 0) return 0
  const first = band.thermalFast[0]!
  return effective < first[0] ? first[1] : thermalS(band.thermalFast, effective)
}

/**
 * When a device opens at a current, by which part, and whether its magnetic part is sure.
 * @source the band's own. @throws Fault `faults/trip-range`
 */
export function tripTime(task: TripTask): TripTime {
  const slowS = slowTripS(task)
  const sure = task.currentA / task.ratingA >= task.band.magneticSureRatio
  const by: TripPart = slowS === Infinity ? 'nothing' : isFuse(task.band.family) ? 'fuse' : sure ? 'magnetic' : 'thermal'
  const fastS = fastTripS(task)
  return { currentA: task.currentA, fastS: Math.min(fastS, slowS), slowS, by, sure }
}

export const isFuse = (family: string): boolean => family.startsWith('gG') || family.includes('fuse')
