import { type Job, type Pin, writePins } from '@plugstead/engine/job'
import { choicesOf, type PlanResult } from '@plugstead/engine/plan'
import { Unreadable } from './problem.ts'

/**
 * What a plan chose and nobody had pinned, as pins. A choice that boxes or phases make differently has no one value and is left to the plan.
 */
export function pinsOf(job: Job, { design, chosen }: PlanResult): readonly Pin[] {
  const told = new Set(job.pins.map((pin) => pin.path))
  const values = new Map<string, Set<Pin['value']>>()
  for (const [path, value] of choicesOf(design)) values.set(path, (values.get(path) ?? new Set()).add(value))
  return [...values].flatMap(([path, [value, ...others]]) =>
    value === undefined || others.length > 0 || told.has(path) || !PATH.test(path)
      ? []
      : [{ path, value, by: 'plan', why: chosen.id }],
  )
}

/** What a pin's path may be made of. */
const PATH = /^[A-Za-z0-9][A-Za-z0-9-]*(\.[A-Za-z0-9][A-Za-z0-9-]*)*$/

/**
 * The bytes of a job document with these pins in it; all else as it was.
 * @throws Unreadable
 */
export function withPins(bytes: Uint8Array, file: string, pins: readonly Pin[]): string {
  const marked = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf
  const written = writePins(new TextDecoder().decode(bytes), pins)
  if (!written.ok) throw new Unreadable(...written.problems.map((problem) => ({ ...problem, file })))
  return (marked ? '\uFEFF' : '') + written.value
}
