import { Fault, log, type Random, seeded } from '../../kernel/index.ts'

/** Random numbers of one part of the weather. */
export interface Draws {
  /** Evenly in 0 to 1. */
  even(): number
  /** Normal, mean 0, spread 1: Marsaglia's polar method. @source Marsaglia & Bray 1964, SIAM Review 6. Provenance: memory */
  normal(): number
}

export const PARTS = [
  'clearness',
  'hourly light',
  'cloud',
  'temperature',
  'humidity',
  'wind',
  'direction',
  'pressure',
  'months',
] as const
export type Part = (typeof PARTS)[number]

/**
 * One stream a part, begun in this order from one seeded stream: a part that draws more or less leaves the others as they are.
 * @throws Fault `weather/seed-range` unless the seed is a whole number from 0 to 2³² − 1
 */
export function drawsOf(seed: number): Readonly<Record<Part, Draws>> {
  if (!(Number.isInteger(seed) && seed >= 0 && seed < 4_294_967_296)) throw new Fault('weather/seed-range', seed)
  const root = seeded(seed)
  return Object.fromEntries(PARTS.map((part) => [part, drawsFrom(seeded(root.below(4_294_967_296)))])) as Record<Part, Draws>
}

function drawsFrom(random: Random): Draws {
  let kept = Number.NaN
  return {
    even: random.next,
    normal: () => {
      if (!Number.isNaN(kept)) {
        const one = kept
        kept = Number.NaN
        return one
      }
      for (;;) {
        const u = 2 * random.next() - 1
        const v = 2 * random.next() - 1
        const s = u * u + v * v
        if (s >= 1 || s === 0) continue
        const stretch = Math.sqrt((-2 * log(s)) / s)
        kept = v * stretch
        return u * stretch
      }
    },
  }
}
