import type { Opening, PlacedItem, Wire } from '../../job/index.ts'
import type { BuildRules } from '../../rules/index.ts'
import { type Leg, takenBy } from './ground.ts'
import { mazeWay } from './maze.ts'
import { outsideMm } from './outside.ts'
import { type Blocked, type End, endOf, GAP_MM, holesOf, meetingBeside, type PairTask, type PairWay, pairWay } from './pair.ts'
import { placeOf, type Strip } from './strip.ts'

/** Two things that have to be joined by a raceway, and what lies in it. */
export interface Link {
  readonly id: string
  readonly from: PlacedItem
  readonly to: PlacedItem
  /** Where it begins in place of a wireway that it finds no way from: the cabinet of its circuits, or one that hangs over where it goes. */
  readonly instead?: readonly PlacedItem[]
  readonly circuits: readonly string[]
  readonly raceway: { readonly kind: string; readonly trade: string }
  readonly wires: readonly Wire[]
}

/** A circuit that found no way, and what stands in it. */
export interface Unrouted {
  readonly circuit: string
  readonly from: string
  readonly to: string
  readonly by: string
  readonly byMm: number
}

/** A link on its way. */
export interface Laid {
  readonly link: Link
  readonly from: End
  readonly to: End
  /** Null: on no inside wall, along the ceiling from lamp to lamp or outside from box to box. */
  readonly way: PairWay | null
  /** The way was sought from the wall, and leads from the lamp. */
  readonly turned: boolean
  readonly halfMm: number
  readonly radiusMm: number
}

export interface Ground {
  readonly strip: Strip
  readonly items: readonly PlacedItem[]
  readonly openings: readonly Opening[]
  readonly build: Pick<BuildRules, 'bendRadiusM' | 'bendsBetweenPullsDeg'>
}

export interface AllLaid {
  readonly laid: readonly Laid[]
  readonly unrouted: readonly Unrouted[]
}

/** Raceways laid anew for those that were taken up, for each that found no way: counted work, never the clock. */
const MOST_AGAIN = 5
/** Walls on which so many found no way are full: taking up mends nothing, sharing does. */
const MOST_LOST = 30
/** Where something else may serve them, more than these are not mended by taking up others: then no more are laid. */
export const FEW_LOST = 6
/** A raceway that was taken up so often stays. */
const MOST_TAKEN_UP = 3

/**
 * Every link in turn, each clear of those before it. One that then finds no way takes up the raceways that stand in its cheapest way, as
 * few as it can, and they are laid again after it; none is taken up more than three times. From the state with the most laid once more, as long as it helps.
 * `spared`: only whether all find a way is asked.
 */
export function layAll(ground: Ground, order: readonly Link[], spared = false): AllLaid {
  const laid = new Map<string, Laid>()
  const lost = new Map<string, Unrouted>()
  const takenUp = new Map<string, number>()
  const taken = takenBy(ground.strip, ground.items, ground.openings)
  const lamps = ground.items
    .filter((i) => i.side === 'roof')
    .map((i) => ({
      id: i.id,
      fromMm: i.atMm[0],
      toMm: i.atMm[0] + i.sizeMm[0],
      acrossMm: [i.atMm[1], i.atMm[1] + i.sizeMm[1]] as const,
    }))

  const asked = new Map(order.map((l) => [l.id, l]))
  const again: Link[] = []
  for (const link of order) {
    lay(link, false)
    if (spared && lost.size > FEW_LOST) break
  }
  let best = state()
  for (let before = Infinity; best.lost.length < before && best.lost.length <= (spared ? FEW_LOST : MOST_LOST); ) {
    before = best.lost.length
    takenUp.clear()
    laid.clear()
    for (const l of best.laid) laid.set(l.link.id, l)
    again.push(...order.filter((l) => !laid.has(l.id)))
    let open = MOST_AGAIN * again.length
    for (let link = again.shift(); link !== undefined && open > 0; link = again.shift(), open--) {
      lay(link, true)
      if (again.length === 0 && lost.size < best.lost.length) best = state()
    }
    again.length = 0
  }
  return { laid: best.laid, unrouted: best.lost }

  function state() {
    return { laid: [...laid.values()], lost: [...lost.values()] }
  }

  /** Lays a link, from its cabinet where it finds no way from the wireway, and over what may be taken up where it has to. */
  function lay(link: Link, over: boolean): void {
    const { instead } = link
    let found = placed(link, over, over && instead === undefined)
    if ('by' in found && instead !== undefined) {
      for (const from of instead) if ('by' in found) found = placed({ ...link, from }, false, false)
      if ('by' in found && over) found = placed(link, true, true)
    }
    if ('by' in found) {
      lost.set(link.id, { circuit: link.id, from: link.from.id, to: link.to.id, ...found })
      return
    }
    laid.set(link.id, found)
    lost.delete(link.id)
  }

  /** `again`: it found no plain way before. */
  function placed(link: Link, again: boolean, over: boolean): Laid | Blocked {
    const ends = endsOf(ground, link)
    if (ends === null) return { by: 'the door end', byMm: 0 }
    const { from, to, turned } = ends
    const halfMm = outsideMm(link.raceway.kind, link.raceway.trade) / 2
    const radiusMm = 1000 * ground.build.bendRadiusM(link.raceway).value
    const as = { link, from, to, turned, halfMm, radiusMm }
    if (from.reach === 'across the ceiling' || besideOutside(link)) return { ...as, way: null }
    const task = (keep: (l: Laid) => boolean): PairTask => ({
      strip: ground.strip,
      route: link.id,
      from,
      to,
      halfMm,
      radiusMm,
      mostDeg: ground.build.bendsBetweenPullsDeg.value,
      taken,
      laid: legsOfAll(laid, keep),
      ceiling: [...lamps, ...crossings(ground.strip, laid, keep)],
    })
    const all = task(() => true)
    let way: PairWay | Blocked = again ? { by: to.id, byMm: 0 } : pairWay(all)
    if ('by' in way) {
      const round = mazeWay(all)
      if (!('by' in round)) way = round
    }
    if ('by' in way && over) way = takingUp(task, way)
    return 'by' in way ? way : { ...as, way }
  }

  /** The cheapest way through what may be taken up; it is, and waits to be laid again. */
  function takingUp(task: (keep: (l: Laid) => boolean) => PairTask, blocked: Blocked): PairWay | Blocked {
    const stays = (l: Laid) => (takenUp.get(l.link.id) ?? 0) >= MOST_TAKEN_UP
    const firm = task(stays)
    const way = mazeWay(
      firm,
      legsOfAll(laid, (l) => !stays(l)),
    )
    if ('by' in way) return blocked
    for (const l of [...laid.values()]) {
      if (stays(l) || l.way === null || !inTheWay(firm, way, l.way)) continue
      laid.delete(l.link.id)
      takenUp.set(l.link.id, (takenUp.get(l.link.id) ?? 0) + 1)
      again.push(asked.get(l.link.id)!)
    }
    return way
  }
}

