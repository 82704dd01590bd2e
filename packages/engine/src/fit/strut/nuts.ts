import { Fault, type Figure } from '../../kernel/index.ts'
import { figureAt, strutFigure } from '../shelf.ts'
import { N_PER_LB, type Section } from './section.ts'

export const NUT_BOLTS = ['3/8 in', '1/2 in'] as const
export type NutBolt = (typeof NUT_BOLTS)[number]

export interface NutLimits {
  readonly slipN: number
  readonly pullN: number
  readonly torqueNm: number
  readonly rests: Figure['rests']
}

/**
 * What one channel nut holds at a safety of 3: along the channel by friction (slip), away from it by its lips (pull-out); half of both in
 * the last inch. Null where nothing is printed: thinner channel, and aluminium.
 * @source tables `strut-nut`, `nut-bolts`
 */
export function nutLimits(of: {
  readonly bolt: NutBolt
  readonly section: Pick<Section, 'gauge' | 'metal'>
  readonly inLastInch: boolean
}): NutLimits | null {
  const { gauge, metal } = of.section
  const key = `${of.bolt}|${gauge}|${metal}|${of.inLastInch}`
  const known = found.get(key)
  if (known !== undefined) return known
  const limits = gauge > THINNEST_GAUGE || metal !== 'steel' ? null : limitsOf({ ...of, gauge })
  found.set(key, limits)
  return limits
}

/** Limits already looked up: printed tables never change. */
const found = new Map<string, NutLimits | null>()

function limitsOf(of: { readonly bolt: NutBolt; readonly gauge: number; readonly inLastInch: boolean }): NutLimits {
  const row = `${of.gauge} ga channel`
  const share = (column: string) =>
    figureAt('strut-nut', row, column).value / figureAt('strut-nut', '12 ga channel', column).value
  const end = of.inLastInch ? strutFigure('end-share').value : 1
  const slip = figureAt('nut-bolts', of.bolt, 'slip')
  return {
    slipN: slip.value * N_PER_LB * share('slip_SF3') * end,
    pullN: figureAt('nut-bolts', of.bolt, 'pullout').value * N_PER_LB * share('pullout_SF3') * end,
    torqueNm: figureAt('nut-bolts', of.bolt, 'torque').value * N_PER_LB * M_PER_FT,
    rests: slip.rests,
  }
}

const THINNEST_GAUGE = 14
const M_PER_FT = 0.3048

/**
 * Share of a nut's strength that is used: slip/slip allowed + pull/pull allowed ≤ 1.
 * @throws Fault `fit/nut-range`
 * @source linear interaction. Provenance: common practice
 */
export function nutUse(
  load: { readonly slipN: number; readonly pullN: number },
  limits: Pick<NutLimits, 'slipN' | 'pullN'>,
): number {
  if (!(load.slipN >= 0 && load.pullN >= 0 && limits.slipN > 0 && limits.pullN > 0))
    throw new Fault('fit/nut-range', { load, limits })
  return load.slipN / limits.slipN + load.pullN / limits.pullN
}
