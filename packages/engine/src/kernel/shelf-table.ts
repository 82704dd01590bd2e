/** A printed table that belongs to no rule set: rows as printed, units beside the columns, source and provenance. */
export interface ShelfTable {
  readonly id: string
  readonly title: string
  readonly units: Readonly<Record<string, string>>
  readonly columns: readonly string[]
  readonly rows: readonly (readonly (string | number | null | readonly number[])[])[]
  readonly source: string
  readonly provenance: string
  readonly address: string | null
  readonly notes: readonly string[]
}
