import { THIN } from '@plugstead/engine/kernel'
import type { LineMeaning } from '../lines.ts'
import { wordsMm } from '../model/lettering.ts'
import { type Item, LETTERING_MM, line, type Scene, text } from '../scene.ts'
import { type AirClock, dayWords, timeAt } from './clock.ts'
import { axis, curves, dayItems, type Strip, scaleOver, yOf } from './plot.ts'
import { type AirUnits, degrees, degreeUnit, fixed } from './units.ts'

/** One sensor of a log, hour by hour over the span; NaN where there is no reading. °C, or % of humidity. */
export interface LogCurve {
  readonly name: string
  readonly quantity: 'temperature' | 'humidity'
  readonly logged: readonly number[]
  readonly ours: readonly number[]
  /** With what the log told of the box; null: nothing was fitted. */
  readonly fitted: readonly number[] | null
}

export interface AirLog extends AirClock {
  readonly widthMm: number
  readonly units: AirUnits
  readonly hoursCount: number
  readonly curves: readonly LogCurve[]
}

const LEFT_MM = 15
const RIGHT_MM = 2
const STRIP_MM = 26
const GAP_MM = 7
const KEY_MM = 9

/** What each stroke is of: what was measured is solid. */
const STROKES = { logged: 'ampere 2', ours: 'behind', fitted: 'ampere 1 long dash' } as const satisfies Record<
  string,
  LineMeaning
>
const STROKE_WORDS = { logged: 'measured', ours: 'worked out', fitted: 'with what was found (hidden where it fits)' } as const
type Stroke = keyof typeof STROKES

/** A log over its span, one strip a sensor: what was measured, what was worked out, and what is worked out with what the log told. */
export function airLog(of: AirLog): Scene {
  const { widthMm, hoursCount, units } = of
  if (hoursCount < 1 || of.curves.length === 0)
    return { sizeMm: [widthMm, 8], said: 'No readings to draw.', items: [text([0, 5], 'No readings to draw.')] }
  const rightMm = widthMm - RIGHT_MM
  const x = (h: number): number => LEFT_MM + ((h + 0.5) / hoursCount) * (rightMm - LEFT_MM)
  const strokes = (Object.keys(STROKES) as Stroke[]).filter((s) => s !== 'fitted' || of.curves.some((c) => c.fitted !== null))
  const key = keyItems(strokes, widthMm)
  const items: Item[] = [...key.items]
  let y = key.bottomMm
  const firstTopMm = y + GAP_MM
  for (const curve of of.curves) {
    y += GAP_MM
    const at: Strip = { x, leftMm: LEFT_MM, rightMm, topMm: y, bottomMm: y + STRIP_MM }
    items.push(...curveItems(curve, strokes, at, units))
    y += STRIP_MM
  }
  items.push(...dayItems(of, { x, leftMm: LEFT_MM, rightMm, topMm: firstTopMm, bottomMm: y }))
  return { sizeMm: [widthMm, y + 7], said: saidOf(of), items }
}

function keyItems(strokes: readonly Stroke[], widthMm: number): { readonly items: readonly Item[]; readonly bottomMm: number } {
  const items: Item[] = []
  let [x, y] = [0, 3]
  for (const stroke of strokes) {
    const needMm = KEY_MM + 1.5 + wordsMm(STROKE_WORDS[stroke], LETTERING_MM)
    if (x > 0 && x + needMm > widthMm) [x, y] = [0, y + 4]
    items.push(
      line(
        [
          [x, y - 1],
          [x + KEY_MM, y - 1],
        ],
        STROKES[stroke],
      ),
      text([x + KEY_MM + 1.5, y], STROKE_WORDS[stroke]),
    )
    x += needMm + 5
  }
  return { items, bottomMm: y }
}

function curveItems(curve: LogCurve, strokes: readonly Stroke[], at: Strip, units: AirUnits): readonly Item[] {
  const warm = curve.quantity === 'temperature'
  const shown = (values: readonly number[]): readonly number[] => (warm ? values.map((c) => degrees(c, units)) : values)
  const all = { logged: shown(curve.logged), ours: shown(curve.ours), fitted: curve.fitted === null ? [] : shown(curve.fitted) }
  const scale = scaleOver(
    strokes.flatMap((s) => all[s]),
    4,
  )
  const y = yOf(scale, at)
  return [
    text([at.leftMm, at.topMm - 1.6], curve.name, { strong: true }),
    ...axis(scale, at, warm ? degreeUnit(units) : '%'),
    ...strokes.flatMap((s) => curves(all[s], at.x, y).map((points) => line(points, STROKES[s]))),
  ]
}

function saidOf(of: AirLog): string {
  const span = `${dayWords(timeAt(of, 0))} to ${dayWords(timeAt(of, of.hoursCount - 1))}`
  const each = of.curves.map((c) => {
    const [low, high] = ends(c.quantity === 'temperature' ? c.logged.map((v) => degrees(v, of.units)) : c.logged)
    const unit = c.quantity === 'temperature' ? degreeUnit(of.units) : '%'
    return low === null || high === null
      ? `${c.name}: no reading`
      : `${c.name}: ${fixed(low, 1)} to ${fixed(high, 1)}${THIN}${unit}`
  })
  return `What a logger measured beside what was worked out, ${span}. Measured: ${each.join('; ')}.`
}

function ends(values: readonly number[]): readonly [number, number] | readonly [null, null] {
  const known = values.filter(Number.isFinite)
  if (known.length === 0) return [null, null]
  return known.reduce<[number, number]>(([low, high], v) => [Math.min(low, v), Math.max(high, v)], [known[0]!, known[0]!])
}
