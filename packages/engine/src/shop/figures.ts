import { type Figure, shelfOf } from '../kernel/index.ts'
import { tables } from './tables.generated.ts'

type FigureName = (typeof tables)['shop-figures']['rows'][number][0]

const shelf = shelfOf('shop', tables)

export const INCH_MM = 25.4
export const FOOT_M = 0.3048
export const FOOT_POUND_NM = 1.355818

/** A single figure of the shop, in the unit its row prints. @throws Fault `shop/no-row` */
export const figure = (name: FigureName): Figure => shelf.figure('shop-figures', name)

export const amount = (name: FigureName): number => figure(name).value

/** A length of a drawing to the tenth of a millimetre, as a tape reads it. */
export const tenth = (mm: number): number => Math.round(mm * 10) / 10

export const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)
