import type { BoxBody } from '../../box/index.ts'
import type { Design, Job } from '../../job/index.ts'
import type { Prices } from '../../parts/index.ts'
import { paintsOf } from '../facts/paint.ts'
import { measureAreas } from './areas.ts'
import { measuresCost } from './cost.ts'
import type { MeasuresCost } from './result.ts'

/** Measures of every box of a design that has a build and a body, by box. */
export function measuresOf(of: {
  readonly job: Pick<Job, 'boxes' | 'builtBody'>
  readonly design: Pick<Design, 'builds'>
  readonly bodies: Readonly<Record<string, BoxBody>>
  readonly prices: Prices
}): Readonly<Record<string, MeasuresCost>> {
  return Object.fromEntries(
    of.design.builds.flatMap((build) => {
      const body = of.bodies[build.box]
      if (body === undefined) return []
      const areas = measureAreas(body, build.fit)
      const painted = paintsOf(of.job, build.box).value
      return [[build.box, measuresCost({ box: build.box, air: build.air, areas, painted, prices: of.prices }).value]]
    }),
  )
}
