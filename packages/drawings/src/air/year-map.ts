import { THIN } from '@plugstead/engine/kernel'
import type { Ink } from '../hatches.ts'
import { wordsMm } from '../model/lettering.ts'
import { box, type Item, LETTERING_MM, line, many, type Point, partOf, type Scene, text } from '../scene.ts'
import { type AirClock, DAY_H, dayWords, MONTHS, timeAt } from './clock.ts'
import { LINE_MM, wrapped } from './plot.ts'

export interface YearMap extends AirClock {
  readonly widthMm: number
  readonly hoursCount: number
  /**
   * A quantity in five steps of ink, for glass. Null: marks only, as on paper, where no grey carries meaning. Edges: the five lower ends, rising;
   * what lies below the first stays blank.
   */
  readonly ramp: {
    readonly name: string
    readonly unit: string
    readonly values: readonly number[]
    readonly edges: readonly [number, number, number, number, number]
  } | null
  /** Hours with each mark. */
  readonly frostH: readonly number[]
  readonly dripH: readonly number[]
  readonly hotH: readonly number[]
  /** What the marks stand for, with their count where it is told: “too hot: air or gear over 40 °C”. */
  readonly words: { readonly frost: string; readonly drip: string; readonly hot: string }
  /** Stretches of hours that are drawn large elsewhere; the chosen one is brushed. */
  readonly weeks: readonly { readonly id: string; readonly what: string; readonly fromH: number; readonly hoursCount: number }[]
  readonly chosen: string | null
}

/** Where the hours stand, so that a touch finds its own. */
export interface MapPlot {
  readonly leftMm: number
  readonly topMm: number
  readonly dayMm: number
  readonly hourMm: number
  readonly daysCount: number
}

export type YearMapScene = Scene & { readonly plot: MapPlot }

const LEFT_MM = 10
const RIGHT_MM = 1.5
const HEAD_MM = 7
const BRUSH_MM = 1.7
const INKS: readonly Ink[] = ['ink 1', 'ink 2', 'ink 3', 'ink 4', 'ink 5']
/** A short run of days has cells no wider than this. */
const MOST_DAY_MM = 8

/**
 * Days across, hours up, one cell an hour. Dots: frost under the roof; falling strokes: water drips; crosses: too hot. Five steps of ink for a
 * quantity on glass, none on paper. Stretches drawn large elsewhere are bracketed, the chosen one brushed.
 */
export function airYearMap(map: YearMap): YearMapScene {
  const daysCount = Math.max(1, Math.ceil((map.firstHour + map.hoursCount) / DAY_H))
  const dayMm = Math.min(MOST_DAY_MM, (map.widthMm - LEFT_MM - RIGHT_MM) / daysCount)
  const hourMm = map.widthMm < 130 ? 1.7 : 2.1
  const names = namesOf(map, dayMm)
  const topMm = HEAD_MM + (names.length === 0 ? -4 : LINE_MM * Math.max(...names.map((n) => n.level)))
  const plot: MapPlot = { leftMm: LEFT_MM, topMm, dayMm, hourMm, daysCount }
  const bottom = topMm + DAY_H * hourMm
  const key = keyItems(map, bottom + 8)
  return {
    sizeMm: [map.widthMm, key.bottomMm],
    said: said(map),
    items: [
      ...rampItems(map, plot),
      ...weekItems(map, plot, names),
      ...markItems(map, plot),
      ...axisItems(map, plot),
      ...key.items,
    ],
    plot,
  }
}

/** The hour of a run under a place of the map; null beside it. */
export function mapHourAt(plot: MapPlot, of: AirClock & { readonly hoursCount: number }, [x, y]: Point): number | null {
  const day = Math.floor((x - plot.leftMm) / plot.dayMm)
  const hour = DAY_H - 1 - Math.floor((y - plot.topMm) / plot.hourMm)
  if (day < 0 || day >= plot.daysCount || hour < 0 || hour >= DAY_H) return null
  const h = day * DAY_H + hour - of.firstHour
  return h >= 0 && h < of.hoursCount ? h : null
}

function cellAt(
  map: AirClock,
  plot: MapPlot,
  h: number,
): { readonly x: number; readonly y: number; readonly day: number; readonly hour: number } {
  const all = map.firstHour + h
  const [day, hour] = [Math.floor(all / DAY_H), all % DAY_H]
  return { day, hour, x: plot.leftMm + day * plot.dayMm, y: plot.topMm + (DAY_H - 1 - hour) * plot.hourMm }
}

interface Run {
  readonly step: number
  readonly hour: number
  hours: number
  readonly day: number
  days: number
}

