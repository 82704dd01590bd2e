import type { BoxLoad } from '../staging/index.ts'
import { apparentVA, both, ends, reactiveVar } from './reactive.ts'
import type { Ends, Sums } from './result.ts'

const MONTHS = 12
/** Longest month of a season in which every day is a full one. */
export const FULL_MONTH_DAYS = 31

export const energyPerDayKWh = (load: Pick<BoxLoad, 'powerW' | 'runH' | 'dutyFrac'>): number =>
  (load.powerW * load.runH * load.dutyFrac) / 1000

const addEnds = (a: Ends, b: Ends): Ends => ({ low: a.low + b.low, high: a.high + b.high })

/** VA of one plug: by the current it is written with, else by both ends of its power factor. */
export function plugVA(load: BoxLoad): Ends {
  const byCurrent = load.currentA * load.voltageV * (load.phases === 3 ? Math.sqrt(3) : 1)
  if (load.plug?.currentTold === false && !load.powerFactorFrac.told)
    return ends(load.powerW / load.powerFactorFrac.high, load.powerW / load.powerFactorFrac.low)
  return both(byCurrent)
}

export const plugVar = (load: Pick<BoxLoad, 'powerW' | 'powerFactorFrac'>): Ends =>
  ends(reactiveVar(load.powerW, load.powerFactorFrac.high), reactiveVar(load.powerW, load.powerFactorFrac.low))

/** Everything on at nameplate, and the energy as scheduled: Σ P·h·duty a day, times its days a year. */
export function sumsOf(loads: readonly BoxLoad[]): Sums {
  let powerW = 0
  let plainVA = 0
  let perDay = 0
  let perYear = 0
  let fullMonth = 0
  let reactive = both(0)
  for (const load of loads) {
    powerW += load.powerW
    plainVA += plugVA(load).high
    reactive = addEnds(reactive, plugVar(load))
    const day = energyPerDayKWh(load)
    perDay += day
    perYear += day * load.daysPerYear
    fullMonth += day * Math.min(load.daysPerYear, FULL_MONTH_DAYS)
  }
  const vectorVA = ends(apparentVA(powerW, reactive.low), apparentVA(powerW, reactive.high))
  return {
    plugs: loads.length,
    powerW,
    reactiveVar: reactive,
    plainVA,
    vectorVA,
    powerFactorFrac: powerW > 0 ? ends(powerW / vectorVA.high, powerW / vectorVA.low) : both(1),
    energyPerDayKWh: perDay,
    energyPerYearKWh: perYear,
    energyMeanMonthKWh: perYear / MONTHS,
    energyFullMonthKWh: fullMonth,
  }
}
