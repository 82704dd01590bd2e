import { arc, box, circle, type Item, line, type Point } from '../scene.ts'
import { earth, lettered, terminal } from './common.ts'
import type { SymbolSet } from './symbol.ts'

/**
 * Symbols of one-line diagrams for North America.
 * @source IEEE 315-1975 (reaffirmed 1993), figures recalled. Provenance: memory
 */
export const ieee315: SymbolSet = {
  standard: 'IEEE 315',
  symbols: {
    source: terminal,
    transformer: {
      name: 'transformer',
      words: 'transformer, two windings',
      heightMm: 7,
      draw: ([x, y]): readonly Item[] => [
        line(
          [
            [x, y],
            [x, y + 1],
          ],
          'symbol',
        ),
        ...winding([x, y + 1], 'down'),
        line(
          [
            [x - 3.2, y + 3.1],
            [x + 3.2, y + 3.1],
          ],
          'ampere 1',
        ),
        line(
          [
            [x - 3.2, y + 3.9],
            [x + 3.2, y + 3.9],
          ],
          'ampere 1',
        ),
        ...winding([x, y + 6], 'up'),
        line(
          [
            [x, y + 6],
            [x, y + 7],
          ],
          'symbol',
        ),
      ],
    },
    generator: lettered('generator', 'generator', 'GEN'),
    motor: lettered('motor', 'motor', 'MOT'),
    breaker: {
      name: 'breaker',
      words: 'circuit breaker, air',
      heightMm: 6,
      draw: ([x, y]) => [
        line(
          [
            [x, y],
            [x, y + 0.9],
          ],
          'symbol',
        ),
        circle([x, y + 1.3], 0.4, 'ampere 1', 'blank'),
        circle([x, y + 4.7], 0.4, 'ampere 1', 'blank'),
        arc([x - 0.55, y + 3], 2.1, -68, 68, 'symbol'),
        line(
          [
            [x, y + 5.1],
            [x, y + 6],
          ],
          'symbol',
        ),
      ],
    },
    fuse: {
      name: 'fuse',
      words: 'fuse',
      heightMm: 6,
      draw: ([x, y]) => [
        box([x - 1, y + 1], 2, 4, 'symbol', 'blank'),
        line(
          [
            [x, y],
            [x, y + 6],
          ],
          'symbol',
        ),
      ],
    },
    earth,
    outlet: {
      name: 'outlet',
      words: 'receptacle: separable connector, female above, male below',
      heightMm: 3.4,
      draw: ([x, y]) => [chevron([x, y + 1.6]), chevron([x, y + 2.9])],
    },
    meter: lettered('meter', 'watthour meter', 'WH'),
    heater: {
      name: 'heater',
      words: 'heating resistor',
      heightMm: 0,
      draw: ([x, y]) => {
        const zig: Point[] = [
          [x, y],
          [x, y + 0.8],
        ]
        for (let i = 0; i < 6; i += 1) zig.push([x + (i % 2 === 0 ? 1.2 : -1.2), y + 1.2 + i * 0.8])
        zig.push([x, y + 5.6], [x, y + 6.4])
        return [line(zig, 'symbol')]
      },
    },
    load: {
      name: 'load',
      words: 'load',
      heightMm: 0,
      draw: ([x, y]) => [
        line(
          [
            [x - 1.1, y],
            [x, y + 2.2],
            [x + 1.1, y],
          ],
          'symbol',
        ),
      ],
    },
  },
}

const chevron = ([x, y]: Point): Item =>
  line(
    [
      [x - 1.5, y + 0.5],
      [x, y - 1.1],
      [x + 1.5, y + 0.5],
    ],
    'symbol',
  )

/** Three scallops in a row. */
function winding([x, y]: Point, opens: 'down' | 'up'): readonly Item[] {
  return [-2, 0, 2].map((dx) =>
    opens === 'down' ? arc([x + dx, y], 1, 0, 180, 'symbol') : arc([x + dx, y], 1, 180, 360, 'symbol'),
  )
}
