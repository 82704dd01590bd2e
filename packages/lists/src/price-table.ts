import type { Prices } from '@plugstead/engine/parts'

const quoted = (words: string): string => `'${words.replaceAll("'", "''").replace(/[\r\n\t]+/g, ' ')}'`

/** The price table of a shop's folder, one row a line, in the order of the ids. */
export function priceTable({ currency, rows }: Prices, note: string): string {
  const lines = Object.values(rows)
    .toSorted((a, b) => (a.id < b.id ? -1 : 1))
    .map((p) => {
      const more = [
        ...(p.supplier === undefined ? [] : [`supplier: ${quoted(p.supplier)}`]),
        ...(p.packCount === undefined ? [] : [`pack: ${p.packCount}`]),
        ...(p.wasteFrac === undefined ? [] : [`waste: ${Number((p.wasteFrac * 100).toFixed(6))} %`]),
        ...(p.currency === undefined ? [] : [`currency: ${p.currency}`]),
      ].map((words) => `, ${words}`)
      return `- { id: ${quoted(p.id)}, money: ${p.money}, per: ${p.per}, date: ${p.date}, source: ${quoted(p.source)}${more.join('')} }`
    })
  return `currency: ${currency}\nnote: ${quoted(note)}\nrows:\n${lines.join('\n')}\n`
}
