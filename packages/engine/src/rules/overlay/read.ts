import { isMap, isNode, LineCounter, parseDocument } from 'yaml'
import type { RuleSetId } from '../../job/index.ts'
import { ok, type Problem, type Provenance, type Result } from '../../kernel/index.ts'
import { rowIndex } from '../common/book.ts'
import { choicesOf } from '../common/choices.ts'
import type { Cell, Overlay, OverlayChange, OverlayRow, Table } from '../rule-set.ts'

type Tables = Readonly<Record<string, Table>>
type Fields = Readonly<Record<string, unknown>>

const HEAD = [
  'plugstead-overlay',
  'id',
  'title',
  'kind',
  'set',
  'invented',
  'source',
  'date',
  'provenance',
  'changes',
  'adds',
] as const
const CHANGE = ['table', 'row', 'column', 'value', 'why', 'source', 'provenance'] as const
const ADD = ['table', 'cells', 'why', 'source', 'provenance'] as const
const KINDS = ['country', 'local amendment', 'utility rule book'] as const
const SETS = ['us', 'ca', 'intl'] as const
const WORDS: readonly Provenance[] = ['read', 'told', 'common practice', 'memory', 'assumed']
const MAX_CHARS = 200_000
const MAX_DEPTH = 50

/**
 * An overlay from the text of its file, or every problem it has: what was found, what is wanted, a mend. Tables and rows are looked for
 * in the tables of the set the overlay belongs to. Never throws on a text.
 */
export function overlayFrom(text: string, tablesFor: (set: RuleSetId) => Tables): Result<Overlay> {
  if (text.length > MAX_CHARS)
    return bad([
      problem('overlay/too-long', '', `${text.length} characters`, `at most ${MAX_CHARS}`, 'Give the overlay its own file.'),
    ])
  if (tooDeep(text))
    return bad([
      problem(
        'overlay/yaml',
        '',
        'nesting too deep to read',
        `at most ${MAX_DEPTH} levels`,
        'An overlay needs four levels: take the extra brackets or dashes out.',
      ),
    ])
  const counter = new LineCounter()
  let document: ReturnType<typeof parseDocument>
  let js: unknown
  try {
    document = parseDocument(text, { uniqueKeys: true, lineCounter: counter, logLevel: 'error' })
    js = document.errors.length > 0 ? null : document.toJS({ maxAliasCount: 0 })
  } catch (error) {
    // The YAML reader throws for aliases that are not allowed, and runs out of stack on very deep nesting.
    const found = error instanceof ReferenceError ? 'an alias (*name)' : 'nesting too deep to read'
    return bad([problem('overlay/yaml', '', found, 'plain values, few levels', 'Write the value out where it is used.')])
  }
  if (document.errors.length > 0) {
    return bad(
      document.errors.map((e) => ({
        ...problem(
          'overlay/yaml',
          '',
          e.message.split('\n')[0] ?? 'unreadable',
          'YAML',
          'Mend the line; see docs/rules.md for an example.',
        ),
        line: counter.linePos(e.pos[0]).line,
      })),
    )
  }
  const lineOf = (path: readonly (string | number)[]): number | undefined => {
    const node = path.length === 0 ? document.contents : document.getIn(path, true)
    return isNode(node) && node.range ? counter.linePos(node.range[0]).line : undefined
  }
  if (!isMap(document.contents) || !isFields(js))
    return bad([problem('overlay/shape', '', 'no list of named values', 'an overlay', 'Begin with “plugstead-overlay: 1”.')])
  return readFields(js, lineOf, tablesFor)
}

