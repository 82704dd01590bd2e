import type { Cell, Overlaid, Overlay, Table } from '../rule-set.ts'

type Tables = Readonly<Record<string, Table>>

/** The tables with an overlay's rows in them, each changed cell remembering who changed it and what stood there. */
export function applied(tables: Tables, overlay: Overlay): Tables {
  const out: Record<string, Table> = { ...tables }
  const put = (id: string, rows: readonly (readonly Cell[])[], mark: Overlaid): void => {
    const table = out[id] as Table
    out[id] = { ...table, rows, overlaid: [...(table.overlaid ?? []), mark] }
  }
  for (const change of overlay.changes) {
    const table = out[change.table] as Table
    const at = table.columns.indexOf(change.column)
    const was = table.rows[change.row]?.[at] ?? null
    const rows = table.rows.map((row, i) => (i === change.row ? row.map((cell, k) => (k === at ? change.value : cell)) : row))
    put(change.table, rows, mark(overlay, change, change.row, change.column, was))
  }
  for (const add of overlay.adds) {
    const table = out[add.table] as Table
    put(add.table, [...table.rows, add.cells], mark(overlay, add, table.rows.length, '*', null))
  }
  return out
}

const mark = (
  overlay: Overlay,
  from: { readonly source: string; readonly provenance: Overlaid['provenance'] },
  row: number,
  column: string,
  was: Cell,
): Overlaid => ({
  row,
  column,
  overlay: overlay.title,
  source: from.source,
  date: overlay.date,
  provenance: from.provenance,
  was,
})
