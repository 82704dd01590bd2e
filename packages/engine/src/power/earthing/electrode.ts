import type { Electrode, Site, Span } from '../../job/index.ts'
import type { Table } from '../../rules/index.ts'
import { rodInFrostOhm } from './frozen.ts'
import { ringOhm } from './ring.ts'
import { rodFactorRatio, rodOhm, rodsByLambda, twoRodsOhm } from './rods.ts'

/** An electrode at both ends of soil and frost. */
export interface ElectrodeEnds {
  readonly thawed: { readonly low: number; readonly high: number }
  readonly frozen: { readonly low: number; readonly high: number } | null
  readonly low: number
  readonly high: number
  /** How several rods were taken together. */
  readonly group: 'one rod' | 'two rods' | 'factor F' | 'lambda' | 'ring'
  readonly groupRatio: number
}

/** A ring lies this deep when the design does not say. @source NEC 250.53(F), 30 in. Provenance: memory */
export const RING_DEPTH_M = 0.75

type Tables = { readonly factors: Table['rows']; readonly lambdas: Table['rows'] }

/**
 * Resistance of the design's electrode, thawed and, where the site freezes, frozen, each at both ends of its soil.
 * @throws Fault `earthing/rod-range`, `earthing/rod-count`, `earthing/ring-range` outside the formulas
 */
export function electrodeEnds(
  electrode: Electrode,
  site: Pick<Site, 'soilOhmM' | 'frozenSoilOhmM' | 'frostDepthM'>,
  tables: Tables,
): ElectrodeEnds {
  const freezes = site.frostDepthM.high > 0
  if (electrode.kind === 'ring') {
    const at = (soilOhmM: number) =>
      ringOhm({ soilOhmM, perimeterM: electrode.lengthM, wireM: electrode.diameterM, depthM: RING_DEPTH_M })
    const thawed = both(site.soilOhmM, at)
    const frozen = !freezes
      ? null
      : {
          low: at(site.frostDepthM.low >= RING_DEPTH_M ? site.frozenSoilOhmM.low : site.soilOhmM.low),
          high: at(site.frostDepthM.high >= RING_DEPTH_M ? site.frozenSoilOhmM.high : site.soilOhmM.high),
        }
    return finish(thawed, frozen, 'ring', 1)
  }
  const { lengthM, diameterM } = electrode
  const { group, ratio } = groupOf(electrode, tables)
  const thawed = both(site.soilOhmM, (soilOhmM) => rodOhm({ soilOhmM, lengthM, diameterM }) * ratio)
  const frozen = !freezes
    ? null
    : {
        low:
          rodInFrostOhm({
            lengthM,
            diameterM,
            thawedOhmM: site.soilOhmM.low,
            frozenOhmM: site.frozenSoilOhmM.low,
            frostM: site.frostDepthM.low,
          }) * ratio,
        high:
          rodInFrostOhm({
            lengthM,
            diameterM,
            thawedOhmM: site.soilOhmM.high,
            frozenOhmM: site.frozenSoilOhmM.high,
            frostM: site.frostDepthM.high,
          }) * ratio,
      }
  return finish(thawed, frozen, group, ratio)
}

const both = (span: Span, at: (soilOhmM: number) => number) => ({ low: at(span.low), high: at(span.high) })

function finish(
  thawed: { low: number; high: number },
  frozen: { low: number; high: number } | null,
  group: ElectrodeEnds['group'],
  groupRatio: number,
): ElectrodeEnds {
  return {
    thawed,
    frozen,
    group,
    groupRatio,
    low: Math.min(thawed.low, frozen?.low ?? Infinity),
    high: Math.max(thawed.high, frozen?.high ?? 0),
  }
}

/** Resistance of the group over that of one rod. The ratio does not hang on the soil. */
function groupOf(electrode: Electrode, tables: Tables): { readonly group: ElectrodeEnds['group']; readonly ratio: number } {
  const { count, lengthM, diameterM, spacingM } = electrode
  if (count === 1) return { group: 'one rod', ratio: 1 }
  const rod = { soilOhmM: 100, lengthM, diameterM }
  const one = rodOhm(rod)
  if (count === 2 && spacingM > lengthM) return { group: 'two rods', ratio: twoRodsOhm({ ...rod, spacingM }) / one }
  if (spacingM >= lengthM && count > 10) return { group: 'factor F', ratio: rodFactorRatio(count, tables.factors) / count }
  if (count <= 10)
    return {
      group: 'lambda',
      ratio: rodsByLambda({ oneOhm: one, soilOhmM: 100, spacingM, count, shape: 'line' }, tables.lambdas).ohm / one,
    }
  // Closer than they are long and too many for the table: no credit beyond ten.
  return {
    group: 'lambda',
    ratio: rodsByLambda({ oneOhm: one, soilOhmM: 100, spacingM, count: 10, shape: 'line' }, tables.lambdas).ohm / one,
  }
}
