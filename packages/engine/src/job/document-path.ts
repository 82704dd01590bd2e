import type { Job } from './types.ts'

/**
 * Where a value stands in the document: `boxes.yard.inside-cold` is `boxes[0].inside-cold`, `facts.supply.pole.transformer.xOverR` is
 * `facts.supply.offers[0].transformer.x-over-r`. A path that names nothing of the job stays as it is.
 */
export function documentPath(job: Pick<Job, 'boxes' | 'offers'>, path: string): string {
  const box = job.boxes.findIndex((b) => path.startsWith(`boxes.${b.id}.`))
  if (box >= 0) return `boxes[${box}].${hyphened(path.slice(`boxes.${job.boxes[box]?.id}.`.length))}`
  const offer = job.offers.findIndex((o) => path.startsWith(`facts.supply.${o.id}.`))
  if (offer < 0) return path
  return `facts.supply.offers[${offer}].${hyphened(path.slice(`facts.supply.${job.offers[offer]?.id}.`.length))}`
}

const hyphened = (path: string): string => path.replace(/[A-Z]/g, (c) => `-${c.toLowerCase()}`)