/** Two that hang side by side outside, with room for a raceway from the one straight into the other. */
export function besideOutside({ from, to, raceway }: Pick<Link, 'from' | 'to' | 'raceway'>): boolean {
  if (from.face !== 'outside' || to.face !== 'outside' || from.side !== to.side) return false
  const top = Math.min(from.atMm[2] + from.sizeMm[2], to.atMm[2] + to.sizeMm[2])
  return top - Math.max(from.atMm[2], to.atMm[2]) > outsideMm(raceway.kind, raceway.trade)
}

const legsOfAll = (laid: ReadonlyMap<string, Laid>, keep: (l: Laid) => boolean): readonly Leg[] =>
  [...laid.values()].flatMap((l) => (l.way !== null && keep(l) ? l.way.legs : []))

/** Stretches of the ceiling that raceways cross it on. */
const crossings = (strip: Strip, laid: ReadonlyMap<string, Laid>, keep: (l: Laid) => boolean): PairTask['ceiling'] =>
  [...laid.values()].flatMap((l) => {
    const at = keep(l) ? crossingMm(strip, l.way) : null
    return at === null ? [] : [{ id: l.link.id, fromMm: at - l.halfMm, toMm: at + l.halfMm, acrossMm: null }]
  })

/** Where along the box a way crosses the ceiling; null: it does not. */
const crossingMm = (strip: Strip, way: PairWay | null): number | null =>
  way === null || way.ceilingAfter === null ? null : placeOf(strip, way.cornersMm[way.ceilingAfter]![0], 0, 0)[0]

function inTheWay(task: PairTask, way: PairWay, other: PairWay): boolean {
  const holes = holesOf(task)
  if (way.legs.some((a) => other.legs.some((b) => meetingBeside(a, b, holes) === 'overlap'))) return true
  const [at, there] = [crossingMm(task.strip, way), crossingMm(task.strip, other)]
  const half = other.legs[0]?.halfMm ?? 0
  return at !== null && there !== null && Math.abs(at - there) < task.halfMm + half + GAP_MM
}

/** From where to where a way is sought; null where one end hangs on the door end. From a lamp to a wall it is sought from the wall. */
function endsOf({ strip }: Ground, link: Link): Pick<Laid, 'from' | 'to' | 'turned'> | null {
  const [a, b] = [endOf(strip, link.from), endOf(strip, link.to)]
  if (a === null || b === null) return null
  const turned = a.reach === 'across the ceiling' && b.reach !== 'across the ceiling'
  const [from, far] = turned ? [b, a] : [a, b]
  const to = far.reach === 'on the wall' ? far : endOf(strip, far.item, from.wall)!
  return { from: before(strip, from, to), to: before(strip, to, from), turned }
}

/** Of a wireway the part before the other end: a raceway leaves it there. */
function before(strip: Strip, e: End, other: End): End {
  if (e.item.kind !== 'wireway') return e
  const middle = (other.fromMm + other.toMm) / 2
  const facing = other.wall !== e.wall && other.wall !== 'blind end' && e.wall !== 'blind end'
  const at = Math.max(e.fromMm, Math.min(facing ? strip.wholeMm - middle : middle, e.toMm))
  return { ...e, fromMm: Math.max(e.fromMm, at - BEFORE_MM), toMm: Math.min(e.toMm, at + BEFORE_MM) }
}
/** To either hand of the place in a wireway that is nearest to where its raceway goes. */
const BEFORE_MM = 600
