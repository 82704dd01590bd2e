import type { AirSpell } from '@plugstead/engine/air'
import { DRIP_WARNING_KG_PER_M2, ROOF_HOLDS_KG_PER_M2 } from '@plugstead/engine/air'
import { THIN } from '@plugstead/engine/kernel'
import type { LineMeaning } from '../lines.ts'
import { area, type Item, line, many, type Point, type Scene, text } from '../scene.ts'
import { timeAt, timeWords } from './clock.ts'
import { axis, beside, curves, dayItems, flat, type Named, paragraph, type Strip, scaleOver, yOf } from './plot.ts'
import { type AirUnits, degrees, degreesSaid, degreeUnit, filmSaid, fixed, waterSaid, windSaid } from './units.ts'
import { spellTitle } from './year-map-of.ts'

export interface AirWeek {
  readonly widthMm: number
  readonly units: AirUnits
  readonly spell: AirSpell
  /** Hour of the spell whose figures are told, with a cut line through all strips; null: none. */
  readonly atH: number | null
  /** Upper limit of the gear, drawn where the days come near it; null: none is known. */
  readonly hotC: number | null
}

/** Where the hours stand, so that a touch finds its own. */
export interface WeekPlot {
  readonly leftMm: number
  readonly rightMm: number
  readonly topMm: number
  readonly bottomMm: number
  readonly hoursCount: number
}

export type AirWeekScene = Scene & { readonly plot: WeekPlot | null }

const LEFT_MM = 13
const RIGHT_MM = 29
const RIGHT_NARROW_MM = 24
const GAP_MM = 5
const HEATS_MM = 58
const FILM_MM = 24
const DRIPS_MM = 4.5
const WEATHER_MM = 13
const POWER_MM = 5

/** Lines of the temperatures by what they are of: weather in chalk, gear heavy and broken, the dew point as a chain. */
const LINES = {
  outside: 'chalk',
  air: 'ampere 2',
  gear: 'ampere 2 long dash',
  roof: 'ampere 1',
  dew: 'fold',
} as const satisfies Record<string, LineMeaning>

/**
 * Some days hour by hour: temperatures, and hatched where the roof's underside is below the dew point; what hangs under the roof; sun and wind;
 * heater and fan.
 */
export function airWeek(week: AirWeek): AirWeekScene {
  const { spell, widthMm, units } = week
  const title = spellTitle(spell)
  if (spell.hoursCount < 1)
    return {
      plot: null,
      sizeMm: [widthMm, 8],
      said: `${spell.what}: no hours.`,
      items: [text([0, 5], `${spell.what}: no hours to draw.`)],
    }
  const rightMm = widthMm - (widthMm < 130 ? RIGHT_NARROW_MM : RIGHT_MM)
  const x = (h: number): number => LEFT_MM + ((h + 0.5) / spell.hoursCount) * (rightMm - LEFT_MM)
  const head = paragraph(headWords(week), [0, 3], widthMm)
  let y = head.nextMm + 1
  const strip = (heightMm: number): Strip => {
    const topMm = y
    y += heightMm
    return { x, leftMm: LEFT_MM, rightMm, topMm, bottomMm: y }
  }
  const items: Item[] = [...head.items]
  const heats = strip(HEATS_MM)
  items.push(...heatItems(week, heats))
  // Its lowest figure stands half below it, and the next title above its own strip.
  y += GAP_MM + 2
  const film = strip(spell.faces.roof.filmGPerM2.some((g) => g > 0) ? FILM_MM : POWER_MM)
  const drips = strip(DRIPS_MM)
  items.push(...filmItems(week, film), ...dripItems(week, drips))
  y += GAP_MM
  items.push(...weatherItems(week, strip(WEATHER_MM)))
  for (const [name, values] of [
    ['heater', spell.heaterWh],
    ['fan', spell.fanWh],
  ] as const) {
    y += 2.2
    items.push(...powerItems(name, values, strip(POWER_MM)))
  }
  items.push(...dayItems(spell, { x, leftMm: LEFT_MM, rightMm, topMm: heats.topMm, bottomMm: y }))
  const { atH } = week
  if (atH !== null && atH >= 0 && atH < spell.hoursCount)
    items.push(line([[x(atH), heats.topMm - 1] as Point, [x(atH), y] as Point], 'opening'))
  const plot = { leftMm: LEFT_MM, rightMm, topMm: heats.topMm, bottomMm: y, hoursCount: spell.hoursCount }
  return { plot, sizeMm: [widthMm, y + 7], said: saidOf(week, title, units), items }
}

