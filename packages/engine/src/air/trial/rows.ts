/** One line of a list and where it stands in the file. */
export interface ListRow {
  readonly line: number
  readonly cells: readonly string[]
}

const SEPARATORS = [',', ';', '\t'] as const
export type Separator = (typeof SEPARATORS)[number]

/** What parts the cells of a line: the one that makes most of them; a comma wins a draw. */
export function separatorOf(line: string): Separator {
  const counts = SEPARATORS.map((mark) => cellsOf(line, mark).length)
  return SEPARATORS[counts.indexOf(Math.max(...counts))] ?? ','
}

/** The cells of one line, blanks and quotes around them taken off; a doubled quote inside quotes is one. */
export function cellsOf(line: string, separator: Separator): readonly string[] {
  if (!line.includes('"')) return line.split(separator).map((cell) => cell.trim())
  const cells: string[] = []
  let cell = ''
  let quoted = false
  for (let at = 0; at < line.length; at++) {
    const mark = line[at] as string
    if (quoted && mark === '"' && line[at + 1] === '"') {
      cell += '"'
      at++
    } else if (mark === '"') quoted = !quoted
    else if (mark === separator && !quoted) {
      cells.push(cell.trim())
      cell = ''
    } else cell += mark
  }
  return [...cells, cell.trim()]
}

/** Lines of a file, whatever ends them; a mark of byte order before the first is taken off. */
export const linesOf = (text: string): readonly string[] => text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/)
