import type { Problem, Result } from '@plugstead/engine/kernel'
import { unzipSync } from 'fflate'
import readXlsxFile from 'read-excel-file/universal'

/** What stands in a cell; null: nothing. A date is `2026-09-15`. */
export type Value = string | number | boolean | null

/** Rows as they stand in the file, the first is row 1. */
export interface TableRows {
  readonly rows: readonly (readonly Value[])[]
}

/** Unpacked, a list of a hundred thousand rows; what unpacks to more was made to hurt. */
const MOST_UNPACKED_BYTES = 100_000_000

const refuse = (
  code: string,
  found: string,
  wanted: string,
  mend: string,
): { readonly ok: false; readonly problems: readonly Problem[] } => ({
  ok: false,
  problems: [{ code: `list/${code}`, found, wanted, mend }],
})

/** The first sheet of a workbook, or the rows of a text; which of both the bytes themselves say. */
export async function tableRows(bytes: Uint8Array): Promise<Result<TableRows>> {
  return bytes[0] === 0x50 && bytes[1] === 0x4b ? await workbookRows(bytes) : csvRows(bytes)
}

async function workbookRows(bytes: Uint8Array): Promise<Result<TableRows>> {
  const bad = (found: string) =>
    refuse('not-a-workbook', found, 'a workbook (XLSX) or a list (CSV)', 'Open it in a spreadsheet and save it as XLSX or CSV.')
  let unpacked = 0
  try {
    unzipSync(bytes, {
      filter: (file) => {
        unpacked += file.originalSize
        return false
      },
    })
  } catch {
    return bad('a packed file that cannot be opened')
  }
  if (unpacked > MOST_UNPACKED_BYTES)
    return refuse('too-large', `${unpacked} bytes unpacked`, `at most ${MOST_UNPACKED_BYTES}`, 'Split the list.')
  try {
    const sheets = await readXlsxFile(bytes.slice().buffer)
    const first = sheets[0]
    if (first === undefined) return bad('a workbook without a sheet')
    return { ok: true, value: { rows: first.data.map((row) => row.map(cellValue)) } }
  } catch (thrown) {
    return bad(
      `a workbook that cannot be read (${thrown instanceof Error ? (thrown.message.split('\n')[0] ?? '') : 'no reason given'})`,
    )
  }
}

const cellValue = (cell: unknown): Value =>
  cell instanceof Date
    ? cell.toISOString().slice(0, 10)
    : typeof cell === 'string' || typeof cell === 'number' || typeof cell === 'boolean'
      ? cell
      : null

/** RFC 4180, with the comma, semicolon or tab that its first row has most of outside quotes. */
function csvRows(bytes: Uint8Array): Result<TableRows> {
  let text: string
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    return refuse(
      'not-text',
      'bytes that are not UTF-8',
      'a list (CSV, UTF-8) or a workbook (XLSX)',
      'Save it again as “CSV UTF-8”, or as XLSX.',
    )
  }
  const first = (text.split(/\r?\n/, 1)[0] ?? '').replace(/"[^"]*"/g, '')
  const between = [',', ';', '\t'].toSorted((a, b) => first.split(b).length - first.split(a).length)[0]!
  const rows: string[][] = [[]]
  let cell = ''
  let quoted = false
  const end = (): void => {
    rows.at(-1)!.push(cell)
    cell = ''
  }
  for (let i = 0; i < text.length; i += 1) {
    const c = text[i]!
    if (quoted) {
      if (c !== '"') cell += c
      else if (text[i + 1] === '"') {
        cell += '"'
        i += 1
      } else quoted = false
    } else if (c === '"' && cell === '') quoted = true
    else if (c === between) end()
    else if (c === '\n') {
      end()
      rows.push([])
    } else if (c !== '\r') cell += c
  }
  if (quoted) return refuse('quote-open', 'a quote that is never closed', 'as many quotes that open as close', 'Close it.')
  end()
  return { ok: true, value: { rows: rows.map((row) => row.map((words) => (words.trim() === '' ? null : words.trim()))) } }
}
