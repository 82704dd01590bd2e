/** RFC 4180: CRLF, quotes doubled, quoted only where needed. */
export function csvText(heads: readonly string[], rows: readonly (readonly (string | number | boolean)[])[]): string {
  return [heads, ...rows].map((row) => `${row.map(cell).join(',')}\r\n`).join('')
}

function cell(value: string | number | boolean): string {
  const text = String(value)
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
}
