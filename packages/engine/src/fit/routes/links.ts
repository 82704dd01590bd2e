import type { BoxBody } from '../../box/index.ts'
import {
  type BoxDesign,
  type Circuit,
  NIPPLE_MOST_M,
  type Opening,
  type PlacedItem,
  type Run,
  type Wire,
  wirewayPieces,
} from '../../job/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import type { Link } from './lay.ts'
import { outsideMm } from './outside.ts'
import { endOf } from './pair.ts'
import { type Strip, stripOf } from './strip.ts'

/** What raceways are laid for. */
export interface LinksRequest {
  readonly body: BoxBody
  readonly items: readonly PlacedItem[]
  readonly openings: readonly Opening[]
  readonly design: Pick<BoxDesign, 'circuits' | 'panel' | 'transformer' | 'fedFrom'>
  readonly rules: Pick<RuleSet, 'build' | 'racewayFor'>
}

/** Everything that has to be joined by a raceway. */
export function linksOf(request: LinksRequest): readonly Link[] {
  const { items, design } = request
  const panels = items.filter((i) => i.kind === 'panel').toSorted((a, b) => (a.id < b.id ? -1 : 1))
  const links: Link[] = [...serviceLinks(request, panels)]
  const pieces = wirewayPieces(items)
  const led = new Map<PlacedItem, Circuit[]>()
  const passes = new Map<PlacedItem, Circuit[]>()
  const leads = (cabinet: PlacedItem, circuits: readonly Circuit[]) =>
    led.set(cabinet, [...(led.get(cabinet) ?? []), ...circuits])
  for (const trunk of trunks(request, panels)) {
    const piece = pieces.find((p) => p.side === trunk.from.side)
    if (piece === undefined || apartMm(request, trunk) <= 1000 * NIPPLE_MOST_M) links.push(trunk)
    else {
      links.push({ ...trunk, from: piece })
      leads(
        trunk.from,
        design.circuits.filter((c) => trunk.circuits.includes(c.id)),
      )
    }
  }
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
    const made = chain(request, key, panel, circuits)
    const first = made[0]
    if (pieces.length === 0 || first === undefined || isBehind(request, first)) {
      links.push(...made)
      continue
    }
    leads(first.from, circuits)
    const cover = coverOf(request, first)
    if (cover !== null) passes.set(cover, [...(passes.get(cover) ?? []), ...circuits])
    links.push(
      { ...first, from: pieceFor(pieces, first.to, first.from), instead: [first.from, ...(cover === null ? [] : [cover])] },
      ...made.slice(1),
    )
  }
  for (const [cabinet, circuits] of passes)
    links.push(
      ...nipples(request, cabinet, pieceFor(pieces, cabinet, cabinet), circuits).map((l) => ({
        ...l,
        id: l.id.replace('nipple', 'pass'),
        from: l.to,
        to: l.from,
      })),
    )
  for (const [cabinet, circuits] of led) links.push(...nipples(request, cabinet, pieceFor(pieces, cabinet, cabinet), circuits))
  return links
}

/** Clear room along the wall between the two ends of a link. */
function apartMm({ body }: LinksRequest, { from, to }: Link): number {
  const strip = stripOf(body)
  const [a, b] = [endOf(strip, from), endOf(strip, to)]
  return a === null || b === null ? Infinity : Math.max(0, a.fromMm - b.toMm, b.fromMm - a.toMm)
}

/** The cabinet hangs over the hole that its raceway goes to: it is led straight out of its back or its underside. */
const isBehind = ({ body }: LinksRequest, { from, to }: Link): boolean => hangsOver(stripOf(body), from, to)

function hangsOver(strip: Strip, cabinet: PlacedItem, thing: PlacedItem): boolean {
  const [a, b] = [endOf(strip, cabinet), endOf(strip, thing)]
  if (a === null || b === null || b.reach !== 'through the wall') return false
  return b.fromMm > a.fromMm && b.fromMm < a.toMm && b.lowMm < a.highMm
}

/** Another contactor box that hangs over the hole: a way from the wireway leads through it. */
const coverOf = ({ body, items }: LinksRequest, { from, to }: Link): PlacedItem | null =>
  items.find((i) => i.kind === 'contactors' && i !== from && hangsOver(stripOf(body), i, to)) ?? null

