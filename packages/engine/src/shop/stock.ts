import { Fault } from '../kernel/index.ts'
import type { RuleSet } from '../rules/index.ts'
import { amount } from './figures.ts'
import type { SectionCut, ShopFactors } from './result.ts'
import { tables } from './tables.generated.ts'

export interface Saw {
  readonly kerfMm: number
  readonly trimMm: number
  /** Names of the defaults that were taken. */
  readonly assumed: readonly string[]
}

/** Kerf and trim as the shop told them; else the table's, recorded as assumed. */
export function sawOf(factors: ShopFactors): Saw {
  return {
    kerfMm: factors.kerfMm ?? amount('kerf'),
    trimMm: factors.trimMm ?? amount('trim'),
    assumed: [
      ...(factors.kerfMm === undefined ? ['shop.saw.kerf'] : []),
      ...(factors.trimMm === undefined ? ['shop.saw.trim'] : []),
    ],
  }
}

export interface Bar {
  readonly name: string
  readonly lengthMm: number
}

/** Bars that this kind of section is bought in under this rule set. @throws Fault `shop/no-stock` */
export function barsFor(kind: SectionCut['kind'], rules: Pick<RuleSet, 'id'>): readonly Bar[] {
  const bars = tables.stock.rows.flatMap(([set, of, name, lengthMm]) =>
    set === rules.id && of === kind ? [{ name, lengthMm }] : [],
  )
  if (bars.length === 0) throw new Fault('shop/no-stock', { kind, set: rules.id })
  return bars
}

export const longestMm = (kind: SectionCut['kind'], rules: Pick<RuleSet, 'id'>): number =>
  Math.max(...barsFor(kind, rules).map((b) => b.lengthMm))
