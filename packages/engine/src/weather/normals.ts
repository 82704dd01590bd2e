import { atan2, cos, Fault, type Provenance, type Row, type Source, sin, source } from '../kernel/index.ts'
import { rowsOf, sourceOf } from './shelf.ts'

/** Twelve values, January to December in both hemispheres. */
export type Months = readonly number[]

/** The monthly climate of one place. Null: the source does not give it. Longitude east positive. */
export interface Normal {
  readonly id: string
  readonly name: string
  readonly latitudeDeg: number
  readonly longitudeDeg: number
  readonly elevationM: number
  readonly utcOffsetH: number
  /** Years, or files, that the means are of. */
  readonly period: string
  /** Mean daily highest, lowest and mean temperature. */
  readonly highestC: Months
  readonly lowestC: Months
  readonly meanC: Months | null
  readonly relativePct: Months | null
  readonly dewPointC: Months | null
  readonly windMPerS: Months | null
  /** Mean daily sum on the flat. */
  readonly sunKWhPerM2: Months | null
  /** Standard deviation of the daily mean within the month. */
  readonly dailyMeanSpreadK: Months | null
  /** Months in which snow lies, by rule of thumb. */
  readonly snowLies: readonly boolean[]
  /** One value for the year, where the months are not known. */
  readonly yearWindMPerS: number | null
  readonly yearRelativePct: number | null
  /** Design temperatures and extremes, by their printed name. Absent: not given. */
  readonly design: Readonly<Partial<Record<DesignName, DesignFigure>>>
  /** Where the monthly means come from; what of the rest is softer. */
  readonly rests: Source
  readonly address: string | null
  readonly otherElements: string | null
}

export const DESIGN_NAMES = [
  'heating_99_6_C',
  'heating_99_C',
  'cooling_0_4_C',
  'coincident_wet_bulb_C',
  'annual_extreme_mean_min_C',
  'annual_extreme_sd_min_K',
  'annual_extreme_mean_max_C',
  'extreme_record_min_C',
  'record_min_C',
  'wind_at_99_6_m_s',
  'coldest_day_98pct_C',
  'coldest_day_92pct_C',
  'coldest_five_days_98pct_C',
  'coldest_five_days_92pct_C',
  'mean_daily_range_coldest_month_K',
  'file_percentile_0_4_C',
  'file_percentile_99_6_C',
  'file_min_C',
  'file_max_C',
] as const
export type DesignName = (typeof DESIGN_NAMES)[number]

export interface DesignFigure {
  /** In the unit that ends the figure's name. */
  readonly value: number
  readonly rests: Source
  readonly note: string | null
}

/** A place with how far it lies from a site, and how much higher (positive) or lower the site is. */
export interface NormalNear {
  readonly normal: Normal
  readonly distanceM: number
  readonly higherM: number
  /** “Bismarck, ND, 120 km away; the site is 45 m higher”. */
  readonly said: string
}

export interface Spot {
  readonly latitudeDeg: number
  readonly longitudeDeg: number
  readonly elevationM: number
}

/** Every place of table `climate-normals`, in the order of the table. */
export function allNormals(): readonly Normal[] {
  kept ??= rowsOf('climate-normals').map(normalFrom)
  return kept
}
let kept: readonly Normal[] | undefined

/** The place with this id, or with this name written out. Capitals do not count. Undefined: there is none. */
export function normalNamed(name: string): Normal | undefined {
  const wanted = name.trim().toLowerCase()
  return allNormals().find((n) => n.id.toLowerCase() === wanted || n.name.toLowerCase() === wanted)
}

/** The nearest place over the ground. Height does not choose it; the difference is told. @throws Fault `weather/spot-range` */
export const normalsNear = (spot: Spot): NormalNear => normalsByDistance(spot)[0] as NormalNear

/** All places, the nearest first; equal distances by id. @throws Fault `weather/spot-range` */
export function normalsByDistance(spot: Spot): readonly NormalNear[] {
  return allNormals()
    .map((normal): NormalNear => {
      const distanceM = overGroundM(spot, normal)
      const higherM = spot.elevationM - normal.elevationM
      return { normal, distanceM, higherM, said: `${normal.name}, ${awayWords(distanceM)}; ${heightWords(higherM)}` }
    })
    .sort((a, b) => a.distanceM - b.distanceM || (a.normal.id < b.normal.id ? -1 : 1))
}

/** Mean radius of the Earth. @source IUGG mean radius R1 of the WGS 84 ellipsoid, 6 371 008.8 m. Provenance: memory */
const EARTH_M = 6_371_008.8
const RAD = Math.PI / 180

