import { type Item, line, type Scene, text } from './scene.ts'
import type { SymbolSet } from './symbols/index.ts'

/** Every symbol of the set with its words, two in a row. */
export function symbolSheet(set: SymbolSet, widthMm: number): Scene {
  const all = Object.values(set.symbols)
  const columns = 2
  const cell = widthMm / columns
  const items: Item[] = []
  for (const [i, symbol] of all.entries()) {
    const x = (i % columns) * cell + 8
    const y = Math.floor(i / columns) * 14 + 2
    items.push(
      line(
        [
          [x, y],
          [x, y + 2],
        ],
        'symbol',
      ),
      ...symbol.draw([x, y + 2]),
    )
    if (symbol.heightMm > 0)
      items.push(
        line(
          [
            [x, y + 2 + symbol.heightMm],
            [x, y + 4 + symbol.heightMm],
          ],
          'symbol',
        ),
      )
    items.push(text([x + 7, y + 6.5], symbol.words))
  }
  const heightMm = Math.ceil(all.length / columns) * 14 + 2
  return {
    sizeMm: [widthMm, heightMm],
    said: `Graphic symbols after ${set.standard}: ${all.map((s) => s.words).join('; ')}.`,
    items,
  }
}
