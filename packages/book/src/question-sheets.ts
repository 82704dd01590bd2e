import type { Assessment } from '@plugstead/engine/assess'
import type { Sheet } from './content.ts'
import type { BookInput } from './results.ts'
import { airSheets } from './sheets/air.ts'
import { builtBoxes } from './sheets/built.ts'
import { circuitsSheets } from './sheets/circuits.ts'
import { datesSheets } from './sheets/dates.ts'
import { faultsSheets } from './sheets/faults.ts'
import { fitSheets } from './sheets/fit.ts'
import { haulSheets } from './sheets/haul.ts'
import { moneySheets } from './sheets/money.ts'
import { needsSheets } from './sheets/needs.ts'
import { oneLineSheets } from './sheets/one-line.ts'
import { reachSheets } from './sheets/reach.ts'
import { shopSheets } from './sheets/shop.ts'
import { skinSheets } from './sheets/skin.ts'
import { supplySheets } from './sheets/supply.ts'

/** Questions that have figures, and so sheets of their own. */
export type SheetedQuestion = keyof Assessment['results']

/** Sheets of each question, in the order of the book, for paper and for glass. */
export function questionSheets(input: BookInput): Readonly<Record<SheetedQuestion, () => readonly Sheet[]>> {
  const built = builtBoxes(input)
  return {
    needs: () => needsSheets(input),
    supply: () => supplySheets(input),
    dates: () => datesSheets(input),
    circuits: () => [...oneLineSheets(input), ...circuitsSheets(input)],
    reach: () => reachSheets(input),
    faults: () => faultsSheets(input),
    fit: () => fitSheets(input, built),
    skin: () => skinSheets(input, built),
    air: () => airSheets(input, built),
    haul: () => haulSheets(input, built),
    shop: () => shopSheets(input, built),
    money: () => moneySheets(input),
  }
}
