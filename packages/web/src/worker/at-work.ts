import { type DrawnBox, drawnBoxes } from '@plugstead/drawings'
import type { WeatherGiven } from '@plugstead/engine/air'
import { assess, overlayProblems, type Shop } from '@plugstead/engine/assess'
import { type Job, readJob } from '@plugstead/engine/job'
import type { Finding, Result } from '@plugstead/engine/kernel'
import { type PlanResult, plannedJob, type Watch } from '@plugstead/engine/plan'
import type { Given } from './protocol.ts'

/** A design that was judged, and its boxes as they are drawn. */
export interface Laid {
  readonly job: Job
  readonly shop: Shop
  readonly found: Pick<PlanResult, 'design' | 'assessment'>
  readonly drawn: readonly DrawnBox[]
}

/** A job that was planned and assessed: everything later calls are answered from. */
export interface AtWork extends Laid {
  readonly given: Given
  readonly found: PlanResult
  /** Hours of a file in place of the year that is made; null: none was given. */
  readonly weather: WeatherGiven | null
}

/** The same way as the terminal goes: document, shop, plan, mends. */
export function worked({ file, text }: Given, shop: Shop, watch?: Watch, weather: WeatherGiven | null = null): Result<AtWork> {
  const read = readJob(text, { file })
  if (!read.ok) return read
  const job = read.value
  const problems = overlayProblems(file, job, shop)
  if (problems.length > 0) return { ok: false, problems }
  const found = plannedJob(job, file, shop, watch)
  if (!found.ok) return found
  const planned = weather === null ? found.value : underWeather(job, shop, found.value, weather)
  const { design, assessment } = planned
  return {
    ok: true,
    value: { given: { file, text }, job, shop, weather, found: planned, drawn: drawnBoxes({ job, design, assessment }) },
  }
}

/** What was planned, its air judged by the hours of a file; mends of everything else stay as they were tried. */
function underWeather(job: Job, shop: Shop, found: PlanResult, weather: WeatherGiven): PlanResult {
  const assessment = assess(job, found.design, shop, { ...found.beside, weather })
  const key = (f: Finding): string => JSON.stringify([f.code, f.subject, f.said])
  const before = new Map(found.assessment.findings.map((f) => [key(f), f]))
  const findings = assessment.findings.map((f) => before.get(key(f)) ?? f)
  return { ...found, assessment: { ...assessment, findings } }
}
