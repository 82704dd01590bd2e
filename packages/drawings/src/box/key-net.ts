import { SIDES, type Side } from '@plugstead/engine/job'
import type { Drawn } from '../model/drawing.ts'
import { sideView } from '../model/view.ts'
import { box, type Item, type Point } from '../scene.ts'
import type { DrawnBox } from './drawn-box.ts'
import { foldedOpen } from './net.ts'
import { sideOutline } from './steel.ts'

const WIDE_MM = 26

/** The six sides small, this one hatched: which side a sheet shows. `byMm`: its upper left corner on paper from the place. */
export function keyNet({ body }: DrawnBox, side: Side, atMm: Point, byMm: Point): Drawn {
  const net = foldedOpen(body.outsideMm)
  const corners = SIDES.map((one) => {
    const { low, high } = sideOutline(body, one, sideView(one, 'inside', body.outsideMm))
    const [a, b] = [net[one](low), net[one](high)]
    return { one, low: [Math.min(a[0], b[0]), Math.min(a[1], b[1])], high: [Math.max(a[0], b[0]), Math.max(a[1], b[1])] } as const
  })
  const left = Math.min(...corners.map((c) => c.low[0]))
  const k = WIDE_MM / (Math.max(...corners.map((c) => c.high[0])) - left)
  const top = Math.max(...corners.map((c) => c.high[1]))
  const items = corners.map(({ one, low, high }): Item => {
    const place: Point = [byMm[0] + (low[0] - left) * k, byMm[1] + (top - high[1]) * k]
    return box(place, (high[0] - low[0]) * k, (high[1] - low[1]) * k, 'ampere 1', one === side ? 'slant close' : 'blank')
  })
  return { kind: 'note', layer: 'text', atMm, items }
}
