import { isSeq, type Node, type YAMLMap } from 'yaml'
import { type Complex, cos, cx, sin } from '../../kernel/index.ts'
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
import { hangsTogether } from './hangs-together.ts'
import { Reader, type Say } from './keyed-map.ts'
import type { LoadModel } from './model.ts'

export const NETWORK_VERSION = 1

const METRES = { mile: 1609.344, km: 1000, m: 1, kft: 304.8 } as const
const MODELS: readonly LoadModel[] = ['P', 'I', 'Z']
const CONNECTIONS: readonly Connection[] = ['YY', 'DY', 'YD', 'DD', 'single', 'centre tap']

export function fileFrom(root: YAMLMap, say: Say): NetworkFile {
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
    volts[name] = cx(v * cos(a), v * sin(a))
  }
  const balanced = r.node('lineLine')
  if (balanced !== null) {
    const v = r.quantity('lineLine', 'voltage') / Math.sqrt(3)
    const angle = r.number('angleDeg', 0)
    for (const [i, wire] of r.words('wires', ['a', 'b', 'c']).entries()) {
      const a = (angle - 120 * i) * RAD_PER_DEG
      volts[wire] = cx(v * cos(a), v * sin(a))
    }
  }
  if (Object.keys(volts).length === 0) r.missing('volts', 'volts of each wire, or lineLine of a balanced source')
  return { node: r.text('node'), volts }
}

export function line(r: Reader): FileLine {
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