/** What the cut line stands at, in figures: readings are of the end of their hour. */
function headWords({ spell, atH, units }: AirWeek): string {
  const h = atH
  if (h === null || h < 0 || h >= spell.hoursCount) return spellTitle(spell)
  const t = (values: readonly number[]): string => degreesSaid(values[h] ?? Number.NaN, units)
  return `${timeWords(timeAt(spell, h + 1))} (cut line): outside ${t(spell.outsideC)}, underside of the roof ${t(spell.faces.roof.insideC)}, dew point ${t(spell.dewPointC)}, air ${t(spell.airC)}, gear ${t(spell.gearC)}, under the roof ${filmSaid(spell.faces.roof.filmGPerM2[h] ?? Number.NaN)}`
}

function heatItems(week: AirWeek, at: Strip): readonly Item[] {
  const { spell, units, hotC } = week
  const series = [
    { name: 'outside', values: spell.outsideC, line: LINES.outside },
    { name: 'roof, underside', values: spell.faces.roof.insideC, line: LINES.roof },
    { name: 'dew point', values: spell.dewPointC, line: LINES.dew },
    { name: 'air inside', values: spell.airC, line: LINES.air },
    { name: 'gear', values: spell.gearC, line: LINES.gear },
  ].map((s) => ({ ...s, values: s.values.map((c) => degrees(c, units)) }))
  const all = series.flatMap((s) => s.values)
  const highest = Math.max(...all.filter(Number.isFinite), Number.NEGATIVE_INFINITY)
  const hot = hotC === null ? null : degrees(hotC, units)
  // A limit far above the days would press them flat: it is then left out.
  const showHot = hot !== null && hot - highest < 10 * (units === 'us' ? 1.8 : 1)
  const scale = scaleOver(showHot ? [...all, hot] : all, 6)
  const y = yOf(scale, at)
  const freezes = degrees(0, units)
  const wet = belowItems(series[1]!.values, series[2]!.values, at.x, y)
  const names: Named[] = series.flatMap(({ name, values }) => {
    const last = values.findLast(Number.isFinite)
    return last === undefined ? [] : [{ yMm: y(last), words: name }]
  })
  const cuts: Item[] = []
  if (freezes > scale.low && freezes < scale.high) {
    cuts.push(flat(y(freezes), at, 'hair'))
    cuts.push(text([at.leftMm + 0.8, y(freezes) - 0.6], 'freezing', { halo: true }))
  }
  if (showHot) {
    cuts.push(flat(y(hot), at, 'cut'))
    names.push({ yMm: y(hot), words: `limit ${degreesSaid(hotC!, units, 0)}`, strong: true })
  }
  return [
    ...wet,
    ...axis(scale, at, degreeUnit(units)),
    ...cuts,
    ...series.flatMap((s) => curves(s.values, at.x, y).map((points) => line(points, s.line))),
    ...beside(names, at.rightMm + 1.4, at),
  ]
}

/** Hatched where the first runs below the second. */
function belowItems(
  low: readonly number[],
  high: readonly number[],
  x: (h: number) => number,
  y: (value: number) => number,
): readonly Item[] {
  const out: Item[] = []
  let from: number | null = null
  for (let h = 0; h <= low.length; h += 1) {
    const below = h < low.length && low[h]! < high[h]!
    if (below && from === null) from = h
    if (!below && from !== null) {
      const hours = Array.from({ length: h - from }, (_, i) => from! + i)
      const points: Point[] = [
        ...hours.flatMap((k): Point[] =>
          hours.length === 1
            ? [
                [x(k) - 0.3, y(high[k]!)],
                [x(k) + 0.3, y(high[k]!)],
              ]
            : [[x(k), y(high[k]!)]],
        ),
        ...hours.toReversed().flatMap((k): Point[] =>
          hours.length === 1
            ? [
                [x(k) + 0.3, y(low[k]!)],
                [x(k) - 0.3, y(low[k]!)],
              ]
            : [[x(k), y(low[k]!)]],
        ),
      ]
      out.push(area(points, 'upright close'))
      from = null
    }
  }
  return out
}

