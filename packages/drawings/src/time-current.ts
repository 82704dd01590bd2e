import { formatQuantity } from '@plugstead/engine/kernel'
import { decades } from './chart-axis.ts'
import { BAND_HATCHES } from './hatches.ts'
import { area, type Item, line, type Point, partOf, type Scene, text } from './scene.ts'

/** `[ampere, second]`, both above 0. */
export type CurvePoint = readonly [currentA: number, timeS: number]

export interface TimeCurrent {
  readonly widthMm: number
  readonly heightMm: number
  /** A device trips between its two edges. */
  readonly bands: readonly {
    readonly name: string
    readonly fast: readonly CurvePoint[]
    readonly slow: readonly CurvePoint[]
    /** Id of the device, for whoever touches it. */
    readonly of?: string
  }[]
  /** What a conductor withstands. */
  readonly damage: readonly { readonly name: string; readonly points: readonly CurvePoint[] }[]
  /** Short-circuit current of a set as it dies away. */
  readonly decay: readonly { readonly name: string; readonly points: readonly CurvePoint[] }[]
  readonly levels: readonly { readonly name: string; readonly currentA: number; readonly of?: string }[]
}

const LEFT_MM = 15
const RIGHT_MM = 6
/** Room above the frame for one name. */
const NAME_MM = 3.4
const FOOT_MM = 9

/** Current across, time up, both by decades. Bands hatched and named, fault levels as cut lines, withstand as a chain. */
export function timeCurrent(chart: TimeCurrent): Scene {
  const every = [
    ...chart.bands.flatMap((b) => [...b.fast, ...b.slow]),
    ...chart.damage.flatMap((d) => d.points),
    ...chart.decay.flatMap((d) => d.points),
  ].filter(onPaper)
  const amperes = [...every.map((p) => p[0]), ...chart.levels.map((l) => l.currentA)].filter((a) => a > 0 && Number.isFinite(a))
  const highest = Math.max(...chart.levels.map((l) => l.currentA).filter((a) => Number.isFinite(a)), 0)
  // Curves run on beyond what can flow: the paper ends a little after the highest fault.
  const across = decades(Math.max(1, Math.min(...amperes)), highest > 0 ? highest * 1.5 : Math.min(1e6, Math.max(...amperes, 10)))
  const up = decades(
    Math.max(0.001, Math.min(...every.map((p) => p[1]), 0.01)),
    Math.min(1e4, Math.max(...every.map((p) => p[1]), 1000)),
  )
  const headMm = 3 + NAME_MM * chart.bands.length
  const right = chart.widthMm - RIGHT_MM
  const bottom = chart.heightMm - FOOT_MM
  const x = (a: number): number => LEFT_MM + ((Math.log10(a) - across.from) / (across.to - across.from)) * (right - LEFT_MM)
  const y = (s: number): number => bottom - ((Math.log10(s) - up.from) / (up.to - up.from)) * (bottom - headMm)
  const frame: Frame = { left: LEFT_MM, right, top: headMm, bottom }
  const at = (p: CurvePoint): Point => [x(p[0]), y(p[1])]

  const items: Item[] = []
  for (let d = across.from; d <= across.to; d += 1) {
    items.push(
      line(
        [
          [x(10 ** d), headMm],
          [x(10 ** d), bottom],
        ],
        'hair',
      ),
      text([x(10 ** d), bottom + 4], formatQuantity(10 ** d, 'A'), { anchor: 'middle' }),
    )
  }
  for (let d = up.from; d <= up.to; d += 1) {
    items.push(
      line(
        [
          [LEFT_MM, y(10 ** d)],
          [right, y(10 ** d)],
        ],
        'hair',
      ),
      text([LEFT_MM - 1, y(10 ** d) + 0.9], formatQuantity(10 ** d, 's'), { anchor: 'end' }),
    )
  }
  const names: Name[] = []
  const sideNames: Name[] = []
  for (const [i, band] of chart.bands.entries()) {
    const fast = clip(band.fast.filter(onPaper).map(at), frame)
    const slow = clip(band.slow.filter(onPaper).map(at), frame)
    if (fast.length > 1 && slow.length > 1) {
      items.push({ ...area(closed(fast, slow), BAND_HATCHES[i % BAND_HATCHES.length]!), ...partOf(band.of) })
    }
    for (const edge of [fast, slow]) if (edge.length > 1) items.push({ ...line(edge, 'ampere 1'), ...partOf(band.of) })
    const upper = slow[0] ?? fast[0]
    if (upper !== undefined) names.push({ words: band.name, from: upper, of: band.of })
  }
  for (const damage of chart.damage) {
    const points = clip(damage.points.filter(onPaper).map(at), frame)
    if (points.length > 1) items.push(line(points, 'fold'))
    if (points.length > 0) sideNames.push({ words: damage.name, from: points[0]! })
  }
  for (const decay of chart.decay) {
    const points = clip(decay.points.filter(onPaper).map(at), frame)
    if (points.length > 1) items.push(line(points, 'behind'))
    if (points.length > 0) sideNames.push({ words: decay.name, from: points[0]! })
  }
  for (const level of chart.levels) {
    if (!(level.currentA > 0) || !Number.isFinite(level.currentA)) continue
    const at = x(level.currentA)
    items.push(
      line(
        [
          [at, headMm],
          [at, bottom],
        ],
        'cut',
      ),
    )
    items.push({
      ...text([at - 0.9, headMm + 1.2], `${level.name} ${formatQuantity(level.currentA, 'A')}`, {
        turnDeg: -90,
        halo: true,
        anchor: 'end',
      }),
      ...partOf(level.of),
    })
  }
  items.push({
    kind: 'line',
    pointsMm: [
      [LEFT_MM, headMm],
      [right, headMm],
      [right, bottom],
      [LEFT_MM, bottom],
    ],
    closed: true,
    line: 'symbol',
  })
  items.push(...nameItems(names, frame), ...besideItems(sideNames, frame))
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
  readonly of?: string | undefined
}

