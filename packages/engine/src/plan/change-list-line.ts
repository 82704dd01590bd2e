import type { Circuit } from '../job/index.ts'
import { type Finding, formatQuantity } from '../kernel/index.ts'
import type { Material, Prices } from '../parts/index.ts'
import type { Standing } from './change-list-box.ts'
import type { ChangeLine } from './change-list-types.ts'

export type Line = Omit<ChangeLine, 'without' | 'must'>

export interface Asked {
  readonly of: Standing
  readonly keys: ReadonlySet<string>
  readonly prices: Prices
  /** Findings on the box as it stands, in the new place. */
  readonly stands: readonly Finding[]
  /** Findings once everything is done. */
  readonly after: readonly Finding[]
}

export type Written = Partial<Line> &
  Pick<Line, 'tag' | 'component' | 'asBuilt' | 'needed' | 'why' | 'action'> & { readonly buys?: readonly Material[] }

/** Codes of a kind that do not hold on the box as it stands. */
export function codesOf({ stands }: Asked, code: RegExp, verdicts = ['fails', 'unknown', 'tight']): readonly string[] {
  return [...new Set(stands.filter((f) => code.test(f.code) && verdicts.includes(f.verdict)).map((f) => f.code))].toSorted()
}

export const kA = (value: number): string => formatQuantity(value * 1000, 'A')
export const amps = (value: number): string => formatQuantity(value, 'A')

export const poles = (count: number): string => (count === 1 ? '1 pole' : `${count} poles`)
export const tags = (circuits: readonly Circuit[]): string =>
  circuits
    .map((c) => c.id)
    .toSorted()
    .join(', ')