function filmItems({ spell }: AirWeek, at: Strip): readonly Item[] {
  const { filmGPerM2: film, frostGPerM2: frost } = spell.faces.roof
  const most = Math.max(0, ...film.filter(Number.isFinite))
  const title = text([0, at.topMm - 2.6], 'under the roof, g/m²')
  if (most <= 0) return [title, flat(at.bottomMm, at, 'ampere 1'), text([at.leftMm + 1, at.bottomMm - 1.5], 'dry all these days')]
  const [warn, falls] = [DRIP_WARNING_KG_PER_M2 * 1000, ROOF_HOLDS_KG_PER_M2 * 1000]
  const marks = [
    { value: warn, words: `warning ${fixed(warn, 0)}`, line: 'proposed' as const },
    { value: falls, words: `falls ${fixed(falls, 0)}`, line: 'cut' as const },
  ].filter((m) => most > m.value * 0.45)
  const scale = scaleOver([0, most, ...marks.map((m) => m.value)], 4)
  const y = yOf(scale, at)
  const under = film.map(() => 0)
  const ice = film.map((f, h) => Math.min(f, frost[h] ?? 0))
  return [
    title,
    ...bandItems(film, ice, at.x, y).map((points) => area(points, 'slant close', 'ampere 1')),
    ...bandItems(ice, under, at.x, y).map((points) => area(points, 'dots', 'ampere 1')),
    ...axis(scale, at, ''),
    ...marks.map((m) => flat(y(m.value), at, m.line)),
    ...beside(
      [...marks.map((m) => ({ yMm: y(m.value), words: m.words, strong: m.line === 'cut' })), ...lastNames(film, ice, y)],
      at.rightMm + 1.4,
      at,
    ),
  ]
}

/** Frost in dots, water slanted: said beside where they end, or at the foot where nothing hangs there at the end. */
function lastNames(film: readonly number[], ice: readonly number[], y: (v: number) => number): readonly Named[] {
  const h = film.length - 1
  const hasIce = ice.some((v) => v > 0)
  const hasWater = film.some((v, i) => v - ice[i]! > 0.05)
  return [
    ...(hasWater ? [{ yMm: y(((film[h] ?? 0) + (ice[h] ?? 0)) / 2), words: 'water: slanted' }] : []),
    ...(hasIce ? [{ yMm: y((ice[h] ?? 0) / 2), words: 'frost: dots' }] : []),
  ]
}

/** Outlines between two curves, one for each stretch in which there is something between them. */
function bandItems(
  upper: readonly number[],
  lower: readonly number[],
  x: (h: number) => number,
  y: (value: number) => number,
): readonly (readonly Point[])[] {
  const out: Point[][] = []
  let hours: number[] = []
  const half = upper.length > 1 ? (x(1) - x(0)) / 2 : 1
  const close = (): void => {
    if (hours.length === 0) return
    const edge = (values: readonly number[], order: readonly number[]): Point[] => [
      [order[0] === hours[0] ? x(order[0]!) - half : x(order[0]!) + half, y(values[order[0]!]!)],
      ...order.map((h): Point => [x(h), y(values[h]!)]),
      [order[0] === hours[0] && order.length > 0 ? x(order.at(-1)!) + half : x(order.at(-1)!) - half, y(values[order.at(-1)!]!)],
    ]
    const back = hours.toReversed()
    const lowerEdge: Point[] = [
      [x(back[0]!) + half, y(lower[back[0]!]!)],
      ...back.map((h): Point => [x(h), y(lower[h]!)]),
      [x(back.at(-1)!) - half, y(lower[back.at(-1)!]!)],
    ]
    out.push([...edge(upper, hours), ...lowerEdge])
    hours = []
  }
  for (let h = 0; h < upper.length; h += 1) {
    if (upper[h]! - lower[h]! > 0.02) hours.push(h)
    else close()
  }
  close()
  return out
}

