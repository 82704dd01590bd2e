import { LineCounter, parseDocument } from 'yaml'
import { type Problem, parseQuantity, type Result } from '../kernel/index.ts'
import type { Price, Prices } from './prices.ts'

const CURRENCY = /^[A-Z]{3}$/

/** A table longer than this is not one a shop wrote by hand. */
const MOST_BYTES = 4_000_000

/**
 * Reads a price table: `currency`, and `rows` of `{ id, money, per, date, source }`, with `supplier`, `pack`, `waste` and another `currency` where there are such. All problems at once, each with its line. A row
 * without a date or source is read, and flagged wherever it is used.
 */
export function readPrices(text: string, file?: string): Result<Prices> {
  const found: Problem[] = []
  const lines = new LineCounter()
  const at = (offset: number | undefined) => (offset === undefined ? {} : { line: lines.linePos(offset).line })
  const say = (code: string, problem: Omit<Problem, 'code' | 'file'>) => {
    found.push({ code, ...(file === undefined ? {} : { file }), ...problem })
  }
  if (text.length > MOST_BYTES) {
    say('prices/too-long', {
      found: `${text.length} characters`,
      wanted: `at most ${MOST_BYTES}`,
      mend: 'Split the table into several files.',
    })
    return { ok: false, problems: found }
  }
  const plain = plainPrices(text)
  if (plain !== null) return { ok: true, value: plain }
  return readAnyYaml(text, found, say, at, lines)
}

type SayAt = (code: string, problem: Omit<Problem, 'code' | 'file'>) => void

function readAnyYaml(
  text: string,
  found: readonly Problem[],
  say: SayAt,
  at: (offset: number | undefined) => { line?: number },
  lines: LineCounter,
): Result<Prices> {
  const doc = parseDocument(text, { lineCounter: lines, uniqueKeys: true, merge: false })
  for (const error of doc.errors)
    say('prices/yaml', {
      ...at(error.pos[0]),
      found: error.message.split('\n')[0] ?? 'not YAML',
      wanted: 'YAML',
      mend: 'Mend the line, or start from the table that comes with the program.',
    })
  if (found.length > 0) return { ok: false, problems: found }
  let value: unknown
  try {
    value = doc.toJS({ maxAliasCount: 50 })
  } catch {
    say('prices/aliases', { found: 'too many aliases', wanted: 'plain rows', mend: 'Write the rows out.' })
    return { ok: false, problems: found }
  }
  if (!isRecord(value)) {
    say('prices/shape', {
      found: kindOf(value),
      wanted: 'a map with currency and rows',
      mend: 'Begin with “currency: USD”, then “rows:”.',
    })
    return { ok: false, problems: found }
  }
  const { currency, rows } = value
  if (typeof currency !== 'string' || !CURRENCY.test(currency)) {
    say('prices/currency', {
      path: 'currency',
      found: kindOf(currency),
      wanted: 'a currency of three capital letters',
      mend: 'Write for example “currency: USD”.',
    })
  }
  for (const key of Object.keys(value)) {
    if (!['currency', 'rows', 'note'].includes(key))
      say('prices/unknown-key', { path: key, found: key, wanted: 'currency, rows or note', mend: 'Remove the key.' })
  }
  if (!Array.isArray(rows))
    say('prices/rows', {
      path: 'rows',
      found: kindOf(rows),
      wanted: 'a list of rows',
      mend: 'Write each price as “- { id: …, money: …, per: …, date: …, source: … }”.',
    })
  const out: Record<string, Price> = {}
  const list: readonly unknown[] = Array.isArray(rows) ? rows : []
  list.forEach((row, i) => {
    const node = doc.getIn(['rows', i], true) as { range?: readonly number[] } | undefined
    const price = readRow(row, (code, problem) =>
      say(code, {
        ...at(node?.range?.[0]),
        path: `rows[${i}]${problem.path ?? ''}`,
        found: problem.found,
        wanted: problem.wanted,
        mend: problem.mend,
      }),
    )
    if (price === null) return
    if (Object.hasOwn(out, price.id))
      say('prices/twice', {
        ...at(node?.range?.[0]),
        path: `rows[${i}].id`,
        found: price.id,
        wanted: 'each id once',
        mend: 'Keep one of the rows.',
      })
    else out[price.id] = price
  })
  if (found.length > 0) return { ok: false, problems: found }
  return { ok: true, value: { currency: currency as string, rows: withoutOwn(out, currency as string) } }
}

/** The table's own currency, written again at a row, says nothing more. */
function withoutOwn(rows: Readonly<Record<string, Price>>, currency: string): Readonly<Record<string, Price>> {
  return Object.fromEntries(
    Object.entries(rows).map(([id, { currency: own, ...price }]) => [
      id,
      own === undefined || own === currency ? price : { ...price, currency: own },
    ]),
  )
}

type Say = (code: string, problem: Omit<Problem, 'code' | 'file' | 'line'>) => void
const KEYS = ['id', 'money', 'per', 'date', 'source', 'supplier', 'pack', 'waste', 'currency']

