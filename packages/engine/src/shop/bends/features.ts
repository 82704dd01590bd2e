import type { RacewayRoute } from '../../job/index.ts'
import { tan } from '../../kernel/index.ts'
import { amount } from '../figures.ts'
import type { BendRow } from '../result.ts'
import { bare, type Feature, freeMm, lackMm, lackOf, leans, lined, type Made, needMm } from './feature.ts'
import { gainMm, offsetMultiplier, offsetShrink, radOf, tangentMm } from './geometry.ts'
import { withKicks } from './kicks.ts'

/**
 * Bends as the route has them, made so that a shop can make them. In this order, and but for kicks only where straight pipe lacks: saddles that would run
 * into each other become one; a step into a box behind a corner becomes a kick before it where there is room for that, whether the step had room
 * or not; a corner is made with an elbow that has a cover; an offset is bought as a connector; a saddle beside a corner
 * or a deep box leaves that box farther off the wall and needs to step down only once. An elbow is a pull point; where the bends
 * between two still come to more than `mostDeg`, a pull box stands in the last straight that holds one.
 */
export function featuresOf(
  route: Pick<RacewayRoute, 'bends'>,
  lengthMm: number,
  made: Made,
  mostDeg: number,
): readonly Feature[] {
  return withPulls(withRaised(withConnectors(bentFeatures(route, lengthMm, made), lengthMm), lengthMm, made), mostDeg)
}

/** The first three of these steps: what bender and elbow alone can make of it. */
export function bentFeatures(route: Pick<RacewayRoute, 'bends'>, lengthMm: number, made: Made): readonly Feature[] {
  const bends = route.bends.map((b): Feature => {
    if (b.kind === 'quarter') return quarter(b.atMm, b.sumDeg, made)
    if (b.kind === 'offset') return offset(b.atMm, b.riseMm, b.sumDeg / 2, made)
    return saddle(b.atMm, b.atMm, b.riseMm, b.sumDeg / 4, made)
  })
  const all = merged(
    bends.toSorted((a, b) => a.atMm - b.atMm),
    made,
  )
  return withElbows(withKicks(all, lengthMm, made), lengthMm, made)
}

const degOf = (f: Feature): number => f.corners.reduce((sum, c) => sum + c.angleDeg, 0)

function withPulls(all: readonly Feature[], mostDeg: number): readonly Feature[] {
  const reachMm = amount('pull box along the pipe') / 2
  const wanted = 2 * (reachMm + amount('straight at an end'))
  let since = 0
  let sum = 0
  for (const [i, f] of all.entries()) {
    if (f.made !== 'bent') {
      since = i
      sum = 0
      continue
    }
    sum += degOf(f)
    if (sum <= mostDeg + 1e-9 || i === since) continue
    // Beside the last pull point a box would help nothing.
    const first = all[since]!.made === 'bent' ? since : since + 1
    const gaps = all
      .slice(first, i)
      .map((a, k) => ({ after: first + k, free: freeMm(a, all[first + k + 1]!) }))
      .filter((g) => !leans(all[g.after]!, all[g.after + 1]!))
    if (gaps.length === 0) continue
    const most = Math.max(...gaps.map((g) => g.free))
    const gap = gaps.findLast((g) => g.free >= Math.min(wanted, most))!
    const [a, b] = [all[gap.after]!, all[gap.after + 1]!]
    const atMm = (a.atMm + a.reachMm + b.atMm - b.reachMm) / 2
    const box: Feature = { ...bare('box', 'box', atMm), reachMm }
    return withPulls([...all.slice(0, gap.after + 1), box, ...all.slice(gap.after + 1)], mostDeg)
  }
  return all
}

const quarter = (atMm: number, angleDeg: number, { radiusMm }: Made): Feature => ({
  ...bare('quarter', 'bent', atMm),
  angleDeg,
  corners: [{ offMm: 0, angleDeg, legMm: 0 }],
  reachMm: tangentMm(radiusMm, angleDeg),
})

function offset(atMm: number, riseMm: number, angleDeg: number, { radiusMm }: Made): Feature {
  const halfRun = riseMm / tan(radOf(angleDeg)) / 2
  return {
    ...bare('offset', 'bent', atMm),
    riseMm,
    angleDeg,
    corners: [
      { offMm: -halfRun, angleDeg, legMm: 0 },
      { offMm: halfRun, angleDeg, legMm: riseMm * offsetMultiplier(angleDeg) },
    ],
    reachMm: halfRun + tangentMm(radiusMm, angleDeg),
  }
}