/** Strokes below the roof's film where it falls, longer for more; what fell in all beside them. */
function dripItems({ spell, units }: AirWeek, at: Strip): readonly Item[] {
  const { fellG } = spell.faces.roof
  const most = Math.max(0, ...fellG.filter(Number.isFinite))
  const sum = fellG.reduce((all, g) => all + (Number.isFinite(g) ? g : 0), 0)
  if (most <= 0) return [text([at.rightMm + 1.8, at.bottomMm - 0.6], 'nothing falls')]
  const strokes = fellG.flatMap((g, h): readonly (readonly Point[])[] => {
    if (!(g > 0)) return []
    const length = 1 + (DRIPS_MM - 1.6) * Math.sqrt(g / most)
    return [
      [
        [at.x(h) + 0.2, at.topMm + 0.5],
        [at.x(h) - 0.2, at.topMm + 0.5 + length],
      ],
    ]
  })
  const item = many(strokes, at.x(1) - at.x(0) > 1 ? 'ampere 2' : 'ampere 1')
  return [
    ...(item === null ? [] : [item]),
    text([at.rightMm + 1.8, at.bottomMm - 0.6], `${waterSaid(sum, units)} falls`, { strong: true }),
  ]
}

function weatherItems({ spell, units }: AirWeek, at: Strip): readonly Item[] {
  const sunMost = Math.max(0, ...spell.sunWPerM2.filter(Number.isFinite))
  const windMost = Math.max(0, ...spell.windMPerS.filter(Number.isFinite))
  const sun = yOf({ low: 0, high: Math.max(sunMost, 200), step: 1 }, at)
  const wind = yOf({ low: 0, high: Math.max(windMost, 5), step: 1 }, at)
  return [
    text([0, at.topMm - 1.2], 'sun and wind'),
    ...bandItems(
      spell.sunWPerM2.map((v) => Math.max(0, v)),
      spell.sunWPerM2.map(() => 0),
      at.x,
      sun,
    ).map((points) => area(points, 'slant wide', 'hair')),
    ...curves(spell.windMPerS, at.x, wind).map((points) => line(points, 'chalk')),
    flat(at.bottomMm, at, 'ampere 1'),
    ...beside(
      [
        { yMm: at.topMm + 3, words: spell.sunWPerM2.length === 0 ? 'sun not known' : `sun to ${fixed(sunMost, 0)}${THIN}W/m²` },
        { yMm: at.topMm + 7, words: spell.windMPerS.length === 0 ? 'wind not known' : `wind to ${windSaid(windMost, units)}` },
      ],
      at.rightMm + 1.4,
      at,
    ),
  ]
}

function powerItems(name: string, values: readonly number[], at: Strip): readonly Item[] {
  const most = Math.max(0, ...values.filter(Number.isFinite))
  const sumKWh = values.reduce((all, v) => all + (Number.isFinite(v) ? v : 0), 0) / 1000
  const base = flat(at.bottomMm, at, 'ampere 1')
  const label = text([0, at.bottomMm - 0.8], name)
  if (most <= 0) return [base, label, text([at.rightMm + 1.8, at.bottomMm - 0.6], 'off, or none')]
  const y = yOf({ low: 0, high: most, step: 1 }, at)
  return [
    ...bandItems(
      values.map((v) => Math.max(0, v)),
      values.map(() => 0),
      at.x,
      y,
    ).map((points) => area(points, 'solid')),
    base,
    label,
    text([at.rightMm + 1.8, at.bottomMm - 0.6], `${fixed(most, 0)}${THIN}W, ${fixed(sumKWh, 1)}${THIN}kWh`),
  ]
}

function saidOf({ spell }: AirWeek, title: string, units: AirUnits): string {
  const ends = (values: readonly number[]): string => {
    const known = values.filter(Number.isFinite)
    return known.length === 0
      ? 'not known'
      : `${degreesSaid(Math.min(...known), units)} to ${degreesSaid(Math.max(...known), units)}`
  }
  const { roof } = spell.faces
  const fellG = roof.fellG.reduce((sum, g) => sum + g, 0)
  return `${title}, hour by hour: outside ${ends(spell.outsideC)}, air inside ${ends(spell.airC)}, gear ${ends(spell.gearC)}, underside of the roof ${ends(roof.insideC)}; most under the roof ${filmSaid(Math.max(0, ...roof.filmGPerM2))}; ${fellG > 0 ? `${waterSaid(fellG, units)} falls` : 'nothing falls'}.`
}
