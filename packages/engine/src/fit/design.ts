import { type BoxDesign, type FitDesign, type PlacedItem, wirewayPieces } from '../job/index.ts'
import { shelfItems, wholeBuild, wirewaySizes } from '../parts/index.ts'
import { bondPoints } from './bonding/bonding.ts'
import { type Arranged, arranged, type FitRequest, hungUp, layoutFor } from './layout/index.ts'
import { FEW_LOST } from './routes/lay.ts'
import { designRoutes } from './routes/routes.ts'
import { fullestSection } from './wireway/fill.ts'
import { weighed } from './wireway/mass.ts'
import { type Reach, wirewaySpots } from './wireway/place.ts'

/** A box laid out, with how many circuits found no way. */
interface Led {
  readonly fit: FitDesign
  readonly lost: number
}

/**
 * One box laid out whole: what hangs where and on what channel, the raceways between, and what is joined to the earth bar. Every circuit
 * has a raceway of its own unless not all of them find a way and a wireway along the equipment wall leads them all.
 */
export function designFit(request: FitRequest): FitDesign {
  const whole = wholeBuild(request.designs)
  if (whole === null) return layoutFor(request)
  const { fit } = ledBest(request, whole)
  const conductor = whole.panel.feed.protective?.size ?? whole.electrode.conductor.size
  return { ...fit, bonds: bondPoints({ fit, body: request.body, openings: request.skin?.openings ?? [] }, conductor) }
}

function ledBest(request: FitRequest, whole: BoxDesign): Led {
  const kept = keptLayout(request)
  let known: Arranged | null = null
  const where = (): Arranged => {
    known ??= arranged(request)!
    return known
  }
  const lay = (layout: FitDesign, spared: boolean): Led => led(request, whole, layout, spared)
  const had = wirewayPieces(request.earlier?.fit.items ?? []).length > 0
  const plain = (): FitDesign => (kept !== null && !had ? kept : hungUp(where()))
  if (request.ownOnly === true) return lay(plain(), false)
  // Where a wireway led it before, it stays as long as it leads all and takes the wires as they have grown.
  if (had) {
    const again = kept === null ? null : lay(kept, true)
    if (again !== null && again.lost === 0 && takesFill(again.fit, request, whole)) return again
    return withWireway(request, whole, lay) ?? lay(plain(), false)
  }
  const own = lay(plain(), true)
  if (own.lost === 0) return own
  // So few were mended as far as they can be.
  return withWireway(request, whole, lay) ?? (own.lost <= FEW_LOST ? own : lay(plain(), false))
}

function led(request: FitRequest, whole: BoxDesign, layout: FitDesign, spared: boolean): Led {
  const { body, skin, rules, earlier } = request
  const before = earlier === undefined ? {} : { earlier: { ...earlier.fit, openings: earlier.skin.openings } }
  const openings = skin?.openings ?? []
  const { raceways, unrouted } = designRoutes({ body, items: layout.items, openings, design: whole, rules, spared, ...before })
  return { fit: weighed({ ...layout, raceways }, whole.circuits, rules), lost: unrouted.length }
}

const REACHES: readonly Reach[] = ['round the blind end', 'equipment wall']

/** With a wireway of the smallest size that takes what lies in it, on the first of its reaches that leads all. Null: none leads all, or there is no room for one. */
function withWireway(request: FitRequest, whole: BoxDesign, lay: (layout: FitDesign, spared: boolean) => Led): Led | null {
  const where = arranged(request, true)!
  for (const reach of REACHES)
    for (const size of wirewaySizes(request.rules.id)) {
      const more = wirewaySpots(where.task, where.spots, size, reach)
      if (more === null) break
      const made = lay(hungUp(where, more), true)
      // A larger one takes more room.
      if (made.lost > 0) break
      if (takesFill(made.fit, request, whole)) return made
    }
  return null
}

/** Does the wireway take what lies in it? */
function takesFill(fit: FitDesign, { rules }: FitRequest, whole: BoxDesign): boolean {
  const fullest = fullestSection(fit, whole.circuits, rules)
  return wirewayPieces(fit.items).every((p) => (fullest?.areaMm2 ?? 0) <= rules.wireway.fillFrac.value * sectionMm2(p))
}

const sectionMm2 = (p: PlacedItem): number => p.sizeMm[2] * Math.min(p.sizeMm[0], p.sizeMm[1])

/** The layout of an earlier build, where the same things hang beside the same openings and nothing clashed; else null. */
function keptLayout({ designs, job, rules, skin, earlier }: FitRequest): FitDesign | null {
  if (earlier === undefined || skin === null || earlier.fit.clashes.length > 0) return null
  const wanted = shelfItems(designs, job, rules).map((i) => [i.id, i.part.id, i.circuits])
  const hung = earlier.fit.items.flatMap((i) => (i.kind === 'wireway' ? [] : [[i.id, i.part, i.circuits]]))
  const same = (a: readonly (readonly unknown[])[], b: typeof a) =>
    JSON.stringify(a.map((x) => JSON.stringify(x)).toSorted()) === JSON.stringify(b.map((x) => JSON.stringify(x)).toSorted())
  const cut = (all: typeof skin.openings) =>
    all.map(({ id, side, atMm, widthMm, heightMm }) => [id, side, atMm, widthMm, heightMm])
  if (!same(wanted, hung) || !same(cut(skin.openings), cut(earlier.skin.openings))) return null
  return { ...earlier.fit, raceways: [], bonds: [] }
}
