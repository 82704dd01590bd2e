/** Where the hours of a run begin in the calendar: day of the year (1 to 366) and hour of the clock. */
export interface AirClock {
  readonly firstDay: number
  readonly firstHour: number
  /** A year that keeps its 29 February. */
  readonly leap?: boolean
}

export interface AirTime {
  /** 0: January. */
  readonly month: number
  readonly day: number
  readonly hourH: number
}

export const DAY_H = 24
const LENGTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const
export const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const

/** Month, day and hour of the clock, so many hours after a run began. */
export function timeAt(of: AirClock, afterH: number): AirTime {
  const leap = of.leap === true
  const year = leap ? 366 : 365
  const all = of.firstHour + afterH
  let day = (((of.firstDay - 1 + Math.floor(all / DAY_H)) % year) + year) % year
  let month = 0
  for (;;) {
    const length = LENGTHS[month]! + (leap && month === 1 ? 1 : 0)
    if (day < length) break
    day -= length
    month += 1
  }
  return { month, day: day + 1, hourH: ((all % DAY_H) + DAY_H) % DAY_H }
}

export const dayWords = ({ day, month }: AirTime): string => `${day} ${MONTHS[month]}`
export const timeWords = (time: AirTime): string => `${dayWords(time)}, ${String(time.hourH).padStart(2, '0')}:00`
