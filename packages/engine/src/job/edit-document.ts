import { isMap, isScalar, isSeq, type Node, type Pair, type Scalar, type YAMLMap } from 'yaml'
import type { Problem, Result } from '../kernel/index.ts'
import { openDocument, type Path } from './document.ts'

/** What a value of a document may be set to. */
export type Plain = string | number | boolean | null | readonly Plain[] | { readonly [key: string]: Plain }

/** One change of a document: `value` absent takes what stands at `path` away. */
export interface DocumentEdit {
  readonly path: Path
  readonly value?: Plain
}

/**
 * The document with these values set or taken away, one after the other. Only the lines of what changes are touched: comments, order,
 * quoting and line ends of all else stay byte for byte. Groups that are not there yet are written.
 */
export function editDocument(text: string, edits: readonly DocumentEdit[]): Result<string> {
  let now = text
  for (const edit of edits) {
    const next = edited(now, edit)
    if (!next.ok) return next
    now = next.value
  }
  return { ok: true, value: now }
}

/** What stands at a path, as plain data; undefined when nothing does. */
export function valueIn(text: string, path: Path): Plain | undefined {
  const opened = openDocument(text)
  if (!opened.ok) return undefined
  return path.reduce<unknown>(
    (at, step) => (at !== null && typeof at === 'object' ? (at as Record<string, unknown>)[step as string] : undefined),
    opened.value.raw,
  ) as Plain | undefined
}

function edited(text: string, { path, value }: DocumentEdit): Result<string> {
  const opened = openDocument(text)
  if (!opened.ok) return opened
  let node = opened.value.yaml.contents as Node | null
  for (const [depth, step] of path.entries()) {
    const last = depth === path.length - 1
    if (isSeq(node) && typeof step === 'number') {
      const item = node.items[step] as Node | undefined
      if (item === undefined) return refused(path)
      if (last) return value === undefined ? refused(path) : { ok: true, value: replaced(text, item, value) }
      node = item
      continue
    }
    if (!isMap(node)) return refused(path)
    const pair = node.items.find((item) => isScalar(item.key) && String(item.key.value) === String(step)) as
      | Pair<Scalar, Node>
      | undefined
    if (pair === undefined)
      return value === undefined ? { ok: true, value: text } : { ok: true, value: inserted(text, node, path.slice(depth), value) }
    if (!last && pair.value !== null && (isMap(pair.value) || isSeq(pair.value))) {
      node = pair.value
      continue
    }
    if (!last) return refused(path)
    return { ok: true, value: value === undefined ? without(text, node, pair) : replaced(text, pair.value, value, pair) }
  }
  return refused(path)
}

function refused(path: Path): Result<string> {
  const problem: Problem = {
    ...{ code: 'job/edit-place', path: path.join('.'), found: 'another kind of value on the way there' },
    ...{ wanted: 'a place in the document', mend: 'Write it into the document by hand.' },
  }
  return { ok: false, problems: [problem] }
}

const nested = (path: Path, value: Plain): Plain => path.reduceRight<Plain>((inner, step) => ({ [String(step)]: inner }), value)

/** In the form that is both YAML and JSON; a word that YAML reads as itself goes without quotes. */
function flow(value: Plain): string {
  if (typeof value === 'string')
    return /^[A-Za-z0-9][\w .%/°-]*[\w%°)]$|^[A-Za-z0-9]$/.test(value) && readsAsItself(value) ? value : JSON.stringify(value)
  if (Array.isArray(value)) return `[${value.map(flow).join(', ')}]`
  if (value !== null && typeof value === 'object')
    return `{ ${Object.entries(value)
      .map(([k, v]) => `${JSON.stringify(k)}: ${flow(v as Plain)}`)
      .join(', ')} }`
  return String(value)
}

function readsAsItself(word: string): boolean {
  const read = openDocument(`k: ${word}\n`)
  return read.ok && read.value.problems.length === 0 && (read.value.raw as { k: unknown }).k === word
}

