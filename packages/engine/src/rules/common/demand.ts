/**
 * Demand of a load by a step: all of it up to a value, a share of the rest.
 *
 *   D = min(load, full) + share · max(0, load − full)
 *
 * @source NEC 220.45, 220.47. Provenance: read (examples)
 */
export const steppedDemandVA = (load: {
  readonly loadVA: number
  readonly fullToVA: number
  readonly restFrac: number
}): number => Math.min(load.loadVA, load.fullToVA) + load.restFrac * Math.max(0, load.loadVA - load.fullToVA)
