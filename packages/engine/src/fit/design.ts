import type { FitDesign } from '../job/index.ts'
import { wholeBuild } from '../parts/index.ts'
import { bondPoints } from './bonding/bonding.ts'
import { type FitRequest, layoutFor } from './layout/index.ts'
import { designRoutes } from './routes/routes.ts'

/** One box laid out whole: what hangs where and on what channel, the raceways between, and what is joined to the earth bar. */
export function designFit(request: FitRequest): FitDesign {
  const { body, skin, rules, designs } = request
  const layout = layoutFor(request)
  const whole = wholeBuild(designs)
  if (whole === null) return layout
  const openings = skin?.openings ?? []
  const { raceways } = designRoutes({ body, items: layout.items, openings, design: whole, rules })
  const laid = { ...layout, raceways }
  const conductor = whole.panel.feed.protective?.size ?? whole.electrode.conductor.size
  return { ...laid, bonds: bondPoints({ fit: laid, body, openings }, conductor) }
}
