/** Lines of a text, whatever ends them, without a byte-order mark. Blank lines stay: line numbers are the person's. */
export const linesOf = (text: string): readonly string[] =>
  (text.charCodeAt(0) === 0xfeff ? text.slice(1) : text).split(/\r\n|\n|\r/)

/** Characters that no text holds: a packed file or a workbook. */
export const isBinary = (text: string): boolean => text.includes('\0') || /[^\P{Cc}\t\n\v\f\r\u0085]/u.test(text.slice(0, 4000))

/** Fields of one line. A field in quotes may hold the separator; a quote is doubled inside. A quote left open runs to the end of the line. */
export function fieldsOf(line: string, separator: string): string[] {
  if (!line.includes('"')) return line.split(separator)
  const fields: string[] = []
  let field = ''
  let quoted = false
  for (let i = 0; i < line.length; i++) {
    const c = line[i] as string
    if (quoted) {
      if (c !== '"') field += c
      else if (line[i + 1] === '"') {
        field += '"'
        i++
      } else quoted = false
    } else if (c === '"' && field.trim() === '') {
      field = ''
      quoted = true
    } else if (c === separator) {
      fields.push(field)
      field = ''
    } else field += c
  }
  fields.push(field)
  return fields
}

const PLAIN = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d{1,3})?$/

/** The plain decimal number that a cell holds; NaN where it holds anything else, also nothing. */
export function numberOf(cell: string): number {
  const text = cell.trim()
  return PLAIN.test(text) ? Number(text) : Number.NaN
}

export const isBlank = (cell: string | undefined): boolean => cell === undefined || cell.trim() === ''

/** A name as it may be printed: one line, no control characters, not endless. */
export const nameOf = (text: string): string =>
  text
    .replace(/[\p{C}\p{Z}]+/gu, ' ')
    .trim()
    .slice(0, 80)
