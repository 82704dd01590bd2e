import { formatNumber, THIN } from '@plugstead/engine/kernel'
import { roundStep } from './chart-axis.ts'
import { GROUP_HATCHES } from './hatches.ts'
import { area, type Item, line, type Point, partOf, type Scene, text } from './scene.ts'

export interface DemandLane {
  /** “leg A”, “all”. */
  readonly name: string
  /** 96 quarter hours from midnight, everything started when its window opens. */
  readonly before: readonly number[]
  /** As staged, by group of machines, base first. Their sum is the day. */
  readonly groups: readonly { readonly name: string; readonly after: readonly number[] }[]
  /** No staging can have a lower peak; null when nobody proved one. */
  readonly bound: number | null
  /** What the supply carries; null when not known. */
  readonly service: number | null
  /** What the peak, the bound and the supply were worked out by; their words are then part of it. */
  readonly workings?: { readonly peak?: string; readonly service?: string }
}

export interface DemandDay {
  readonly widthMm: number
  readonly laneMm: number
  readonly unit: string
  /** One lane stands on its own, two share one axis (the first up, the second down), three stand one below another. */
  readonly lanes: readonly DemandLane[]
}

const LEFT_MM = 17
const RIGHT_MM = 25
const HEAD_MM = 6
const FOOT_MM = 9
const DAY = 96

/** Twenty-four hours across: hollow outline before, hatched steps as staged, chain line for the bound, cut line for the service. */
export function demandDay(day: DemandDay): Scene {
  const both = day.lanes.length === 2
  const gap = both ? 0 : 7
  const heightMm = HEAD_MM + day.lanes.length * day.laneMm + (day.lanes.length - 1) * gap + FOOT_MM
  const most = Math.max(...day.lanes.flatMap((l) => [...l.before, ...sums(l), l.bound ?? 0]), 1e-9)
  const service = Math.max(...day.lanes.map((l) => l.service ?? 0))
  // A service far above the day would flatten it: it is then said in words.
  const showService = service > 0 && service <= most * 1.6
  const top = (showService ? Math.max(service, most) : most) * 1.06
  const step = roundStep(top, 4)
  const x = (slot: number): number => LEFT_MM + (slot / DAY) * (day.widthMm - LEFT_MM - RIGHT_MM)
  const items: Item[] = []
  const names = [...new Set(day.lanes.flatMap((l) => l.groups.map((g) => g.name)))]
  for (const [i, lane] of day.lanes.entries()) {
    const down = both && i === 1
    const base = both ? HEAD_MM + day.laneMm : HEAD_MM + (i + 1) * day.laneMm + i * gap
    const y = (value: number): number => base + ((down ? 1 : -1) * value * day.laneMm) / top
    items.push(...laneItems(lane, { x, y, names, step, top, down, unit: day.unit, showService, rightMm: day.widthMm - RIGHT_MM }))
  }
  const lowest = heightMm - FOOT_MM
  for (const h of [0, 6, 12, 18, 24]) {
    items.push(
      line(
        [
          [x(h * 4), lowest],
          [x(h * 4), lowest + 1.4],
        ],
        'opening',
      ),
    )
    items.push(text([x(h * 4), lowest + 5], `${String(h).padStart(2, '0')}:00`, { anchor: 'middle' }))
  }
  const peaks = day.lanes.map(
    (l) => `${l.name} ${round(Math.max(...sums(l)))} ${day.unit}, before ${round(Math.max(...l.before))} ${day.unit}`,
  )
  return { sizeMm: [day.widthMm, heightMm], said: `Demand over one day. Highest as staged: ${peaks.join('; ')}.`, items }
}

interface Place {
  readonly x: (slot: number) => number
  readonly y: (value: number) => number
  readonly names: readonly string[]
  readonly step: number
  readonly top: number
  readonly down: boolean
  readonly unit: string
  readonly showService: boolean
  readonly rightMm: number
}

