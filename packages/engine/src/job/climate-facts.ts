import type { Rise } from './box-air.ts'
import type { JobDocument } from './schema/job.ts'
import { type YearSeason, yearSeason } from './year-day.ts'

type Facts = NonNullable<JobDocument['facts']>
type Season = NonNullable<JobDocument['needs']>['season']

/**
 * Place and climate as air reads them; null: nobody said. Months from January to December in both hemispheres. Where the schema names what
 * is then assumed, the question that reads it takes that and says so.
 */
export interface ClimateFacts {
  readonly latitudeDeg: number | null
  readonly longitudeDeg: number | null
  readonly elevationM: number | null
  /** As written: a name, or an offset. */
  readonly timeZone: string | null
  /** What kind of place, in words. */
  readonly kind: string | null
  readonly designMinC: number | null
  readonly extremeMinC: number | null
  readonly designMaxC: number | null
  readonly extremeMaxC: number | null
  readonly meanCByMonth: readonly number[] | null
  readonly rangeKByMonth: readonly number[] | null
  readonly humidityFracByMonth: readonly number[] | null
  /** Whether humidity below 0 °C is over water or ice. */
  readonly humidityOver: 'water' | 'ice' | null
  /** 10 m above ground. */
  readonly windMPerSByMonth: readonly number[] | null
  /** Daily, on the flat. */
  readonly sunKWhPerM2ByMonth: readonly number[] | null
  /** Days of the year on which machines are plugged in, as needs tell them. Absent: nobody said, or all year. */
  readonly season?: YearSeason
  /** Skyline. Absent: nobody said. */
  readonly horizon?: readonly Rise[]
}

export function climateOf(facts: Facts | undefined, season?: Season): ClimateFacts {
  const days = yearSeason(season?.from, season?.to)
  const { site, climate } = facts ?? {}
  return {
    latitudeDeg: site?.latitude ?? null,
    longitudeDeg: site?.longitude ?? null,
    elevationM: site?.elevation ?? null,
    timeZone: site?.['time-zone'] ?? null,
    kind: site?.kind ?? null,
    designMinC: climate?.['design-min'] ?? null,
    extremeMinC: climate?.['extreme-min'] ?? null,
    designMaxC: climate?.['design-max'] ?? null,
    extremeMaxC: climate?.['extreme-max'] ?? null,
    meanCByMonth: climate?.['mean-by-month'] ?? null,
    rangeKByMonth: climate?.['range-by-month'] ?? null,
    humidityFracByMonth: climate?.['humidity-by-month'] ?? null,
    humidityOver: climate?.['humidity-over'] ?? null,
    windMPerSByMonth: climate?.['wind-by-month'] ?? null,
    sunKWhPerM2ByMonth: climate?.['sun-by-month'] ?? null,
    ...(days === undefined ? {} : { season: days }),
    ...(site?.horizon === undefined
      ? {}
      : { horizon: site.horizon.map(({ from, to, height }) => ({ fromDeg: from, toDeg: to, heightDeg: height })) }),
  }
}

export const UNTOLD_CLIMATE: ClimateFacts = climateOf(undefined)

/** Hours that local standard time is ahead of UTC, where the zone is written as an offset: `UTC-3:30`, `+05:30`. Null: it is a name, or none. */
export function writtenOffsetH(timeZone: string | null): number | null {
  if (timeZone === null) return null
  if (/^(UTC|GMT|Z)$/i.test(timeZone.trim())) return 0
  const hit = /^(?:UTC|GMT)?\s*([+-])\s*(\d{1,2})(?::?(\d{2}))?$/i.exec(timeZone.trim().replace('\u2212', '-'))
  if (hit === null) return null
  const hours = Number(hit[2]) + Number(hit[3] ?? 0) / 60
  if (hours > 14 || Number(hit[3] ?? 0) > 59) return null
  return hit[1] === '-' && hours > 0 ? -hours : hours
}
