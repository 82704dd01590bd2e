import { type Circuit, type FitDesign, type WirewaySection, wirewayRuns, wirewaySections } from '../../job/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import { wiresOf } from '../routes/links.ts'

/** The section of a wireway in which the wires take most, and what they take. Null: nothing lies in it. */
export interface Fullest {
  readonly section: WirewaySection
  readonly areaMm2: number
  /** Wires that are not protective. */
  readonly carrying: number
}

export function fullestSection(
  fit: Pick<FitDesign, 'items' | 'raceways'>,
  circuits: readonly Circuit[],
  rules: Pick<RuleSet, 'wireAreaMm2'>,
): Fullest | null {
  const areas = new Map(
    circuits.map((c) => [c.id, wiresOf(c.run, c.legs.length).reduce((sum, w) => sum + rules.wireAreaMm2(w).value, 0)]),
  )
  const counts = new Map(circuits.map((c) => [c.id, c.legs.length + (c.run.neutral === null ? 0 : 1)]))
  let fullest: Fullest | null = null
  for (const section of wirewaySections(wirewayRuns(fit))) {
    const areaMm2 = section.circuits.reduce((sum, id) => sum + (areas.get(id) ?? 0), 0)
    if (fullest !== null && areaMm2 <= fullest.areaMm2 + 1e-9) continue
    fullest = { section, areaMm2, carrying: section.circuits.reduce((sum, id) => sum + (counts.get(id) ?? 0), 0) }
  }
  return fullest
}
