import type { BoxBody } from '../../box/index.ts'
import {
  axisLengthMm,
  type BoxDesign,
  type Circuit,
  type Opening,
  type PlacedItem,
  type PointMm,
  type RacewayBend,
  type RacewayRoute,
  type Run,
  type Wire,
} from '../../job/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import { OFFSET_DEG, pullsFor, quarterBends, SADDLE_SUM_DEG, SPRINGS_MM } from './bends.ts'
import { isLevel, saddleRiseMm, stepsOver } from './ground.ts'
import { besideOutside, type Laid, type Link, layAll, type Unrouted } from './lay.ts'
import { outsideMm } from './outside.ts'
import { type End, endOf, meetingBeside, type PairWay } from './pair.ts'
import { strapsAlong } from './straps.ts'
import { placeOf, type Strip, stripOf } from './strip.ts'

export interface RoutesRequest {
  readonly body: BoxBody
  readonly items: readonly PlacedItem[]
  readonly openings: readonly Opening[]
  readonly design: Pick<BoxDesign, 'circuits' | 'panel' | 'transformer' | 'fedFrom'>
  readonly rules: Pick<RuleSet, 'build' | 'racewayFor'>
  /** A box laid out before: where nothing but the wires in the raceways differs, its raceways keep their ways. */
  readonly earlier?: LaidBefore
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
  const { laid, unrouted } = layAll({ strip, items, openings, build: rules.build }, inOrder(strip, links))
  const steps = saddlesOf(laid)
  return {
    raceways: laid.map((l) => racewayOf(request, strip, l, steps.get(l.link.id) ?? [])).toSorted(byId),
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
function keptWays({ earlier, items, openings }: RoutesRequest, links: readonly Link[]): readonly RacewayRoute[] | null {
  if (earlier === undefined || earlier.raceways.length !== links.length) return null
  const place = (all: readonly PlacedItem[]) =>
    JSON.stringify(all.map(({ id, kind, side, face, atMm, sizeMm }) => [id, kind, side, face, atMm, sizeMm]))
  const cut = (all: readonly Opening[]) =>
    JSON.stringify(all.map(({ id, side, atMm, widthMm, heightMm }) => [id, side, atMm, widthMm, heightMm]))
  if (place(items) !== place(earlier.items) || cut(openings) !== cut(earlier.openings)) return null
  const had = new Map(earlier.raceways.map((r) => [r.id, r]))
  const kept: RacewayRoute[] = []
  for (const l of links) {
    const r = had.get(l.id)
    if (r === undefined || r.from !== l.from.id || r.to !== l.to.id || r.kind !== l.raceway.kind || r.trade !== l.raceway.trade)
      return null
    kept.push({ ...r, circuits: l.circuits, conductors: counted(l.wires) })
  }
  return kept.toSorted(byId)
}

/** Nearer first; what is as far to a hand's breadth is equal. */
const near = (a: number, b: number): number => (Math.abs(a - b) < 100 ? 0 : a - b)

const byId = (a: RacewayRoute, b: RacewayRoute) => (a.id < b.id ? -1 : 1)

/** Everything that has to be joined by a raceway. */
function linksOf(request: RoutesRequest): readonly Link[] {
  const { items, design } = request
  const panels = items.filter((i) => i.kind === 'panel').toSorted((a, b) => (a.id < b.id ? -1 : 1))
  const links: Link[] = [...serviceLinks(request, panels), ...trunks(request, panels)]
  const groups = new Map<string, Circuit[]>()
  for (const circuit of design.circuits) {
    if (circuit.own === 'spare' || circuit.run.raceway === null) continue
    const switched = request.items.find((i) => i.kind === 'contactors' && i.circuits.includes(circuit.id))
    const shared = circuit.run.raceway.shared
    const key = shared === undefined ? circuit.id : switched === undefined ? shared : `${shared} from ${switched.id}`
    groups.set(key, [...(groups.get(key) ?? []), circuit])
  }
  for (const [key, circuits] of groups) {
    const panel = panels.find((p) => circuits.some((c) => p.circuits.includes(c.id))) ?? panels[0]
    if (panel === undefined) continue
    links.push(...chain(request, key, panel, circuits))
  }
  return links
}

/** From the panel, or the contactors that switch them, to each thing of these circuits in turn, the nearest first; what a circuit no longer needs is left behind. */
function chain(request: RoutesRequest, key: string, panel: PlacedItem, circuits: readonly Circuit[]): readonly Link[] {
  const strip = stripOf(request.body)
  const place = (i: PlacedItem) => {
    const end = endOf(strip, i)
    return end === null ? Infinity : (end.fromMm + end.toMm) / 2
  }
  const serves = (i: PlacedItem) => circuits.filter((c) => i.circuits.includes(c.id))
  const start = request.items.find((i) => i.kind === 'contactors' && serves(i).length > 0) ?? panel
  const stops = request.items
    .filter((i) => !PASSED.has(i.kind) && serves(i).length > 0)
    .toSorted(
      // Lamps and sensors from one to the next along the ceiling, then down to the switch.
      (a, b) =>
        Number(a.side !== 'roof') - Number(b.side !== 'roof') ||
        near(Math.abs(place(a) - place(start)), Math.abs(place(b) - place(start))) ||
        b.atMm[2] - a.atMm[2] ||
        (a.id < b.id ? -1 : 1),
    )
  const raceway = circuits[0]!.run.raceway!
  const links: Link[] = []
  let from = start
  stops.forEach((to, n) => {
    const still = circuits.filter((c) => stops.slice(n).some((s) => s.circuits.includes(c.id)))
    links.push({
      id: stops.length === 1 ? key : `${key}/${n + 1}`,
      from,
      to,
      circuits: still.map((c) => c.id),
      raceway: { kind: raceway.kind, trade: raceway.trade },
      wires: still.flatMap((c) => wiresOf(c.run, c.legs.length)),
    })
    from = to
  })
  return links
}

/**
 * From a panel to the contactors that switch its circuits: as few nipples as hold all their wires, each no larger than a hand bends.
 * @source nipples up to 0.6 m need no derating for number (NEC 310.15(C)(1)(b)); `fit/trunk` judges their length. Provenance: memory
 */
function trunks(request: RoutesRequest, panels: readonly PlacedItem[]): readonly Link[] {
  const links: Link[] = []
  for (const contactors of request.items.filter((i) => i.kind === 'contactors'))
    for (const panel of panels) {
      const all = request.design.circuits.filter(
        (c) => c.own !== 'spare' && c.run.raceway !== null && contactors.circuits.includes(c.id) && panel.circuits.includes(c.id),
      )
      if (all.length === 0) continue
      const kind = all[0]!.run.raceway!.kind
      const groups = inNipples(request, all, kind)
      groups.forEach(({ circuits, trade }, n) => {
        links.push({
          id: `trunk ${panel.id} ${contactors.id}${groups.length === 1 ? '' : `/${n + 1}`}`,
          from: panel,
          to: contactors,
          circuits: circuits.map((c) => c.id),
          raceway: { kind, trade },
          wires: circuits.flatMap((c) => wiresOf(c.run, c.legs.length)),
        })
      })
    }
  return links
}

/** Circuits in as few groups as their wires allow, in their order. */
function inNipples(
  request: RoutesRequest,
  all: readonly Circuit[],
  kind: string,
): readonly { readonly circuits: readonly Circuit[]; readonly trade: string }[] {
  for (let count = 1; count <= all.length; count++) {
    const size = Math.ceil(all.length / count)
    const groups = Array.from({ length: count }, (_, n) => all.slice(n * size, (n + 1) * size)).filter((g) => g.length > 0)
    const made = groups.map((circuits) => ({
      circuits,
      trade: request.rules.racewayFor(
        circuits.flatMap((c) => wiresOf(c.run, c.legs.length)),
        kind,
      ).value,
    }))
    if (made.every((g) => g.trade !== null && outsideMm(kind, g.trade) <= NIPPLE_MOST_MM))
      return made.map((g) => ({ ...g, trade: g.trade! }))
  }
  return all.map((c) => ({ circuits: [c], trade: c.run.raceway!.trade }))
}
/** Outside diameter of the largest nipple that two cabinets side by side are drilled for: 2 in, 50 mm. House rule. */
const NIPPLE_MOST_MM = 61

/** Kinds a branch circuit does not end in. */
const PASSED: ReadonlySet<PlacedItem['kind']> = new Set([
  'panel',
  'contactors',
  'meter',
  'service disconnect',
  'transfer',
  'transformer',
  'surge device',
  'earth bar',
  'extinguisher',
])

/** Order in which current comes in. */
export const SERVICE: readonly PlacedItem['kind'][] = ['meter', 'service disconnect', 'transfer', 'transformer', 'panel']

function serviceLinks(request: RoutesRequest, panels: readonly PlacedItem[]): readonly Link[] {
  const { design, items } = request
  const first = SERVICE.flatMap((kind) => (kind === 'panel' ? panels.slice(0, 1) : items.filter((i) => i.kind === kind)))
  const links: Link[] = []
  for (let i = 1; i < first.length; i++) {
    const [from, to] = [first[i - 1]!, first[i]!]
    const before = design.transformer !== null && SERVICE.indexOf(to.kind) <= SERVICE.indexOf('transformer')
    const run = before && design.transformer !== null ? design.transformer.primaryRun : (design.fedFrom?.run ?? design.panel.feed)
    const poles = before && design.transformer !== null ? design.transformer.primary.poles : design.panel.main.poles
    const raceway = run.raceway ?? design.panel.feed.raceway ?? indoors(request, wiresOf(run, Math.min(3, poles)))
    if (raceway === null) continue
    links.push({
      id: `feed/${i}`,
      from,
      to,
      circuits: ['feed'],
      raceway: { kind: raceway.kind, trade: raceway.trade },
      wires: wiresOf(run, Math.min(3, poles)),
    })
  }
  return links
}

/** Overhead conductors come into a raceway at the box: the smallest that takes them, of the kind the box is wired in. Null: none takes them. */
function indoors(request: RoutesRequest, wires: readonly Wire[]): { readonly kind: string; readonly trade: string } | null {
  const kind = request.design.circuits.find((c) => c.run.raceway !== null)?.run.raceway?.kind
  if (kind === undefined) return null
  const trade = request.rules.racewayFor(wires, kind).value
  return trade === null ? null : { kind, trade }
}

export const wiresOf = (run: Run, lines: number): readonly Wire[] => [
  ...Array<Wire>(lines).fill(run.line),
  ...(run.neutral === null ? [] : [run.neutral]),
  ...(run.protective === null ? [] : [run.protective]),
]

/** Feeds first, then lamps, which can be reached from above only, then the nearest: what is short does not stand in the way of what is long. */
function inOrder(strip: Strip, links: readonly Link[]): readonly Link[] {
  const far = (l: Link): number => {
    const [a, b] = [endOf(strip, l.from), endOf(strip, l.to)]
    return a === null || b === null ? 0 : Math.abs(a.fromMm + a.toMm - b.fromMm - b.toMm) / 2
  }
  const lamp = (l: Link) => l.from.side === 'roof' || l.to.side === 'roof'
  const feeds = (l: Link) => (l.circuits[0] === 'feed' ? 0 : l.id.startsWith('trunk ') ? 1 : lamp(l) ? 2 : 3)
  return links.toSorted((a, b) => feeds(a) - feeds(b) || far(a) - far(b) || (a.id < b.id ? -1 : 1))
}

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

/** Straight from one outside box into the next, in the middle of what both have of the height. */
function outsidePoints(from: PlacedItem, to: PlacedItem): readonly PointMm[] {
  const along = from.side === 'blind end' ? 1 : 0
  const [low, high] = [Math.max(from.atMm[2], to.atMm[2]), Math.min(from.atMm[2] + from.sizeMm[2], to.atMm[2] + to.sizeMm[2])]
  const across = 1 - along
  const off = from.atMm[across]! + from.sizeMm[across]! / 2
  const ahead = from.atMm[along]! < to.atMm[along]!
  const at = (s: number): PointMm => (along === 0 ? [s, off, (low + high) / 2] : [off, s, (low + high) / 2])
  const edge = (i: PlacedItem, end: boolean) => at(i.atMm[along]! + (end ? i.sizeMm[along]! : 0))
  return [edge(from, ahead), edge(to, !ahead)]
}

/** Along the ceiling from one lamp to the next, in the middle of their height: under the raceways that cross. */
function overheadPoints(from: PlacedItem, to: PlacedItem): readonly PointMm[] {
  const middle = (i: PlacedItem): PointMm => [
    i.atMm[0] + i.sizeMm[0] / 2,
    i.atMm[1] + i.sizeMm[1] / 2,
    i.atMm[2] + i.sizeMm[2] / 2,
  ]
  const [a, b] = [middle(from), middle(to)]
  const z = a[2]
  const edgeX = (i: PlacedItem, toward: number) => (toward > i.atMm[0] + i.sizeMm[0] / 2 ? i.atMm[0] + i.sizeMm[0] : i.atMm[0])
  const straight = b[1] > from.atMm[1] && b[1] < from.atMm[1] + from.sizeMm[1]
  if (straight)
    return [
      [edgeX(from, b[0]), b[1], z],
      [edgeX(to, a[0]), b[1], z],
    ]
  const edgeY = a[1] > b[1] ? to.atMm[1] + to.sizeMm[1] : to.atMm[1]
  const out = b[0] > from.atMm[0] && b[0] < from.atMm[0] + from.sizeMm[0]
  // Beside the lamp it comes from: straight across.
  if (out)
    return [
      [b[0], a[1] > b[1] ? from.atMm[1] : from.atMm[1] + from.sizeMm[1], z],
      [b[0], edgeY, z],
    ]
  return [
    [edgeX(from, b[0]), a[1], z],
    [b[0], a[1], z],
    [b[0], edgeY, z],
  ]
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

/** The corners in the box, those of the room among them; across the ceiling or floor to a thing that hangs there. */
function pointsOf(strip: Strip, way: PairWay, to: End, offMm: number): readonly PointMm[] {
  const points: PointMm[] = []
  const add = (p: PointMm) => {
    const last = points[points.length - 1]
    if (last === undefined || Math.hypot(p[0] - last[0], p[1] - last[1], p[2] - last[2]) > 1e-6) points.push(p)
  }
  way.cornersMm.forEach((corner, i) => {
    const before = way.cornersMm[i - 1]
    if (before !== undefined && i - 1 !== way.ceilingAfter && Math.abs(before[1] - corner[1]) < 1e-6)
      for (const p of around(strip, before[0], corner[0], corner[1], offMm)) add(p)
    add(placeOf(strip, corner[0], corner[1], offMm))
  })
  const last = points[points.length - 1]!
  if (to.reach === 'across the ceiling') {
    const yMm = to.item.atMm[1] + to.item.sizeMm[1] / 2
    const edge = last[1] < yMm ? to.item.atMm[1] : to.item.atMm[1] + to.item.sizeMm[1]
    add([last[0], edge, last[2]])
  } else if (to.reach === 'across the floor') {
    const edge = to.wall === 'left' ? to.item.atMm[1] : to.item.atMm[1] + to.item.sizeMm[1]
    add([last[0], edge, last[2]])
  } else if (to.reach === 'through the wall') {
    add(placeOf(strip, way.cornersMm[way.cornersMm.length - 1]![0], last[2], 0))
  }
  return points
}

/** Corners of the room on a level leg: the raceway turns where its two wall lines meet. */
function around(strip: Strip, fromS: number, toS: number, z: number, offMm: number): readonly PointMm[] {
  const [x0, y0] = strip.body.insideAtMm
  const [, widthMm] = strip.body.insideMm
  const corners: { s: number; at: PointMm }[] = [
    { s: strip.leftMm, at: [x0 + offMm, y0 + offMm, z] },
    { s: strip.leftMm + strip.endMm, at: [x0 + offMm, y0 + widthMm - offMm, z] },
  ]
  const between = corners.filter((c) => c.s > Math.min(fromS, toS) && c.s < Math.max(fromS, toS))
  return (fromS <= toS ? between : between.toReversed()).map((c) => c.at)
}

/** Distance along the axis of the point of it that is nearest to a place. */
function alongAxisMm(points: readonly PointMm[], p: PointMm): number {
  let best = 0
  let bestOff = Infinity
  let at = 0
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!]
    const length = Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2])
    const t =
      length === 0
        ? 0
        : Math.max(
            0,
            Math.min(
              1,
              ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1]) + (p[2] - a[2]) * (b[2] - a[2])) / length ** 2,
            ),
          )
    const off = Math.hypot(a[0] + t * (b[0] - a[0]) - p[0], a[1] + t * (b[1] - a[1]) - p[1], a[2] + t * (b[2] - a[2]) - p[2])
    if (off < bestOff - 1e-9) {
      bestOff = off
      best = at + t * length
    }
    at += length
  }
  return best
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
