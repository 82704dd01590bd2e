import type { PointMm, RacewayRoute } from '../../job/index.ts'
import { atan2 } from '../../kernel/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import { amount, byText, tenth } from '../figures.ts'
import type { BendMark, BendRow, RacewayPiece, RacewaySheet } from '../result.ts'
import { type Bender, benderFor } from './bender.ts'
import { passedMm, settledBends } from './crossings.ts'
import { type Feature, freeMm, lackMm, leans, lined, type Made, needMm, slopeMoreMm } from './feature.ts'
import { bendRow, featuresOf } from './features.ts'
import { arcMm, developed } from './geometry.ts'
import { strapsUnder } from './kicks.ts'

/** How far a thing stands off the side it hangs on, and along which of x, y, z. */
export interface StandOff {
  readonly along: 0 | 1 | 2
  readonly deepMm: number
}

export interface SheetRequest {
  readonly raceways: readonly RacewayRoute[]
  readonly rules: Pick<RuleSet, 'build'>
  /** Outside diameter. */
  readonly racewayMm: (kind: string, trade: string) => number
  /** Of a thing, by id; null where it is none of the box. */
  readonly standOff: (id: string) => StandOff | null
  /** Longest bar of each kind of raceway, trims taken off. */
  readonly stickMm: number
}

/** Every raceway as it is marked, bent and cut, by id. */
export function racewaySheets(of: SheetRequest): readonly RacewaySheet[] {
  const all = of.raceways
    .toSorted((a, b) => byText(a.id, b.id))
    .map((route) => {
      const bender = benderFor(route, of.rules)
      const [from, to] = [of.standOff(route.from), of.standOff(route.to)]
      return {
        route,
        bender,
        made: {
          radiusMm: bender.radiusMm,
          odMm: of.racewayMm(route.kind, route.trade),
          deepMm: [from?.deepMm ?? 0, to?.deepMm ?? 0] as const,
          flat: [isFlat(route.pointsMm, from), isFlat(route.pointsMm.toReversed(), to)] as const,
          strapsMm: route.strapsMm,
          strapFromBoxMm: 1000 * of.rules.build.racewaySupport(route).value.fromBoxM,
          passedMm: passedMm(of.raceways, route),
        },
      }
    })
  const settled = settledBends(all)
  return all.map(({ route, bender, made }, i) => racewaySheet({ ...route, bends: settled[i]! }, bender, made, of))
}

function racewaySheet(route: RacewayRoute, bender: Bender, made: Made, of: SheetRequest): RacewaySheet {
  const axisMm = lengthOf(route.pointsMm)
  const features = featuresOf(route, axisMm, made, of.rules.build.bendsBetweenPullsDeg.value)
  const line = lined(features, axisMm)
  const bends = line.slice(1, -1).flatMap((f, i): readonly BendRow[] => {
    const row = bendRow(f, line[i]!, line[i + 2]!, { ...made, takeUpMm: bender.takeUpMm })
    return row === null ? [] : [row]
  })
  const stretches = stretchesOf(line, made.odMm, bender, route.pointsMm)
  const pieces = stretches.flatMap((s) => split(s, of.stickMm)).map((p, i) => ({ ...p, id: `${route.id} #${i + 1}` }))
  const pullsMm = features.flatMap((f) => (f.kind === 'box' ? [f.atMm] : []))
  const count = (how: BendRow['made']): number => features.filter((f) => f.made === how).length
  return {
    id: route.id,
    kind: route.kind,
    trade: route.trade,
    from: route.from,
    to: route.to,
    circuits: route.circuits,
    pointsMm: route.pointsMm,
    axisMm,
    developedMm: pieces.reduce((sum, p) => sum + p.developedMm, 0),
    checkMm: stretches.reduce((sum, s) => sum + s.lessGainsMm, 0),
    radiusMm: bender.radiusMm,
    bends,
    pieces,
    short: shortest(line),
    strapsMm: features.reduce((straps, f) => strapsUnder(f, straps, axisMm, made) ?? straps, route.strapsMm),
    pullsMm,
    fittings: {
      connectors: 2 + 2 * (pullsMm.length + count('corner box')) - count('offset connector'),
      offsetConnectors: count('offset connector'),
      couplings: pieces.filter((p) => p.to === 'coupling').length,
      elbows: count('pull elbow'),
      pullBoxes: pullsMm.length + count('corner box'),
      nipples: pieces.filter((p) => p.nipple).length,
    },
  }
}

const legOf = (a: PointMm, b: PointMm): readonly [number, number, number] => [b[0] - a[0], b[1] - a[1], b[2] - a[2]]
const norm = (v: readonly [number, number, number]): number => Math.hypot(...v)

/** The first corner of an axis lies in the side that the thing at its beginning hangs on. */
function isFlat(points: readonly PointMm[], thing: StandOff | null): boolean {
  const at = (i: number): number | undefined => (thing === null ? undefined : points[i]?.[thing.along])
  const turn = points.findIndex((_, i) => i > 1 && turns(points, i))
  return turn > 0 && at(0) !== undefined && points.slice(0, turn + 1).every((_, i) => Math.abs(at(i)! - at(0)!) < 1e-6)
}

