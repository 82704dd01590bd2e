import type { Finding, Step } from '../../kernel/index.ts'
import { put, source, step } from '../../kernel/index.ts'

type Said = Pick<Finding, 'code' | 'subject' | 'verdict' | 'basis' | 'said' | 'provenance'> & Partial<Finding>

export const found = (finding: Said): Finding => ({ question: 'supply', assumed: [], workings: [], mends: [], ...finding })

/** One line of arithmetic on told or computed figures. */
export const line = (
  symbol: string,
  expression: string,
  values: readonly (readonly [string, number | string, string])[],
  result: number | string,
  unit: string,
  place = 'arithmetic',
): Step =>
  step(
    symbol,
    expression,
    values.map(([s, v, u]) => put(s, v, u)),
    result,
    unit,
    source(place, 'computed'),
  )
