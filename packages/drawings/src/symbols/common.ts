import { circle, type Item, line, type Point, text } from '../scene.ts'
import type { GraphicSymbol } from './symbol.ts'

/** A circle with letters in it: rotating machines in both standards. */
export function lettered(name: GraphicSymbol['name'], words: string, letters: string): GraphicSymbol {
  return {
    name,
    words,
    heightMm: 7,
    draw: ([x, y]: Point): readonly Item[] => [
      circle([x, y + 3.5], 3.5, 'symbol', 'blank'),
      text([x, y + 4.55], letters, { anchor: 'middle', heightMm: letters.length > 1 ? 2.4 : 3.1, strong: true }),
    ],
  }
}

/** Three lines that grow shorter: alike in both standards. */
export const earth: GraphicSymbol = {
  name: 'earth',
  words: 'earth, ground',
  heightMm: 0,
  draw: ([x, y]) => [
    line(
      [
        [x, y],
        [x, y + 1.6],
      ],
      'symbol',
    ),
    line(
      [
        [x - 2, y + 1.6],
        [x + 2, y + 1.6],
      ],
      'symbol',
    ),
    line(
      [
        [x - 1.3, y + 2.4],
        [x + 1.3, y + 2.4],
      ],
      'symbol',
    ),
    line(
      [
        [x - 0.6, y + 3.2],
        [x + 0.6, y + 3.2],
      ],
      'symbol',
    ),
  ],
}

/** Where the supply's wires end and ours begin. */
export const terminal: GraphicSymbol = {
  name: 'source',
  words: 'point of supply: terminal',
  heightMm: 2,
  draw: ([x, y]) => [circle([x, y + 1], 1, 'symbol', 'blank')],
}
