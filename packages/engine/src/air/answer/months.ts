import { SIDES } from '../../job/index.ts'
import type { WeatherHours } from '../../weather/index.ts'
import type { AirMonth } from '../result.ts'
import type { YearRun } from '../year/types.ts'
import { SEEN_KG_PER_M2 } from './counts.ts'

const ROOF = SIDES.indexOf('roof')
const FACES = 6

/** Month by month, those that the run touches. */
export function monthsOfYear(run: YearRun, weather: WeatherHours, months: Uint8Array): readonly AirMonth[] {
  const { series } = run
  const outside = weather.columns.airC
  const sums = Array.from({ length: 12 }, () => ({
    ...{ count: 0, outside: 0, air: 0, airMost: -Infinity, airLeast: Infinity, relative: 0 },
    ...{ wetH: 0, frostH: 0, mostKg: 0, fell: 0, heaterWh: 0, fanWh: 0 },
  }))
  for (let h = 0; h < run.hoursCount; h += 1) {
    const m = sums[months[h] as number]!
    const airC = series.airC[h] as number
    const film = series.filmKgPerM2[h * FACES + ROOF] as number
    const frost = series.frostKgPerM2[h * FACES + ROOF] as number
    m.count += 1
    m.outside += outside?.[h] ?? Number.NaN
    m.air += airC
    m.airMost = Math.max(m.airMost, airC)
    m.airLeast = Math.min(m.airLeast, airC)
    m.relative += series.relativeFrac[h] as number
    if (film - frost > SEEN_KG_PER_M2) m.wetH += 1
    if (frost > SEEN_KG_PER_M2) m.frostH += 1
    m.mostKg = Math.max(m.mostKg, film)
    for (let side = 0; side < FACES; side += 1) m.fell += series.fellKg[h * FACES + side] as number
    m.heaterWh += series.heaterWh[h] as number
    m.fanWh += series.fanWh[h] as number
  }
  return sums.flatMap((m, month) =>
    m.count === 0
      ? []
      : [
          {
            ...{
              month,
              outsideMeanC: m.outside / m.count,
              airMeanC: m.air / m.count,
              airMostC: m.airMost,
              airLeastC: m.airLeast,
            },
            ...{ relativeMeanPct: (m.relative / m.count) * 100, roofWetH: m.wetH, roofFrostH: m.frostH },
            ...{ roofMostGPerM2: m.mostKg * 1000, fellKg: m.fell, heaterKWh: m.heaterWh / 1000, fanKWh: m.fanWh / 1000 },
          },
        ],
  )
}
