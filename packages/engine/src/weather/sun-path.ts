import { acos, cos, Fault, sin } from '../kernel/index.ts'
import { radOf } from './shelf.ts'
import { daysSince2000D, STAND_IN_YEAR, sunOf } from './sun.ts'
import type { WeatherPlace } from './types.ts'

/** The sun over many equal spans of time in a row: where it stands in the middle of the lit part of each. */
export interface SunPath {
  readonly stepsCount: number
  readonly eastRatio: Float64Array
  readonly northRatio: Float64Array
  /** Sine of the sun's height; 0 in spans without sun. ≥ 0 */
  readonly upRatio: Float64Array
  /** Share of the span in which the sun's middle is over the level horizon. */
  readonly litFrac: Float64Array
  readonly distanceRatio: Float64Array
  /** Sine of the sun's height averaged over the whole span, nothing counted while it is down: with G₀, light outside the air on the level. */
  readonly meanUpRatio: Float64Array
}

export function newSunPath(stepsCount: number): SunPath {
  const column = () => new Float64Array(stepsCount)
  return {
    stepsCount,
    eastRatio: column(),
    northRatio: column(),
    upRatio: column(),
    litFrac: column(),
    distanceRatio: column(),
    meanUpRatio: column(),
  }
}

export interface PathSpan {
  readonly place: Pick<WeatherPlace, 'latitudeDeg' | 'longitudeDeg' | 'utcOffsetH'>
  /** Null: a year of no number, laid on `STAND_IN_YEAR`. */
  readonly year: number | null
  /** Day of the year (from 1) and hour by the clock at which the first span begins. */
  readonly firstDay: number
  readonly firstHour: number
  /** Length of a span: a whole number of them makes a day. ≤ 6 */
  readonly stepH: number
}

/** At a midnight: sine of declination, sundial less clock as an angle with its sine and cosine, distance. */
interface Midnight {
  readonly sine: number
  readonly shift: number
  readonly sin: number
  readonly cos: number
  readonly distance: number
}

const NO_DAY: Midnight = { sine: 0, shift: 0, sin: 0, cos: 1, distance: 1 }

function midnight(sinceD: number, clock: number): Midnight {
  const sun = sunOf(sinceD)
  const shift = clock + radOf(sun.equationMin / 4)
  return { sine: sin(sun.declinationRad), shift, sin: sin(shift), cos: cos(shift), distance: sun.distanceRatio }
}

/**
 * Fills a path. Declination, sundial time and distance are worked out at each midnight and drawn straight between (0.001°); the rest is
 * exact, by one turn per span. In spans of rise and set the direction is that of the middle of the lit part: the middle of the whole span
 * throws the beam on a low wall off by a factor.
 * @throws Fault `weather/sun-range`
 */
export function fillSunPath(path: SunPath, span: PathSpan): void {
  const { place, stepH } = span
  const perDayCount = Math.round(24 / stepH)
  if (
    !(perDayCount >= 4 && perDayCount <= 1440 && Math.abs(perDayCount * stepH - 24) < 1e-9 && Math.abs(place.latitudeDeg) <= 90)
  ) {
    throw new Fault('weather/sun-range', span)
  }
  const lat = radOf(place.latitudeDeg)
  const [sinL, cosL] = [sin(lat), Math.max(cos(lat), 1e-12)]
  const clock = radOf(place.longitudeDeg - 15 * place.utcOffsetH)
  const half = radOf(15 * stepH) / 2
  const [sinHalf, cosHalf] = [sin(half), cos(half)]
  // The clock's own angle is the same each day; the day's shift against it turns it a little.
  const clockRad = Float64Array.from({ length: perDayCount }, (_, i) =>
    radOf(15 * (((span.firstHour + (i + 0.5) * stepH) % 24) - 12)),
  )
  const [clockSin, clockCos] = [clockRad.map(sin), clockRad.map(cos)]

  let dayAt = Number.NaN
  let [now, then] = [NO_DAY, NO_DAY]
  const since = (day: number) =>
    daysSince2000D(span.year ?? STAND_IN_YEAR, span.firstDay, 24 * (day - span.firstDay) - place.utcOffsetH)

  for (let i = 0; i < path.stepsCount; i++) {
    const middleH = span.firstHour + (i + 0.5) * stepH
    const day = span.firstDay + Math.floor(middleH / 24)
    const hourH = middleH - 24 * (day - span.firstDay)
    if (day !== dayAt) {
      now = day === dayAt + 1 ? then : midnight(since(day), clock)
      then = midnight(since(day + 1), clock)
      dayAt = day
    }
    const f = hourH / 24
    const sinD = now.sine + f * (then.sine - now.sine)
    const cosD = Math.sqrt(1 - sinD * sinD)
    path.distanceRatio[i] = now.distance + f * (then.distance - now.distance)

    const k = i % perDayCount
    let angle = (clockRad[k] as number) + now.shift + f * (then.shift - now.shift)
    if (angle > Math.PI) angle -= 2 * Math.PI
    else if (angle <= -Math.PI) angle += 2 * Math.PI
    const base = sinL * sinD
    const swing = cosL * cosD
    // Up is base + swing·cos ω: lit while cos ω is above this.
    const edge = -base / swing
    const shiftSin = now.sin + f * (then.sin - now.sin)
    const shiftCos = now.cos + f * (then.cos - now.cos)
    let sinW = (clockSin[k] as number) * shiftCos + (clockCos[k] as number) * shiftSin
    let cosW = (clockCos[k] as number) * shiftCos - (clockSin[k] as number) * shiftSin
    const cosA = cosW * cosHalf + sinW * sinHalf
    const cosB = cosW * cosHalf - sinW * sinHalf
    const most = Math.abs(angle) <= half ? 1 : Math.max(cosA, cosB)
    const least = Math.PI - Math.abs(angle) <= half ? -1 : Math.min(cosA, cosB)

    let lit = 1
    // Mean of cos ω over the span.
    let mean = (cosW * sinHalf) / half
    if (most <= edge) {
      path.eastRatio[i] = 0
      path.northRatio[i] = 0
      path.upRatio[i] = 0
      path.litFrac[i] = 0
      path.meanUpRatio[i] = 0
      continue
    }
    if (least < edge) {
      const set = acos(edge)
      // The span may reach past midnight into the next morning, or begin in the evening before: up to three lit stretches, the longest counts.
      let [longest, at, sum, sines] = [0, 0, 0, 0]
      for (let turn = -1; turn <= 1; turn++) {
        const from = Math.max(angle - half, 2 * Math.PI * turn - set)
        const to = Math.min(angle + half, 2 * Math.PI * turn + set)
        if (to <= from) continue
        sum += to - from
        sines += sin(to) - sin(from)
        if (to - from > longest) {
          longest = to - from
          at = (from + to) / 2
        }
      }
      lit = sum / (2 * half)
      mean = sines / (2 * half)
      sinW = sin(at)
      cosW = cos(at)
    }
    path.eastRatio[i] = -cosD * sinW
    path.northRatio[i] = cosL * sinD - sinL * cosD * cosW
    path.upRatio[i] = Math.max(0, base + swing * cosW)
    path.litFrac[i] = lit
    path.meanUpRatio[i] = Math.max(0, base * lit + swing * mean)
  }
}
