import type { RemediesMade } from '@plugstead/drawings'
import type { YearsHeld } from '@plugstead/engine/air'
import type { AtWork } from '../at-work.ts'
import type { KeepAirAsked } from './types.ts'

/** What other workers found of the made years of an answer, by box: its papers hold it from then on. */
export interface KeptAir {
  readonly years: Readonly<Record<string, YearsHeld>>
  readonly remedies: Readonly<Record<string, RemediesMade>>
}

const NOTHING: KeptAir = { years: {}, remedies: {} }
const kept = new WeakMap<AtWork, KeptAir>()
const numbers = new WeakMap<AtWork, number>()
let last = 0

/** Each answer has its own number: what was begun for another is not kept with it. */
export function numberOf(at: AtWork): number {
  const n = numbers.get(at) ?? ++last
  numbers.set(at, n)
  return n
}

/** The same object until more is kept. */
export const keptAir = (at: AtWork): KeptAir => kept.get(at) ?? NOTHING

/** False where the answer is another by now: nothing was kept. */
export function keepAir(at: AtWork, { at: of, box, years, remedies }: KeepAirAsked): boolean {
  if (of !== numberOf(at)) return false
  const had = keptAir(at)
  kept.set(at, {
    years: years === undefined ? had.years : { ...had.years, [box]: years },
    remedies: remedies === undefined ? had.remedies : { ...had.remedies, [box]: remedies },
  })
  return true
}