/** The leg that ends at this point does not go on along the first one. */
function turns(points: readonly PointMm[], i: number): boolean {
  const [a, b] = [legOf(points[0]!, points[1]!), legOf(points[i - 1]!, points[i]!)]
  return Math.abs(a[0] * b[0] + a[1] * b[1] + a[2] * b[2]) < 1e-6 * norm(a) * norm(b)
}

function lengthOf(points: readonly PointMm[]): number {
  return points.slice(1).reduce((sum, p, i) => sum + norm(legOf(points[i]!, p)), 0)
}

/** Pipe between two ends, boxes or elbows, before it is cut into sticks. */
interface Stretch {
  readonly from: string
  readonly to: string
  readonly axisFromMm: number
  readonly axisToMm: number
  readonly developedMm: number
  readonly lessGainsMm: number
  readonly marks: readonly BendMark[]
  /** What must stay in one stick, in developed length, and the axis minus the developed length behind it. */
  readonly whole: readonly { readonly fromMm: number; readonly toMm: number; readonly axisLessMm: number }[]
}

const nameOf = (f: Feature, end: boolean): string => (f.made === 'box' ? (end ? 'box' : 'pull box') : f.made)

/** Less than this no tape shows. */
const TAPE_MM = 0.1

/** Where straight pipe lacks most. */
function shortest(line: readonly Feature[]): RacewaySheet['short'] {
  const name = (f: Feature, i: number): string =>
    i === 0
      ? 'its beginning'
      : i === line.length - 1
        ? 'its end'
        : `${f.kind === 'box' ? 'pull box' : f.kind} at ${tenth(f.atMm)} mm`
  let worst: RacewaySheet['short'] = null
  for (let i = 1; i < line.length; i++) {
    const [a, b] = [line[i - 1]!, line[i]!]
    const lack = lackMm(a, b)
    if (lack < TAPE_MM || (worst !== null && lack <= worst.needMm - worst.freeMm)) continue
    worst = {
      between: [name(a, i - 1), name(b, i)],
      freeMm: freeMm(a, b),
      needMm: needMm(a, b),
      bent: a.made === 'bent' || b.made === 'bent',
    }
  }
  return worst
}

function stretchesOf(line: readonly Feature[], odMm: number, bender: Bender, points: readonly PointMm[]): readonly Stretch[] {
  const breaks = line.flatMap((f, i) => (f.made === 'bent' ? [] : [i]))
  return breaks.slice(1).flatMap((to, n) => {
    const from = breaks[n]!
    const [a, b] = [line[from]!, line[to]!]
    const axisFromMm = a.atMm + a.reachMm
    const axisToMm = b.atMm - b.reachMm
    // Two fittings shoulder to shoulder: no pipe between them.
    if (axisToMm - axisFromMm < 1e-6) return []
    const inside = line.slice(from + 1, to)
    const corners: { legMm: number; angleDeg: number; at: number }[] = []
    let at = axisFromMm
    inside.forEach((f, n) => {
      const more = n === 0 ? 0 : slopeMoreMm(inside[n - 1]!, f)
      f.corners.forEach((c, k) => {
        corners.push({ legMm: k === 0 ? f.atMm + c.offMm - at + more : c.legMm, angleDeg: c.angleDeg, at: f.atMm + c.offMm })
        at = f.atMm + c.offMm
      })
    })
    const walk = corners.length === 0 ? null : developed(corners, axisToMm - at, bender.radiusMm)
    let k = 0
    const whole: Stretch['whole'][number][] = []
    const marks: BendMark[] = []
    inside.forEach((f, n) => {
      const first = walk!.startsMm[k]!
      f.corners.forEach((c) => {
        marks.push(markOf(f, c.angleDeg, walk!.startsMm[k]!, odMm, bender))
        k += 1
      })
      const lastAngle = f.corners[f.corners.length - 1]!.angleDeg
      const toMm = walk!.startsMm[k - 1]! + arcMm(bender.radiusMm, lastAngle)
      // No coupling on the slope of a kick.
      const fromMm = n > 0 && leans(inside[n - 1]!, f) ? whole.pop()!.fromMm : first
      whole.push({ fromMm, toMm, axisLessMm: f.atMm + f.reachMm - toMm })
    })
    return [
      {
        from: nameOf(a, from === 0),
        to: nameOf(b, to === line.length - 1),
        axisFromMm,
        axisToMm,
        developedMm: walk?.walkedMm ?? axisToMm - axisFromMm,
        lessGainsMm: walk?.lessGainsMm ?? axisToMm - axisFromMm,
        marks: turned(marks, inside, points),
        whole,
      },
    ]
  })
}