function laneItems(lane: DemandLane, at: Place): readonly Item[] {
  const { x, y } = at
  const items: Item[] = []
  for (let v = at.step; v <= at.top * 1.0001; v += at.step) {
    items.push(
      line(
        [
          [x(0) - 1.4, y(v)],
          [x(0), y(v)],
        ],
        'ampere 1',
      ),
      text([x(0) - 2.2, y(v) + 0.95], round(v), { anchor: 'end' }),
    )
  }
  const floor = new Array<number>(DAY).fill(0)
  for (const group of lane.groups) {
    const lower = [...floor]
    for (let s = 0; s < DAY; s += 1) floor[s] = floor[s]! + (group.after[s] ?? 0)
    const hatch = GROUP_HATCHES[at.names.indexOf(group.name) % GROUP_HATCHES.length]!
    for (const [from, to] of spans(group.after)) {
      items.push(area([...steps(floor, from, to, at), ...steps(lower, from, to, at).reverse()], hatch, 'ampere 1'))
    }
  }
  items.push(line(steps(lane.before, 0, DAY, at), 'symbol'))
  const after = floor
  const peak = Math.max(...after)
  const peakSlot = after.indexOf(peak)
  let runs = peakSlot
  while (runs < DAY && after[runs] === peak) runs += 1
  const before = Math.max(...lane.before)
  const labels: RightLabel[] = []
  const byPeak = lane.workings?.peak
  if (before > peak * 1.001) labels.push({ value: before, words: `before ${round(before)}${THIN}${at.unit}`, of: byPeak })
  labels.push({ value: peak, words: `staged ${round(peak)}${THIN}${at.unit}`, of: byPeak })
  if (lane.bound !== null) {
    items.push(
      line(
        [
          [x(0), y(lane.bound)],
          [at.rightMm, y(lane.bound)],
        ],
        'fold',
      ),
    )
    labels.push({ value: lane.bound, words: `bound ${round(lane.bound)}${THIN}${at.unit}`, of: byPeak })
  }
  if (lane.service !== null && at.showService) {
    items.push(
      line(
        [
          [x(0), y(lane.service)],
          [at.rightMm, y(lane.service)],
        ],
        'cut',
      ),
    )
    labels.push({ value: lane.service, words: `supply ${round(lane.service)}${THIN}${at.unit}`, of: lane.workings?.service })
  }
  items.push(...rightLabels(labels, at))
  items.push(
    line(
      [
        [x(0), y(0)],
        [x(DAY), y(0)],
      ],
      'cut',
    ),
  )
  items.push(text([0, y(at.top * 0.5) + (at.down ? 3 : 0)], lane.name, { strong: true }))
  return items
}

interface RightLabel {
  readonly value: number
  readonly words: string
  readonly of: string | undefined
}

/** Named on the mark, at the right end, pushed apart where two would stand on each other. */
function rightLabels(labels: readonly RightLabel[], at: Place): readonly Item[] {
  const apart = 3.1
  const sorted = [...labels].sort((a, b) => b.value - a.value)
  const items: Item[] = []
  let last = at.down ? Infinity : -Infinity
  for (const label of sorted) {
    const wish = at.y(label.value)
    const place = at.down ? Math.min(wish, last - apart) : Math.max(wish, last + apart)
    last = place
    items.push({ ...text([at.rightMm + 1, place + 0.95], label.words), ...partOf(label.of) })
  }
  return items
}

function sums(lane: DemandLane): readonly number[] {
  return Array.from({ length: DAY }, (_, s) => lane.groups.reduce((sum, g) => sum + (g.after[s] ?? 0), 0))
}

/** Stretches where a group runs. */
function spans(values: readonly number[]): readonly (readonly [number, number])[] {
  const out: [number, number][] = []
  for (let s = 0; s < DAY; s += 1) {
    if ((values[s] ?? 0) <= 0) continue
    const last = out[out.length - 1]
    if (last !== undefined && last[1] === s) last[1] = s + 1
    else out.push([s, s + 1])
  }
  return out
}

function steps(values: readonly number[], from: number, to: number, at: Place): Point[] {
  const points: Point[] = []
  for (let s = from; s < to; s += 1) {
    const v = values[s] ?? 0
    const last = points[points.length - 1]
    if (last !== undefined && s > from && values[s - 1] === v) points[points.length - 1] = [at.x(s + 1), at.y(v)]
    else points.push([at.x(s), at.y(v)], [at.x(s + 1), at.y(v)])
  }
  return points
}

const round = (value: number): string => formatNumber(value)
