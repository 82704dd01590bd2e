import { Fault, type Provenance, type Source, source } from '../kernel/index.ts'
import { tables } from './tables.generated.ts'

type FigureName = (typeof tables)['shop-figures']['rows'][number][0]

export interface Figure {
  readonly value: number
  readonly rests: Source
}

export const INCH_MM = 25.4
export const FOOT_M = 0.3048
export const FOOT_POUND_NM = 1.355818

/** A single figure of the shop, in the unit its row prints. @throws Fault `shop/no-figure` */
export function figure(name: FigureName): Figure {
  const row = tables['shop-figures'].rows.find(([one]) => one === name)
  if (row === undefined) throw new Fault('shop/no-figure', name)
  return { value: row[1], rests: source(`table shop-figures, ${name}`, firmness(row[3])) }
}

const amounts = new Map<FigureName, number>(tables['shop-figures'].rows.map(([name, value]) => [name, value]))

/** @throws Fault `shop/no-figure` */
export function amount(name: FigureName): number {
  const value = amounts.get(name)
  if (value === undefined) throw new Fault('shop/no-figure', name)
  return value
}

/** The weakest word in what a row says of its own firmness. */
export const firmness = (said: string): Provenance =>
  said.includes('memory') ? 'memory' : said.includes('common practice') ? 'common practice' : 'read'

/** A length of a drawing to the tenth of a millimetre, as a tape reads it. */
export const tenth = (mm: number): number => Math.round(mm * 10) / 10

export const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)