/** Nipples hold only what the wireway leads, and only what passes through a cabinet passes into it; one that would be empty is none. */
export function settled(links: readonly Link[], design: LinksRequest['design']): readonly Link[] {
  const from = new Map(links.flatMap((l) => (l.instead === undefined ? [] : l.circuits.map((c) => [c, l] as const))))
  const own = (c: string) => from.get(c)?.instead?.[0] === from.get(c)?.from && from.has(c)
  return links.flatMap((l): readonly Link[] => {
    const [, word] = /^(nipple|pass) /.exec(l.id) ?? []
    if (word === undefined) return [l]
    const keeps = (c: string) => (word === 'pass' ? from.get(c)?.from === l.to : !own(c))
    const circuits = design.circuits.filter((c) => l.circuits.includes(c.id) && keeps(c.id))
    if (circuits.length === l.circuits.length) return [l]
    if (circuits.length === 0) return []
    return [{ ...l, circuits: circuits.map((c) => c.id), wires: circuits.flatMap((c) => wiresOf(c.run, c.legs.length)) }]
  })
}

/** The piece of the wireway over the wall that a thing hangs on; else over the cabinet its circuit comes from. */
const pieceFor = (pieces: readonly PlacedItem[], thing: PlacedItem, cabinet: PlacedItem): PlacedItem =>
  pieces.find((p) => p.side === thing.side) ?? pieces.find((p) => p.side === cabinet.side) ?? pieces[0]!

/** From a cabinet into the wireway: as few nipples as hold the wires of all circuits that leave it by the wireway. */
function nipples(request: LinksRequest, cabinet: PlacedItem, piece: PlacedItem, circuits: readonly Circuit[]): readonly Link[] {
  const all = circuits.toSorted((a, b) => (a.id < b.id ? -1 : 1))
  const kind = all[0]!.run.raceway!.kind
  const groups = inNipples(request, all, kind)
  return groups.map(
    (g, n): Link => ({
      id: `nipple ${cabinet.id}${groups.length === 1 ? '' : `, ${n + 1}`}`,
      from: cabinet,
      to: piece,
      circuits: g.circuits.map((c) => c.id),
      raceway: { kind, trade: g.trade },
      wires: g.circuits.flatMap((c) => wiresOf(c.run, c.legs.length)),
    }),
  )
}

/** From the panel, or the contactors that switch them, to each thing of these circuits in turn, the nearest first; what a circuit no longer needs is left behind. */
function chain(request: LinksRequest, key: string, panel: PlacedItem, circuits: readonly Circuit[]): readonly Link[] {
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
function trunks(request: LinksRequest, panels: readonly PlacedItem[]): readonly Link[] {
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
  request: LinksRequest,
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
  'wireway',
])

/** Order in which current comes in. */
export const SERVICE: readonly PlacedItem['kind'][] = ['meter', 'service disconnect', 'transfer', 'transformer', 'panel']

function serviceLinks(request: LinksRequest, panels: readonly PlacedItem[]): readonly Link[] {
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
function indoors(request: LinksRequest, wires: readonly Wire[]): { readonly kind: string; readonly trade: string } | null {
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
export function inOrder(strip: Strip, links: readonly Link[]): readonly Link[] {
  const far = (l: Link): number => {
    const [a, b] = [endOf(strip, l.from), endOf(strip, l.to)]
    if (a === null || b === null) return 0
    // From a wireway the highest first: those below come round it.
    if ([l.from, l.to].some((i) => i.kind === 'wireway'))
      return (
        Math.max(0, a.fromMm - b.toMm, b.fromMm - a.toMm) +
        Math.max(0, a.lowMm - b.highMm, b.lowMm - a.highMm) -
        BEND_WEIGHS * outsideMm(l.raceway.kind, l.raceway.trade)
      )
    return Math.abs(a.fromMm + a.toMm - b.fromMm - b.toMm) / 2
  }
  const lamp = (l: Link) => l.from.side === 'roof' || l.to.side === 'roof'
  const feeds = (l: Link) => (l.circuits[0] === 'feed' ? 0 : /^(trunk|nipple|pass) /.test(l.id) ? 1 : lamp(l) ? 2 : 3)
  return links.toSorted((a, b) => feeds(a) - feeds(b) || far(a) - far(b) || (a.id < b.id ? -1 : 1))
}

/** What bends in a wide arc goes before what comes round it: so many times its diameter counts as nearness. House rule. */
const BEND_WEIGHS = 60

/** Nearer first; what is as far to a hand's breadth is equal. */
const near = (a: number, b: number): number => (Math.abs(a - b) < 100 ? 0 : a - b)
