import { Fault, seeded } from '../../kernel/index.ts'
import { reachedD, workAtDays } from './calendar.ts'
import { type Activity, checkOrder } from './network.ts'
import { checkThreePoint, type ThreePoint } from './three-point.ts'

export interface Drawn extends Activity {
  readonly span: ThreePoint
  /** Activities of one name are late together: one told lead time cut into parts. */
  readonly together?: string
}

export interface DrawsAsked {
  readonly net: readonly Drawn[]
  readonly fromD: number
  readonly count: number
  readonly seed: number
  /** Each is a way for the end to be reached; the earlier one counts. */
  readonly ends: readonly number[]
  /** Late beyond this moment; null: not asked. */
  readonly byD: number | null
}

export interface Draws {
  readonly count: number
  readonly seed: number
  /** Share of draws in which no end is reached by the moment; null: not asked. */
  readonly lateFrac: number | null
  /** The same of the first end alone. */
  readonly firstLateFrac: number | null
  /** First end, sorted. */
  readonly endsD: Float64Array
  /** Day by whose evening nine of ten draws have the activity finished; Infinity: fewer have. */
  readonly nineInTenD: Float64Array
}

/**
 * Draws each duration from its triangle and runs the chain, so often. Seeded and counted: the same numbers each time.
 * @throws Fault `dates/draws-range`
 */
export function draws(asked: DrawsAsked): Draws {
  const { net, fromD, count, seed, ends, byD } = asked
  checkOrder(net)
  if (!(Number.isInteger(count) && count > 0 && count <= 1e6) || ends.length === 0)
    throw new Fault('dates/draws-range', { count })
  for (const a of net) checkThreePoint(a.span)
  const random = seeded(seed)
  const groups = [...new Set(net.map((a, i) => a.together ?? `#${i}`))]
  const groupOf = Int32Array.from(net, (a, i) => groups.indexOf(a.together ?? `#${i}`))
  const u = new Float64Array(groups.length)
  const finish = new Float64Array(net.length)
  const longest = Math.max(...net.map((a) => a.calendar.doneDays.length)) + 2
  const bins = new Uint32Array(net.length * longest)
  const base = Math.floor(fromD)
  const endsD = new Float64Array(count)
  let late = 0
  let firstLate = 0
  for (let draw = 0; draw < count; draw += 1) {
    for (let g = 0; g < u.length; g += 1) u[g] = random.next()
    for (let i = 0; i < net.length; i += 1) {
      const a = net[i]!
      let at = a.doneD ?? fromD
      if (a.doneD === undefined) {
        if (a.notBeforeD !== undefined && a.notBeforeD > at) at = a.notBeforeD
        for (const p of a.after) if (finish[p]! > at) at = finish[p]!
        const { low, likely, high } = a.span
        if (high > 0 && at < Infinity) {
          const width = high - low
          const one = u[groupOf[i]!]!
          const takes =
            width <= 0
              ? likely
              : one * width < likely - low
                ? low + Math.sqrt(one * width * (likely - low))
                : high - Math.sqrt((1 - one) * width * (high - likely))
          at = reachedD(a.calendar, workAtDays(a.calendar, at) + takes)
        }
      }
      finish[i] = at
      const bin = at === Infinity ? longest - 1 : Math.min(longest - 2, Math.max(0, Math.ceil(at - base - SAME)))
      bins[i * longest + bin] = bins[i * longest + bin]! + 1
    }
    const first = finish[ends[0]!]!
    let end = first
    for (const e of ends) if (finish[e]! < end) end = finish[e]!
    endsD[draw] = first
    if (byD !== null && first > byD + SAME) firstLate += 1
    if (byD !== null && end > byD + SAME) late += 1
  }
  endsD.sort()
  return {
    ...{ count, seed, endsD },
    lateFrac: byD === null ? null : late / count,
    firstLateFrac: byD === null ? null : firstLate / count,
    nineInTenD: Float64Array.from(net, (_, i) => quantileD(bins.subarray(i * longest, (i + 1) * longest), count, 0.9, base)),
  }
}

function quantileD(bins: Uint32Array, count: number, frac: number, baseD: number): number {
  let sum = 0
  for (let i = 0; i < bins.length - 1; i += 1) {
    sum += bins[i]!
    if (sum >= frac * count - SAME) return baseD + i
  }
  return Infinity
}

/** Quantile of sorted draws: the least of which so large a share is at or below. */
export const quantileOf = (sorted: Float64Array, frac: number): number =>
  sorted[Math.min(sorted.length - 1, Math.max(0, Math.ceil(frac * sorted.length) - 1))]!

const SAME = 1e-7
