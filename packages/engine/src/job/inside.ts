import type { Job, Span } from './types.ts'

/** The coldest air at the gear: as the record of the place would have it, and as the year of hours found it. */
export type Coldest = Pick<Span, 'low' | 'high'>

/** The job with such air inside its boxes at their hottest, as computed, where nobody told it. The same job where nothing differs. */
export const withInsideHot = (job: Job, hotC: ReadonlyMap<string, number>): Job =>
  withInside(job, 'insideHotC', 'hottest hour under load in the year of hours, up to a whole degree', (box) => {
    const atC = hotC.get(box)
    return atC === undefined ? null : { low: atC, high: atC }
  })

/** The same for the coldest. */
export const withInsideCold = (job: Job, coldC: ReadonlyMap<string, Coldest>): Job =>
  withInside(
    job,
    'insideColdC',
    'coldest hour at the gear in the year of hours, down to a whole degree, to as much colder as the record outside is',
    (box) => coldC.get(box) ?? null,
  )

function withInside(
  job: Job,
  key: 'insideHotC' | 'insideColdC',
  basis: string,
  found: (box: string) => Pick<Span, 'low' | 'high'> | null,
): Job {
  let changed = false
  const boxes = job.boxes.map((box) => {
    const inside = found(box.id)
    const { told, computed, low, high } = box[key]
    if (inside === null || (told && computed !== true)) return box
    if (computed === true && low === inside.low && high === inside.high) return box
    changed = true
    return { ...box, [key]: { low: inside.low, high: inside.high, basis, told: true, computed: true as const } }
  })
  return changed ? { ...job, boxes } : job
}
