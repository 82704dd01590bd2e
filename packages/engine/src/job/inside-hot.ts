import type { Job } from './types.ts'

const BASIS = 'hottest hour under load in the year of hours, up to a whole degree'

/** The job with such air inside its boxes at their hottest, as computed, where nobody told it. The same job where nothing differs. */
export function withInsideHot(job: Job, hotC: ReadonlyMap<string, number>): Job {
  let changed = false
  const boxes = job.boxes.map((box) => {
    const inside = hotC.get(box.id)
    const { told, computed } = box.insideHotC
    if (inside === undefined || (told && computed !== true) || (computed === true && box.insideHotC.high === inside)) return box
    changed = true
    return { ...box, insideHotC: { low: inside, high: inside, basis: BASIS, told: true, computed: true as const } }
  })
  return changed ? { ...job, boxes } : job
}
