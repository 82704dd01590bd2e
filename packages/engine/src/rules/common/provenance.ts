import type { Provenance } from '../../kernel/index.ts'
import type { Table } from '../rule-set.ts'

const WORDS: readonly Provenance[] = ['memory', 'assumed', 'common practice', 'read', 'told', 'computed']

/** The weakest provenance word a text names; `memory` when it names none, for what nobody vouched for is recalled. */
export function provenanceWord(text: string): Provenance {
  const found = WORDS.filter((word) => new RegExp(`\\b${word}\\b`).test(text))
  return found[0] ?? 'memory'
}

export interface Vouched {
  readonly word: Provenance
  /** Edition of the text that was seen, where it is not the set's own. */
  readonly edition: string | null
}

/**
 * How firm one cell is: its row's own word, else the row of `provenance-by-row`, else the weakest word of the table's line.
 * `by`: the table `provenance-by-row`.
 */
export function vouched(by: Table, table: Table, rowIndex: number, column: string): Vouched {
  const row = table.rows[rowIndex] ?? []
  const own = row[table.columns.indexOf('row_provenance')]
  if (typeof own === 'string') {
    const edition = row[table.columns.indexOf('edition')]
    return { word: provenanceWord(own), edition: typeof edition === 'string' ? edition : editionIn(own) }
  }
  const key = String(row[0])
  for (const [id, col, rows, word, edition] of by.rows) {
    if (id !== table.id || (col !== '*' && col !== column)) continue
    if (rows !== '*' && !String(rows).split('|').includes(key)) continue
    return { word: provenanceWord(String(word)), edition: typeof edition === 'string' ? edition : null }
  }
  return { word: provenanceWord(table.provenance), edition: null }
}

/** An edition that a provenance line names: “read (2017 text second-hand)”, “read (three digests of the 2024 text)”. */
function editionIn(text: string): string | null {
  const year = /\b(20\d\d) (?:text|edition)/.exec(text)?.[1]
  if (year === '2017') return 'NFPA 70-2017 text'
  if (year === '2024') return 'CE Code 2024'
  return null
}
