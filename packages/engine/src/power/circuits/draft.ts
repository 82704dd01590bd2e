import type { RuleSet } from '../../rules/index.ts'
import type { UnplacedCircuit } from './own-circuits.ts'
import { type CircuitsDesign, type CircuitsRequest, MOST_INSIDE_C } from './request.ts'

export type Warning = CircuitsDesign['warnings'][number]

/** A circuit whose legs are still open, with what the balance needs to know of it. */
export interface Draft {
  readonly circuit: UnplacedCircuit
  readonly profileA: readonly number[]
  readonly allOnA: number
  readonly neutralA: number
  readonly nonLinearA: number
}

/** Inside runs until the layout is built: the whole length of the box, and up and down. House default. */
export const RISE_M = 2
export const FT_M = 0.3048

export const mainFamily = (rules: RuleSet, ratingA: number): string =>
  rules.nextDeviceA(ratingA, rules.defaults.deviceFamily).value === null ? 'IEC 60947-2' : rules.defaults.deviceFamily

const pinned = (pins: CircuitsRequest['job']['pins'], path: string) => pins.find((p) => p.path === path)?.value
export const pinnedNumber = (pins: CircuitsRequest['job']['pins'], path: string): number | undefined => {
  const value = pinned(pins, path)
  return typeof value === 'number' ? value : undefined
}
export const pinnedText = (pins: CircuitsRequest['job']['pins'], path: string): string | undefined => {
  const value = pinned(pins, path)
  return typeof value === 'string' ? value : undefined
}

export const hotC = (request: CircuitsRequest): number => {
  const { high, told } = request.insideC ?? request.box.insideHotC
  return told ? high : Math.min(high, MOST_INSIDE_C)
}
