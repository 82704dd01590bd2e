import { dayNumberD, isoOrNull } from '../../kernel/index.ts'
import { numberOf } from './cells.ts'
import type { ColumnMapping, ColumnRef } from './mapping.ts'

interface Stamp {
  /** Hours since 1 January 1970 by the clock of the place. */
  readonly h: number
  readonly year: number
}

export interface StampReader {
  (cells: readonly string[], utcOffsetH: number): Stamp | null
  readonly columns: readonly number[]
  readonly shown: (cells: readonly string[]) => string
  readonly wanted: string
}

const TIME = /^(\d{1,2}):?(\d{2})(?::(\d{2})(?:\.\d+)?)?\s*(Z|UTC|[+-]\d{2}:?\d{2})?$/i
const DATES = {
  'year first': /^(\d{4})[-/.]?(\d{1,2})[-/.]?(\d{1,2})$/,
  'day first': /^(\d{1,2})[-/.](\d{1,2})[-/.](\d{4})$/,
  'month first': /^(\d{1,2})[-/.](\d{1,2})[-/.](\d{4})$/,
} as const
const WANTED = {
  'year first': 'a date and a time of day, 2012-01-31 13:00, perhaps with Z or +02:00',
  'day first': 'a date and a time of day, 31/01/2012 13:00',
  'month first': 'a date and a time of day, 01/31/2012 13:00',
} as const

/** Reads the time of a row as the mapping says it is written. */
export function stampReader(time: ColumnMapping['time'], column: (ref: ColumnRef) => number): StampReader {
  const order = time.order ?? 'year first'
  const utc = time.clock === 'UTC'
  const refs = time.column === undefined ? [time.year, time.month, time.day, time.hour, time.minute] : [time.column, time.and]
  const columns = refs.flatMap((ref) => (ref === undefined ? [] : [column(ref)]))
  const shown = (cells: readonly string[]) => columns.map((i) => cells[i] ?? '').join(' ')
  const local = (stamp: Stamp, zoneH: number | null, utcOffsetH: number): Stamp => {
    const aheadH = zoneH === null ? (utc ? utcOffsetH : 0) : utcOffsetH - zoneH
    return { h: stamp.h + aheadH, year: stamp.year }
  }
  const read =
    time.column === undefined
      ? (cells: readonly string[], utcOffsetH: number) => {
          const [year, month, day, hour, minute = 0] = columns.map((i) => numberOf(cells[i] ?? '')) as [
            number,
            number,
            number,
            number,
            number?,
          ]
          const stamp = stampOf(year, month, day, hour, minute, 0)
          return stamp === null ? null : local(stamp, null, utcOffsetH)
        }
      : (cells: readonly string[], utcOffsetH: number) => {
          const parsed = parsedStamp(shown(cells).trim(), order)
          return parsed === null ? null : local(parsed.stamp, parsed.zoneH, utcOffsetH)
        }
  return Object.assign(read, {
    columns,
    shown,
    wanted: time.column === undefined ? 'year, month 1 to 12, day, hour 0 to 24 as whole numbers' : WANTED[order],
  })
}

function parsedStamp(text: string, order: keyof typeof DATES): { readonly stamp: Stamp; readonly zoneH: number | null } | null {
  const [date = '', ...rest] = text.replace('T', ' ').split(/[ ,]+/)
  const d = DATES[order].exec(date)
  const clock = rest.join(' ').replace(/\s+(?=Z|UTC|[+-])/i, '')
  const t = clock === '' ? null : TIME.exec(clock)
  if (d === null || (clock !== '' && t === null)) return null
  const [a, b, c] = d.slice(1).map(Number) as [number, number, number]
  const [year, month, day] = order === 'year first' ? [a, b, c] : order === 'day first' ? [c, b, a] : [c, a, b]
  const stamp = stampOf(year, month, day, Number(t?.[1] ?? 0), Number(t?.[2] ?? 0), Number(t?.[3] ?? 0))
  return stamp === null ? null : { stamp, zoneH: zoneOf(t?.[4]) }
}

function zoneOf(zone: string | undefined): number | null {
  if (zone === undefined) return null
  if (/^(z|utc)$/i.test(zone)) return 0
  const sign = zone.startsWith('-') ? -1 : 1
  return sign * (Number(zone.slice(1, 3)) + Number(zone.slice(-2)) / 60)
}

const two = (n: number): string => String(n).padStart(2, '0')

/** Null where there is no such day or time. Hour 24 is the end of the day. */
function stampOf(year: number, month: number, day: number, hour: number, minute: number, second: number): Stamp | null {
  const whole = [year, month, day, hour, minute].every((n) => Number.isInteger(n))
  if (!whole || year < 1901 || year > 2099 || month < 1 || day < 1) return null
  const iso = `${year}-${two(month)}-${two(day)}`
  if (isoOrNull(iso) === null || hour < 0 || hour > 24 || minute < 0 || minute > 59 || second > 59) return null
  if (hour === 24 && (minute > 0 || second > 0)) return null
  return { h: dayNumberD(iso) * 24 + hour + minute / 60 + second / 3600, year }
}
