import type { FitDesign } from '../job/index.ts'
import { shelfItems, wholeBuild } from '../parts/index.ts'
import { bondPoints } from './bonding/bonding.ts'
import { type FitRequest, layoutFor } from './layout/index.ts'
import { designRoutes } from './routes/routes.ts'

/** One box laid out whole: what hangs where and on what channel, the raceways between, and what is joined to the earth bar. */
export function designFit(request: FitRequest): FitDesign {
  const { body, skin, rules, designs, earlier } = request
  const layout = keptLayout(request) ?? layoutFor(request)
  const whole = wholeBuild(designs)
  if (whole === null) return layout
  const openings = skin?.openings ?? []
  const before = earlier === undefined ? {} : { earlier: { ...earlier.fit, openings: earlier.skin.openings } }
  const { raceways } = designRoutes({ body, items: layout.items, openings, design: whole, rules, ...before })
  const laid = { ...layout, raceways }
  const conductor = whole.panel.feed.protective?.size ?? whole.electrode.conductor.size
  return { ...laid, bonds: bondPoints({ fit: laid, body, openings }, conductor) }
}

/** The layout of an earlier build, where the same things hang beside the same openings and nothing clashed; else null. */
function keptLayout({ designs, job, rules, skin, earlier }: FitRequest): FitDesign | null {
  if (earlier === undefined || skin === null || earlier.fit.clashes.length > 0) return null
  const wanted = shelfItems(designs, job, rules).map((i) => [i.id, i.part.id, i.circuits])
  const hung = earlier.fit.items.map((i) => [i.id, i.part, i.circuits])
  const same = (a: readonly (readonly unknown[])[], b: typeof a) =>
    JSON.stringify(a.map((x) => JSON.stringify(x)).toSorted()) === JSON.stringify(b.map((x) => JSON.stringify(x)).toSorted())
  const cut = (all: typeof skin.openings) =>
    all.map(({ id, side, atMm, widthMm, heightMm }) => [id, side, atMm, widthMm, heightMm])
  if (!same(wanted, hung) || !same(cut(skin.openings), cut(earlier.skin.openings))) return null
  return { ...earlier.fit, raceways: [], bonds: [] }
}