function readRow(row: unknown, say: Say): Price | null {
  if (!isRecord(row)) {
    say('prices/row', {
      found: kindOf(row),
      wanted: 'a map with id, money, per, date, source',
      mend: 'Write “{ id: …, money: …, per: …, date: …, source: … }”.',
    })
    return null
  }
  for (const key of Object.keys(row))
    if (!KEYS.includes(key))
      say('prices/unknown-key', { path: `.${key}`, found: key, wanted: KEYS.join(', '), mend: 'Remove the key.' })
  const { id, money, per } = row
  if (typeof id !== 'string' || id.trim() === '') {
    say('prices/id', {
      path: '.id',
      found: kindOf(id),
      wanted: 'a name as the lists use it',
      mend: 'Write for example “id: conductor/12 AWG/cu”.',
    })
    return null
  }
  if (typeof money !== 'number' || !Number.isFinite(money) || money < 0) {
    say('prices/money', {
      path: '.money',
      found: typeof money === 'number' ? String(money) : kindOf(money),
      wanted: 'an amount of money, 0 or more',
      mend: `Write the price of ${id} as a plain number.`,
    })
    return null
  }
  if (typeof per !== 'string' || per === '') {
    say('prices/per', {
      path: '.per',
      found: kindOf(per),
      wanted: 'm, m2, each or h',
      mend: `Say what the price of ${id} is for.`,
    })
    return null
  }
  const more = moreOf(row, id, say)
  if (more === null) return null
  return { id, money, per, date: dateText(row.date), source: typeof row.source === 'string' ? row.source.trim() : '', ...more }
}

/** Who sells it, in what packs, how much is spoiled, and another currency; what is absent is not written. */
function moreOf(
  row: Record<string, unknown>,
  id: string,
  say: Say,
): Pick<Price, 'supplier' | 'packCount' | 'wasteFrac' | 'currency'> | null {
  const { supplier, pack, waste, currency } = row
  let sound = true
  const refuse = (key: string, found: unknown, wanted: string, mend: string): void => {
    sound = false
    say(`prices/${key}`, { path: `.${key}`, found: kindOf(found), wanted, mend })
  }
  if (supplier !== undefined && typeof supplier !== 'string')
    refuse('supplier', supplier, 'a name', `Write who sells ${id}, in quotes.`)
  if (pack !== undefined && !(typeof pack === 'number' && pack > 0 && Number.isFinite(pack)))
    refuse('pack', pack, 'a number above 0', `Write how much of ${id} is in one pack.`)
  const share = waste === undefined ? null : parseQuantity(String(waste), 'share')
  if (share !== null && !(share.ok && share.value.value >= 0 && share.value.value <= 1))
    refuse('waste', waste, 'a share from 0 % to 100 %', 'Write for example “waste: 5 %”.')
  if (currency !== undefined && !(typeof currency === 'string' && CURRENCY.test(currency)))
    refuse('currency', currency, 'a currency of three capital letters', 'Write for example “currency: EUR”.')
  if (!sound) return null
  return {
    ...(typeof supplier === 'string' && supplier.trim() !== '' ? { supplier: supplier.trim() } : {}),
    ...(typeof pack === 'number' ? { packCount: pack } : {}),
    ...(share?.ok ? { wasteFrac: share.value.value } : {}),
    ...(typeof currency === 'string' ? { currency } : {}),
  }
}

const dateText = (value: unknown): string =>
  typeof value === 'string' && /^\d{4}-\d{2}-\d{2}$/.test(value.trim()) ? value.trim() : ''
const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
const kindOf = (value: unknown): string =>
  value === undefined
    ? 'nothing'
    : value === null
      ? 'nothing'
      : Array.isArray(value)
        ? 'a list'
        : typeof value === 'object'
          ? 'a map'
          : `“${String(value).slice(0, 40)}”`

const PLAIN_ROW =
  /^- \{ id: '([^'\\]+)', money: (\d+(?:\.\d+)?), per: (m|m2|each|h), date: (\d{4}-\d{2}-\d{2}), source: ([A-Za-z][A-Za-z0-9 ]*[A-Za-z0-9]) \}$/
/** Words that YAML would not read as text. */
const NOT_TEXT = /^(?:true|false|null|yes|no|on|off)$/i

/**
 * A table in the plain form that the program's own comes in, one row a line, read without a YAML parser: it is a hundred times as
 * fast and means the same. Null when a single line is of another form; then the parser reads it all.
 */
function plainPrices(text: string): Prices | null {
  let currency: string | null = null
  let inRows = false
  const rows: Record<string, Price> = {}
  for (const line of text.split('\n')) {
    if (line === '' || line.startsWith('#')) continue
    if (!inRows) {
      const head = /^currency: ([A-Z]{3})$/.exec(line)
      if (head !== null && currency === null) currency = head[1]!
      else if (line === 'rows:') inRows = true
      else if (!/^note: [A-Za-z][A-Za-z0-9 .,]*$/.test(line)) return null
      continue
    }
    const row = PLAIN_ROW.exec(line)
    if (row === null || NOT_TEXT.test(row[5]!) || Object.hasOwn(rows, row[1]!)) return null
    rows[row[1]!] = { id: row[1]!, money: Number(row[2]), per: row[3]!, date: row[4]!, source: row[5]! }
  }
  return currency === null || !inRows ? null : { currency, rows }
}
