import { Fault } from '../../kernel/index.ts'
import type { TripBand } from '../rule-set.ts'
import { type Book, rests, tableOf } from './book.ts'

type Point = readonly [number, number]

/**
 * Band of a device family at a rating. Past the last thermal point of the standard the slow edge goes on at constant I²t up to the sure
 * magnetic trip: bimetals heat without losing heat there.
 * @throws Fault `rules/trip-family` for a family, or a rating of it, without a band
 * @source tables trip-points and trip-magnetic. Provenance: per row
 */
export function tripBand(book: Book, family: string, deviceA: number): TripBand {
  const magnetic = tableOf(book, 'trip-magnetic')
  const at = magnetic.rows.findIndex((row) => row[0] === family && within(row[1], row[2], deviceA))
  const row = magnetic.rows[at]
  if (row === undefined) throw new Fault('rules/trip-family', { family, deviceA })
  const cell = (column: string): number => row[magnetic.columns.indexOf(column)] as number
  const edge = (which: string): Point[] =>
    tableOf(book, 'trip-points')
      .rows.filter((p) => family.startsWith(String(p[0])) && within(p[1], p[2], deviceA) && p[3] === which)
      .map((p): Point => [p[4] as number, p[5] as number])
      .sort((a, b) => a[0] - b[0])
  const sure = cell('sure')
  return {
    family,
    holdsRatio: cell('holds'),
    thermalSlow: extended(edge('slow'), sure, cell('seconds')),
    thermalFast: edge('fast'),
    magneticFromRatio: cell('from'),
    magneticSureRatio: sure,
    magneticS: cell('seconds'),
    referenceC: cell('reference'),
    rests: rests(book, magnetic, at, 'sure'),
  }
}

/** Conventional tripping current over the rating, I2/In. @throws Fault `rules/trip-family` */
export function overloadRatio(book: Book, family: string, deviceA: number) {
  const table = tableOf(book, 'trip-magnetic')
  const at = table.rows.findIndex((row) => row[0] === family && within(row[1], row[2], deviceA))
  if (at < 0) throw new Fault('rules/trip-family', { family, deviceA })
  return { value: table.rows[at]?.[table.columns.indexOf('overload')] as number, rests: rests(book, table, at, 'overload') }
}

function extended(slow: readonly Point[], sureRatio: number, magneticS: number): readonly Point[] {
  const last = slow.at(-1)
  if (last === undefined || last[0] >= sureRatio) return slow
  return [...slow, [sureRatio, Math.max(last[1] * (last[0] / sureRatio) ** 2, magneticS)]]
}

const within = (over: unknown, to: unknown, deviceA: number): boolean => deviceA > (over as number) && deviceA <= (to as number)
