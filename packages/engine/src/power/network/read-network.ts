import { isMap, isScalar, isSeq, LineCounter, type Node, parseDocument, type YAMLMap } from 'yaml'
import { type Complex, cx, type Dimension, ok, type Problem, parseQuantity, type Result } from '../../kernel/index.ts'
import {
  type Connection,
  type FileCase,
  type FileConfiguration,
  type FileEarthed,
  type FileLine,
  type FileLoad,
  type FileRegulator,
  type FileSource,
  type FileSwitch,
  type FileTransformer,
  GROUND,
  type NetworkFile,
} from './file-types.ts'
import type { LoadModel } from './model.ts'

export const NETWORK_VERSION = 1
/** The largest network file that is read. */
export const NETWORK_BYTES_MOST = 5_000_000
const DEPTH_MOST = 24

/**
 * Reads a network file (docs/network-format.md). All problems at once, each with its line; never throws on any text.
 * Nothing is converted in silence: quantities carry their unit, and what is not known here is a problem.
 */
export function readNetwork(text: string): Result<NetworkFile> {
  const found: Problem[] = []
  if (text.length > NETWORK_BYTES_MOST) {
    return {
      ok: false,
      problems: [
        {
          code: 'network/too-large',
          found: `${text.length} characters`,
          wanted: `at most ${NETWORK_BYTES_MOST}`,
          mend: 'Name a network file.',
        },
      ],
    }
  }
  const deep = tooDeepAt(text)
  if (deep !== null) {
    return {
      ok: false,
      problems: [
        {
          code: 'network/too-deep',
          line: deep,
          found: `nesting deeper than ${DEPTH_MOST}`,
          wanted: 'a network file',
          mend: 'Name a network file.',
        },
      ],
    }
  }
  const counter = new LineCounter()
  const document = parseDocument(text, { lineCounter: counter, uniqueKeys: true, version: '1.2' })
  for (const e of document.errors) {
    found.push({
      code: 'network/yaml',
      line: counter.linePos(e.pos[0]).line,
      column: counter.linePos(e.pos[0]).col,
      found: e.code,
      wanted: 'YAML',
      mend: e.message.split('\n')[0] ?? '',
    })
  }
  const say: Say = (node, code, path, wanted, mend, shownAs) => {
    const at = node?.range?.[0]
    found.push({
      code,
      path,
      found: shownAs ?? shown(node),
      wanted,
      mend,
      ...(at === undefined ? {} : { line: counter.linePos(at).line, column: counter.linePos(at).col }),
    })
  }
  if (found.length > 0) return { ok: false, problems: found }
  if (/(^|[\s[{,:-])[*][^\s,\]}]+/m.test(text) && JSON.stringify(document.errors) !== '' && hasAlias(document.contents)) {
    return {
      ok: false,
      problems: [
        { code: 'network/alias', found: 'an alias (*name)', wanted: 'values written out', mend: 'Write the value out.' },
      ],
    }
  }
  const root = document.contents
  if (!isMap(root)) {
    say(
      root as Node | null,
      'network/not-a-network',
      '',
      'a network file, first key “plugstead-network: 1”',
      'Name a network file; its shape is in docs/network-format.md.',
    )
    return { ok: false, problems: found }
  }
  const value = fileFrom(root, say)
  return found.length > 0 ? { ok: false, problems: found } : ok(value)
}

type Say = (node: Node | null | undefined, code: string, path: string, wanted: string, mend: string, shownAs?: string) => void

function tooDeepAt(text: string): number | null {
  let depth = 0
  let line = 1
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i)
    if (c === 10) {
      line++
      let indent = 0
      while (text.charCodeAt(i + 1 + indent) === 32 || text.charCodeAt(i + 1 + indent) === 45) indent++
      if (indent > 8 * DEPTH_MOST) return line
    }
    if (c === 91 || c === 123) depth++
    if (c === 93 || c === 125) depth--
    if (depth > DEPTH_MOST) return line
  }
  return null
}