/** Cells of one step run together, up and then across: a year is a few thousand of them, and five items. */
function rampItems(map: YearMap, plot: MapPlot): readonly Item[] {
  const { ramp } = map
  if (ramp === null) return []
  const open = new Map<string, Run>()
  const done: Run[] = []
  let column: Run[] = []
  const close = (): void => {
    for (const run of column) {
      const key = `${run.step} ${run.hour} ${run.hours}`
      const left = open.get(key)
      if (left !== undefined && left.day + left.days === run.day) left.days += 1
      else {
        open.set(key, run)
        done.push(run)
      }
    }
    column = []
  }
  let today = 0
  for (let h = 0; h < map.hoursCount; h += 1) {
    const { day, hour } = cellAt(map, plot, h)
    if (day !== today) {
      close()
      today = day
    }
    const value = ramp.values[h] ?? Number.NaN
    const step = ramp.edges.reduce((sum, edge) => sum + (value >= edge ? 1 : 0), 0)
    if (step === 0) continue
    const last = column.at(-1)
    if (last !== undefined && last.step === step && last.hour + last.hours === hour) last.hours += 1
    else column.push({ step, hour, hours: 1, day, days: 1 })
  }
  close()
  return INKS.flatMap((ink, i) => {
    const cells = done.filter((run) => run.step === i + 1).map((run) => corners(run, plot))
    const item = many(cells, 'none', ink)
    return item === null ? [] : [item]
  })
}

function corners({ day, days, hour, hours }: Run, { leftMm, topMm, dayMm, hourMm }: MapPlot): readonly Point[] {
  const [x, w] = [leftMm + day * dayMm, days * dayMm]
  const [y, h] = [topMm + (DAY_H - hour - hours) * hourMm, hours * hourMm]
  return [
    [x, y],
    [x + w, y],
    [x + w, y + h],
    [x, y + h],
  ]
}

function markItems(map: YearMap, plot: MapPlot): readonly Item[] {
  const { dayMm, hourMm } = plot
  const middles = (hours: readonly number[]): readonly Point[] =>
    hours
      .filter((h) => h >= 0 && h < map.hoursCount)
      .map((h) => {
        const { x, y } = cellAt(map, plot, h)
        return [x + dayMm / 2, y + hourMm / 2]
      })
  const r = Math.min(0.36, Math.max(0.15, dayMm * 0.4))
  const dots = many(
    middles(map.frostH).map((at) => dot(at, r)),
    'none',
    'solid',
  )
  const drips = many(
    middles(map.dripH).map((at) => stroke(at, dayMm, hourMm)),
    'ampere 1',
  )
  const crosses = many(
    middles(map.hotH).flatMap((at) => cross(at, Math.min(0.55, dayMm * 0.55), Math.min(0.7, hourMm * 0.34))),
    'rib',
  )
  return [dots, crosses, drips].filter((item) => item !== null)
}

/** Four corners stand for a dot: at its size no eye tells the difference. */
const dot = ([x, y]: Point, r: number): readonly Point[] => [
  [x - r, y],
  [x, y - r],
  [x + r, y],
  [x, y + r],
]
/** Falls a little aslant, and runs out of its cell so that a single one is seen. */
const stroke = ([x, y]: Point, dayMm: number, hourMm: number): readonly Point[] => [
  [x + Math.min(0.25, dayMm * 0.3), y - hourMm * 0.7],
  [x - Math.min(0.25, dayMm * 0.3), y + hourMm * 0.7],
]
const cross = ([x, y]: Point, a: number, b: number): readonly (readonly Point[])[] => [
  [
    [x - a, y - b],
    [x + a, y + b],
  ],
  [
    [x - a, y + b],
    [x + a, y - b],
  ],
]

interface WeekName {
  readonly week: YearMap['weeks'][number]
  /** Where the bracket runs, and where its name does. */
  readonly from: number
  readonly to: number
  readonly left: number
  /** Lines above the lowest: names that would run into each other stand one above another. */
  readonly level: number
}

function namesOf(map: YearMap, dayMm: number): readonly WeekName[] {
  const names: WeekName[] = []
  for (const week of map.weeks) {
    const x = (h: number): number => LEFT_MM + Math.floor((map.firstHour + h) / DAY_H) * dayMm
    const from = x(Math.max(0, week.fromH))
    const to = x(Math.max(0, Math.min(map.hoursCount, week.fromH + week.hoursCount) - 1)) + dayMm
    const wide = wordsMm(week.what, LETTERING_MM) * (week.id === map.chosen ? 1.1 : 1)
    const left = Math.max(LEFT_MM, Math.min(map.widthMm - wide - 0.5, (from + to - wide) / 2))
    let level = 0
    while (
      names.some(
        (n) => n.level === level && left < n.left + wordsMm(n.week.what, LETTERING_MM) * 1.1 + 2 && n.left < left + wide + 2,
      )
    )
      level += 1
    names.push({ week, from, to, left, level })
  }
  return names
}

