import { formatQuantity } from '@plugstead/engine/kernel'
import { box, circle, type Item, line, type Point, type Scene, text } from './scene.ts'

export interface RodsDrawing {
  readonly widthMm: number
  readonly kind: 'rods' | 'ring'
  readonly count: number
  readonly lengthM: number
  readonly diameterM: number
  readonly spacingM: number
  readonly conductor: string
  readonly frostDepthM: { readonly low: number; readonly high: number }
}

/** Rods or a ring in section, to no scale across, to one scale in depth: what stands in frozen ground shows. */
export function rodsDrawing(rods: RodsDrawing): Scene {
  const ground = 14
  const deepest = Math.max(rods.kind === 'rods' ? rods.lengthM : 0.75, rods.frostDepthM.high) * 1.12 + 0.2
  const depthMm = 52
  const y = (m: number): number => ground + (m / deepest) * depthMm
  const left = 22
  const right = rods.widthMm - 40
  const items: Item[] = [box([left, ground], right - left, y(rods.frostDepthM.high) - ground, 'none', 'back slant')]
  items.push(
    line(
      [
        [left, ground],
        [right, ground],
      ],
      'section',
    ),
  )
  if (rods.frostDepthM.high > 0) {
    items.push(
      line(
        [
          [left, y(rods.frostDepthM.high)],
          [right, y(rods.frostDepthM.high)],
        ],
        'chalk',
      ),
    )
    const frost =
      rods.frostDepthM.low === rods.frostDepthM.high
        ? metres(rods.frostDepthM.high)
        : `${metres(rods.frostDepthM.low)} … ${metres(rods.frostDepthM.high)}`
    items.push(text([right + 1.5, y(rods.frostDepthM.high) + 0.9], `frost ${frost}`))
  }
  items.push(text([right + 1.5, ground + 0.9], 'ground'))
  items.push(box([left - 14, ground - 8], 12, 8, 'cut'), text([left - 8, ground - 3], 'box', { anchor: 'middle' }))
  if (rods.kind === 'rods') items.push(...rodItems(rods, y, left, right))
  else items.push(...ringItems(y, left, right))
  items.push(
    text(
      [left - 14, ground + depthMm + 6],
      `${rods.conductor} to the ${rods.kind === 'rods' ? 'rods' : 'ring'}, ${formatQuantity(rods.diameterM * 1000, 'mm')} diameter; depth to one scale, widths to none`,
    ),
  )
  return {
    sizeMm: [rods.widthMm, ground + depthMm + 9],
    said:
      rods.kind === 'rods'
        ? `${rods.count} rods of ${metres(rods.lengthM)}, ${metres(rods.spacingM)} apart, frost to ${metres(rods.frostDepthM.high)}.`
        : `A ring of ${metres(rods.lengthM)} around the box, frost to ${metres(rods.frostDepthM.high)}.`,
    items,
  }
}

const metres = (value: number): string => formatQuantity(value, 'm', { shortest: true })

function rodItems(rods: RodsDrawing, y: (m: number) => number, left: number, right: number): readonly Item[] {
  const shown = Math.min(rods.count, 6)
  const apart = shown > 1 ? Math.min(34, (right - left - 30) / (shown - 1)) : 0
  const xs = Array.from({ length: shown }, (_, i) => left + 15 + i * apart)
  const head = y(0) + 2.4
  const items: Item[] = [
    line(
      [
        [left - 8, y(0)],
        [left - 8, head],
        [xs[xs.length - 1]!, head],
      ],
      'conductor',
    ),
  ]
  for (const x of xs) items.push(box([x - 0.7, y(0) + 1], 1.4, y(rods.lengthM) - y(0) - 1, 'ampere 1', 'solid'))
  const last = xs[xs.length - 1]!
  items.push(...dimension([last + 6, y(0)], [last + 6, y(rods.lengthM)], metres(rods.lengthM)))
  if (shown > 1) items.push(...dimension([xs[0]!, y(0) - 3.5], [xs[1]!, y(0) - 3.5], metres(rods.spacingM)))
  if (rods.count > shown) items.push(text([last + 2, y(0) - 2], `${rods.count} in all`))
  return items
}

function ringItems(y: (m: number) => number, left: number, right: number): readonly Item[] {
  const depth = y(0.75)
  return [
    line(
      [
        [left - 8, y(0)],
        [left - 8, depth],
        [right - 20, depth],
      ],
      'conductor',
    ),
    circle([left + 10, depth], 1.2, 'ampere 1', 'solid'),
    circle([right - 20, depth], 1.2, 'ampere 1', 'solid'),
    text([left + 14, depth - 2], 'ring around the box, both sides cut', { halo: true }),
  ]
}

function dimension(a: Point, b: Point, words: string): readonly Item[] {
  const tick = ([x, y]: Point): Item =>
    line(
      [
        [x - 0.9, y + 0.9],
        [x + 0.9, y - 0.9],
      ],
      'dimension',
    )
  const upright = a[0] === b[0]
  const middle: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]
  return [
    line([a, b], 'dimension'),
    tick(a),
    tick(b),
    upright
      ? text([middle[0] + 1.4, middle[1]], words, { halo: true })
      : text([middle[0], middle[1] - 1], words, { anchor: 'middle' }),
  ]
}
