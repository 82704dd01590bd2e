import type { Verdict } from '@plugstead/engine/kernel'
import { formatNumber, THIN } from '@plugstead/engine/kernel'
import { wordsMm } from './model/lettering.ts'
import { box, type Item, LETTERING_MM, line, mark, type Scene, text } from './scene.ts'

export interface OfferBar {
  /** “1  pole 400 A”. */
  readonly name: string
  readonly verdict: Verdict
  readonly taken: boolean
  /** Over the stay; null: not known. */
  readonly money: { readonly low: number; readonly high: number } | null
  /** “ready 9 October 2027, 23 days in hand”. */
  readonly ready: string
  /** What it still lacks, one sentence each. */
  readonly lacks: readonly string[]
}

export interface Offers {
  readonly widthMm: number
  readonly currency: string
  /** Best first. */
  readonly rows: readonly OfferBar[]
}

const LINE_MM = 3.7
const NARROW_MM = 110
const BAR_MM = 3

/** Offers by rank: what each costs over the stay on one scale, both ends, when it is ready, what it lacks. */
export function offersDrawing({ widthMm, currency, rows }: Offers): Scene {
  // On a narrow sheet the name has a line to itself.
  const narrow = widthMm < NARROW_MM
  const left = narrow ? 4.4 : Math.min(46, widthMm * 0.34)
  const right = widthMm - 34
  const most = Math.max(1, ...rows.map((row) => row.money?.high ?? 0))
  const x = (money: number): number => left + (money / most) * Math.max(8, right - left)
  const items: Item[] = []
  let y = 5
  for (const row of rows) {
    items.push(mark([1.6, y - 1], row.verdict), text([4.4, y], row.name, { strong: row.taken }))
    if (row.taken) items.push(narrow ? text([widthMm - 1, y], 'taken', { anchor: 'end' }) : text([4.4, y + LINE_MM], 'taken'))
    if (narrow) y += LINE_MM
    if (row.money === null) items.push(text([left, y], 'cost not known'))
    else {
      const { low, high } = row.money
      items.push(
        box([left, y - BAR_MM + 0.6], Math.max(0.3, x(low) - left), BAR_MM, 'symbol', row.taken ? 'solid' : 'blank'),
        ...(high > low ? [box([x(low), y - BAR_MM + 0.6], x(high) - x(low), BAR_MM, 'symbol', 'slant close')] : []),
        text([x(high) + 1.4, y], moneySaid(low, high, currency)),
      )
    }
    const under = [row.ready, ...(row.lacks.length === 0 ? [] : [`lacks ${row.lacks.join('; ')}`])]
    let below = y + LINE_MM
    for (const said of under.flatMap((words) => broken(words, widthMm - left - 1))) {
      items.push(text([left, below], said))
      below += LINE_MM
    }
    y = Math.max(below, y + 2 * LINE_MM) + 2.4
    items.push(
      line(
        [
          [0, y - 4.6],
          [widthMm, y - 4.6],
        ],
        'rib',
      ),
    )
  }
  return {
    sizeMm: [widthMm, y - 2],
    said: `Offers by rank: ${rows.map((row) => `${row.name}, ${row.verdict}${row.money === null ? '' : `, ${moneySaid(row.money.low, row.money.high, currency)} over the stay`}`).join('; ')}.`,
    items,
  }
}

function moneySaid(low: number, high: number, currency: string): string {
  const [a, b] = [formatNumber(Math.round(low)), formatNumber(Math.round(high))]
  return a === b ? `${a}${THIN}${currency}` : `${a} … ${b}${THIN}${currency}`
}

/** Lines no longer than the room for them. */
function broken(words: string, roomMm: number): readonly string[] {
  const lines: string[] = []
  for (const word of words.split(' ')) {
    const last = lines.at(-1)
    if (last === undefined || wordsMm(`${last} ${word}`, LETTERING_MM) > roomMm) lines.push(word)
    else lines[lines.length - 1] = `${last} ${word}`
  }
  return lines
}