/** A bracket over each stretch; the chosen one brushed, and its sides drawn through the map. */
function weekItems(map: YearMap, plot: MapPlot, names: readonly WeekName[]): readonly Item[] {
  const [top, bottom] = [plot.topMm, plot.topMm + DAY_H * plot.hourMm]
  return names.flatMap(({ week, from, to, left, level }): readonly Item[] => {
    const chosen = week.id === map.chosen
    const head = top - BRUSH_MM - 0.3
    const y = head - 1 - level * LINE_MM
    return [
      ...(chosen ? [from, to].map((x) => line([[x, head] as Point, [x, bottom] as Point], 'ampere 1')) : []),
      ...(level > 0 ? [line([[(from + to) / 2, head] as Point, [(from + to) / 2, y + 0.6] as Point], 'hair')] : []),
      box([from, head], to - from, BRUSH_MM, 'ampere 1', chosen ? 'slant close' : 'blank'),
      text([left, y], week.what, { strong: chosen, halo: true }),
    ].map((item) => ({ ...item, ...partOf(week.id) }))
  })
}

function axisItems(map: YearMap, plot: MapPlot): readonly Item[] {
  const { leftMm, topMm, dayMm, hourMm, daysCount } = plot
  const bottom = topMm + DAY_H * hourMm
  const right = leftMm + daysCount * dayMm
  const items: Item[] = [box([leftMm, topMm], right - leftMm, DAY_H * hourMm, 'ampere 1')]
  for (const h of [0, 6, 12, 18, 24]) {
    const y = bottom - h * hourMm
    items.push(line([[leftMm - 1.2, y] as Point, [leftMm, y] as Point], 'ampere 1'))
    items.push(text([leftMm - 1.8, y + (h === 24 ? 1.8 : 0.9)], `${String(h).padStart(2, '0')}`, { anchor: 'end' }))
  }
  const short = daysCount < 28
  for (let d = 0; d < daysCount; d += 1) {
    const time = timeAt(map, d * DAY_H - map.firstHour)
    const x = leftMm + d * dayMm
    if (short ? d % Math.ceil(14 / dayMm) !== 0 : time.day !== 1 && d !== 0) continue
    items.push(line([[x, bottom] as Point, [x, bottom + 2.2] as Point], 'opening'))
    const name = short ? dayWords(time) : MONTHS[time.month]!
    const room = short ? 12 : Math.min(30, daysCount - d) * dayMm
    // A month of which only the end is there has no room for its name.
    if (wordsMm(name, LETTERING_MM) < room) items.push(text([x + 0.7, bottom + 3.4], name))
  }
  return items
}

/** What each mark stands for, and the steps of the ink where there are any. */
function keyItems(map: YearMap, topMm: number): { readonly items: readonly Item[]; readonly bottomMm: number } {
  const items: Item[] = []
  const at: Point = [2.4, 0]
  let y = topMm
  const row = (sample: (at: Point) => readonly Item[], words: string): void => {
    items.push(...sample([at[0], y - 0.9]))
    for (const one of wrapped(words, map.widthMm - 7)) {
      items.push(text([6, y], one))
      y += LINE_MM
    }
    y += 0.3
  }
  const solid = (points: readonly Point[]): Item => many([points], 'none', 'solid')!
  row(([a, b]) => [-1.1, 0, 1.1].map((d) => solid(dot([a + d, b], 0.36))), map.words.frost)
  row(([a, b]) => [-0.9, 0.9].map((d) => line(stroke([a + d, b], 0.6, 1.7), 'ampere 1')), map.words.drip)
  row(([a, b]) => [-1, 1].flatMap((d) => cross([a + d, b], 0.55, 0.7).map((points) => line(points, 'rib'))), map.words.hot)
  if (map.ramp !== null) {
    const { edges, name, unit } = map.ramp
    const swatch = Math.min(26, (map.widthMm - 4) / 5)
    items.push(text([0.6, y], `${name}${unit === '' ? '' : `, ${unit}`}`))
    y += LINE_MM
    INKS.forEach((ink, i) => {
      items.push(box([0.6 + i * swatch, y - 2.4], swatch - 1, 2.6, 'rib', ink))
      const last = edges[i + 1]
      const words = last === undefined ? `from ${edgeSaid(edges[i]!)}` : `${edgeSaid(edges[i]!)}${THIN}…${THIN}${edgeSaid(last)}`
      items.push(text([0.6 + i * swatch, y + 3.2], words))
    })
    y += LINE_MM + 1.6
  }
  return { items, bottomMm: y }
}

const edgeSaid = (edge: number): string => String(Math.round(edge * 10) / 10).replace('-', '−')

function said(map: YearMap): string {
  const count = (hours: readonly number[]): string => `${hours.length} h`
  const first = dayWords(timeAt(map, 0))
  const chosen = map.weeks.find((w) => w.id === map.chosen)
  return `Map of ${map.hoursCount} hours from ${first}, days across and hours up: frost under the roof in ${count(map.frostH)}, drips in ${count(map.dripH)}, too hot in ${count(map.hotH)}.${chosen === undefined ? '' : ` Chosen: ${chosen.what}.`}`
}