function readFields(
  js: Fields,
  lineOf: (path: readonly (string | number)[]) => number | undefined,
  tablesFor: (set: RuleSetId) => Tables,
): Result<Overlay> {
  const found: Problem[] = []
  const say = (code: string, path: readonly (string | number)[], was: unknown, wanted: string, mend: string): void => {
    const line = lineOf(path)
    const at = problem(code, pathText(path), shown(was), wanted, mend)
    found.push(line === undefined ? at : { ...at, line })
  }
  const unknownKeys = (o: Fields, known: readonly string[], path: readonly (string | number)[]): void => {
    for (const key of Object.keys(o))
      if (!known.includes(key)) say('overlay/key', [...path, key], key, `one of ${known.join(', ')}`, nearest(key, known))
  }
  const text = (o: Fields, key: string, path: readonly (string | number)[], fallback?: string): string => {
    const value = o[key]
    if (typeof value === 'string' && value.trim() !== '') return value
    if (value === undefined && fallback !== undefined) return fallback
    say('overlay/text', [...path, key], value, 'words', `Write ${key}: followed by words.`)
    return ''
  }
  const oneOf = <T extends string>(
    o: Fields,
    key: string,
    all: readonly T[],
    path: readonly (string | number)[],
    fallback?: T,
  ): T => {
    const value = o[key]
    if (value === undefined && fallback !== undefined) return fallback
    const hit = all.find((one) => one === value)
    if (hit === undefined) say('overlay/choice', [...path, key], value, `one of ${all.join(', ')}`, nearest(String(value), all))
    return hit ?? (all[0] as T)
  }

  unknownKeys(js, HEAD, [])
  if (js['plugstead-overlay'] !== 1)
    say(
      'overlay/version',
      ['plugstead-overlay'],
      js['plugstead-overlay'],
      '1',
      'Write “plugstead-overlay: 1”, or update the program for a newer file.',
    )
  const head = {
    id: text(js, 'id', []),
    title: text(js, 'title', []),
    kind: oneOf(js, 'kind', KINDS, []),
    set: oneOf(js, 'set', SETS, []),
    invented: js.invented === true,
    source: text(js, 'source', []),
    date: text(js, 'date', []),
    provenance: oneOf(js, 'provenance', WORDS, [], 'told'),
  }
  if (js.invented !== undefined && typeof js.invented !== 'boolean')
    say('overlay/flag', ['invented'], js.invented, 'true or false', 'Write true or false.')
  if (head.date !== '' && !isDate(head.date))
    say('overlay/date', ['date'], head.date, 'a date as 2026-01-31', 'Write the date of the text, in quotes.')

  const tables = tablesFor(head.set)
  const tableNamed = (o: Fields, path: readonly (string | number)[]): Table | null => {
    const id = text(o, 'table', path)
    const table = tables[id]
    if (table === undefined && id !== '')
      say('overlay/table', [...path, 'table'], id, `a table of ${head.set}`, nearest(id, Object.keys(tables)))
    return table ?? null
  }
  const ground = (o: Fields, path: readonly (string | number)[]) => ({
    source: text(o, 'source', path, head.source),
    provenance: oneOf(o, 'provenance', WORDS, path, head.provenance),
    why: text(o, 'why', path),
  })
  const list = (key: string): readonly unknown[] => {
    const value = js[key]
    if (value === undefined) return []
    if (Array.isArray(value)) return value
    say('overlay/list', [key], value, 'a list', `Put a dash before each entry of ${key}.`)
    return []
  }

  const changes = list('changes').flatMap((entry, i): OverlayChange[] => {
    const path = ['changes', i] as const
    if (!isFields(entry)) {
      say(
        'overlay/shape',
        path,
        entry,
        'table, row, column, value, why',
        'Name the table, the row, the column, the new value and why.',
      )
      return []
    }
    unknownKeys(entry, CHANGE, path)
    const from = ground(entry, path)
    const table = tableNamed(entry, path)
    if (table === null) return []
    const row = rowOf(table, entry.row)
    if (row < 0)
      say(
        'overlay/row',
        [...path, 'row'],
        entry.row,
        `a row of ${table.id}`,
        `${nearest(
          String(entry.row),
          table.rows.map((r) => String(r[0])),
        )} Where the first cell stands in more than one row, name further columns: row: { kind: EMT, trade: 1/2 }.`,
      )
    const column = text(entry, 'column', path)
    const at = table.columns.indexOf(column)
    if (at < 0 && column !== '')
      say('overlay/column', [...path, 'column'], column, `one of ${table.columns.join(', ')}`, nearest(column, table.columns))
    if (!('value' in entry) || !isCell(entry.value))
      say(
        'overlay/value',
        [...path, 'value'],
        entry.value,
        'a number, words, nothing (null) or a list of numbers',
        'Write the value as the text prints it.',
      )
    else if (row >= 0 && at >= 0 && !likeIts(table, row, at, entry.value, tables)) {
      say(
        'overlay/value',
        [...path, 'value'],
        entry.value,
        `a value like the one there now, ${shown(table.rows[row]?.[at])}`,
        'Write one of the same kind and sign: numbers as numbers, lists rising, sizes as the ampacity table names them.',
      )
    } else if (row >= 0 && at >= 0) return [{ table: table.id, row, column, value: entry.value, ...from }]
    return []
  })
  const adds = list('adds').flatMap((entry, i): OverlayRow[] => {
    const path = ['adds', i] as const
    if (!isFields(entry)) {
      say('overlay/shape', path, entry, 'table, cells, why', 'Name the table, the cells of the new row and why.')
      return []
    }
    unknownKeys(entry, ADD, path)
    const from = ground(entry, path)
    const table = tableNamed(entry, path)
    if (table === null) return []
    const cells = entry.cells
    if (!Array.isArray(cells) || cells.length !== table.columns.length || !cells.every(isCell)) {
      say(
        'overlay/cells',
        [...path, 'cells'],
        cells,
        `${table.columns.length} cells: ${table.columns.join(', ')}`,
        'Write one cell for each column, null for an empty one.',
      )
      return []
    }
    if (table.rows.some((r) => String(r[0]) === String(cells[0]))) {
      say(
        'overlay/row-there',
        [...path, 'cells'],
        cells[0],
        'a row that is not there yet',
        'Change the row that is there, under “changes”.',
      )
      return []
    }
    return [{ table: table.id, cells: cells as Cell[], ...from }]
  })
  if (found.length === 0 && changes.length + adds.length === 0)
    say('overlay/empty', [], 'no change', 'changes or adds', 'Name at least one row that it changes, or leave the overlay out.')
  return found.length > 0 ? bad(found) : ok({ ...head, changes, adds })
}

