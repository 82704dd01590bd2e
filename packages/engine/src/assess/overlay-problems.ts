import { type Job, nearest } from '../job/index.ts'
import type { Problem } from '../kernel/index.ts'
import type { Shop } from './types.ts'

/** Overlays that the job names and the shop has not, or has for another rule set. */
export function overlayProblems(file: string, job: Job, shop: Shop): readonly Problem[] {
  const names = Object.keys(shop.overlays)
  return job.rules.overlays.flatMap((name) => {
    const overlay = shop.overlays[name]
    if (overlay?.set === job.rules.set) return []
    const about = {
      file,
      path: 'rules.overlays',
      found: `“${name}”${overlay === undefined ? '' : `, which changes ${overlay.set}`}`,
    }
    const fitting = names.filter((other) => shop.overlays[other]?.set === job.rules.set)
    const near = nearest(name, fitting)
    const mend =
      near === null
        ? `Name one of ${fitting.join(', ') || 'none'}, or name your own file under overlays in shop.yaml.`
        : `Did you mean ${near}?`
    return [{ code: 'shop-page/overlay-absent', ...about, wanted: `an overlay for ${job.rules.set}`, mend }]
  })
}
