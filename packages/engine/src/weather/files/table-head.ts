import { fieldsOf, isBinary, linesOf, numberOf } from './cells.ts'
import { COLUMN_KINDS, type ColumnKey, type ColumnMapping } from './mapping.ts'

export type Between = NonNullable<ColumnMapping['between']>

/** What a column of a table may be: a quantity, or a part of its time. */
export type TimePart = 'time' | 'time of day' | 'year' | 'month' | 'day' | 'hour' | 'minute'

/** Units in which each quantity may be written, as a mapping takes them. */
export const COLUMN_UNITS = Object.fromEntries(
  Object.entries(COLUMN_KINDS).map(([key, kind]) => [key, Object.keys(kind.units)]),
) as unknown as Readonly<Record<ColumnKey, readonly string[]>>

interface TableColumn {
  /** Empty: the table has no headings. */
  readonly heading: string
  /** Cells of the first rows. */
  readonly cells: readonly string[]
  /** What its heading says, for a person to confirm; null: it says nothing that is known. */
  readonly guess: { readonly what: ColumnKey | TimePart; readonly unit: string | null } | null
}

export interface TableHead {
  readonly between: Between
  readonly headings: boolean
  readonly columns: readonly TableColumn[]
}

const SEPARATORS = { comma: ',', semicolon: ';', tab: '\t' } as const
const ROWS = 3
const LEAST_COLUMNS = 3

/**
 * Headings and first rows of a table of plain text, so that a person says which column is what. What nobody says is guessed by what cuts its
 * lines into the most equal parts; every guess is for a person to confirm. Null: no table.
 */
export function tableHead(
  text: string,
  told: { readonly between?: Between; readonly headings?: boolean; readonly skipLines?: number } = {},
): TableHead | null {
  if (isBinary(text)) return null
  const lines = linesOf(text)
    .slice(told.skipLines ?? 0)
    .filter((line) => line.trim() !== '')
    .slice(0, ROWS + 1)
  const between = told.between ?? betweenOf(lines)
  if (between === null || lines.length < 2) return null
  const rows = lines.map((line) => cellsOf(line, between))
  const [first = []] = rows
  const headings = told.headings ?? !first.some((cell) => Number.isFinite(numberOf(cell)))
  const shown = rows.slice(headings ? 1 : 0).slice(0, ROWS)
  return {
    ...{ between, headings },
    columns: first.map((cell, i) => ({
      heading: headings ? cell : '',
      cells: shown.map((row) => row[i] ?? ''),
      guess: headings ? columnGuess(cell) : null,
    })),
  }
}

const cellsOf = (line: string, between: Between): readonly string[] =>
  (between === 'blanks' ? line.trim().split(/[ \t]+/) : fieldsOf(line, SEPARATORS[between])).map((cell) => cell.trim())

function betweenOf(lines: readonly string[]): Between | null {
  for (const between of ['semicolon', 'tab', 'comma', 'blanks'] as const) {
    const counts = lines.map((line) => cellsOf(line, between).length)
    if ((counts[0] ?? 0) >= LEAST_COLUMNS && counts.every((n) => n === counts[0])) return between
  }
  return null
}

const SAYS: readonly (readonly [RegExp, ColumnKey | TimePart])[] = [
  [/^(date ?\/? ?time|time ?stamp|date and time|local time|datetime|time|date|when)\b/, 'time'],
  [/^(time of day|clock|hh:?mm)\b/, 'time of day'],
  [/^(year|month|day|hour|minute)$/, 'year'],
  [/\bdew\b|^dewp/, 'dew-point'],
  [/\b(wind|wd|wnd)\b.*\b(dir|direction|from)\b|^(wd|winddir|wind from)\b/, 'wind-from'],
  [/\bwind\b|^(ws|wspd)\b/, 'wind'],
  [/\b(hum|humidity|rh)\b/, 'humidity'],
  [/\bvapou?r\b/, 'vapour'],
  [/\b(press|pres|pressure|barometer)\b/, 'pressure'],
  [/\b(dni|direct|beam)\b/, 'direct'],
  [/\b(dhi|diffuse)\b/, 'diffuse'],
  [/\b(infrared|long ?wave|lwd|ir)\b/, 'infrared'],
  [/\b(ghi|global|solar|sun|radiation)\b/, 'level'],
  [/\bcloud|sky cover\b/, 'cloud'],
  [/\bsnow\b/, 'snow'],
  [/\b(rain|precip|precipitation)\b/, 'rain'],
  [/\b(temp|temperature|air|dry bulb|t2m|tair)\b/, 'air'],
]
/** Said of columns of other things: gusts, wet bulbs, marks of quality. */
const OTHER = /\b(gust|gusts|wet bulb|flag|quality|chill|humidex|heat index|min|max|index)\b/

/** What a heading says of its column and its unit; null where it says nothing that is known. */
export function columnGuess(heading: string): TableColumn['guess'] {
  const words = heading
    .toLowerCase()
    .replace(/[([].*$/, '')
    .replace(/[_\-.]+/g, ' ')
    .trim()
  if (OTHER.test(words)) return null
  const what = SAYS.find(([pattern]) => pattern.test(words))?.[1]
  if (what === undefined) return null
  if (what === 'year') return { what: words as TimePart, unit: null }
  if (!(what in COLUMN_KINDS)) return { what, unit: null }
  const bracket = /[([]\s*([^)\]]+?)\s*[)\]]\s*$/.exec(heading)?.[1]
  const unit = COLUMN_UNITS[what as ColumnKey].find((one) => one === bracket)
  return { what, unit: unit ?? null }
}
