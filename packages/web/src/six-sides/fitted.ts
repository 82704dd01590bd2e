import type { GlassView, Rect, SheetAsked } from '../worker/protocol.ts'

/** A drawing that was laid out for another room, as large as this one allows. Its lettering shrinks or grows along, until it is laid out anew. */
export function fitted(view: GlassView, { widthPx, heightPx }: SheetAsked): GlassView {
  const by = Math.min(widthPx / view.widthPx, heightPx / view.heightPx)
  if (Math.abs(by - 1) < 1e-3) return view
  const point = ([x, y]: readonly [number, number]): readonly [number, number] => [x * by, y * by]
  const rect = <T extends Rect>(of: T): T => ({ ...of, x: of.x * by, y: of.y * by, w: of.w * by, h: of.h * by })
  return {
    ...view,
    widthPx: view.widthPx * by,
    heightPx: view.heightPx * by,
    pxPerMm: view.pxPerMm * by,
    things: view.things.map(rect),
    sides: view.sides.map((side) => ({ ...rect(side), zero: point(side.zero), along: point(side.along), up: point(side.up) })),
    machines: view.machines.map((m) => ({
      ...rect(m),
      from: point(m.from),
      cordsFrom: m.cordsFrom.map(point),
      pxPerM: m.pxPerM * by,
    })),
  }
}
