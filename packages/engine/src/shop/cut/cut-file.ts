import { isMap, isSeq, LineCounter, type Node, parseDocument } from 'yaml'
import type { Problem, Result } from '../../kernel/index.ts'
import { decimalPlaces } from './exact.ts'
import { PIECES_MOST } from './plan.ts'

/** A list to cut, as a file has it. Lengths in the file's own unit. */
export interface CutFile {
  readonly title: string
  readonly unit: Unit
  /** A bar may have a second limit beside its length: then a length is a pair. */
  readonly limits: 1 | 2
  readonly stocks: readonly {
    readonly length: number
    readonly length2: number
    readonly cost: number | null
    readonly count: number | null
  }[]
  readonly kerf: number
  /** Somebody wrote the kerf, be it 0. */
  readonly kerfSaid: boolean
  readonly trim: number
  readonly items: readonly { readonly size: number; readonly size2: number; readonly demand: number }[]
  /** Keys of the file that say nothing about the cut. */
  readonly notRead: readonly string[]
}

/** Units of length, and `1`: a number without one, taken as millimetres. */
export const UNITS_MM = { mm: 1, cm: 10, m: 1000, in: 25.4, ft: 304.8, '1': 1 } as const
type Unit = keyof typeof UNITS_MM

const BYTES_MOST = 2_000_000
const KINDS_MOST = 1000
const LENGTH_MOST = 1e7
const DEPTH_MOST = 12

const KEYS = [
  'capacity',
  'capacity2',
  'capacity_2',
  'stock_length',
  'stock_length2',
  'stock_length_2',
  'stocks',
  'kerf',
  'trim',
  'items',
  'unit',
  'id',
  'title',
] as const
const STOCK_KEYS = ['length', 'length2', 'length_2', 'cost', 'count', 'id', 'label']
const ITEM_KEYS = ['size', 'size2', 'size_2', 'demand', 'id', 'label']
const SHAPE = 'an object with capacity, or stock_length, or stocks, and with items'

/** Reads a list to cut (docs/shop-cutting.md). All problems at once, each with its place; never throws on any text. */
export function readCutFile(text: string): Result<CutFile> {
  if (text.length > BYTES_MOST)
    return refused('too-large', `${text.length} characters`, `at most ${BYTES_MOST}`, 'Split the list.')
  let raw: unknown
  try {
    raw = JSON.parse(text)
  } catch (error) {
    const place = /line (\d+) column (\d+)/.exec(String(error))
    return refused(
      'not-json',
      'text that is not JSON',
      SHAPE,
      'Correct it there, or export it again.',
      place === null ? {} : { line: Number(place[1]), column: Number(place[2]) },
    )
  }
  if (depthOf(raw, 0) > DEPTH_MOST) return refused('too-deep', `nesting deeper than ${DEPTH_MOST}`, SHAPE, 'Name a list to cut.')
  if (!isObject(raw)) return refused('not-a-list', shown(raw), SHAPE, 'Name a list to cut; its shape is in docs/shop-cutting.md.')
  const reader = new Reader(text)
  const file = fileFrom(raw, reader)
  return reader.problems.length > 0 ? { ok: false, problems: reader.problems } : { ok: true, value: file }
}

function refused(
  code: string,
  found: string,
  wanted: string,
  mend: string,
  place: Pick<Problem, 'line' | 'column'> = {},
): Result<never> {
  return { ok: false, problems: [{ code: `cut/${code}`, found, wanted, mend, ...place }] }
}

function depthOf(value: unknown, depth: number): number {
  if (typeof value !== 'object' || value === null || depth > DEPTH_MOST) return depth
  return Object.values(value).reduce((most: number, one) => Math.max(most, depthOf(one, depth + 1)), depth)
}

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/** A value as a person finds it again. */
function shown(value: unknown): string {
  if (value === undefined) return 'nothing'
  const text = JSON.stringify(value) ?? String(value)
  return text.length > 60 ? `${text.slice(0, 57)}…` : text
}

type Path = readonly (string | number)[]

/** Gathers problems and knows the line of each place. */
class Reader {
  readonly problems: Problem[] = []
  readonly #lines = new LineCounter()
  readonly #root: Node | null

