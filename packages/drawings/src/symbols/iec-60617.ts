import { arc, box, circle, line, text } from '../scene.ts'
import { earth, lettered, terminal } from './common.ts'
import type { SymbolSet } from './symbol.ts'

/**
 * Symbols of one-line diagrams outside North America.
 * @source IEC 60617 (database), figures recalled. Provenance: memory
 */
export const iec60617: SymbolSet = {
  standard: 'IEC 60617',
  symbols: {
    source: terminal,
    transformer: {
      name: 'transformer',
      words: 'transformer, two windings',
      heightMm: 8.4,
      draw: ([x, y]) => [circle([x, y + 2.7], 2.7, 'symbol'), circle([x, y + 5.7], 2.7, 'symbol')],
    },
    generator: lettered('generator', 'generator, alternating current', 'G~'),
    motor: lettered('motor', 'motor, alternating current', 'M~'),
    breaker: {
      name: 'breaker',
      words: 'circuit breaker',
      heightMm: 7,
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
            [x - 0.9, y + 0.7],
            [x + 0.9, y + 2.5],
          ],
          'symbol',
        ),
        line(
          [
            [x + 0.9, y + 0.7],
            [x - 0.9, y + 2.5],
          ],
          'symbol',
        ),
        line(
          [
            [x, y + 7],
            [x, y + 5.6],
            [x - 2.1, y + 1.9],
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
      words: 'socket and plug',
      heightMm: 3.4,
      draw: ([x, y]) => [
        arc([x, y + 1.9], 1.7, 180, 360, 'symbol'),
        line(
          [
            [x, y],
            [x, y + 0.2],
          ],
          'symbol',
        ),
        line(
          [
            [x, y + 1.4],
            [x, y + 3.4],
          ],
          'cut',
        ),
      ],
    },
    meter: {
      name: 'meter',
      words: 'watt-hour meter',
      heightMm: 7,
      draw: ([x, y]) => [
        box([x - 3.5, y], 7, 7, 'symbol', 'blank'),
        line(
          [
            [x - 3.5, y + 1.8],
            [x + 3.5, y + 1.8],
          ],
          'symbol',
        ),
        text([x, y + 5.5], 'Wh', { anchor: 'middle', strong: true }),
      ],
    },
    heater: {
      name: 'heater',
      words: 'heating element',
      heightMm: 0,
      draw: ([x, y]) => [
        box([x - 1.1, y + 0.8], 2.2, 5.6, 'symbol', 'blank'),
        line(
          [
            [x, y],
            [x, y + 0.8],
          ],
          'symbol',
        ),
        ...[1, 2, 3].map((i) =>
          line(
            [
              [x - 1.1, y + 0.8 + i * 1.4],
              [x + 1.1, y + 0.8 + i * 1.4],
            ],
            'ampere 1',
          ),
        ),
      ],
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
