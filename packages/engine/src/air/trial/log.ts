/** Where a sensor hangs. `wall`: no side told. `humidity`: relative humidity of the air inside. */
export const SENSOR_PLACES = ['air', 'air high', 'air low', 'roof', 'wall', 'floor', 'panel', 'humidity'] as const
export type SensorPlace = (typeof SENSOR_PLACES)[number]

/** One sensor of a log, and how far its maker lets it read wrong by a constant. */
export interface LogSensor {
  /** As its column is headed, or as the mapping names it. */
  readonly name: string
  readonly place: SensorPlace
  /** What the file is written in; values are kept in °C and as a fraction. */
  readonly unit: 'C' | 'F' | '%'
  /** Standard deviation of its constant error, in K or as a fraction of humidity; `accuracySaid`: by the mapping, else taken. */
  readonly accuracy: { readonly value: number; readonly told: boolean }
}

/** What a logger wrote, in the clock of the place: local standard time, no summer time. */
export interface LoggerLog {
  readonly sensors: readonly LogSensor[]
  /** Minutes since 1 January 1970 of each row, rising; the middle of what a row is a mean of. */
  readonly atMin: Float64Array
  /** One row of values for each sensor; °C or a fraction; NaN: missing. */
  readonly values: readonly Float64Array[]
  readonly stepMin: number
  /** What a person should know of how it was read, in sentences. */
  readonly notes: readonly string[]
}

/** How a log's columns are named, where its headings do not say it. */
export interface LogMapping {
  readonly time: {
    readonly column: string | null
    /** Column of the day where the clock stands in another one. */
    readonly date: string | null
    /** Hours east of Greenwich that its clock keeps; `standard`: that of the place; null: not told. */
    readonly clock: number | 'standard' | null
    readonly dates: 'day first' | 'month first' | null
    /** What a stamp marks: a moment, or the start or the end of what the row is a mean of. */
    readonly stamp: 'moment' | 'start' | 'end'
  }
  /** Null: columns are taken by their headings. */
  readonly sensors:
    | readonly {
        readonly column: string
        readonly place: SensorPlace
        readonly unit: 'C' | 'F' | '%' | null
        readonly name: string | null
        readonly accuracy: { readonly value: number } | null
      }[]
    | null
  /** Numbers that stand for “no reading”. */
  readonly missing: readonly { readonly value: number }[]
}

export const NO_MAPPING: LogMapping = {
  time: { column: null, date: null, clock: null, dates: null, stamp: 'moment' },
  sensors: null,
  missing: [],
}

/** Taken where the mapping does not say it: what small loggers are sold with. Common practice. */
export const ACCURACY_K = 0.5
export const ACCURACY_FRAC = 0.03
