import { type Document, isAlias, isMap, isScalar, isSeq, LineCounter, type Node, parseDocument, type Scalar } from 'yaml'
import type { Problem, Result } from '../kernel/index.ts'
import { LIMIT_BYTES, LIMIT_DEPTH, LIMIT_VALUES, problem } from './problems.ts'

export type Path = readonly (string | number)[]

/** A document that is YAML, is made of plain values only, and knows where each of them stands. */
export interface Opened {
  readonly raw: unknown
  readonly yaml: Document
  /** Troubles that leave the values readable: duplicate keys, tags, odd numbers. */
  readonly problems: readonly Problem[]
  /** Line and column of a value, or of its key. Falls back to the nearest group that exists. */
  placeOf(path: Path, at?: 'key' | 'value'): { readonly line: number; readonly column: number }
}

/** Refuses by size and by bytes before anything is parsed; gives the text. `mostBytes`: a job unless said otherwise. */
export function checkBytes(bytes: Uint8Array, mostBytes = LIMIT_BYTES): Result<string> {
  if (bytes.length > mostBytes) return { ok: false, problems: [problem('job/too-large', bytes.length, mostBytes)] }
  if (isUtf16(bytes)) return { ok: false, problems: [{ ...problem('job/two-byte-text'), line: 1, column: 1 }] }
  const odd = bytes.findIndex((b) => b < 9 || (b > 13 && b < 32))
  if (odd >= 0) return { ok: false, problems: [problem('job/binary', odd)] }
  try {
    return { ok: true, value: new TextDecoder('utf-8', { fatal: true }).decode(bytes) }
  } catch {
    return { ok: false, problems: [problem('job/binary', firstBadByte(bytes))] }
  }
}

/** By its mark, or by what plain text becomes in it: a zero beside each letter. */
function isUtf16(bytes: Uint8Array): boolean {
  const [a, b] = bytes
  if ((a === 0xff && b === 0xfe) || (a === 0xfe && b === 0xff)) return true
  const start = bytes.subarray(0, 64)
  if (start.length < 8 || start.length % 2 !== 0) return false
  const zeros = [0, 1].map((side) => start.every((byte, i) => (i % 2 === side) === (byte === 0)))
  return zeros.includes(true)
}

/** Where UTF-8 breaks, by halving. */
function firstBadByte(bytes: Uint8Array): number {
  let low = 0
  let high = bytes.length
  const readable = (n: number): boolean => {
    try {
      new TextDecoder('utf-8', { fatal: true }).decode(bytes.subarray(0, n), { stream: true })
      return true
    } catch {
      return false
    }
  }
  while (low + 1 < high) {
    const middle = (low + high) >> 1
    if (readable(middle)) low = middle
    else high = middle
  }
  return low
}

/** Parses text as YAML 1.2 (JSON is a part of it). Not YAML, too deep, empty: all problems with their lines. Never throws. */
export function openDocument(text: string): Result<Opened> {
  if (text.length > LIMIT_BYTES) return { ok: false, problems: [problem('job/too-large', text.length)] }
  if (text.trim() === '') return { ok: false, problems: [{ ...problem('job/empty'), line: 1, column: 1 }] }
  const lines = new LineCounter()
  const at = (offset: number) => {
    const { line, col } = lines.linePos(offset)
    return { line: Math.max(1, line), column: Math.max(1, col) }
  }
  const steep = steepestAt(text)
  if (steep !== null) {
    const line = text.slice(0, steep).split('\n').length
    const closers = text[steep] === ']' || text[steep] === '}'
    return {
      ok: false,
      problems: [
        {
          ...(closers ? problem('job/not-yaml', 'closing brackets without opening ones') : problem('job/too-deep')),
          line,
          column: 1,
        },
      ],
    }
  }
  let yaml: Document.Parsed
  try {
    yaml = parseDocument(text, {
      version: '1.2',
      schema: 'core',
      merge: false,
      keepSourceTokens: true,
      lineCounter: lines,
      logLevel: 'error',
      strict: true,
      uniqueKeys: false,
      prettyErrors: false,
    })
  } catch {
    return { ok: false, problems: [{ ...problem('job/too-deep'), line: 1, column: 1 }] }
  }
  const hard: Problem[] = []
  const soft: Problem[] = []
  for (const error of yaml.errors) {
    const where = at(error.pos[0])
    if (error.code === 'MULTIPLE_DOCS') hard.push({ ...problem('job/several-documents'), ...where })
    else if (error.code === 'TAB_AS_INDENT') hard.push({ ...problem('job/tab'), ...where })
    else hard.push({ ...problem('job/not-yaml', plainWords(error)), ...where })
  }
  const directive = yaml.directives?.yaml
  const first = text.split('\n').findIndex((line) => line.startsWith('%'))
  if (first >= 0 && directive && (directive.version !== '1.2' || Object.keys(yaml.directives.tags).length > 1)) {
    hard.push({
      ...problem('job/yaml-directive', `the directive “${(text.split('\n')[first] ?? '').slice(0, 40)}”`),
      line: first + 1,
      column: 1,
    })
  }
  const seen = new Set<number>()
  const unique = hard.filter((p) => !seen.has(p.line ?? 0) && seen.add(p.line ?? 0))
  if (unique.length > 0) return { ok: false, problems: unique.slice(0, 50) }
  if (yaml.contents === null || (isScalar(yaml.contents) && yaml.contents.value === null)) {
    return { ok: false, problems: [{ ...problem('job/empty'), line: 1, column: 1 }] }
  }
  const walked = walk(yaml.contents as Node, text, at, soft)
  if (walked === null) return { ok: false, problems: soft }
  return {
    ok: true,
    value: {
      raw: walked.value,
      yaml,
      problems: soft,
      placeOf: (path, which = 'value') => at(offsetOf(yaml.contents as Node, path, which)),
    },
  }
}