/**
 * Distance along a great circle of a round Earth: within 0.6 % of the ellipsoid's.
 *
 *   d = 2 R atan2(√h, √(1 − h)),   h = sin²(Δφ/2) + cos φ₁ cos φ₂ sin²(Δλ/2)
 *
 * @throws Fault `weather/spot-range` beyond ±90° of latitude, ±360° of longitude, −500 to 9000 m
 * @source haversine formula. Provenance: memory
 */
export function overGroundM(a: Spot, b: Spot): number {
  for (const s of [a, b])
    if (!(Math.abs(s.latitudeDeg) <= 90 && Math.abs(s.longitudeDeg) <= 360 && s.elevationM >= -500 && s.elevationM <= 9000))
      throw new Fault('weather/spot-range', s)
  const up = sin(((b.latitudeDeg - a.latitudeDeg) * RAD) / 2)
  const round = sin(((b.longitudeDeg - a.longitudeDeg) * RAD) / 2)
  const h = Math.min(1, up * up + cos(a.latitudeDeg * RAD) * cos(b.latitudeDeg * RAD) * round * round)
  return 2 * EARTH_M * atan2(Math.sqrt(h), Math.sqrt(1 - h))
}

const awayWords = (distanceM: number): string => (distanceM < 500 ? 'at the site' : `${Math.round(distanceM / 1000)} km away`)

function heightWords(higherM: number): string {
  const whole = Math.round(Math.abs(higherM))
  return whole === 0 ? 'the site is at the same height' : `the site is ${whole} m ${higherM > 0 ? 'higher' : 'lower'}`
}

function normalFrom(row: Row): Normal {
  const id = words(row, 'id')
  const snow = list(row, 'snow_cover')
  if (snow === null) throw new Fault('weather/no-number', { id, column: 'snow_cover' })
  return {
    id,
    name: words(row, 'name'),
    latitudeDeg: number(row, 'lat_deg'),
    longitudeDeg: number(row, 'lon_deg'),
    elevationM: number(row, 'elevation_m'),
    utcOffsetH: number(row, 'utc_offset_h'),
    period: words(row, 'period'),
    highestC: list(row, 't_max_C') as Months,
    lowestC: list(row, 't_min_C') as Months,
    meanC: list(row, 't_mean_C'),
    relativePct: list(row, 'rh_pct'),
    dewPointC: list(row, 'dew_point_C'),
    windMPerS: list(row, 'wind_m_s'),
    sunKWhPerM2: list(row, 'ghi_kwh_m2_day'),
    dailyMeanSpreadK: list(row, 'sd_of_daily_mean_K'),
    snowLies: snow.map((one) => one === 1),
    yearWindMPerS: row.wind_annual_m_s === null ? null : number(row, 'wind_annual_m_s'),
    yearRelativePct: row.rh_annual_pct === null ? null : number(row, 'rh_annual_pct'),
    design: designOf(id),
    rests: source(`${words(row, 'name')}: ${words(row, 'source')}`, firmOf('climate-normals', row)),
    address: typeof row.address === 'string' ? row.address : null,
    otherElements: typeof row.other_elements === 'string' ? row.other_elements : null,
  }
}

function designOf(place: string): Normal['design'] {
  const found: Partial<Record<DesignName, DesignFigure>> = {}
  for (const row of rowsOf('climate-design')) {
    if (row.place !== place) continue
    const name = words(row, 'figure') as DesignName
    const from = typeof row.figure_source === 'string' ? row.figure_source : 'no source given'
    found[name] = {
      value: number(row, 'value'),
      rests: source(`${name} of ${place}: ${from}`, firmOf('climate-design', row)),
      note: typeof row.note === 'string' ? row.note : null,
    }
  }
  return found
}

const firmOf = (table: 'climate-normals' | 'climate-design', row: Row): Provenance => sourceOf(table, row).provenance

function number(row: Row, column: string): number {
  const value = row[column]
  if (typeof value !== 'number') throw new Fault('weather/no-number', { column, value })
  return value
}

function words(row: Row, column: string): string {
  const value = row[column]
  if (typeof value !== 'string') throw new Fault('weather/no-words', { column, value })
  return value
}

function list(row: Row, column: string): Months | null {
  const value = row[column]
  if (value === null || value === undefined) return null
  if (!Array.isArray(value) || value.length !== 12) throw new Fault('weather/no-months', { column, value })
  return value as Months
}