/** Names of bands stand above the frame, each over its own upper end: the leftmost highest, so that no wire crosses a name. */
function nameItems(names: readonly Name[], frame: Frame): readonly Item[] {
  const sorted = [...names].sort((a, b) => a.from[0] - b.from[0])
  return sorted.flatMap((name, i) => {
    const y = 3 + i * NAME_MM
    const [x] = name.from
    const turned = x > (frame.left + frame.right) * 0.62
    return [
      line([[x, y + 0.4], name.from], 'rib'),
      {
        ...text([x + (turned ? -0.8 : 0.8), y], name.words, { anchor: turned ? 'end' : 'start', strong: true }),
        ...partOf(name.of),
      },
    ]
  })
}

/** What begins inside the frame is named beside its upper end, one below another where two begin together. */
function besideItems(names: readonly Name[], frame: Frame): readonly Item[] {
  const items: Item[] = []
  let lowest = frame.top
  for (const { words, from } of [...names].sort((a, b) => a.from[1] - b.from[1] || a.from[0] - b.from[0])) {
    const y = Math.max(from[1] - 0.6, lowest + NAME_MM)
    lowest = y
    const turned = from[0] > frame.left + (frame.right - frame.left) * 0.7
    const x = from[0] + (turned ? -2 : 2)
    items.push(
      line([from, [x, y - 0.8]], 'rib'),
      text([x + (turned ? -0.4 : 0.4), y], words, { halo: true, anchor: turned ? 'end' : 'start' }),
    )
  }
  return items
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
  for (const [p, q] of [
    [-dx, a[0] - f.left],
    [dx, f.right - a[0]],
    [-dy, a[1] - f.top],
    [dy, f.bottom - a[1]],
  ] as const) {
    if (p === 0) {
      if (q < 0) return null
    } else if (p < 0) from = Math.max(from, q / p)
    else to = Math.min(to, q / p)
  }
  if (from > to) return null
  return [
    [a[0] + from * dx, a[1] + from * dy],
    [a[0] + to * dx, a[1] + to * dy],
  ]
}
