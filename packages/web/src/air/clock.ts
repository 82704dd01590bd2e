export const DAY_H = 24
export const WEEK_H = 168

/** Hours from the first midnight of a run to the one of a day; the first is 0 or before. */
export const dayStartH = (firstHour: number, day: number): number => Math.max(0, day * DAY_H - firstHour)

/** Day of the run that an hour lies in, from 0. */
export const dayOf = (firstHour: number, atH: number): number => Math.floor((firstHour + atH) / DAY_H)

/** First hour of the week that has an hour in its fourth day, kept within the run. */
export function weekAround(hoursCount: number, firstHour: number, atH: number): number {
  const fromH = dayStartH(firstHour, dayOf(firstHour, atH) - 3)
  return Math.max(0, Math.min(fromH, hoursCount - WEEK_H))
}
