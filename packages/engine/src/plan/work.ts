import { type Memory, newMemory } from '../kernel/index.ts'
import type { AirChosen } from './air.ts'

/** Told each time a piece of counted work begins: how many began before it, and how many are known of so far. */
export type Watch = (begunCount: number, knownCount: number) => void

/** Pieces of work of one plan, counted. What is known of grows as the search goes on; nothing of the outcome hangs on it. */
export interface Work {
  /** Without air: nothing is chosen about it and no year is run. */
  readonly withoutAir: boolean
  /** Of the judgements of laid-out designs, so that a year is not run twice. */
  readonly memory: Memory
  /** What was chosen about air, by what hangs on it: made once for all options that differ in nothing it sees. */
  readonly air: Map<string, readonly AirChosen[]>
  readonly more: (count: number) => void
  readonly one: () => void
}

export function counted(watch: Watch, withoutAir = false): Work {
  let begun = 0
  let known = 0
  return {
    ...{ withoutAir, memory: newMemory(), air: new Map() },
    more: (count) => {
      known += count
    },
    one: () => {
      watch(begun, known)
      begun += 1
    },
  }
}
