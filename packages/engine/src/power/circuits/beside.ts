import type { RacewayRoute } from '../../job/index.ts'

/** Longest raceway in which the number of wires need not be counted: a nipple. @source NEC 310.15(C)(1)(b), 24 in. Provenance: memory */
export const NIPPLE_MOST_M = 0.61

/**
 * Circuits that lie together in a raceway longer than a nipple, by circuit: each with the others, rising. What shares a raceway by design
 * is among them.
 */
export function besideIn(raceways: readonly RacewayRoute[]): Readonly<Record<string, readonly string[]>> {
  const beside = new Map<string, Set<string>>()
  for (const r of raceways) {
    if (r.circuits.length < 2 || lengthM(r) <= NIPPLE_MOST_M) continue
    for (const c of r.circuits) {
      const others = beside.get(c) ?? new Set()
      for (const o of r.circuits) if (o !== c) others.add(o)
      beside.set(c, others)
    }
  }
  return Object.fromEntries([...beside].map(([c, others]) => [c, [...others].toSorted()]))
}

function lengthM({ pointsMm }: RacewayRoute): number {
  let sum = 0
  for (let i = 1; i < pointsMm.length; i++) sum += Math.hypot(...[0, 1, 2].map((k) => pointsMm[i]![k]! - pointsMm[i - 1]![k]!))
  return sum / 1000
}
