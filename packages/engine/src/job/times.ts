import { isLeapYear } from '../kernel/index.ts'
import { type About, fail, good, type Read, special } from './fields.ts'
import { problem, shown } from './problems.ts'

/** A calendar day with its year. */
export function date(about: About) {
  const read: Read<string> = (value) =>
    typeof value === 'string' && isDay(value) ? good(value) : fail(problem('job/date', shown(value)))
  return special(
    read,
    {
      type: 'string',
      unit: 'none',
      range: '1990-01-01 to 2199-12-31',
      examples: ['2027-11-01'],
      pattern: String.raw`^\d{4}-\d{2}-\d{2}$`,
    },
    about,
  )
}

export function isDay(value: string): boolean {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(value)
  if (!parts) return false
  const [year, month, day] = [Number(parts[1]), Number(parts[2]), Number(parts[3])]
  const last = [31, isLeapYear(year) ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1]
  return last !== undefined && day >= 1 && day <= last && year >= 1990 && year <= 2199
}

const CLOCK = String.raw`([01]?\d|2[0-4]):([0-5]\d)`

/** Hours of day in [0, 24); 24:00 is midnight. Null when it is no time of day. */
export function clockH(value: string): number | null {
  const match = new RegExp(`^${CLOCK}$`).exec(value.trim())
  if (!match) return null
  const minutes = Number(match[1]) * 60 + Number(match[2])
  return minutes > 1440 ? null : (minutes % 1440) / 60
}

export function clock(about: About) {
  const read: Read<number> = (value) => {
    const hours = typeof value === 'string' ? clockH(value) : null
    return hours === null ? fail(problem('job/clock', shown(value))) : good(hours)
  }
  return special(read, { type: 'string', unit: 'h:min', range: '00:00 to 24:00', examples: ['16:30'] }, about)
}

/** A window of the day. An end at or before the start crosses midnight; `all day` and equal ends are 24 h. */
export interface Window {
  readonly fromH: number
  readonly toH: number
}

export function window(about: About) {
  const read: Read<Window> = (value) => {
    if (typeof value !== 'string') return fail(problem('job/window', shown(value)))
    if (value.trim() === 'all day') return good({ fromH: 0, toH: 0 })
    const ends = value.split(/\s+to\s+/)
    const [fromH, toH] = [clockH(ends[0] ?? ''), clockH(ends[1] ?? '')]
    if (ends.length !== 2 || fromH === null || toH === null) return fail(problem('job/window', shown(value)))
    return good({ fromH, toH })
  }
  return special(
    read,
    {
      type: 'string',
      unit: 'h:min',
      range: 'two times of day; an end before the start crosses midnight',
      examples: ['10:30 to 16:30', 'all day'],
    },
    about,
  )
}

/** Length of a window, hours; equal ends are the whole day. */
export const windowH = (w: Window): number => (w.toH > w.fromH ? w.toH - w.fromH : w.toH - w.fromH + 24)

export interface MonthSpan {
  readonly from: number
  readonly to: number
}

/** Months of the stay, counted from 1: `13 to 22`. */
export function monthSpan(about: About) {
  const read: Read<MonthSpan> = (value) => {
    const match = typeof value === 'string' ? /^(\d{1,3})(?:\s+to\s+(\d{1,3}))?$/.exec(value.trim()) : null
    const from = match ? Number(match[1]) : typeof value === 'number' && Number.isInteger(value) ? value : 0
    const to = match?.[2] === undefined ? from : Number(match[2])
    return from >= 1 && to >= from && to <= 600 ? good({ from, to }) : fail(problem('job/months', shown(value)))
  }
  return special(
    read,
    { type: ['string', 'integer'], unit: 'months of the stay', range: '1 to 600', examples: ['13 to 22'] },
    about,
  )
}
