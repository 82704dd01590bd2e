import type { RacewayRoute } from '../../job/index.ts'
import { amount } from '../figures.ts'
import type { BendRow } from '../result.ts'
import { gainMm, offsetMultiplier, offsetShrink, radOf, tangentMm } from './geometry.ts'

/** Something on the axis of a raceway that is not straight pipe, with how far it reaches to each side. */
export interface Feature {
  readonly kind: BendRow['kind'] | 'pull box'
  readonly made: 'bent' | 'pull elbow' | 'box'
  readonly atMm: number
  readonly riseMm: number
  /** Of a single bend of it; the outer ones of a saddle. */
  readonly angleDeg: number
  /** Sharp corners: along the axis from its middle, angle, and sharp length from the corner before. */
  readonly corners: readonly { readonly offMm: number; readonly angleDeg: number; readonly legMm: number }[]
  readonly reachMm: number
  /** First and last of several saddles in one. */
  readonly firstMm: number
  readonly lastMm: number
}

export interface Made {
  readonly radiusMm: number
  readonly odMm: number
}

/**
 * Bends as the route has them, saddles that would run into each other made as one, and corners without room made with an elbow. An elbow
 * is a pull point; where the bends still come to more than `mostDeg`, a pull box stands in the last straight that holds one.
 */
export function featuresOf(
  route: Pick<RacewayRoute, 'bends'>,
  lengthMm: number,
  made: Made,
  mostDeg: number,
): readonly Feature[] {
  const bends = route.bends.map((b): Feature => {
    if (b.kind === 'quarter') return quarter(b.atMm, b.sumDeg, made)
    if (b.kind === 'offset') return offset(b.atMm, b.riseMm, b.sumDeg / 2, made)
    return saddle(b.atMm, b.atMm, b.riseMm, b.sumDeg / 4, made)
  })
  const all = merged(
    bends.toSorted((a, b) => a.atMm - b.atMm),
    made,
  )
  return withPulls(withElbows(all, lengthMm, made), mostDeg)
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
    const gaps = all.slice(first, i).map((a, k) => ({ after: first + k, free: freeMm(a, all[first + k + 1]!) }))
    if (gaps.length === 0) continue
    const most = Math.max(...gaps.map((g) => g.free))
    const gap = gaps.findLast((g) => g.free >= Math.min(wanted, most))!
    const [a, b] = [all[gap.after]!, all[gap.after + 1]!]
    const atMm = (a.atMm + a.reachMm + b.atMm - b.reachMm) / 2
    const box: Feature = { ...bare('pull box', 'box', atMm), reachMm }
    return withPulls([...all.slice(0, gap.after + 1), box, ...all.slice(gap.after + 1)], mostDeg)
  }
  return all
}

const bare = (kind: Feature['kind'], how: Feature['made'], atMm: number) =>
  ({ kind, made: how, atMm, riseMm: 0, angleDeg: 0, corners: [], firstMm: atMm, lastMm: atMm }) as const

const quarter = (atMm: number, angleDeg: number, { radiusMm }: Made): Feature => ({
  ...bare('quarter', 'bent', atMm),
  angleDeg,
  corners: [{ offMm: 0, angleDeg, legMm: 0 }],
  reachMm: tangentMm(radiusMm, angleDeg),
})

function offset(atMm: number, riseMm: number, angleDeg: number, { radiusMm }: Made): Feature {
  const halfRun = riseMm / Math.tan(radOf(angleDeg)) / 2
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
  const run = riseMm / Math.tan(radOf(angleDeg))
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

/** End of the raceway, as something on its axis without reach. */
export const endAt = (atMm: number): Feature => ({ ...bare('pull box', 'box', atMm), reachMm: 0 })

/** Straight pipe between two neighbours. */
export const freeMm = (a: Feature, b: Feature): number => b.atMm - b.reachMm - (a.atMm + a.reachMm)

/** Straight pipe that must lie between two neighbours: the hook of the bender, and what goes into a connector. */
export function needMm(a: Feature, b: Feature): number {
  const bent = [a, b].filter((f) => f.made === 'bent').length
  return bent === 2 ? amount('straight between bends') : bent === 1 ? amount('straight at an end') : 0
}

/** A corner that has no room to be bent becomes an elbow; first the one that is short of more. */
function withElbows(all: readonly Feature[], lengthMm: number, { odMm }: Made): readonly Feature[] {
  const line = [endAt(0), ...all, endAt(lengthMm)]
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
  const elbow = (f: Feature): Feature => ({
    ...f,
    made: 'pull elbow',
    corners: [],
    reachMm: amount('pull elbow to its shoulder') * odMm,
  })
  return withElbows(
    all.map((f, i) => (i === worst - 1 ? elbow(f) : f)),
    lengthMm,
    { odMm, radiusMm: 0 },
  )
}

export const lackMm = (a: Feature, b: Feature): number => Math.max(0, needMm(a, b) - freeMm(a, b))

/** One row of the bend sheet. */
export function bendRow(
  f: Feature,
  before: Feature,
  after: Feature,
  of: Made & { readonly takeUpMm: number | null },
): BendRow | null {
  if (f.kind === 'pull box') return null
  const stepped = f.kind !== 'quarter'
  return {
    kind: f.kind,
    made: f.made === 'pull elbow' ? 'pull elbow' : 'bent',
    atMm: f.atMm,
    angleDeg: f.angleDeg,
    riseMm: f.riseMm,
    multiplier: stepped ? offsetMultiplier(f.angleDeg) : 1,
    shrinkMm: stepped ? (f.kind === 'offset' ? 1 : 2) * f.riseMm * offsetShrink(f.angleDeg) : 0,
    gainMm: f.corners.reduce((sum, c) => sum + gainMm(of.radiusMm, c.angleDeg), 0),
    takeUpMm: f.kind === 'quarter' && f.made === 'bent' ? of.takeUpMm : null,
    freeBeforeMm: freeMm(before, f),
    freeAfterMm: freeMm(f, after),
  }
}
