import type { AirMoment, AirReason } from '@plugstead/engine/air'
import { box, type Item, line, type Point, type Scene, text } from '../scene.ts'
import { LINE_MM, wrapped } from './plot.ts'
import { type AirUnits, reasonSaid } from './units.ts'

export interface AirReasons {
  readonly widthMm: number
  readonly units: AirUnits
  readonly moment: AirMoment
}

const GAP_MM = 5.5
const INSET_MM = 1.8
const VALUE_MM = 3.7
const LEAST_MM = 40

/**
 * How a moment came about: one reason a plate, read from left to right and down, each leading to the next. Where water fell, on what it fell
 * stands together in a heavy plate at the end.
 */
export function airReasons({ widthMm, units, moment }: AirReasons): Scene {
  const steps = moment.steps.filter((s) => !landsOn(s))
  const lands = moment.steps.filter(landsOn)
  const columns = Math.max(1, Math.floor((widthMm + GAP_MM) / (LEAST_MM + GAP_MM)))
  const wide = (widthMm - 0.8 - (columns - 1) * GAP_MM) / columns
  const cells = steps.map((s) => ({
    said: wrapped(s.said, wide - 2 * INSET_MM),
    value: wrapped(reasonSaid(s.value, s.unit, units), wide - 2 * INSET_MM, VALUE_MM),
  }))
  const items: Item[] = [text([0.4, 3.4], `${moment.what}, ${moment.when}`, { strong: true })]
  let y = 6
  let before: { readonly x: number; readonly y: number; readonly high: number } | null = null
  for (let row = 0; row < cells.length; row += columns) {
    const own = cells.slice(row, row + columns)
    const high = Math.max(...own.map((c) => 2.2 + c.said.length * LINE_MM + c.value.length * 4.4))
    own.forEach((cell, i) => {
      const x = 0.4 + i * (wide + GAP_MM)
      if (i > 0) items.push(...arrowTo([x - GAP_MM, y + high / 2], [x, y + high / 2]))
      else if (before !== null) {
        // Down from the end of the row above, and back to the left.
        const between = y - GAP_MM / 2
        const middle = x + wide / 2
        items.push(
          line(
            [
              [before.x + wide / 2, before.y + before.high] as Point,
              [before.x + wide / 2, between] as Point,
              [middle, between] as Point,
            ],
            'symbol',
          ),
        )
        items.push(...arrowTo([middle, between], [middle, y]))
      }
      items.push(box([x, y], wide, high, 'symbol', 'blank'))
      cell.said.forEach((one, n) => {
        items.push(text([x + INSET_MM, y + 3.5 + n * LINE_MM], one))
      })
      cell.value.forEach((one, n) => {
        items.push(
          text([x + INSET_MM, y + 4.1 + cell.said.length * LINE_MM + n * 4.4], one, { heightMm: VALUE_MM, strong: true }),
        )
      })
      if (i === own.length - 1) before = { x, y, high }
    })
    y += high + GAP_MM
  }
  if (lands.length > 0) {
    const lines = wrapped(landsWords(lands, units), widthMm - 0.8 - 2 * INSET_MM)
    const high = 2.4 + lines.length * LINE_MM
    if (before !== null) {
      const from: { readonly x: number; readonly y: number; readonly high: number } = before
      items.push(...arrowTo([from.x + wide / 2, from.y + from.high], [from.x + wide / 2, y]))
    }
    items.push(box([0.4, y], widthMm - 0.8, high, 'cut', 'blank'))
    lines.forEach((one, n) => {
      items.push(text([0.4 + INSET_MM, y + 3.7 + n * LINE_MM], one, { strong: true }))
    })
    y += high + GAP_MM
  }
  return {
    sizeMm: [widthMm, cells.length === 0 && lands.length === 0 ? 6 : y - GAP_MM + 1],
    said: `${moment.what}, ${moment.when}: ${moment.steps.map((s) => `${s.said} ${reasonSaid(s.value, s.unit, units)}`).join('; ')}.`,
    items,
  }
}

const LANDS = /^of it on /
const landsOn = (step: AirReason): boolean => LANDS.test(step.said)

/** Most first: “of it on: the heater 49 g, the panel 13 g”. */
function landsWords(lands: readonly AirReason[], units: AirUnits): string {
  const size = ({ value }: AirReason): number => (typeof value === 'number' ? value : 0)
  const sorted = lands.toSorted((a, b) => size(b) - size(a))
  return `Of it on: ${sorted.map((s) => `${s.said.replace(LANDS, '')} ${reasonSaid(s.value, s.unit, units)}`).join(', ')}; the rest on the floor.`
}

function arrowTo(from: Point, to: Point): readonly Item[] {
  const down = Math.abs(to[1] - from[1]) > Math.abs(to[0] - from[0])
  const [x, y] = to
  return [
    line([from, to], 'symbol'),
    {
      ...{ kind: 'line', closed: true, line: 'none', hatch: 'solid' },
      pointsMm: down
        ? [
            [x, y],
            [x - 0.8, y - 1.8],
            [x + 0.8, y - 1.8],
          ]
        : [
            [x, y],
            [x - 1.8, y - 0.8],
            [x - 1.8, y + 0.8],
          ],
    },
  ]
}