function replaced(text: string, node: Node | null, value: Plain, pair?: Pair<Scalar, Node>): string {
  if (node?.range == null) {
    const at = pair?.key.range?.[1] ?? text.length
    const colon = text.indexOf(':', at) + 1
    return `${text.slice(0, colon)} ${flow(value)}${text.slice(colon)}`
  }
  const [from] = node.range
  const end = endOf(node)
  // A block value begins on a line of its own: the new one follows the key.
  const start = isBlock(node) && pair !== undefined ? text.indexOf(':', pair.key.range?.[1] ?? from) + 1 : from
  return `${text.slice(0, start)}${start === from ? '' : ' '}${flow(value)}${text.slice(end)}`
}

const isBlock = (node: Node): boolean => (isMap(node) || isSeq(node)) && node.flow !== true

/** End of the last thing written in a node: a block's own range runs on over comments and blank lines. */
function endOf(node: Node): number {
  if (isMap(node) && node.flow !== true) {
    const last = node.items.at(-1) as Pair<Scalar, Node | null> | undefined
    if (last !== undefined) return last.value?.range == null ? (last.key.range?.[1] ?? 0) + 1 : endOf(last.value)
  }
  if (isSeq(node) && node.flow !== true) {
    const last = node.items.at(-1) as Node | undefined
    if (last !== undefined) return endOf(last)
  }
  const [from, to] = node.range as [number, number, number]
  return Math.max(from, to)
}

function without(text: string, map: YAMLMap, pair: Pair<Scalar, Node>): string {
  const from = pair.key.range?.[0] ?? 0
  const to = pair.value?.range == null ? (pair.key.range?.[1] ?? from) + 1 : endOf(pair.value)
  if (map.flow === true) {
    const at = map.items.indexOf(pair as never)
    const next = map.items[at + 1] as Pair<Scalar> | undefined
    if (next !== undefined) return text.slice(0, from) + text.slice(next.key.range?.[0] ?? to)
    const before = map.items[at - 1] as Pair<Scalar, Node> | undefined
    return text.slice(0, before?.value?.range == null ? from : endOf(before.value)) + text.slice(to)
  }
  // The last line of a group leaves an empty group behind.
  if (map.items.length === 1) return `${text.slice(0, from)}{}${text.slice(to)}`
  const lineStart = text.lastIndexOf('\n', from - 1) + 1
  const first = text.slice(lineStart, from).trim() !== ''
  const next = text.indexOf('\n', to)
  const lineEnd = next < 0 ? text.length : next + 1
  if (!first) return text.slice(0, lineStart) + text.slice(lineEnd)
  // Behind a dash of a list: what comes next moves up to it.
  const follows = map.items[1] as Pair<Scalar>
  return text.slice(0, from) + text.slice(follows.key.range?.[0] ?? lineEnd)
}

/** A value at the end of a group. The groups on the way to it that are not there yet get a line each. */
function inserted(text: string, map: YAMLMap, path: Path, value: Plain): string {
  const last = map.items.at(-1) as Pair<Scalar, Node | null> | undefined
  if (map.flow === true || last === undefined) {
    const [from, to] = map.range as [number, number, number]
    const entry = `${JSON.stringify(String(path[0]))}: ${flow(nested(path.slice(1), value))}`
    if (last === undefined) return `${text.slice(0, from)}{ ${entry} }${text.slice(to)}`
    const at = last.value?.range == null ? (last.key.range?.[1] ?? 0) : endOf(last.value)
    return `${text.slice(0, at)}, ${entry}${text.slice(at)}`
  }
  const newline = text.includes('\r\n') ? '\r\n' : '\n'
  const first = (map.items[0] as Pair<Scalar>).key.range?.[0] ?? 0
  const indent = first - (text.lastIndexOf('\n', first - 1) + 1)
  const lines = path.map((step, depth) => {
    const name = /^[A-Za-z][\w.-]*$/.test(String(step)) ? String(step) : JSON.stringify(String(step))
    return `${' '.repeat(indent + 2 * depth)}${name}:${depth === path.length - 1 ? ` ${flow(value)}` : ''}`
  })
  const end = last.value?.range == null ? (last.key.range?.[1] ?? 0) + 1 : endOf(last.value)
  const next = text.indexOf('\n', end)
  const line = next < 0 ? text.length : next
  const at = line > 0 && text[line - 1] === '\r' ? line - 1 : line
  return `${text.slice(0, at)}${newline}${lines.join(newline)}${text.slice(at)}`
}