  constructor(text: string) {
    const document = parseDocument(text, { lineCounter: this.#lines, uniqueKeys: true })
    this.#root = document.contents
    for (const error of document.errors) {
      if (error.code !== 'DUPLICATE_KEY') continue
      const { line, col } = this.#lines.linePos(error.pos[0])
      this.problems.push({
        code: 'cut/key-twice',
        line,
        column: col,
        found: 'a key for the second time',
        wanted: 'each key once',
        mend: 'Leave one of them out.',
      })
    }
  }

  say(code: string, path: Path, found: string, wanted: string, mend: string): void {
    const node = this.#nodeAt(path)
    const place = node?.range == null ? null : this.#lines.linePos(node.range[0])
    this.problems.push({
      code: `cut/${code}`,
      ...(place === null ? {} : { line: place.line, column: place.col }),
      path: path.map((part, at) => (typeof part === 'number' ? `[${part}]` : at === 0 ? part : `.${part}`)).join(''),
      found,
      wanted,
      mend,
    })
  }

  #nodeAt(path: Path): Node | null {
    let node = this.#root
    for (const part of path) {
      const next = isMap(node) ? node.get(part, true) : isSeq(node) ? node.get(part, true) : undefined
      if (next === undefined || next === null) return node
      node = next as Node
    }
    return node
  }
}

function fileFrom(raw: Readonly<Record<string, unknown>>, reader: Reader): CutFile {
  const notRead = unknownKeys(raw, reader)
  const unit = unitOf(raw.unit, reader)
  const kerf = raw.kerf === undefined ? 0 : number(raw.kerf, ['kerf'], 'a width of 0 or more', (n) => n >= 0, reader)
  const trim = raw.trim === undefined ? 0 : number(raw.trim, ['trim'], 'a length of 0 or more', (n) => n >= 0, reader)
  const items = itemsOf(raw.items, reader)
  const stocks = stocksOf(raw, reader)
  const pairs = [...items.map((item) => item.size2), ...stocks.map((stock) => stock.length2)]
  const limits = pairs.some((second) => second !== null) ? 2 : 1
  if (limits === 2) {
    items.forEach((item, at) => {
      if (item.size2 === null)
        reader.say(
          'second-missing',
          ['items', at],
          'one number',
          'a pair, as elsewhere in the file',
          'Write “size”: [first, second].',
        )
    })
    stocks.forEach((stock) => {
      if (stock.length2 === null)
        reader.say('second-missing', stock.path, 'one number', 'a pair, as elsewhere in the file', 'Write [first, second].')
    })
  }
  for (const stock of stocks)
    if (kerf > 0 && kerf >= stock.length && stock.length > 0)
      reader.say(
        'kerf-too-wide',
        ['kerf'],
        String(kerf),
        `less than the stock’s ${stock.length}`,
        'Write the width of the saw’s cut.',
      )
  const total = items.reduce((sum, item) => sum + item.demand, 0)
  if (total > PIECES_MOST) reader.say('too-many', ['items'], `${total} pieces`, `at most ${PIECES_MOST}`, 'Split the list.')
  return {
    title: typeof raw.title === 'string' ? raw.title : typeof raw.id === 'string' ? raw.id : '',
    unit,
    limits,
    stocks: stocks.map(({ length, length2, cost, count }) => ({ length, length2: length2 ?? 0, cost, count })),
    kerf,
    kerfSaid: raw.kerf !== undefined || raw.stock_length !== undefined,
    trim,
    items: items.map(({ size, size2, demand }) => ({ size, size2: size2 ?? 0, demand })),
    notRead,
  }
}

/** A key that is all but one of ours would be passed over in silence, and a kerf with it. */
function unknownKeys(raw: Readonly<Record<string, unknown>>, reader: Reader): readonly string[] {
  const plain = (key: string): string =>
    key
      .toLowerCase()
      .replace(/[^a-z0-9]/g, '')
      .replace(/(mm|in)$/, '')
  const others = Object.keys(raw).filter((key) => !(KEYS as readonly string[]).includes(key))
  for (const key of others) {
    const meant = KEYS.find((one) => plain(one) === plain(key))
    if (meant !== undefined) reader.say('key-unknown', [key], key, meant, `Write “${meant}”; lengths are in the file’s unit.`)
  }
  return others
}

function unitOf(value: unknown, reader: Reader): Unit {
  if (value === undefined) return 'mm'
  if (typeof value === 'string' && Object.hasOwn(UNITS_MM, value)) return value as Unit
  reader.say('unit', ['unit'], shown(value), `one of ${Object.keys(UNITS_MM).join(', ')}`, 'Write “unit”: "mm".')
  return 'mm'
}

function number(value: unknown, path: Path, wanted: string, good: (n: number) => boolean, reader: Reader): number {
  const mend =
    typeof value === 'string' && Number.isFinite(Number(value)) && value.trim() !== ''
      ? `Write ${value.trim()} without quotes.`
      : 'Write a number.'
  if (typeof value !== 'number' || !Number.isFinite(value) || !good(value) || value > LENGTH_MOST) {
    reader.say(
      'number',
      path,
      shown(value),
      `${wanted}, at most ${LENGTH_MOST}`,
      typeof value === 'number' ? 'Correct it.' : mend,
    )
    return 0
  }
  if (decimalPlaces(value) === null) {
    reader.say('too-fine', path, shown(value), 'at most six decimals', 'Round it.')
    return 0
  }
  return value
}

const positive = (n: number): boolean => n > 0
const whole = (n: number): boolean => Number.isInteger(n) && n >= 0

/** A length, or a pair of it with the second limit; the second may stand under a key of its own. */
function pair(raw: Readonly<Record<string, unknown>>, key: string, path: Path, reader: Reader): readonly [number, number | null] {
  const value = raw[key]
  const own = raw[`${key}_2`] === undefined ? `${key}2` : `${key}_2`
  const at = [...path, key]
  if (Array.isArray(value)) {
    if (value.length !== 2 || raw[own] !== undefined) {
      reader.say('pair', at, shown(value), 'two numbers, [first, second]', 'Write both limits in one pair.')
      return [0, null]
    }
    return [
      number(value[0], [...at, 0], 'more than 0', positive, reader),
      number(value[1], [...at, 1], '0 or more', (n) => n >= 0, reader),
    ]
  }
  const first = number(value, at, 'more than 0', positive, reader)
  return [first, raw[own] === undefined ? null : number(raw[own], [...path, own], '0 or more', (n) => n >= 0, reader)]
}

function list(value: unknown, path: Path, of: string, reader: Reader): readonly (Readonly<Record<string, unknown>> | null)[] {
  if (!Array.isArray(value) || value.length === 0) {
    reader.say('list', path, shown(value), `a list of ${of}`, `Write “${path[0]}”: [{ … }].`)
    return []
  }
  if (value.length > KINDS_MOST) reader.say('too-many', path, `${value.length} rows`, `at most ${KINDS_MOST}`, 'Split the list.')
  return value.slice(0, KINDS_MOST).map((one, at) => {
    if (isObject(one)) return one
    reader.say('row', [...path, at], shown(one), of, 'Write an object.')
    return null
  })
}

function strangers(row: Readonly<Record<string, unknown>>, known: readonly string[], path: Path, reader: Reader): void {
  for (const key of Object.keys(row))
    if (!known.includes(key))
      reader.say(
        'key-unknown',
        [...path, key],
        key,
        `one of ${known.join(', ')}`,
        `Leave “${key}” out, or write the one that was meant.`,
      )
}

function itemsOf(value: unknown, reader: Reader) {
  return list(value, ['items'], 'pieces, each with size and demand', reader).flatMap((row, at) => {
    if (row === null) return []
    const path = ['items', at]
    strangers(row, ITEM_KEYS, path, reader)
    const [size, size2] = pair(row, 'size', path, reader)
    const demand = number(row.demand, [...path, 'demand'], 'a whole number', whole, reader)
    return [{ size, size2, demand }]
  })
}

function stocksOf(raw: Readonly<Record<string, unknown>>, reader: Reader) {
  const ways = ['capacity', 'stock_length', 'stocks'].filter((key) => raw[key] !== undefined)
  if (ways.length !== 1) {
    reader.say(
      'stock',
      [ways[1] ?? ''],
      ways.length === 0 ? 'no stock' : ways.join(' and '),
      'one of capacity, stock_length, stocks',
      'Say once what is cut from.',
    )
    return []
  }
  if (raw.stocks === undefined) {
    const key = ways[0]!
    const [length, length2] = pair(raw, key, [], reader)
    return [{ path: [key] as Path, length, length2, cost: null, count: null }]
  }
  const rows = list(raw.stocks, ['stocks'], 'stock, each with length and perhaps cost and count', reader)
  const stocks = rows.flatMap((row, at) => {
    if (row === null) return []
    const path: Path = ['stocks', at]
    strangers(row, STOCK_KEYS, path, reader)
    const [length, length2] = pair(row, 'length', path, reader)
    const cost =
      row.cost === undefined || row.cost === null ? null : number(row.cost, [...path, 'cost'], '0 or more', (n) => n >= 0, reader)
    const count =
      row.count === undefined || row.count === null
        ? null
        : number(row.count, [...path, 'count'], 'a whole number', whole, reader)
    return [{ path, length, length2, cost, count }]
  })
  const priced = stocks.filter((stock) => stock.cost !== null).length
  if (priced > 0 && priced < stocks.length)
    stocks.forEach((stock) => {
      if (stock.cost === null)
        reader.say(
          'cost-missing',
          stock.path,
          'no cost',
          'a cost, as the other stock has',
          'Write its cost, 0 for an offcut, or leave out all costs to count bars.',
        )
    })
  return stocks
}
