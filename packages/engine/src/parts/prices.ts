/** A dated, invented or quoted price. Money in the table's one currency. */
export interface Price {
  /** `conductor/12 AWG/cu`, `cord/12 AWG/SEOOW`, `device/20 A/1`, `outlet/5-20R`, `panel/200 A/42`, `hour/electrician`. */
  readonly id: string
  readonly money: number
  /** What the price is for: `m`, `m2`, `each`, `h`. */
  readonly per: string
  readonly date: string
  readonly source: string
  readonly supplier?: string
  /** Sold in packs of so many; absent: in any quantity. */
  readonly packCount?: number
  /** Share bought on top, for what is spoiled or left over. */
  readonly wasteFrac?: number
  /** Only where it is not the table's: such a price is in no sum, it stands beside. */
  readonly currency?: string
}

/** The shop's price table. Invented and dated where it comes with the program; a row without a date or source is flagged. */
export interface Prices {
  readonly currency: string
  readonly rows: Readonly<Record<string, Price>>
}