/** Over one thing a centre bend of twice the outer angle; over several an offset up and one down, level between. */
function saddle(firstMm: number, lastMm: number, riseMm: number, angleDeg: number, { radiusMm }: Made): Feature {
  const run = riseMm / tan(radOf(angleDeg))
  const slope = riseMm * offsetMultiplier(angleDeg)
  const atMm = (firstMm + lastMm) / 2
  if (lastMm === firstMm)
    return {
      ...bare('saddle', 'bent', atMm),
      riseMm,
      angleDeg,
      corners: [
        { offMm: -run, angleDeg, legMm: 0 },
        { offMm: 0, angleDeg: 2 * angleDeg, legMm: slope },
        { offMm: run, angleDeg, legMm: slope },
      ],
      reachMm: run + tangentMm(radiusMm, angleDeg),
    }
  // Level over all of them, with half a rise to spare at each side; never shorter than its own two arcs.
  const level = Math.max((lastMm - firstMm) / 2 + riseMm / 2, tangentMm(radiusMm, angleDeg))
  return {
    ...bare('long saddle', 'bent', atMm),
    firstMm,
    lastMm,
    riseMm,
    angleDeg,
    corners: [
      { offMm: -level - run, angleDeg, legMm: 0 },
      { offMm: -level, angleDeg, legMm: slope },
      { offMm: level, angleDeg, legMm: 2 * level },
      { offMm: level + run, angleDeg, legMm: slope },
    ],
    reachMm: level + run + tangentMm(radiusMm, angleDeg),
  }
}

const isSaddle = (f: Feature): boolean => f.kind === 'saddle' || f.kind === 'long saddle'

function merged(all: readonly Feature[], made: Made): readonly Feature[] {
  const out: Feature[] = []
  for (const f of all) {
    const last = out[out.length - 1]
    const near = last !== undefined && isSaddle(last) && isSaddle(f) && freeMm(last, f) < needMm(last, f)
    if (near)
      out[out.length - 1] = saddle(
        last.firstMm,
        f.lastMm,
        Math.max(last.riseMm, f.riseMm),
        Math.max(last.angleDeg, f.angleDeg),
        made,
      )
    else out.push(f)
  }
  return out.length === all.length ? out : merged(out, made)
}

/** A corner that has no room to be bent becomes an elbow; first the one that is short of more. */
function withElbows(all: readonly Feature[], lengthMm: number, made: Made): readonly Feature[] {
  const line = lined(all, lengthMm)
  let worst = -1
  let most = 1e-6
  for (let i = 1; i < line.length - 1; i++) {
    const f = line[i]!
    if (f.kind !== 'quarter' || f.made !== 'bent') continue
    const lack = lackMm(line[i - 1]!, f) + lackMm(f, line[i + 1]!)
    if (lack > most + 1e-6) {
      worst = i
      most = lack
    }
  }
  if (worst < 0) return all
  const reachMm = amount('pull elbow to its shoulder') * made.odMm
  const elbow = (f: Feature): Feature => ({ ...f, made: 'pull elbow', corners: [], reachMm })
  return withElbows(
    all.map((f, i) => (i === worst - 1 ? elbow(f) : f)),
    lengthMm,
    made,
  )
}

/** An offset into a box that has no room to be bent is bought as a connector with a step, at its end of the raceway. */
function withConnectors(all: readonly Feature[], lengthMm: number): readonly Feature[] {
  const line = lined(all, lengthMm)
  const short = line.findIndex(
    (f, i) => f.kind === 'offset' && f.made === 'bent' && lackMm(line[i - 1]!, f) + lackMm(f, line[i + 1]!) > 1e-6,
  )
  if (short < 0) return all
  const f = line[short]!
  const connector: Feature = {
    ...f,
    made: 'offset connector',
    corners: [],
    reachMm: 0,
    atMm: f.atMm < lengthMm / 2 ? 0 : lengthMm,
  }
  return withConnectors(
    all.map((one) => (one === f ? connector : one)).toSorted((a, b) => a.atMm - b.atMm),
    lengthMm,
  )
}

/** Room that a raised raceway wants in a box behind and before it. House rule. */
const BOX_SPARE_MM = 10