function hasAlias(node: unknown): boolean {
  if (isMap(node)) return node.items.some((p) => hasAlias(p.key) || hasAlias(p.value))
  if (isSeq(node)) return node.items.some(hasAlias)
  return node !== null && typeof node === 'object' && 'source' in node && !isScalar(node)
}

function shown(node: Node | null | undefined): string {
  if (node === null || node === undefined) return 'nothing'
  if (isMap(node)) return 'a map'
  if (isSeq(node)) return 'a list'
  return isScalar(node) ? `“${String(node.value).slice(0, 60)}”` : 'an alias'
}

/** One map of the file: gives its values by key and says what is missing, of another kind, or not known. */
class Reader {
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

const METRES = { mile: 1609.344, km: 1000, m: 1, kft: 304.8 } as const
const MODELS: readonly LoadModel[] = ['P', 'I', 'Z']
const CONNECTIONS: readonly Connection[] = ['YY', 'DY', 'YD', 'DD', 'single', 'centre tap']

function fileFrom(root: YAMLMap, say: Say): NetworkFile {
  const r = new Reader(root, '', say)
  const versionNode = r.node('plugstead-network')
  if (versionNode === null) {
    say(
      root,
      'network/not-a-network',
      'plugstead-network',
      'a network file, first key “plugstead-network: 1”',
      'Name a network file; its shape is in docs/network-format.md.',
      'another kind of file',
    )
  } else if (r.number('plugstead-network') !== NETWORK_VERSION) {
    say(
      versionNode,
      'network/version',
      'plugstead-network',
      `version ${NETWORK_VERSION}`,
      'Saved by another version of the program; the file was not changed.',
    )
  }
  const head = {
    title: r.text('title'),
    source: r.text('source', ''),
    provenance: r.text('provenance', ''),
    base: r.text('base'),
    reference: r.text('reference'),
    frequencyHz: r.quantity('frequency', 'frequency'),
  }
  const configurations: Record<string, FileConfiguration> = {}
  for (const { name, node, path } of r.keys('configurations')) configurations[name] = configuration(new Reader(node, path, say))
  const own = sections(r, null)
  const cases: Record<string, FileCase> = {}
  const named = r.keys('cases')
  for (const { name, node, path } of named) {
    const c = new Reader(node, path, say)
    cases[name] = sections(c, own)
    c.done()
  }
  r.done()
  if (named.length === 0) cases['as given'] = own
  for (const [name, one] of Object.entries(cases)) hangsTogether(name, one, configurations, root, say)
  return { ...head, configurations, cases }
}

function configuration(r: Reader): FileConfiguration {
  const wires = r.words('wires')
  const perM = 1 / METRES[r.oneOf('per', ['m', 'km', 'mile', 'kft'] as const)]
  const matrix = <T>(key: string, one: (node: Node, path: string) => T): T[][] =>
    r.list(key, key === 'ohm').map(({ node, path }) => {
      if (!isSeq(node) || node.items.length !== wires.length) {
        r.say(node, 'network/matrix', path, `${wires.length} values, one for each wire`, 'Write the whole matrix.')
        return []
      }
      return node.items.map((item, j) => one(item as Node, `${path}[${j}]`))
    })
  const ohm = matrix<Complex>('ohm', (node, path) => {
    if (!isSeq(node) || node.items.length !== 2) {
      r.say(node, 'network/matrix', path, '[resistance, reactance]', 'Write both parts.')
      return cx(0)
    }
    return cx(r.numberOf(node.items[0], `${path}[0]`) * perM, r.numberOf(node.items[1], `${path}[1]`) * perM)
  })
  const shunt = matrix<Complex>('microsiemens', (node, path) => cx(0, r.numberOf(node, path) * 1e-6 * perM))
  if (ohm.length !== wires.length)
    r.say(r.node('ohm'), 'network/matrix', r.at('ohm'), `${wires.length} rows`, 'Write the whole matrix.')
  if (shunt.length !== 0 && shunt.length !== wires.length)
    r.say(r.node('microsiemens'), 'network/matrix', r.at('microsiemens'), `${wires.length} rows`, 'Write the whole matrix.')
  r.done()
  return { wires, ohmPerM: ohm, siemensPerM: shunt.length === 0 ? null : shunt }
}

/** Sections present in this map; the others from the case it stands on. */
function sections(r: Reader, under: FileCase | null): FileCase {
  const section = <K extends keyof FileCase>(key: K, one: (r: Reader, at: number) => FileCase[K][number]): FileCase[K] => {
    if (r.node(key) === null && under !== null) return under[key]
    return r.list(key, false).map(({ node, path }, i) => {
      const item = new Reader(node, path, r.say)
      const value = one(item, i)
      item.done()
      return value
    }) as unknown as FileCase[K]
  }
  return {
    sources: section('sources', source),
    lines: section('lines', line),
    transformers: section('transformers', transformer),
    regulators: section('regulators', regulator),
    switches: section(
      'switches',
      (s) =>
        ({ from: s.text('from'), to: s.text('to'), wires: s.words('wires'), closed: s.yes('closed', true) }) satisfies FileSwitch,
    ),
    loads: section('loads', load),
    earthed: section(
      'earthed',
      (e) =>
        ({ node: e.text('node'), wire: e.text('wire'), ohm: e.quantity('resistance', 'resistance', 0) }) satisfies FileEarthed,
    ),
  }
}

const RAD_PER_DEG = Math.PI / 180

function source(r: Reader): FileSource {
  const volts: Record<string, Complex> = {}
  for (const { name, node, path } of r.keys('volts')) {
    if (!isSeq(node) || node.items.length !== 2) {
      r.say(node, 'network/kind', path, '[volts against earth, degrees]', 'Write magnitude and angle.')
      continue
    }
    const v = r.numberOf(node.items[0], path)
    const a = r.numberOf(node.items[1], path) * RAD_PER_DEG
    volts[name] = cx(v * Math.cos(a), v * Math.sin(a))
  }
  const balanced = r.node('lineLine')
  if (balanced !== null) {
    const v = r.quantity('lineLine', 'voltage') / Math.sqrt(3)
    const angle = r.number('angleDeg', 0)
    for (const [i, wire] of r.words('wires', ['a', 'b', 'c']).entries()) {
      const a = (angle - 120 * i) * RAD_PER_DEG
      volts[wire] = cx(v * Math.cos(a), v * Math.sin(a))
    }
  }
  if (Object.keys(volts).length === 0) r.missing('volts', 'volts of each wire, or lineLine of a balanced source')
  return { node: r.text('node'), volts }
}

function line(r: Reader): FileLine {
  const from = r.text('from')
  const to = r.text('to')
  const lengthM = r.quantity('length', 'length')
  if (lengthM <= 0)
    r.say(r.node('length'), 'network/range', r.at('length'), 'more than nothing', 'Write a length, or a closed switch.')
  return { id: r.text('id', `${from}-${to}`), from, to, lengthM, configuration: r.text('configuration') }
}

function transformer(r: Reader): FileTransformer {
  const from = r.text('from')
  const to = r.text('to')
  const connection = r.oneOf('connection', CONNECTIONS)
  const one = {
    id: r.text('id', `${from}-${to}`),
    from,
    to,
    connection,
    ratedVA: r.quantity('rating', 'apparent power'),
    primaryV: r.quantity('primary', 'voltage'),
    secondaryV: r.quantity('secondary', 'voltage'),
    resistanceFrac: r.quantity('resistance', 'share'),
    reactanceFrac: r.quantity('reactance', 'share'),
    primaryStar: r.text('primaryStar', GROUND),
    secondaryStar: r.text('secondaryStar', GROUND),
    primaryWires: r.words('primaryWires', ['a', GROUND]),
    secondaryWires: r.words('secondaryWires', connection === 'centre tap' ? ['a', 'n', 'b'] : ['a', GROUND]),
  }
  for (const key of ['ratedVA', 'primaryV', 'secondaryV'] as const) {
    if (!(one[key] > 0)) r.say(r.map, 'network/range', r.path, `${key} above nothing`, 'Write the plate value.', String(one[key]))
  }
  if (!(one.resistanceFrac >= 0 && one.reactanceFrac >= 0 && one.resistanceFrac + one.reactanceFrac > 0)) {
    r.say(
      r.map,
      'network/range',
      r.path,
      'an impedance above nothing',
      'Write resistance and reactance.',
      `${one.resistanceFrac}, ${one.reactanceFrac}`,
    )
  }
  return one
}

function regulator(r: Reader): FileRegulator {
  const from = r.text('from')
  const to = r.text('to')
  const wires = r.words('wires')
  const taps = r.list('taps', true).map(({ node, path }) => r.numberOf(node, path))
  if (taps.length !== wires.length)
    r.say(
      r.node('taps'),
      'network/matrix',
      r.at('taps'),
      `${wires.length} taps, one for each wire`,
      'Write one tap for each wire.',
    )
  return { id: r.text('id', `${from}-${to}`), from, to, wires, taps, stepFrac: r.quantity('step', 'share') }
}

function load(r: Reader, at: number): FileLoad {
  const node = r.text('node')
  const from = r.text('from')
  const to = r.text('to', GROUND)
  const p = r.quantity('power', 'power', 0)
  let q = 0
  if (r.node('powerFactor') !== null) {
    const pf = r.number('powerFactor')
    if (!(Math.abs(pf) > 0 && Math.abs(pf) <= 1))
      r.say(r.node('powerFactor'), 'network/range', r.at('powerFactor'), '0 to 1, leading negative', 'Write the power factor.')
    else q = Math.sign(pf) * p * (Math.sqrt(1 - pf * pf) / Math.abs(pf))
  }
  if (r.node('kvar') !== null) q = 1000 * r.number('kvar')
  const nominalV = r.quantity('nominal', 'voltage')
  if (!(nominalV > 0))
    r.say(
      r.node('nominal') ?? r.map,
      'network/range',
      r.at('nominal'),
      'volts above nothing',
      'Write the volts at which it takes its power.',
    )
  return {
    id: r.text('id', `${node} ${from}${to === GROUND ? '' : to} ${at + 1}`),
    node,
    from,
    to,
    sVA: cx(p, q),
    nominalV,
    model: r.oneOf('model', MODELS),
  }
}

function hangsTogether(name: string, one: FileCase, configurations: NetworkFile['configurations'], root: Node, say: Say): void {
  const fed = new Set<string>(one.sources.map((s) => s.node))
  const ends = [...one.lines, ...one.transformers, ...one.regulators, ...one.switches.filter((s) => s.closed)]
  for (let grew = true; grew; ) {
    grew = false
    for (const e of ends) {
      for (const [x, y] of [
        [e.from, e.to],
        [e.to, e.from],
      ] as const) {
        if (!fed.has(x) || fed.has(y)) continue
        fed.add(y)
        grew = true
      }
    }
  }
  if (one.sources.length === 0) say(root, 'network/no-source', `cases.${name}`, 'at least one source', 'Add “sources”.', 'none')
  for (const l of one.lines) {
    if (configurations[l.configuration] === undefined)
      say(
        root,
        'network/configuration',
        `cases.${name}.lines.${l.id}`,
        `one of ${Object.keys(configurations).join(', ')}`,
        'Name a configuration of this file.',
        `“${l.configuration}”`,
      )
  }
  for (const l of one.loads)
    if (!fed.has(l.node))
      say(
        root,
        'network/not-fed',
        `cases.${name}.loads`,
        'a node that a source reaches',
        'Join it by a line, transformer or closed switch.',
        `“${l.node}”`,
      )
}