function markOf(f: Feature, angleDeg: number, startMm: number, odMm: number, bender: Bender): BendMark {
  const { radiusMm, takeUpMm } = bender
  const centre = f.kind === 'saddle' && angleDeg > f.angleDeg
  return {
    kind: f.kind === 'quarter' || f.kind === 'offset' || f.kind === 'kick' ? f.kind : 'saddle',
    angleDeg,
    startMm,
    middleMm: startMm + arcMm(radiusMm, angleDeg) / 2,
    // A stub is measured to the back of its bend: R + OD/2 beyond the start of the arc. The middle of a saddle is set by its notch.
    arrowMm: takeUpMm === null || centre ? null : startMm + radiusMm + odMm / 2 - takeUpMm,
    turnDeg: null,
  }
}

/** How far the pipe is turned in the bender between one quarter bend and the next of the same stretch. */
function turned(marks: readonly BendMark[], inside: readonly Feature[], points: readonly PointMm[]): readonly BendMark[] {
  const quarters = inside.filter((f) => f.kind === 'quarter')
  let n = 0
  return marks.map((mark) => {
    if (mark.kind !== 'quarter') return mark
    const [before, here] = [quarters[n - 1], quarters[n]]
    n += 1
    return before === undefined || here === undefined ? mark : { ...mark, turnDeg: turnDeg(points, before.atMm, here.atMm) }
  })
}

/** About the leg between two corners, from the leg the pipe comes from to the one it leaves by: 0 for a U, 180 for a Z. */
function turnDeg(points: readonly PointMm[], firstMm: number, secondMm: number): number {
  const [i, j] = [cornerAt(points, firstMm), cornerAt(points, secondMm)]
  const back = legOf(points[i]!, points[i - 1]!)
  const along = legOf(points[i]!, points[i + 1]!)
  const out = legOf(points[j]!, points[j + 1]!)
  const cross = [
    back[1] * out[2] - back[2] * out[1],
    back[2] * out[0] - back[0] * out[2],
    back[0] * out[1] - back[1] * out[0],
  ] as const
  const sin = (cross[0] * along[0] + cross[1] * along[1] + cross[2] * along[2]) / norm(along)
  const cos = back[0] * out[0] + back[1] * out[1] + back[2] * out[2]
  const deg = Math.round((atan2(sin, cos) * 180) / Math.PI)
  return deg === -180 ? 180 : deg
}

/** A kick lifts the far leg away from the wall: its plane stands square on that of its corner. */
const KICK_TURN_DEG = 90

/** A bend of a piece whose turn is told against a kick, or a kick's own; a corner with another before it in the piece is told against that. */
const besideKick = (marks: readonly BendMark[], k: number): boolean =>
  marks[k]!.kind === 'kick' || (marks[k - 1]!.kind === 'kick' && !marks.slice(0, k).some((m) => m.kind === 'quarter'))

function cornerAt(points: readonly PointMm[], atMm: number): number {
  let at = 0
  let best = 1
  let off = Infinity
  for (let i = 1; i < points.length - 1; i++) {
    at += norm(legOf(points[i - 1]!, points[i]!))
    if (Math.abs(at - atMm) < off) {
      off = Math.abs(at - atMm)
      best = i
    }
  }
  return best
}

/** Sticks joined by couplings, each as long as it can be without a coupling in or beside a bend. What has no such place stays whole. */
function split(s: Stretch, stickMm: number): readonly RacewayPiece[] {
  const margin = amount('straight at an end')
  const cuts: number[] = [0]
  for (;;) {
    const from = cuts[cuts.length - 1]!
    if (s.developedMm - from <= stickMm + 1e-6) break
    let to = Math.min(from + stickMm, s.developedMm - margin)
    for (const w of s.whole.toReversed()) if (to > w.fromMm - margin && to < w.toMm + margin) to = w.fromMm - margin
    if (to - from < margin) break
    cuts.push(to)
  }
  const ends = [...cuts.slice(1), s.developedMm]
  const axisAt = (mm: number): number => {
    const passed = s.whole.filter((w) => w.toMm <= mm + 1e-6)
    return mm + (passed.length === 0 ? s.axisFromMm : passed[passed.length - 1]!.axisLessMm)
  }
  return cuts.map((from, i) => {
    const to = ends[i]!
    const last = i === cuts.length - 1
    return {
      id: '',
      from: i === 0 ? s.from : 'coupling',
      to: last ? s.to : 'coupling',
      axisFromMm: i === 0 ? s.axisFromMm : axisAt(from),
      axisToMm: last ? s.axisToMm : axisAt(to),
      developedMm: to - from,
      nipple: to - from < 2 * margin,
      marks: s.marks
        .filter((m) => m.middleMm >= from && m.middleMm < to)
        .map((m, k, own) => ({
          ...m,
          startMm: m.startMm - from,
          middleMm: m.middleMm - from,
          arrowMm: m.arrowMm === null ? null : m.arrowMm - from,
          turnDeg: k === 0 ? null : besideKick(own, k) ? KICK_TURN_DEG : m.turnDeg,
        })),
    }
  })
}
