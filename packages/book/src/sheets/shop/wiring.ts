import type { Block, Inline } from '../../content.ts'
import type { BoxShop } from '../../results.ts'
import { col, right } from '../../words.ts'
import { pieceWords } from '../build-words.ts'
import { sizeWords } from '../circuits.ts'

/** Wires of one pull in one row: those of one circuit that run the same way at one length. Bonds of one length that end alike, too. */
export function wireBlocks({ wires, wireTotals }: BoxShop): readonly Block[] {
  if (wires.length === 0) return []
  const pulls = new Map<string, (typeof wires)[number][]>()
  for (const w of wires) {
    const from = w.raceways.length === 0 ? '' : w.from
    const key = JSON.stringify([w.circuit, from, w.to, w.raceways, w.size, w.metal, w.insulation, w.cutM])
    pulls.set(key, [...(pulls.get(key) ?? []), w])
  }
  const letters = [...new Set(wires.map((w) => w.conductor))].toSorted()
  const colours = (letter: string) => [...new Set(wires.filter((w) => w.conductor === letter).map((w) => w.colour))]
  const legend = letters.filter((letter) => colours(letter).length === 1)
  const example = wires[0]!
  return [
    {
      k: 'table',
      small: true,
      columns: [
        col('circuit', 23),
        col('from', -1.1),
        col('to', -0.9),
        col('through', -0.9),
        right('no.', 8),
        col('wires', -0.7),
        col('size', 30),
        right('cut each, m', 18),
      ],
      rows: [...pulls.values()].map((own): Inline[] => [
        [['b', own[0]!.circuit]],
        pieceWords([...new Set(own.map((w) => w.from))]),
        own[0]!.to,
        [...own[0]!.raceways, ...(own[0]!.wirewayM === null ? [] : ['lies in wireway'])].join(', ') || 'no raceway',
        String(own.length),
        [...new Set(own.map((w) => (legend.includes(w.conductor) ? w.conductor : `${w.conductor} ${w.colour}`)))].join(', '),
        `${sizeWords(own[0]!.size)} ${own[0]!.metal} ${own[0]!.insulation}`,
        own[0]!.cutM.toFixed(2),
      ]),
    },
    {
      k: 'para',
      small: true,
      text: `${legend.map((letter) => `${letter}: ${colours(letter)[0]}`).join('; ')}. Mark both ends before the pull, circuit and conductor, and where the other end is: “${example.markFrom}” here, “${example.markTo}” there.`,
    },
    { k: 'head', text: 'Wire from the reel' },
    {
      k: 'table',
      small: true,
      columns: [
        col('size', 24),
        col('metal', 16),
        col('insulation', 30),
        col('colour', -1),
        right('pieces', 18),
        right('metres together', 26),
      ],
      rows: wireTotals.map((t): Inline[] => [
        sizeWords(t.size),
        t.metal,
        t.insulation,
        t.colour,
        String(t.count),
        t.lengthM.toFixed(1),
      ]),
    },
  ]
}
