import { axisLengthMm, NIPPLE_MOST_M, type RacewayRoute } from '../../job/index.ts'

/**
 * Circuits that lie together in a raceway longer than a nipple, by circuit: each with the others, rising. What shares a raceway by design
 * is among them.
 */
export function besideIn(raceways: readonly RacewayRoute[]): Readonly<Record<string, readonly string[]>> {
  const beside = new Map<string, Set<string>>()
  for (const r of raceways) {
    if (r.circuits.length < 2 || axisLengthMm(r.pointsMm) / 1000 <= NIPPLE_MOST_M) continue
    for (const c of r.circuits) {
      const others = beside.get(c) ?? new Set()
      for (const o of r.circuits) if (o !== c) others.add(o)
      beside.set(c, others)
    }
  }
  return Object.fromEntries([...beside].map(([c, others]) => [c, [...others].toSorted()]))
}