function withRaised(all: readonly Feature[], lengthMm: number, made: Made): readonly Feature[] {
  const now = lackOf(all, lengthMm)
  if (now < 1e-6) return all
  for (const [i, f] of all.entries()) {
    if (!isSaddle(f) || lackAround(all, i, lengthMm) < 1e-6) continue
    const tries = [
      raised(all, i, lengthMm, made, true, false),
      raised(all, i, lengthMm, made, false, true),
      raised(all, i, lengthMm, made, true, true),
    ]
    const lacks = tries.map((one) => (one === null ? Infinity : lackOf(one, lengthMm)))
    const least = Math.min(...lacks)
    const better = tries[lacks.findIndex((lack) => lack <= least + 1e-6)]
    if (least < now - 1e-6 && better != null) return withRaised(better, lengthMm, made)
  }
  return all
}

function lackAround(all: readonly Feature[], i: number, lengthMm: number): number {
  const line = lined(all, lengthMm)
  return lackMm(line[i]!, line[i + 1]!) + lackMm(line[i + 1]!, line[i + 2]!)
}

/** The saddle stepped down on one side only, or on none; the corner at the other is made with a box. Null where what stands there takes no raised raceway. */
function raised(
  all: readonly Feature[],
  i: number,
  lengthMm: number,
  made: Made,
  before: boolean,
  after: boolean,
): readonly Feature[] | null {
  const f = all[i]!
  const takes = (beside: Feature | undefined, deepMm: number): boolean =>
    beside === undefined ? deepMm >= made.odMm + f.riseMm + BOX_SPARE_MM : beside.kind === 'quarter' || beside.made === 'box'
  if (before && !takes(all[i - 1], made.deepMm[0])) return null
  if (after && !takes(all[i + 1], made.deepMm[1])) return null
  const half = amount('pull box along the pipe') / 2
  const step: Feature[] = []
  if (before !== after) {
    const run = f.riseMm / tan(radOf(f.angleDeg))
    const plain = offset(0, f.riseMm, f.angleDeg, made)
    // Level over what it crosses with half a rise to spare, and as far as the straight at the box asks for.
    const past = f.riseMm / 2 + run / 2
    const clear = amount('straight at an end') + plain.reachMm
    const beside = before ? all[i - 1] : all[i + 1]
    const edge = beside === undefined ? (before ? 0 : lengthMm) : beside.atMm + (before ? half : -half)
    const atMm = before ? Math.max(f.lastMm + past, edge + clear) : Math.min(f.firstMm - past, edge - clear)
    const down: Feature = { ...plain, atMm, firstMm: atMm, lastMm: atMm, raised: before ? 'before' : 'after' }
    // It stays up over the next crossing where it could not come down before it.
    const next = before ? all[i + 1] : all[i - 1]
    if (next !== undefined && isSaddle(next) && (before ? lackMm(down, next) : lackMm(next, down)) > 1e-6) {
      const [first, last] = before ? [f, next] : [next, f]
      const one = saddle(first.firstMm, last.lastMm, Math.max(f.riseMm, next.riseMm), f.angleDeg, made)
      const joined = all.flatMap((g) => (g === first ? [one] : g === last ? [] : [g]))
      return raised(joined, joined.indexOf(one), lengthMm, made, before, after)
    }
    step.push(down)
  }
  const boxed = (one: Feature): Feature =>
    one.kind === 'quarter' ? { ...one, made: 'corner box', corners: [], reachMm: half } : one
  return all.flatMap((one, k) => {
    if (k === i) return step
    return [(before && k === i - 1) || (after && k === i + 1) ? boxed(one) : one]
  })
}

/** One row of the bend sheet. */
export function bendRow(
  f: Feature,
  before: Feature,
  after: Feature,
  of: Made & { readonly takeUpMm: number | null },
): BendRow | null {
  if (f.kind === 'box') return null
  const stepped = f.kind !== 'quarter' && f.made === 'bent'
  return {
    kind: f.kind,
    made: f.made,
    atMm: f.atMm,
    angleDeg: f.angleDeg,
    riseMm: f.riseMm,
    multiplier: stepped ? offsetMultiplier(f.angleDeg) : 1,
    shrinkMm: stepped ? (isSaddle(f) ? 2 : 1) * f.riseMm * offsetShrink(f.angleDeg) : 0,
    gainMm: f.corners.reduce((sum, c) => sum + gainMm(of.radiusMm, c.angleDeg), 0),
    takeUpMm: f.kind === 'quarter' && f.made === 'bent' ? of.takeUpMm : null,
    freeBeforeMm: freeMm(before, f),
    freeAfterMm: freeMm(f, after),
    raised: f.raised,
  }
}
