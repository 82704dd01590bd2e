import { insideByYear, turningInputs, turningPoints } from '@plugstead/engine/assess'
import type { AtWork } from './at-work.ts'
import type { TurningAnswer } from './protocol.ts'

/** Inputs and points of one derivation, kept while the same answer stands. */
const known = new WeakMap<AtWork, Map<string, TurningAnswer>>()

/** The nth input of the finding that rests on a derivation, worst finding first, and where its verdict turns on it. */
export function turning(at: AtWork, working: string, n: number): TurningAnswer | null {
  const { assessment, design } = at.found
  const finding =
    assessment.findings.find((f) => f.workings[0] === working) ?? assessment.findings.find((f) => f.workings.includes(working))
  if (finding === undefined) return null
  // From the air that the year found: told otherwise, it is the year that gives way.
  const job = insideByYear(at.job, assessment.results.air)
  const inputs = turningInputs(job, design, finding)
  const { question } = finding
  const input = inputs[n]
  if (input === undefined) return { question, point: null, count: inputs.length }
  const kept = known.get(at) ?? new Map<string, TurningAnswer>()
  known.set(at, kept)
  const key = `${working} ${input.id}`
  const had = kept.get(key)
  if (had !== undefined) return had
  const { points } = turningPoints(job, design, at.shop, finding, [input])
  const answer: TurningAnswer = { question, point: points[0] ?? null, count: inputs.length }
  kept.set(key, answer)
  return answer
}
