import { SLOTS_PER_DAY as SLOTS } from './result.ts'
import type { GridTask } from './task.ts'

/** Loads by dimension and quarter-hour, `load[dimension * 96 + slot]`. */
export type Profile = Float64Array

export const emptyProfile = (dimensions: number): Profile => new Float64Array(dimensions * SLOTS)

/** Adds a task's load from a start slot on; `sign` −1 takes it away. Changes the profile in place. */
export function addRun(profile: Profile, task: GridTask, start: number, sign: 1 | -1): void {
  for (let d = 0; d < task.load.length; d++) {
    const p = (task.load[d] as number) * sign
    if (p === 0) continue
    const base = d * SLOTS
    for (let k = start; k < start + task.runSlots; k++) {
      const slot = base + (k < SLOTS ? k : k - SLOTS)
      profile[slot] = (profile[slot] as number) + p
    }
  }
}

/** Profile of all tasks at their starts, summed afresh so that no rounding of the search is left in it. */
export function profileOf(tasks: readonly GridTask[], starts: readonly number[], dimensions: number): Profile {
  const profile = emptyProfile(dimensions)
  tasks.forEach((task, i) => {
    addRun(profile, task, starts[i] as number, 1)
  })
  return profile
}

/** Highest value of one dimension and the slot where it first stands. */
export function peakOf(profile: Profile, dimension: number): { readonly value: number; readonly slot: number } {
  let value = 0
  let slot = 0
  for (let s = 0; s < SLOTS; s++) {
    const v = profile[dimension * SLOTS + s] as number
    if (v > value * (1 + 1e-12)) {
      value = v
      slot = s
    }
  }
  return { value, slot }
}
