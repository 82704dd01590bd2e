import type { BoxDesign, Job, Offer } from '../../job/index.ts'
import type { RuleSet, System } from '../../rules/index.ts'
import type { BoxNeeds } from '../needs/index.ts'
import { capHolds } from '../needs/index.ts'

/** What a source must carry: everything on, or what a hard cap holds. */
export interface Held {
  /** Worst leg. */
  readonly currentA: number
  readonly kVA: number
  readonly kW: number
  readonly basis: string
}

/** Steady load of the whole box on its source. */
export function heldLoad(job: Job, needs: BoxNeeds, staging: BoxDesign['staging'], system: System): Held {
  const allOnA = Math.max(...needs.demand.legs.map((l) => l.allOnA))
  const kVA = needs.all.vectorVA.high / 1000
  const kW = needs.all.powerW / 1000
  if (!capHolds(job, staging) || staging.capA === null) return { currentA: allOnA, kVA, kW, basis: 'everything on' }
  const cap = staging.capA
  const capKVA = (cap * system.lineNeutralV * system.legs.length) / 1000
  return {
    currentA: Math.min(allOnA, cap),
    kVA: Math.min(kVA, capKVA),
    kW: Math.min(kW, capKVA),
    basis: `the interlock's ${Math.round(cap)} A on each leg`,
  }
}

export const kvaA = (kVA: number, system: Pick<System, 'legs' | 'lineLineV'>): number =>
  (kVA * 1000) / (system.legs.length === 3 ? Math.sqrt(3) * system.lineLineV : system.lineLineV)

/** Current of an offer for the box, A on each leg; null where nobody said how much. */
export function offeredA(offer: Offer, system: System): number | null {
  if (offer.kind === 'neighbour') return offer.spareA ?? (offer.spareKVA === undefined ? null : kvaA(offer.spareKVA, system))
  if (offer.kind === 'generator') return offer.generator === undefined ? null : kvaA(offer.generator.ratedKVA, system)
  return offer.serviceA.length === 0 ? null : Math.max(...offer.serviceA)
}

/**
 * Smallest listed transformer at or above a demand; a transformer may carry `overloadFrac` of its rating for the hours asked.
 * Null when none is large enough.
 */
export function smallestTransformerKVA(demandKVA: number, sizesKVA: readonly number[], overloadFrac = 1): number | null {
  const fits = sizesKVA.filter((size) => size * overloadFrac >= demandKVA * (1 - 1e-9))
  return fits.length === 0 ? null : Math.min(...fits)
}

/** Ratings that the trade lists for a kind of transformer. @source table `transformer-typical` */
export function listedTransformersKVA(rules: RuleSet, phases: 1 | 3): readonly number[] {
  const rows = rules.tables['transformer-typical']?.rows ?? []
  return rows.filter((row) => String(row[0]).includes(`${phases}-phase`)).map((row) => Number(row[1]))
}
