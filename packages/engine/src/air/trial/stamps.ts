/** A stamp taken apart: minutes since 1970 as written, and the zone where it names one. */
export interface StampRead {
  readonly atMin: number
  /** Hours east of Greenwich; null: the stamp names none. */
  readonly zoneH: number | null
}

export type DayOrder = 'day first' | 'month first'

const CLOCK = /^(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,]\d+)?)?\s*([ap])?\.?m?\.?\s*(z|utc|gmt|[+\-−]\d{1,2}(?::?\d{2})?)?$/i

/** A day and a time of it, as people and loggers write them; null when it is none. `order` for days with the year last. */
export function stampRead(text: string, order: DayOrder | null): StampRead | null {
  const parts = /^(\S+?)(?:[T ]\s*)(\d{1,2}:.*)$/.exec(text.trim())
  if (parts === null) return null
  const day = dayOf(parts[1] as string, order)
  const clock = CLOCK.exec((parts[2] as string).trim())
  if (day === null || clock === null) return null
  const half = clock[4]?.toLowerCase()
  const hour = Number(clock[1])
  const [minute, second] = [Number(clock[2]), Number(clock[3] ?? 0)]
  const wrong = half === undefined ? hour > 24 || (hour === 24 && minute + second > 0) : hour < 1 || hour > 12
  if (wrong || minute > 59 || second > 59) return null
  const hours = half === undefined ? hour : (hour % 12) + (half === 'p' ? 12 : 0)
  return { atMin: day * 1440 + hours * 60 + minute + second / 60, zoneH: zoneOf(clock[5]) }
}

/** The two numbers before the year, when a day is written with the year last and no dots: which is the month is not said. */
export function openDay(text: string): readonly [number, number] | null {
  const match = /^(\d{1,2})[/-](\d{1,2})[/-](\d{2}|\d{4})\b/.exec(text.trim())
  return match === null ? null : [Number(match[1]), Number(match[2])]
}

function dayOf(text: string, order: DayOrder | null): number | null {
  const first = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(text)
  if (first !== null) return dayNumber(Number(first[1]), Number(first[2]), Number(first[3]))
  const last = /^(\d{1,2})([./-])(\d{1,2})\2(\d{2}|\d{4})$/.exec(text)
  if (last === null) return null
  const year = Number(last[4]) + ((last[4] as string).length === 2 ? 2000 : 0)
  const [a, b] = [Number(last[1]), Number(last[3])]
  // With dots the day always stands first.
  return order === 'month first' && last[2] !== '.' ? dayNumber(year, a, b) : dayNumber(year, b, a)
}

function dayNumber(year: number, month: number, day: number): number | null {
  if (year < 1970 || year > 2199) return null
  const at = new Date(Date.UTC(year, month - 1, day))
  return at.getUTCMonth() === month - 1 && at.getUTCDate() === day ? Math.round(at.getTime() / 86_400_000) : null
}

function zoneOf(text: string | undefined): number | null {
  if (text === undefined) return null
  const match = /^([+\-−])(\d{1,2}):?(\d{2})?$/.exec(text)
  return match === null ? 0 : (match[1] === '+' ? 1 : -1) * (Number(match[2]) + Number(match[3] ?? 0) / 60)
}

/** `2027-02-01 13:10` of minutes since 1970. */
export function stampText(atMin: number): string {
  const minutes = Math.round(atMin)
  return new Date(minutes * 60_000).toISOString().slice(0, 16).replace('T', ' ')
}
