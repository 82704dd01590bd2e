import type { RemedyTable as Bought, RemedyAmounts as BoughtAmounts } from '@plugstead/engine/air'
import type { RemedyAmounts, RemedyRow, RemedyTable } from './remedies.ts'

/** A table of remedies as far as it was run: stopped before its end, its means are of fewer years. */
export interface RemediesMade {
  readonly table: Bought
  /** Years in which each measure stood alone; at least 1. */
  readonly aloneYearsCount: number
  /** Years in which measures stood one on top of the other, and the design as it is. 0: none were run, and no figure of them is shown. */
  readonly stackedYearsCount: number
}

/** What the picture shows of a table that was run. */
export function remedyParts({ table, aloneYearsCount, stackedYearsCount }: RemediesMade): Omit<RemedyTable, 'widthMm'> {
  const rows = (of: Bought['alone']): readonly RemedyRow[] =>
    of.map(({ name, after, money, note }) => ({ name, after: shownAmounts(after), money, note, holdsFrac: null }))
  return {
    ...{ currency: table.currency, basis: `mean of ${years(aloneYearsCount)}` },
    base: { name: table.base.name, after: shownAmounts(table.base.after), holdsFrac: null },
    parts: [
      { title: 'one at a time', stacked: false, rows: rows(table.alone) },
      ...(stackedYearsCount === 0
        ? []
        : [{ title: `one on top of the other, ${years(stackedYearsCount)}`, stacked: true, rows: rows(table.stacked) }]),
    ],
  }
}

export const shownAmounts = ({
  hotH,
  coldH,
  wetH,
  mostGPerM2,
  fellL,
  onGearL,
  heaterKWh,
  fanKWh,
}: BoughtAmounts): RemedyAmounts => ({
  ...{ hotH, coldH, wetH, mostGPerM2, fellL, onGearL, usedKWh: heaterKWh + fanKWh },
})

const years = (count: number): string => (count === 1 ? 'one year' : `${count} years`)
