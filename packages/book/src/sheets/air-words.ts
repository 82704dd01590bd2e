import type { AirEnd, AirSpell, FaceWet } from '@plugstead/engine/air'
import type { Side } from '@plugstead/engine/job'
import { formatNumber, THIN } from '@plugstead/engine/kernel'
import type { BookInput, BoxAir } from '../results.ts'

export const ENDS: readonly AirEnd[] = ['tight', 'leaky']

export const MONTH_WORDS = [
  ...['January', 'February', 'March', 'April', 'May', 'June'],
  ...['July', 'August', 'September', 'October', 'November', 'December'],
] as const

export const airOf = (input: BookInput, box: string): BoxAir | null =>
  input.assessment.results.air?.boxes.find((b) => b.box === box) ?? null

const withUnit = (said: string, unit: string): string => (unit === '' ? said : `${said}${THIN}${unit}`)

/** One decimal, a true minus. */
export function tenths(value: number, unit: string): string {
  if (!Number.isFinite(value)) return 'unknown'
  const said = Math.abs(value).toFixed(1)
  return withUnit(value < 0 && said !== '0.0' ? `−${said}` : said, unit)
}

export const whole = (value: number, unit: string): string =>
  Number.isFinite(value) ? withUnit(formatNumber(Math.round(value)), unit) : 'unknown'

/** Water in litres; less than a tenth of one in grams, so that little is not nothing. */
export const litres = (massKg: number): string => (massKg > 0 && massKg < 0.1 ? whole(massKg * 1000, 'g') : tenths(massKg, 'l'))

export const endWords: Readonly<Record<AirEnd, string>> = { tight: 'leaks least', leaky: 'leaks most' }

/** Which end a sheet shows, and why that one. */
export const endHead = (air: BoxAir, end: AirEnd): string =>
  `as the box that ${endWords[end]}, ${end === air.wetterEnd ? 'the wetter' : 'the drier'} of the two ends`

const DRY: Omit<FaceWet, 'side'> = {
  ...{ wetH: 0, frostH: 0, mostGPerM2: 0, mostAtH: 0, bareMostGPerM2: 0, frostNightsCount: 0, fellKg: 0 },
}

export const faceOf = (year: BoxAir['ends'][AirEnd], side: Side): FaceWet =>
  year.counts.faces.find((f) => f.side === side) ?? { side, ...DRY }

/** The spell of the year that an hour lies in; null: none holds it. */
export const spellWith = (year: Pick<BoxAir['ends'][AirEnd], 'spells'>, atH: number): AirSpell | null =>
  year.spells.find((s) => atH >= s.fromH && atH < s.fromH + s.hoursCount) ?? null

/** “November to February”, “May, August”: months in a row, over the turn of the year too. */
export function monthsSaid(months: readonly number[]): string {
  const own = [...new Set(months)].sort((a, b) => a - b)
  if (own.length === 12) return 'all year'
  const rows: number[][] = []
  for (const m of own) {
    const last = rows.at(-1)
    if (last !== undefined && last.at(-1) === m - 1) last.push(m)
    else rows.push([m])
  }
  const [first, last] = [rows[0], rows.at(-1)]
  if (first !== undefined && last !== undefined && first !== last && first[0] === 0 && last.at(-1) === 11) {
    rows.shift()
    last.push(...first)
  }
  return rows
    .map((row) => (row.length === 1 ? MONTH_WORDS[row[0]!]! : `${MONTH_WORDS[row[0]!]} to ${MONTH_WORDS[row.at(-1)!]}`))
    .join(', ')
}

/** Long side that the panel hangs on; the left one where it hangs on neither. */
export const gearSideOf = (
  items: readonly { readonly kind: string; readonly side: Side; readonly face: string }[],
): 'left' | 'right' => (items.some((i) => i.kind === 'panel' && i.face === 'inside' && i.side === 'right') ? 'right' : 'left')
