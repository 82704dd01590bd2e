/** Where the hours are of. Longitude east positive; clock is local standard time, no summer time. */
export interface WeatherPlace {
  readonly name: string
  readonly latitudeDeg: number
  readonly longitudeDeg: number
  readonly elevationM: number
  readonly utcOffsetH: number
}

/**
 * Readings are of a moment (`readingAtH` after the hour's start); sums and means cover the hour. Vapour pressure, never relative humidity.
 * `windFromDeg` from true north, NaN when calm. `cloudFrac` opaque cover. `snowM` depth on the ground.
 */
export const WEATHER_READINGS = ['airC', 'vapourPa', 'pressurePa', 'windMPerS', 'windFromDeg', 'cloudFrac', 'snowM'] as const
export const WEATHER_MEANS = ['globalWPerM2', 'beamWPerM2', 'diffuseWPerM2', 'infraredWPerM2', 'rainMm'] as const
export type WeatherColumn = (typeof WEATHER_READINGS)[number] | (typeof WEATHER_MEANS)[number]

/** Where a column came from. `parts`: rows of it that were filled another way, and how. */
export interface ColumnOrigin {
  readonly from: 'file' | 'worked out' | 'generated' | 'default'
  readonly how: string
}

/** Hours in a row: a year of 8760 (8784 where an observed leap year is kept), or a short run. NaN: not known. Null: the column is not there. */
export interface WeatherHours {
  readonly place: WeatherPlace
  /** Day of the year (1 to 366) and hour (0 to 23) that the first record begins at. Year of it; null for a typical or made year. */
  readonly firstDay: number
  readonly firstHour: number
  readonly year: number | null
  readonly hoursCount: number
  /** Moment of readings after the beginning of their hour, 0 to 1 h. */
  readonly readingAtH: number
  readonly columns: Readonly<Record<WeatherColumn, Float64Array | null>>
  readonly origins: Readonly<Partial<Record<WeatherColumn, ColumnOrigin>>>
  /** Beam or diffuse light was split from the global by rule: it carries no more than the rule knows. */
  readonly lightSplit: boolean
}
