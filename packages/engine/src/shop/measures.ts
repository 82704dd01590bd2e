import type { MeasureLine, MeasuresCost } from '../air/measures/result.ts'
import type { BillSheet } from './result.ts'

/** A measure against heat and damp that no opening, circuit or hung thing counts. */
export interface MeasureNeed extends MeasureLine {
  readonly sheet: BillSheet
  /** Step of the build that its hours belong to. */
  readonly step: string
}

/** Where each measure is bought and done; what is not named here hangs like gear. */
const PLACES: readonly (readonly [measure: RegExp, sheet: BillSheet, step: string])[] = [
  [/paint/, 'steel', '5'],
  [/foam/, 'steel', '6'],
  [/^winter-open$/, 'steel', '3'],
  [/^(second-roof|drip-hood)$/, 'steel', '7'],
]

/** Measures to buy and do beside what is counted already; a coat that nobody sells is no line. */
export function measureNeeds(cost: MeasuresCost | undefined): readonly MeasureNeed[] {
  return (cost?.lines ?? [])
    .filter((l) => !l.billedAlready && l.quantity > 0 && l.id !== 'paint/none')
    .map((l) => {
      const [, sheet, step] = PLACES.find(([measure]) => measure.test(l.measure)) ?? [null, 'gear' as const, '10']
      return { ...l, sheet, step }
    })
}