/** Offset where brackets or compact lists first stand deeper than any job needs; null when they never do. Text in quotes may hold brackets. */
function steepestAt(text: string): number | null {
  const generous = LIMIT_DEPTH * 10
  const dashes = new RegExp(`(?:[-?:] +){${generous},}|(?:[&!]\\S*\\s+){${generous},}`).exec(text)
  if (dashes) return dashes.index
  let depth = 0
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i)
    if (c === 91 || c === 123) depth++
    else if (c === 93 || c === 125) depth--
    else if (c === 10 && depth < 0) depth = 0
    if (Math.abs(depth) > generous) return i
  }
  return null
}

const plainWords = ({ code, message }: { readonly code: string; readonly message: string }): string => {
  const closing = /end with a ([}\]])/.exec(message)?.[1]
  if (closing !== undefined) return `“${closing === '}' ? '{' : '['}” that is not closed by “${closing}”`
  if (/closing ["']quote/.test(message)) return 'a quote that is not closed'
  if (code === 'BLOCK_AS_IMPLICIT_KEY') return 'a second “:” in one line'
  if (code === 'MULTILINE_IMPLICIT_KEY') return 'a line with no “:” behind its key'
  if (code === 'BAD_INDENT') return 'a line that begins further in or out than its neighbours'
  const first = (message.split('\n')[0] ?? '').replace(/ at line \d+, column \d+:?$/, '')
  return first.length > 100 ? `${first.slice(0, 97)}…` : first
}

/** Plain values out of nodes. Gathers what may not be in a job; null only when the tree is too deep or too large to walk. */
function walk(
  root: Node,
  text: string,
  at: (offset: number) => { line: number; column: number },
  found: Problem[],
): { readonly value: unknown } | null {
  let values = 0
  const where = (node: Node) => at(node.range?.[0] ?? 0)
  const visit = (node: unknown, depth: number): unknown => {
    if (++values > LIMIT_VALUES) throw new TooMuch(problem('job/too-many-values'))
    if (depth > LIMIT_DEPTH) throw new TooMuch({ ...problem('job/too-deep'), ...where(node as Node) })
    if (node === null || node === undefined) return null
    if (isAlias(node)) {
      found.push({ ...problem('job/alias', `*${node.source}`), ...where(node) })
      return undefined
    }
    const tag = (node as Node & { tag?: string }).tag
    if (tag !== undefined)
      found.push({ ...problem('job/yaml-tag', tag.replace('tag:yaml.org,2002:', '!!')), ...where(node as Node) })
    if (isScalar(node)) return scalar(node)
    if (isSeq(node)) return node.items.map((item) => visit(item, depth + 1))
    if (!isMap(node)) return null
    const out: Record<string, unknown> = {}
    for (const pair of node.items) {
      const key = pair.key
      if (++values > LIMIT_VALUES) throw new TooMuch(problem('job/too-many-values'))
      if (!isScalar(key) || typeof key.value !== 'string' || key.value === '__proto__') {
        found.push({ ...problem('job/key-kind'), ...where((key as Node | null) ?? node) })
        continue
      }
      const value = visit(pair.value, depth + 1)
      if (Object.hasOwn(out, key.value)) found.push({ ...problem('job/duplicate-key', key.value), ...where(key) })
      else out[key.value] = value
    }
    return out
  }
  const scalar = (node: Scalar): unknown => {
    const written = node.type === 'PLAIN' && node.range ? text.slice(node.range[0], node.range[1]) : ''
    if (written.includes('\n')) found.push({ ...problem('job/text-runs-on', written), ...where(node) })
    if (
      typeof node.value === 'number' &&
      Number.isFinite(node.value) &&
      node.type === 'PLAIN' &&
      !/^-?(0|[1-9]\d{0,14})(\.\d{1,15})?$/.test(node.source ?? '')
    ) {
      found.push({ ...problem('job/odd-number', node.source ?? String(node.value)), ...where(node) })
    }
    return node.value
  }
  try {
    return { value: visit(root, 0) }
  } catch (stop) {
    if (!(stop instanceof TooMuch)) throw stop
    found.push(stop.problem)
    return null
  }
}

class TooMuch extends Error {
  readonly problem: Problem

  constructor(problem: Problem) {
    super(problem.code)
    this.problem = problem
  }
}

function offsetOf(root: Node, path: Path, which: 'key' | 'value'): number {
  let node: unknown = root
  let offset = root.range?.[0] ?? 0
  for (const [i, step] of path.entries()) {
    if (isMap(node)) {
      const pair = node.items.find((item) => isScalar(item.key) && item.key.value === step)
      if (!pair) return offset
      const last = i === path.length - 1
      const keyAt = (pair.key as Scalar).range?.[0] ?? offset
      const valueAt = (pair.value as Node | null)?.range?.[0] ?? keyAt
      offset = last && which === 'value' ? valueAt : keyAt
      node = pair.value
    } else if (isSeq(node)) {
      const item = node.items[step as number] as Node | undefined
      if (!item) return offset
      offset = item.range?.[0] ?? offset
      node = item
    } else return offset
  }
  return offset
}
