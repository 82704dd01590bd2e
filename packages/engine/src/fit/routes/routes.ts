import {
  axisLengthMm,
  type Opening,
  type PlacedItem,
  type PointMm,
  type RacewayBend,
  type RacewayRoute,
  type Wire,
} from '../../job/index.ts'
import { alongAxisMm, outsidePoints, overheadPoints, pointsOf } from './axis.ts'
import { OFFSET_DEG, pullsFor, quarterBends, SADDLE_SUM_DEG, SPRINGS_MM } from './bends.ts'
import { isLevel, saddleRiseMm, stepsOver } from './ground.ts'
import { besideOutside, type Laid, type Link, layAll, type Unrouted } from './lay.ts'
import { inOrder, type LinksRequest, linksOf, settled } from './links.ts'
import { type End, meetingBeside } from './pair.ts'
import { strapsAlong } from './straps.ts'
import { placeOf, type Strip, stripOf } from './strip.ts'

export interface RoutesRequest extends LinksRequest {
  /** A box laid out before: where nothing but the wires in the raceways differs, its raceways keep their ways. */
  readonly earlier?: LaidBefore
  /** More than a few that find no way are not mended by taking up others, and what comes after them is not laid: something else may serve them. */
  readonly spared?: boolean
}

export interface Routes {
  readonly raceways: readonly RacewayRoute[]
  readonly unrouted: readonly Unrouted[]
}

/** Back of the raceway to the wall: it lies on the channel. */
const STRUT_MM = 41

/**
 * Raceways of one box, each orthogonal on the strut: from the panel (through the contactors where a circuit is staged) to every thing its
 * circuits end in, and from the point of entry to the panel. Circuits that share a raceway lead from box to box, each stretch with the
 * conductors that still lie in it. Near ones are laid first, so that far ones pass above them.
 */
export function designRoutes(request: RoutesRequest): Routes {
  const strip = stripOf(request.body)
  const { items, openings, rules } = request
  const links = linksOf(request)
  const kept = keptWays(request, links)
  if (kept !== null) return { raceways: kept, unrouted: [] }
  const { laid, unrouted } = layAll({ strip, items, openings, build: rules.build }, inOrder(strip, links), request.spared)
  const steps = saddlesOf(laid)
  const filled = new Map(
    settled(
      laid.map((l) => l.link),
      request.design,
    ).map((l) => [l.id, l]),
  )
  return {
    raceways: laid
      .flatMap((l) => {
        const link = filled.get(l.link.id)
        return link === undefined ? [] : [racewayOf(request, strip, { ...l, link }, steps.get(link.id) ?? [])]
      })
      .toSorted(byId),
    unrouted: unrouted.toSorted((a, b) => (a.circuit < b.circuit ? -1 : 1)),
  }
}

/** What was laid before: things, openings, and a raceway for every link. */
interface LaidBefore {
  readonly items: readonly PlacedItem[]
  readonly openings: readonly Opening[]
  readonly raceways: readonly RacewayRoute[]
}

/** The raceways of an earlier layout with the wires of this one, where the same links join the same things in the same pipes; else null. */
function keptWays({ earlier, items, openings, design }: RoutesRequest, links: readonly Link[]): readonly RacewayRoute[] | null {
  if (earlier === undefined) return null
  const place = (all: readonly PlacedItem[]) =>
    JSON.stringify(all.map(({ id, kind, side, face, atMm, sizeMm }) => [id, kind, side, face, atMm, sizeMm]))
  const cut = (all: readonly Opening[]) =>
    JSON.stringify(all.map(({ id, side, atMm, widthMm, heightMm }) => [id, side, atMm, widthMm, heightMm]))
  if (place(items) !== place(earlier.items) || cut(openings) !== cut(earlier.openings)) return null
  const had = new Map(earlier.raceways.map((r) => [r.id, r]))
  const kept: RacewayRoute[] = []
  const begun = links.map((l) => ({ ...l, from: l.instead?.find((i) => i.id === had.get(l.id)?.from) ?? l.from }))
  const now = settled(begun, design)
  if (now.length !== earlier.raceways.length) return null
  for (const l of now) {
    const r = had.get(l.id)
    if (r === undefined || r.from !== l.from.id || r.to !== l.to.id || r.kind !== l.raceway.kind || r.trade !== l.raceway.trade)
      return null
    kept.push({ ...r, circuits: l.circuits, conductors: counted(l.wires) })
  }
  return kept.toSorted(byId)
}

const byId = (a: RacewayRoute, b: RacewayRoute) => (a.id < b.id ? -1 : 1)

