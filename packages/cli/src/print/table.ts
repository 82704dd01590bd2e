import { charCount, padded, WIDTH, wrapped } from './wrap.ts'

export interface Column {
  readonly head: string
  readonly side?: 'left' | 'right'
  /** Text of this column is wrapped when the table would be too wide. At most one of them. */
  readonly wraps?: boolean
}

const GAP = '  '

/** A ruled table that keeps within the width: the wrapping column gives way. */
export function table(columns: readonly Column[], rows: readonly (readonly string[])[], indent = 0): string {
  const widths = columns.map((column, at) => Math.max(charCount(column.head), ...rows.map((row) => charCount(row[at] ?? ''))))
  const room = WIDTH - indent - GAP.length * (columns.length - 1)
  const over = widths.reduce((sum, width) => sum + width, 0) - room
  const giving = columns.findIndex((column) => column.wraps)
  if (over > 0 && giving >= 0) widths[giving] = Math.max(8, (widths[giving] ?? 0) - over)
  const line = (cells: readonly string[]) => rowLines(cells, columns, widths, indent)
  return [
    line(columns.map((column) => column.head)),
    ' '.repeat(indent) + widths.map((width) => '-'.repeat(width)).join(GAP),
    ...rows.map(line),
  ].join('\n')
}

function rowLines(cells: readonly string[], columns: readonly Column[], widths: readonly number[], indent: number): string {
  const stacks = columns.map((column, at) => {
    const cell = cells[at] ?? ''
    return column.wraps ? wrapped(cell, { width: widths[at] ?? WIDTH }).split('\n') : [cell]
  })
  const height = Math.max(...stacks.map((stack) => stack.length))
  return Array.from({ length: height }, (_, level) => {
    const parts = columns.map((column, at) => padded(stacks[at]?.[level] ?? '', widths[at] ?? 0, column.side))
    return (' '.repeat(indent) + parts.join(GAP)).trimEnd()
  }).join('\n')
}
