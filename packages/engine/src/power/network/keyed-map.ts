import { isMap, isScalar, isSeq, type Node, type YAMLMap } from 'yaml'
import { type Dimension, parseQuantity } from '../../kernel/index.ts'

export type Say = (
  node: Node | null | undefined,
  code: string,
  path: string,
  wanted: string,
  mend: string,
  shownAs?: string,
) => void

export function shown(node: Node | null | undefined): string {
  if (node === null || node === undefined) return 'nothing'
  if (isMap(node)) return 'a map'
  if (isSeq(node)) return 'a list'
  return isScalar(node) ? `“${String(node.value).slice(0, 60)}”` : 'an alias'
}

/** One map of the file: gives its values by key and says what is missing, of another kind, or not known. */
export class Reader {
  readonly map: YAMLMap | null
  readonly path: string
  readonly say: Say
  readonly asked = new Set<string>()

  constructor(node: Node | null | undefined, path: string, say: Say) {
    this.path = path
    this.say = say
    this.map = isMap(node) ? node : null
    if (this.map === null) say(node, 'network/kind', path, 'a map of keys', 'Write “key: value” lines or {key: value}.')
  }

  node(key: string): Node | null {
    this.asked.add(key)
    return (this.map?.get(key, true) as Node | undefined) ?? null
  }

  at(key: string): string {
    return this.path === '' ? key : `${this.path}.${key}`
  }

  missing(key: string, wanted: string): void {
    if (this.map !== null) this.say(this.map, 'network/missing', this.at(key), wanted, `Add “${key}”.`, 'nothing')
  }

  text(key: string, fallback?: string): string {
    const node = this.node(key)
    if (node === null && fallback !== undefined) return fallback
    if (isScalar(node) && (typeof node.value === 'string' || typeof node.value === 'number'))
      return String(node.source ?? node.value)
    if (node === null) this.missing(key, 'a word')
    else this.say(node, 'network/kind', this.at(key), 'a word', 'Write a single word or number.')
    return fallback ?? ''
  }

  oneOf<T extends string>(key: string, all: readonly T[], fallback?: T): T {
    const word = this.text(key, fallback) as T
    if (all.includes(word)) return word
    if (word !== '') this.say(this.node(key), 'network/choice', this.at(key), all.join(', '), `Write one of ${all.join(', ')}.`)
    return all[0]!
  }

  number(key: string, fallback?: number): number {
    const node = this.node(key)
    if (node === null && fallback !== undefined) return fallback
    if (node === null) this.missing(key, 'a number')
    return node === null ? 0 : this.numberOf(node, this.at(key))
  }

  numberOf(node: unknown, path: string): number {
    if (isScalar(node) && typeof node.value === 'number' && Number.isFinite(node.value)) return node.value
    this.say(node as Node | null, 'network/kind', path, 'a finite number', 'Write a plain number.')
    return 0
  }

  quantity(key: string, dimension: Dimension, fallback?: number): number {
    const node = this.node(key)
    if (node === null && fallback !== undefined) return fallback
    if (node === null) {
      this.missing(key, 'a quantity with its unit')
      return 0
    }
    const read = isScalar(node) ? parseQuantity(String(node.source ?? node.value), dimension) : null
    if (read?.ok) return read.value.value
    const problem = read?.problems[0]
    this.say(
      node,
      problem?.code ?? 'network/kind',
      this.at(key),
      problem?.wanted ?? 'a quantity with its unit',
      problem?.mend ?? 'Write a number and its unit.',
    )
    return 0
  }

  yes(key: string, fallback: boolean): boolean {
    const node = this.node(key)
    if (node === null) return fallback
    if (isScalar(node) && typeof node.value === 'boolean') return node.value
    this.say(node, 'network/kind', this.at(key), 'true or false', 'Write true or false.')
    return fallback
  }

  list(key: string, must: boolean): readonly { readonly node: Node; readonly path: string }[] {
    const node = this.node(key)
    if (isSeq(node)) return node.items.map((item, i) => ({ node: item as Node, path: `${this.at(key)}[${i}]` }))
    if (node !== null) this.say(node, 'network/kind', this.at(key), 'a list', 'Write a list.')
    else if (must) this.missing(key, 'a list')
    return []
  }

  words(key: string, fallback?: readonly string[]): string[] {
    if (this.node(key) === null && fallback !== undefined) return [...fallback]
    return this.list(key, true).map(({ node, path }) => {
      if (isScalar(node) && typeof node.value === 'string') return node.value
      if (isScalar(node) && typeof node.value === 'number') return String(node.value)
      this.say(node, 'network/kind', path, 'a name', 'Write a name.')
      return ''
    })
  }

  keys(key: string): readonly { readonly name: string; readonly node: Node; readonly path: string }[] {
    const node = this.node(key)
    if (node === null) return []
    if (!isMap(node)) {
      this.say(node, 'network/kind', this.at(key), 'a map', 'Write “name: …” lines.')
      return []
    }
    return node.items.map((p) => {
      const name = isScalar(p.key) ? String(p.key.source ?? p.key.value) : ''
      return { name, node: p.value as Node, path: `${this.at(key)}.${name}` }
    })
  }

  /** Keys nobody asked for. */
  done(): void {
    for (const pair of this.map?.items ?? []) {
      const key = isScalar(pair.key) ? String(pair.key.value) : shown(pair.key as Node)
      if (this.asked.has(key)) continue
      const near = [...this.asked].find((k) => distance(k, key) <= 2)
      const mend = near === undefined ? `Known here: ${[...this.asked].join(', ')}.` : `Did you mean “${near}”?`
      this.say(pair.key as Node, 'network/unknown-key', this.at(key), 'a known key', mend)
    }
  }
}

function distance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j)
  for (let i = 1; i <= a.length; i++) {
    const next = [i]
    for (let j = 1; j <= b.length; j++)
      next[j] = Math.min(row[j]! + 1, next[j - 1]! + 1, row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1))
    row = next
  }
  return row[b.length]!
}
