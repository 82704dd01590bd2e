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
  /** Length of a span. > 0, ≤ 6 */
  readonly stepH: number
}

/**
 * Fills a path. Declination, sundial time and distance are worked out at each midnight and drawn straight between (0.001°); the rest is
 * exact, by one turn per span. In spans of rise and set the direction is that of the middle of the lit part: the middle of the whole span
 * throws the beam on a low wall off by a factor.
 * @throws Fault `weather/sun-range`
 */
export function fillSunPath(path: SunPath, span: PathSpan): void {
  const { place, stepH } = span
  if (!(stepH > 0 && stepH <= 6 && Math.abs(place.latitudeDeg) <= 90)) throw new Fault('weather/sun-range', span)
  const lat = radOf(place.latitudeDeg)
  const [sinL, cosL] = [sin(lat), Math.max(cos(lat), 1e-12)]
  const clock = radOf(place.longitudeDeg - 15 * place.utcOffsetH)
  const half = radOf(15 * stepH) / 2
  const [sinHalf, cosHalf] = [sin(half), cos(half)]

  let dayAt = Number.NaN
  let [sine0, sine1, shift0, shift1, distance0, distance1] = [0, 0, 0, 0, 0, 0]
  const since = (day: number) =>
    daysSince2000D(span.year ?? STAND_IN_YEAR, span.firstDay, 24 * (day - span.firstDay) - place.utcOffsetH)

  for (let i = 0; i < path.stepsCount; i++) {
    const middleH = span.firstHour + (i + 0.5) * stepH
    const day = span.firstDay + Math.floor(middleH / 24)
    const hourH = middleH - 24 * (day - span.firstDay)
    if (day !== dayAt) {
      const next = day === dayAt + 1
      const at = next ? null : sunOf(since(day))
      sine0 = at === null ? sine1 : sin(at.declinationRad)
      shift0 = at === null ? shift1 : clock + radOf(at.equationMin / 4)
      distance0 = at === null ? distance1 : at.distanceRatio
      const then = sunOf(since(day + 1))
      sine1 = sin(then.declinationRad)
      shift1 = clock + radOf(then.equationMin / 4)
      distance1 = then.distanceRatio
      dayAt = day
    }
    const f = hourH / 24
    const sinD = sine0 + f * (sine1 - sine0)
    const cosD = Math.sqrt(1 - sinD * sinD)
    path.distanceRatio[i] = distance0 + f * (distance1 - distance0)

    let angle = radOf(15 * (hourH - 12)) + shift0 + f * (shift1 - shift0)
    if (angle > Math.PI) angle -= 2 * Math.PI
    else if (angle <= -Math.PI) angle += 2 * Math.PI
    const [base, swing] = [sinL * sinD, cosL * cosD]
    // Up is base + swing·cos ω: lit while cos ω is above this.
    const edge = -base / swing
    let [sinW, cosW] = [sin(angle), cos(angle)]
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
