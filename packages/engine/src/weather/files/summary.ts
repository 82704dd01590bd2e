import { relativeFrac } from '../moist-air.ts'
import type { NormalNear } from '../normals.ts'
import { WEATHER_MEANS, WEATHER_READINGS, type WeatherColumn, type WeatherHours } from '../types.ts'
import { monthsOf } from './acceptance.ts'
import type { WeatherFile } from './result.ts'
import { CELL_WORDS } from './rows.ts'

/** One column over all hours, in the unit that ends its name. */
export interface ColumnSummary {
  readonly name: WeatherColumn | 'relativeFrac'
  readonly what: string
  readonly unit: string
  readonly from: string
  readonly how: string
  readonly hoursCount: number
  readonly mean: number
  readonly low: number
  readonly high: number
}

/** A month of the file beside the same month of the nearest normal. Null: the one or the other does not say. */
export interface MonthBeside {
  readonly month: number
  readonly airC: number | null
  readonly normalAirC: number | null
  readonly relativePct: number | null
  readonly normalRelativePct: number | null
  readonly windMPerS: number | null
  readonly normalWindMPerS: number | null
  /** Mean daily sum on the level. */
  readonly levelKWhPerM2: number | null
  readonly normalLevelKWhPerM2: number | null
}

export interface WeatherSummary {
  readonly columns: readonly ColumnSummary[]
  /** Sum of a mean year on the level; null without sun. */
  readonly levelKWhPerM2: number | null
  /** Hours with relative humidity over 80 % and air over freezing, a mean year. */
  readonly wetH: number | null
  readonly months: readonly MonthBeside[]
}

const UNITS: Readonly<Record<WeatherColumn, string>> = {
  ...{ airC: '°C', vapourPa: 'Pa', pressurePa: 'Pa', windMPerS: 'm/s', windFromDeg: '°', cloudFrac: '1', snowM: 'm' },
  ...{ globalWPerM2: 'W/m²', beamWPerM2: 'W/m²', diffuseWPerM2: 'W/m²', infraredWPerM2: 'W/m²', rainMm: 'mm' },
}
const YEAR_H = 8760
const WET_FRAC = 0.8

/** Means and extremes of a file, month by month beside a normal. Hours that are not known count for nothing. */
export function weatherSummary(file: WeatherFile, near: NormalNear | null): WeatherSummary {
  const columns: ColumnSummary[] = []
  for (const name of [...WEATHER_READINGS, ...WEATHER_MEANS]) {
    const origin = file.runs.map((run) => run.origins[name]).find((o) => o !== undefined)
    if (origin === undefined) continue
    const s = statistics(file.runs.map((run) => run.columns[name]))
    columns.push({ name, what: CELL_WORDS[name], unit: UNITS[name], from: origin.from, how: origin.how, ...s })
    if (name === 'vapourPa') {
      const humid = statistics(file.runs.map(relativeOf))
      columns.push({
        name: 'relativeFrac',
        what: CELL_WORDS.relativeFrac,
        unit: '1',
        from: 'worked out',
        how: 'over liquid water at all temperatures',
        ...humid,
      })
    }
  }
  const level = columns.find((c) => c.name === 'globalWPerM2')
  return {
    columns,
    levelKWhPerM2: level === undefined ? null : (level.mean * YEAR_H) / 1000,
    wetH: wetH(file.runs),
    months: monthsBeside(file, near),
  }
}

function statistics(parts: readonly (Float64Array | null)[]) {
  let [sum, hoursCount, low, high] = [0, 0, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (const values of parts)
    for (const v of values ?? []) {
      if (Number.isNaN(v)) continue
      sum += v
      hoursCount++
      if (v < low) low = v
      if (v > high) high = v
    }
  return { hoursCount, mean: hoursCount === 0 ? Number.NaN : sum / hoursCount, low, high }
}

/** Over liquid water at all temperatures, as stations print it. */
function relativeOf(run: WeatherHours): Float64Array {
  const { airC, vapourPa } = run.columns
  return Float64Array.from({ length: run.hoursCount }, (_, i) => {
    const t = airC?.[i] ?? Number.NaN
    const p = vapourPa?.[i] ?? Number.NaN
    return Number.isNaN(t) || Number.isNaN(p) ? Number.NaN : relativeFrac({ airC: t, vapourPa: p, over: 'liquid' })
  })
}

function wetH(runs: readonly WeatherHours[]): number | null {
  let [wet, known] = [0, 0]
  for (const run of runs) {
    const relative = relativeOf(run)
    for (let i = 0; i < run.hoursCount; i++) {
      if (Number.isNaN(relative[i] as number)) continue
      known++
      if ((relative[i] as number) > WET_FRAC && (run.columns.airC?.[i] as number) > 0) wet++
    }
  }
  return known === 0 ? null : (wet * YEAR_H) / known
}

function monthsBeside(file: WeatherFile, near: NormalNear | null): readonly MonthBeside[] {
  const air = monthly(file.runs, (run) => run.columns.airC)
  const relative = monthly(file.runs, relativeOf)
  const wind = monthly(file.runs, (run) => run.columns.windMPerS)
  const level = monthly(file.runs, (run) => run.columns.globalWPerM2)
  const normal = near?.normal
  return Array.from({ length: 12 }, (_, m) => {
    const of = (values: readonly (number | null)[] | null | undefined, times = 1) => {
      const value = values?.[m] ?? null
      return value === null ? null : value * times
    }
    const mean =
      normal === undefined ? null : (normal.meanC?.[m] ?? ((normal.highestC[m] as number) + (normal.lowestC[m] as number)) / 2)
    return {
      month: m + 1,
      ...{ airC: of(air), normalAirC: mean },
      ...{ relativePct: of(relative, 100), normalRelativePct: of(normal?.relativePct) },
      ...{ windMPerS: of(wind), normalWindMPerS: of(normal?.windMPerS) },
      ...{ levelKWhPerM2: of(level, 0.024), normalLevelKWhPerM2: of(normal?.sunKWhPerM2) },
    }
  })
}

/** Twelve means; null where no hour of the month is known. */
function monthly(runs: readonly WeatherHours[], of: (run: WeatherHours) => Float64Array | null): readonly (number | null)[] {
  const sums = new Float64Array(12)
  const counts = new Float64Array(12)
  for (const run of runs) {
    const values = of(run)
    const months = monthsOf(run)
    if (values === null) continue
    for (let i = 0; i < run.hoursCount; i++) {
      const v = values[i] as number
      if (Number.isNaN(v)) continue
      const m = months[i] as number
      sums[m] = (sums[m] as number) + v
      counts[m] = (counts[m] as number) + 1
    }
  }
  return Array.from(sums, (sum, m) => (counts[m] === 0 ? null : sum / (counts[m] as number)))
}