/** Row by its first cell where that is the only one, else by several named cells; −1 when there is none or more than one. */
function rowOf(table: Table, key: unknown): number {
  if (typeof key === 'string' || typeof key === 'number') {
    return table.rows.filter((row) => String(row[0]) === String(key)).length === 1 ? rowIndex(table, key) : -1
  }
  if (!isFields(key) || Object.keys(key).length === 0) return -1
  const wanted = Object.entries(key)
  if (!wanted.every(([column, value]) => table.columns.includes(column) && isCell(value))) return -1
  const hits = table.rows.filter((row) =>
    wanted.every(([column, value]) => String(row[table.columns.indexOf(column)]) === String(value)),
  )
  return hits.length === 1 ? table.rows.indexOf(hits[0] as (typeof hits)[number]) : -1
}

/** A number stays a number and above zero, a list stays a rising list, a size stays a size of the table. */
function likeIts(table: Table, row: number, at: number, value: Cell, tables: Tables): boolean {
  const was = table.rows[row]?.[at] ?? null
  const choices = choicesOf(String(table.rows[row]?.[0]), table.columns[at] as string)
  if (choices !== null) return choices.includes(String(value))
  if (was === null) return true
  if (Array.isArray(was)) return Array.isArray(value) && value.every((n, i) => n > 0 && (i === 0 || n > (value[i - 1] as number)))
  if (typeof was !== typeof value || value === null) return false
  if (typeof value === 'number') return !((was as number) > 0 && value <= 0)
  const unit = table.rows[row]?.[table.columns.indexOf('unit')]
  return unit !== 'size' || (tables['us-ampacity']?.rows.some((r) => String(r[0]) === value) ?? false)
}

/** Open brackets, or dashes on one line, beyond what any overlay has: the YAML reader takes seconds over them. */
function tooDeep(text: string): boolean {
  let open = 0
  for (const c of text) {
    if (c === '[' || c === '{') open += 1
    else if (c === ']' || c === '}') open = Math.max(0, open - 1)
    if (open > MAX_DEPTH) return true
  }
  return text
    .split('\n')
    .some(
      (line) =>
        (/^[\s-]*/.exec(line)?.[0].split('-').length ?? 0) > MAX_DEPTH + 1 ||
        (/^(?:\s*[?:] )+/.exec(line)?.[0].length ?? 0) > 2 * MAX_DEPTH,
    )
}

const isFields = (v: unknown): v is Fields => typeof v === 'object' && v !== null && !Array.isArray(v)
const isCell = (c: unknown): c is Cell =>
  c === null ||
  typeof c === 'string' ||
  (typeof c === 'number' && Number.isFinite(c)) ||
  (Array.isArray(c) && c.length > 0 && c.every((n) => typeof n === 'number' && Number.isFinite(n)))
const isDate = (text: string): boolean =>
  /^\d{4}-\d{2}-\d{2}$/.test(text) &&
  !Number.isNaN(Date.parse(text)) &&
  new Date(`${text}T00:00:00Z`).toISOString().startsWith(text)
const bad = (problems: readonly Problem[]): Result<never> => ({ ok: false, problems })
const shown = (v: unknown): string =>
  v === undefined ? 'nothing' : typeof v === 'string' ? `“${v.slice(0, 60)}”` : (JSON.stringify(v) ?? String(v)).slice(0, 60)
const pathText = (path: readonly (string | number)[]): string =>
  path.reduce<string>(
    (text, part) => (typeof part === 'number' ? `${text}[${part}]` : text === '' ? part : `${text}.${part}`),
    '',
  )
const problem = (code: string, path: string, found: string, wanted: string, mend: string): Problem =>
  path === '' ? { code, found, wanted, mend } : { code, path, found, wanted, mend }

function nearest(long: string, all: readonly string[]): string {
  const found = long.slice(0, 60)
  const best = all
    .map((one) => ({ one, far: distance(found.toLowerCase(), one.toLowerCase()) }))
    .sort((a, b) => a.far - b.far || (a.one < b.one ? -1 : 1))[0]
  return best !== undefined && best.far <= Math.max(2, found.length / 3)
    ? `Did you mean “${best.one}”?`
    : 'See docs/rules.md for the names.'
}

/** Edits between two words (Levenshtein, one row at a time). */
function distance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j)
  for (let i = 1; i <= a.length; i++) {
    const next = [i]
    for (let j = 1; j <= b.length; j++) {
      next.push(
        Math.min((next[j - 1] as number) + 1, (row[j] as number) + 1, (row[j - 1] as number) + (a[i - 1] === b[j - 1] ? 0 : 1)),
      )
    }
    row = next
  }
  return row[b.length] as number
}
