import { Fault } from './fault.ts'
import { type Provenance, type Source, source } from './provenance.ts'

/** A printed table that belongs to no rule set: rows as printed, units beside the columns, source and provenance. */
export interface ShelfTable {
  readonly id: string
  readonly title: string
  readonly units: Readonly<Record<string, string>>
  readonly columns: readonly string[]
  readonly rows: readonly (readonly Cell[])[]
  readonly source: string
  readonly provenance: string
  readonly address: string | null
  readonly notes: readonly string[]
}

export type Cell = string | number | null | readonly number[]

/** A row with the names of its columns. */
export type Row = Readonly<Record<string, Cell>>

/** A number of a printed table with the row it stands in. */
export interface Figure {
  readonly value: number
  readonly rests: Source
}

/** The printed tables of one domain, read by the words of a row and the name of a column, in the printed unit. */
export interface Shelf<Id extends string> {
  rowsOf(id: Id): readonly Row[]
  /** By its first cell, or by any of its cells. @throws Fault `<domain>/no-row` */
  rowOf(id: Id, key: string | number | Row): Row
  /** Where a row's figures come from: the clause it names, else `place`, else the table and its first cell. */
  sourceOf(id: Id, row: Row, place?: string): Source
  /** @throws Fault `<domain>/no-row` or `<domain>/no-number` */
  figure(id: Id, first: string | number, column?: string): Figure
}

export function shelfOf<Id extends string>(domain: string, tables: Readonly<Record<Id, ShelfTable>>): Shelf<Id> {
  const named = new Map<Id, readonly Row[]>()
  const figures = new Map<string, Figure>()

  const rowsOf = (id: Id): readonly Row[] => {
    const known = named.get(id)
    if (known !== undefined) return known
    const { columns, rows }: ShelfTable = tables[id]
    const made = rows.map((cells): Row => Object.fromEntries(columns.map((column, at) => [column, cells[at] as Cell])))
    named.set(id, made)
    return made
  }
  const firstOf = (id: Id, row: Row): string => String(row[tables[id].columns[0] as string])

  const rowOf = (id: Id, key: string | number | Row): Row => {
    const row =
      typeof key === 'object'
        ? rowsOf(id).find((one) => Object.entries(key).every(([column, value]) => one[column] === value))
        : rowsOf(id).find((one) => firstOf(id, one) === String(key))
    if (row === undefined) throw new Fault(`${domain}/no-row`, { id, key })
    return row
  }

  const sourceOf = (id: Id, row: Row, place = `table ${id}, ${firstOf(id, row)}`): Source => {
    const own = row.row_provenance
    return source(
      typeof row.clause === 'string' ? row.clause : place,
      firmness(tables[id], typeof own === 'string' ? own : tables[id].provenance),
    )
  }

  const figure = (id: Id, first: string | number, column = 'value'): Figure => {
    const key = `${id}|${first}|${column}`
    const known = figures.get(key)
    if (known !== undefined) return known
    const row = rowOf(id, first)
    const value = row[column]
    if (typeof value !== 'number') throw new Fault(`${domain}/no-number`, { id, first, column, value })
    const found = { value, rests: sourceOf(id, row) }
    figures.set(key, found)
    return found
  }

  return { rowsOf, rowOf, sourceOf, figure }
}

/** The weakest word in what a table says of its own firmness. What was read at a place whose address is not given counts as recalled. */
export function firmness(table: Pick<ShelfTable, 'address'>, said: string): Provenance {
  if (said.includes('memory')) return 'memory'
  if (said.includes('common practice')) return 'common practice'
  if (!/\bread\b/.test(said)) return 'computed'
  const places = [...said.matchAll(/\bread ([a-g](?:, [a-g])*)\b/g)].flatMap(([, letters]) => letters!.split(', '))
  const dropped = (table.address ?? '').split(' ; ').filter((place) => place.includes('(host dropped)'))
  return places.some((letter) => dropped.some((place) => place.startsWith(`${letter} `))) ? 'memory' : 'read'
}
