import { exp, Fault, log } from '../../kernel/index.ts'
import { numberIn, rowOf } from '../shelf.ts'

/** How a material lets mould grow, table `mould-classes`. */
export interface MouldClass {
  readonly belowOneRatio: number
  readonly aboveOneRatio: number
  readonly aRatio: number
  readonly bRatio: number
  readonly cRatio: number
  readonly leastHumidityPct: number
}

/** @throws Fault `air/no-row` */
export function mouldClass(name: string): MouldClass {
  const row = rowOf('mould-classes', name)
  return {
    belowOneRatio: numberIn(row, 'k1_below_1'),
    aboveOneRatio: numberIn(row, 'k1_above_1'),
    aRatio: numberIn(row, 'A'),
    bRatio: numberIn(row, 'B'),
    cRatio: numberIn(row, 'C'),
    leastHumidityPct: numberIn(row, 'rh_min_pct'),
  }
}

const WARM_C = 20
const HOTTEST_C = 50
const DAY_H = 24
const WEEK_DAYS = 7

/**
 * Humidity under which nothing grows, %: −0.00267t³ + 0.160t² − 3.13t + 100 below 20 °C, from there on and at least the class's own.
 * @source Hukka & Viitanen 1999. Provenance: constants read
 */
export function criticalHumidityPct(surfaceC: number, leastPct: number): number {
  if (Number.isNaN(surfaceC)) throw new Fault('air/mould-range', surfaceC)
  if (surfaceC >= WARM_C) return leastPct
  const t = surfaceC
  return Math.max(leastPct, 100 + t * (-3.13 + t * (0.16 - t * 0.00267)))
}

/** Largest index that a standing climate leads to: A + B·q − C·q², q = (crit − φ)/(crit − 100); 0 where nothing grows. */
export function mostMould(of: MouldClass, surfaceC: number, humidityPct: number): number {
  const critical = criticalHumidityPct(surfaceC, of.leastHumidityPct)
  if (!(humidityPct > critical) || critical >= 100) return 0
  const q = (critical - Math.min(humidityPct, 100)) / (critical - 100)
  return Math.max(0, of.aRatio + q * (of.bRatio - q * of.cRatio))
}

/**
 * Weeks until the first traces on untreated pine in a standing climate: exp(−0.68·ln t − 13.9·ln φ + 66.02), sawn surface as here (0.14·W and
 * 0.33·SQ nothing). 0 to 50 °C.
 * @throws Fault `air/mould-range`
 */
export function weeksToTraces(surfaceC: number, humidityPct: number): number {
  if (!(surfaceC > 0 && surfaceC <= HOTTEST_C && humidityPct > 0)) throw new Fault('air/mould-range', { surfaceC, humidityPct })
  return exp(66.02 - 0.68 * log(surfaceC) - 13.9 * log(Math.min(humidityPct, 100)))
}

/** Decline of a dry index, an hour: the first 6 h, then nothing until a day has gone, then for good. @source table `mould-classes` */
const DECLINE = { soon: -0.00133, soonH: 6, later: -0.000667, laterH: 24 } as const

/**
 * Mould index after an hour: 0 nothing, 1 first traces under a lens, 3 seen by eye, 6 all over. Grows above the critical humidity by
 * k₁·k₂/(7·weeks·…) a day, k₂ = max(1 − exp(2.3·(M − Mmax)), 0); sinks where it is too dry or at or below 0 °C. `dryH`: hours that it has been so,
 * this one counted; 0 while it grows. `declineRatio`: the material's share of pine's decline, 0.1 to 1.
 * Numbers and a class in, number out.
 * @throws Fault `air/mould-range`
 */
export function mouldAfterHour(
  of: MouldClass,
  index: number,
  surfaceC: number,
  humidityPct: number,
  dryH: number,
  declineRatio: number,
): number {
  if (!(index >= 0 && humidityPct >= 0 && dryH >= 0) || Number.isNaN(surfaceC))
    throw new Fault('air/mould-range', { index, surfaceC, humidityPct, dryH })
  if (!mouldGrows(of, surfaceC, humidityPct)) {
    const rate = dryH <= DECLINE.soonH ? DECLINE.soon : dryH <= DECLINE.laterH ? 0 : DECLINE.later
    return Math.max(0, index + rate * declineRatio)
  }
  const most = mostMould(of, surfaceC, humidityPct)
  const k1 = index < 1 ? of.belowOneRatio : of.aboveOneRatio
  const k2 = Math.max(1 - exp(2.3 * (index - most)), 0)
  return index + (k1 * k2) / (WEEK_DAYS * DAY_H * weeksToTraces(surfaceC, humidityPct))
}

/** Warm and damp enough for mould to grow. */
export const mouldGrows = (of: MouldClass, surfaceC: number, humidityPct: number): boolean =>
  surfaceC > 0 && surfaceC <= HOTTEST_C && humidityPct >= criticalHumidityPct(surfaceC, of.leastHumidityPct)
