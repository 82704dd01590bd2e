import { formatQuantity } from '@plugstead/engine/kernel'
import { decades, spread } from './chart-axis.ts'
import { BAND_HATCHES } from './hatches.ts'
import { area, type Item, line, type Point, type Scene, text } from './scene.ts'

/** `[ampere, second]`, both above 0. */
export type CurvePoint = readonly [currentA: number, timeS: number]

export interface TimeCurrent {
  readonly widthMm: number
  readonly heightMm: number
  /** A device trips between its two edges. */
  readonly bands: readonly { readonly name: string; readonly fast: readonly CurvePoint[]; readonly slow: readonly CurvePoint[] }[]
  /** What a conductor withstands. */
  readonly damage: readonly { readonly name: string; readonly points: readonly CurvePoint[] }[]
  /** Short-circuit current of a set as it dies away. */
  readonly decay: readonly { readonly name: string; readonly points: readonly CurvePoint[] }[]
  readonly levels: readonly { readonly name: string; readonly currentA: number }[]
}

const LEFT_MM = 15
const RIGHT_MM = 34
const HEAD_MM = 6
const FOOT_MM = 9

/** Current across, time up, both by decades. Bands hatched and named, fault levels as cut lines, withstand as a chain. */
export function timeCurrent(chart: TimeCurrent): Scene {
  const every = [
    ...chart.bands.flatMap((b) => [...b.fast, ...b.slow]), ...chart.damage.flatMap((d) => d.points), ...chart.decay.flatMap((d) => d.points),
  ].filter(onPaper)
  const amperes = [...every.map((p) => p[0]), ...chart.levels.map((l) => l.currentA)].filter((a) => a > 0 && Number.isFinite(a))
  const across = decades(Math.max(1, Math.min(...amperes)), Math.min(1e6, Math.max(...amperes, 10)))
  const up = decades(Math.max(0.001, Math.min(...every.map((p) => p[1]), 0.01)), Math.min(1e4, Math.max(...every.map((p) => p[1]), 1000)))
  const right = chart.widthMm - RIGHT_MM
  const bottom = chart.heightMm - FOOT_MM
  const x = (a: number): number => LEFT_MM + ((Math.log10(a) - across.from) / (across.to - across.from)) * (right - LEFT_MM)
  const y = (s: number): number => bottom - ((Math.log10(s) - up.from) / (up.to - up.from)) * (bottom - HEAD_MM)
  const frame: Frame = { left: LEFT_MM, right, top: HEAD_MM, bottom }
  const at = (p: CurvePoint): Point => [x(p[0]), y(p[1])]

  const items: Item[] = []
  for (let d = across.from; d <= across.to; d += 1) {
    items.push(line([[x(10 ** d), HEAD_MM], [x(10 ** d), bottom]], 'hair'), text([x(10 ** d), bottom + 4], formatQuantity(10 ** d, 'A'), { anchor: 'middle' }))
  }
  for (let d = up.from; d <= up.to; d += 1) {
    items.push(line([[LEFT_MM, y(10 ** d)], [right, y(10 ** d)]], 'hair'), text([LEFT_MM - 1, y(10 ** d) + 0.9], formatQuantity(10 ** d, 's'), { anchor: 'end' }))
  }
  const names: Name[] = []
  for (const [i, band] of chart.bands.entries()) {
    const fast = clip(band.fast.filter(onPaper).map(at), frame)
    const slow = clip(band.slow.filter(onPaper).map(at), frame)
    if (fast.length > 1 && slow.length > 1) {
      items.push(area(closed(fast, slow), BAND_HATCHES[i % BAND_HATCHES.length]!))
    }
    for (const edge of [fast, slow]) if (edge.length > 1) items.push(line(edge, 'ampere 1'))
    if (slow.length > 0) names.push({ words: band.name, from: slow[0]! })
  }
  for (const damage of chart.damage) {
    const points = clip(damage.points.filter(onPaper).map(at), frame)
    if (points.length > 1) items.push(line(points, 'fold'))
    if (points.length > 0) names.push({ words: damage.name, from: points[0]! })
  }
  for (const decay of chart.decay) {
    const points = clip(decay.points.filter(onPaper).map(at), frame)
    if (points.length > 1) items.push(line(points, 'behind'))
    if (points.length > 0) names.push({ words: decay.name, from: points[0]! })
  }
  for (const level of chart.levels) {
    if (!(level.currentA > 0) || !Number.isFinite(level.currentA)) continue
    const at = x(level.currentA)
    items.push(line([[at, HEAD_MM], [at, bottom]], 'cut'))
    items.push(text([at - 0.9, bottom - 1.5], `${level.name} ${formatQuantity(level.currentA, 'A')}`, { turnDeg: -90, halo: true }))
  }
  items.push({ kind: 'line', pointsMm: [[LEFT_MM, HEAD_MM], [right, HEAD_MM], [right, bottom], [LEFT_MM, bottom]], closed: true, line: 'symbol' })
  items.push(...nameItems(names, frame))
  return {
    sizeMm: [chart.widthMm, chart.heightMm],
    said: `Time against current, both by decades: ${[...chart.bands.map((b) => b.name), ...chart.damage.map((d) => d.name)].join(', ')}; ${chart.levels.map((l) => `${l.name} ${formatQuantity(l.currentA, 'A')}`).join(', ')}.`,
    items,
  }
}

interface Frame {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

interface Name {
  readonly words: string
  /** Upper end of what it names. */
  readonly from: Point
}

/** Names stand right of the chart, a hairline to the upper end of their band. */
function nameItems(names: readonly Name[], frame: Frame): readonly Item[] {
  const places = spread(names.map((n) => n.from[1]), 3.4, frame.top + 1.5, frame.bottom - 1)
  return names.flatMap((name, i) => [
    line([name.from, [frame.right - 0.5, places[i]!], [frame.right + 1, places[i]!]], 'rib'),
    text([frame.right + 1.6, places[i]! + 0.9], name.words),
  ])
}

const onPaper = ([a, s]: CurvePoint): boolean => a > 0 && s > 0 && Number.isFinite(a) && Number.isFinite(s)

/** The region between two edges: down one, back up the other. */
const closed = (fast: readonly Point[], slow: readonly Point[]): readonly Point[] => [...fast, ...[...slow].reverse()]

/** The part of a polyline inside the frame, cut where it crosses an edge. */
function clip(points: readonly Point[], frame: Frame): readonly Point[] {
  const out: Point[] = []
  for (let i = 0; i + 1 < points.length; i += 1) {
    const part = clipSegment(points[i]!, points[i + 1]!, frame)
    if (part === null) continue
    const last = out[out.length - 1]
    if (last === undefined || last[0] !== part[0][0] || last[1] !== part[0][1]) out.push(part[0])
    out.push(part[1])
  }
  return out
}

function clipSegment(a: Point, b: Point, f: Frame): readonly [Point, Point] | null {
  let from = 0
  let to = 1
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]]
  for (const [p, q] of [[-dx, a[0] - f.left], [dx, f.right - a[0]], [-dy, a[1] - f.top], [dy, f.bottom - a[1]]] as const) {
    if (p === 0) {
      if (q < 0) return null
    } else if (p < 0) from = Math.max(from, q / p)
    else to = Math.min(to, q / p)
  }
  if (from > to) return null
  return [[a[0] + from * dx, a[1] + from * dy], [a[0] + to * dx, a[1] + to * dy]]
}
