import type { Job } from './types.ts'

/**
 * Where a value stands in the document: `boxes.yard.inside-cold` is `boxes[0].inside-cold`, `facts.supply.pole.transformer.xOverR` is
 * `facts.supply.offers[0].transformer.x-over-r`. A path that names nothing of the job stays as it is.
 */
export function documentPath(job: Pick<Job, 'boxes' | 'offers'> & Partial<Pick<Job, 'surveys'>>, path: string): string {
  const surveyed = job.boxes.find((b) => path.startsWith(`facts.surveys.${b.id}.`))
  if (surveyed !== undefined) {
    const at = (job.surveys ?? []).findIndex((s) => s.box === surveyed.id)
    // A box nobody surveyed yet: where its survey would stand.
    return `facts.surveys[${at < 0 ? (job.surveys ?? []).length : at}].${path.slice(`facts.surveys.${surveyed.id}.`.length)}`
  }
  const box = job.boxes.findIndex((b) => path.startsWith(`boxes.${b.id}.`))
  if (box >= 0) return `boxes[${box}].${hyphened(path.slice(`boxes.${job.boxes[box]?.id}.`.length))}`
  const offer = job.offers.findIndex((o) => path.startsWith(`facts.supply.${o.id}.`))
  if (offer < 0) return path
  return `facts.supply.offers[${offer}].${hyphened(path.slice(`facts.supply.${job.offers[offer]?.id}.`.length))}`
}

const hyphened = (path: string): string => path.replace(/[A-Z]/g, (c) => `-${c.toLowerCase()}`)