function racewayOf(request: RoutesRequest, strip: Strip, laid: Laid, steps: readonly Step[]): RacewayRoute {
  const { link, from, to, way, turned, halfMm, radiusMm } = laid
  if (way === null)
    return finished(request, link, (besideOutside(link) ? outsidePoints : overheadPoints)(from.item, to.item), [], radiusMm)
  const offMm = STRUT_MM + halfMm
  const pointsMm = pointsOf(strip, way, to, offMm)
  const lengthMm = axisLengthMm(pointsMm)
  const saddles = steps.map(({ at: [s, z], riseMm }) => ({
    kind: 'saddle' as const,
    atMm: alongAxisMm(pointsMm, placeOf(strip, s, z, offMm)),
    sumDeg: SADDLE_SUM_DEG,
    riseMm,
  }))
  const extra = [...saddles, ...offsetsOf(from, to, halfMm, radiusMm, lengthMm)]
  return turned
    ? finished(
        request,
        link,
        pointsMm.toReversed(),
        extra.map((b) => ({ ...b, atMm: lengthMm - b.atMm })),
        radiusMm,
      )
    : finished(request, link, pointsMm, extra, radiusMm)
}

interface Step {
  readonly at: readonly [s: number, z: number]
  readonly riseMm: number
}

/** Who steps over whom where two cross, by raceway: the later one, unless only the earlier has the room. */
function saddlesOf(all: readonly Laid[]): ReadonlyMap<string, readonly Step[]> {
  const steps = new Map<string, Step[]>()
  all.forEach(({ way }, n) => {
    for (const before of all.slice(0, n))
      for (const a of way?.legs ?? [])
        for (const b of before.way?.legs ?? []) {
          if (meetingBeside(a, b, []) !== 'crossing') continue
          const level = isLevel(a)
          const at = level ? ([b.fromMm[0], a.fromMm[1]] as const) : ([a.fromMm[0], b.fromMm[1]] as const)
          const [over, under] = stepsOver(a, b) ? [a, b] : [b, a]
          steps.set(over.route, [...(steps.get(over.route) ?? []), { at, riseMm: saddleRiseMm(under) }])
        }
  })
  return steps
}

/** A raceway by its axis: bends, pull boxes and straps. */
function finished(
  request: RoutesRequest,
  link: Link,
  pointsMm: readonly PointMm[],
  extra: readonly RacewayBend[],
  radiusMm: number,
): RacewayRoute {
  const lengthMm = axisLengthMm(pointsMm)
  const bends = [...quarterBends(pointsMm), ...extra].toSorted((a, b) => a.atMm - b.atMm)
  const pullsMm = pullsFor(bends, request.rules.build.bendsBetweenPullsDeg.value)
  const support = request.rules.build.racewaySupport(link.raceway).value
  return {
    id: link.id,
    ...link.raceway,
    from: link.from.id,
    to: link.to.id,
    pointsMm,
    circuits: link.circuits,
    conductors: counted(link.wires),
    bends,
    strapsMm: strapsAlong({
      lengthMm,
      bends,
      radiusMm,
      pullsMm,
      everyMm: 1000 * support.everyM,
      fromBoxMm: 1000 * support.fromBoxM,
    }),
    pullsMm,
  }
}

/** Middle of a shallow box's knock-out above the wall it hangs on; a deep one is punched where the raceway comes. Common practice. */
const SHALLOW_MM = 70
const KNOCKOUT_MM = 22

function offsetsOf(from: End, to: End, halfMm: number, radiusMm: number, lengthMm: number): readonly RacewayBend[] {
  const out: RacewayBend[] = []
  for (const [end, atMm] of [
    [from, 1.5 * radiusMm],
    [to, lengthMm - 1.5 * radiusMm],
  ] as const) {
    if (end.reach !== 'on the wall') continue
    const deep = end.wall === 'blind end' ? end.item.sizeMm[0] : end.item.sizeMm[1]
    const riseMm = Math.abs(KNOCKOUT_MM - halfMm)
    if (deep <= SHALLOW_MM && riseMm > SPRINGS_MM && lengthMm > 4 * radiusMm)
      out.push({ kind: 'offset', atMm, sumDeg: 2 * OFFSET_DEG, riseMm })
  }
  return out
}

function counted(wires: readonly Wire[]): RacewayRoute['conductors'] {
  const sums = new Map<string, { size: string; insulation: string; count: number }>()
  for (const w of wires) {
    const key = `${w.size}|${w.insulation}`
    const had = sums.get(key)
    if (had === undefined) sums.set(key, { size: w.size, insulation: w.insulation, count: 1 })
    else had.count += 1
  }
  return [...sums.values()]
}
