import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { isMap, isScalar, isSeq, type Node, type Scalar } from 'yaml'
import { type Random, seeded } from '../kernel/index.ts'
import { openDocument } from './document.ts'
import { readJob } from './index.ts'

/**
 * Twenty thousand seeded manglings. Each is refused with problems, or reads, and then every line that was not touched still says the same
 * thing in the same place: no silent change of meaning. None crashes, none takes two seconds.
 */

const example = (name: string): string => readFileSync(new URL(`../../../../examples/${name}.yaml`, import.meta.url), 'utf8')

/** Small documents, so that most of the twenty thousand are quick; together they hold every form a value is written in. */
const SMALL = [
  `plugstead: 1
title: Two on one # a comment
rules: { set: us }
needs:
  stay: 12 months
  machines:
    - tag: G1-2C
      count: 2
      kind: heater
      power: 1500 W
      voltage: 120 V
      window: 10:30 to 16:30
      cord: [12 m, 18 m]
    - { tag: P1, kind: motor, power: 900 W, voltage: 120 V, motor: { shaft: 3/4 hp } }
`,
  `plugstead: 1
rules:
  set: intl
facts:
  site: { elevation: 4 m, flood: no }
  climate:
    design-min: -6 C
    mean-by-month: 4.6 4.5 5.4 7.0 9.6 11.9 13.6 13.7 12.1 9.5 6.9 5.1 C
  supply:
    offers:
      - kind: utility
        service: [100 A, 200 A]
        transformer: { rating: 200 kVA, impedance: 4.5 % }
        earthing: TN-S
        one-off: 9800 GBP
`,
  `plugstead: 1
rules: { set: ca }
needs:
  needed-by: 2027-10-20
  manual-all-on: yes
  forbidden:
    - "No bus may leave cold: none."
    - Ploughs pass both rows.
boxes:
  - { id: a, length: 20 ft, heated: -5 C }
  - { id: b, fed-from: { box: a, distance: 40 m } }
phases:
  - id: first
    months: 1 to 12
choices:
  cords.A.size: { value: 12 AWG, by: me, why: in stock }
`,
] as const

interface Mangled {
  readonly text: string
  /** First and last line touched, in the original and in the outcome, from 1. */
  readonly was: readonly [number, number]
  readonly is: readonly [number, number]
}

const lineAt = (text: string, offset: number): number => text.slice(0, offset).split('\n').length

/** `text` with `[from, to)` replaced; the touched lines follow from it. */
function replace(text: string, from: number, to: number, by: string): Mangled {
  return {
    text: text.slice(0, from) + by + text.slice(to),
    was: [lineAt(text, from), lineAt(text, to)],
    is: [lineAt(text, from), lineAt(text, from) + by.split('\n').length - 1],
  }
}

const NASTY = [
  ...'{}[],:#&*!|>\'"%@`-?~\n\t \\/.0123456789eEx+_=<',
  '\r',
  '\u0000',
  '\u00a0',
  '−',
  '½',
  '\uFEFF',
  '😀',
  '- ',
  ': ',
  ' #',
  '\n\n',
  '---\n',
  '...\n',
  '<<: ',
  '%YAML 1.1\n',
] as const
const TOKENS = [
  '.nan',
  '.inf',
  '-1 m',
  'no',
  'yes',
  '12:30',
  '[1]',
  '{ a: 1 }',
  '~',
  '""',
  '1e3',
  '*a',
  '&a b',
  '!x y',
  '010',
  '0x10',
  '99999999 W',
  '25 yd',
  '-3',
  '3',
  '1,500 W',
  'true',
  '[]',
  '{}',
  'null',
  '0',
  '5 %',
  '2027-02-30',
  '|',
  '>-',
  'a: b',
  '- a',
] as const

/** Changes of single bytes and short stretches, as a bad disk or a cat on the keys makes them. */
function bytes(text: string, random: Random): Mangled {
  const at = random.below(text.length)
  const few = Math.min(text.length, at + 1 + random.below(8))
  switch (random.below(7)) {
    case 0:
      return replace(text, at, at + 1, String.fromCharCode(32 + random.below(95)))
    case 1:
      return replace(text, at, at, random.pick(NASTY))
    case 2:
      return replace(text, at, at + 1, '')
    case 3:
      return replace(text, at, at + 1, (text[at] as string).repeat(2))
    case 4:
      return replace(text, at, few, [...text.slice(at, few)].reverse().join(''))
    case 5:
      return replace(text, at, few, '')
    default:
      return replace(text, at, text.length, '')
  }
}

/** Changes of whole values, keys and lines, as people make them. */
function tokens(text: string, random: Random): Mangled {
  const lines = text.split('\n')
  const n = random.below(lines.length - 1)
  const start = lines.slice(0, n).join('\n').length + (n === 0 ? 0 : 1)
  const line = lines[n] as string
  const values = [...line.matchAll(/[^\s{}[\],:#][^{}[\],:#]*/g)]
  const value = values.length === 0 ? null : random.pick(values)
  const end = start + line.length
  switch (random.below(8)) {
    case 0:
      return replace(text, start, Math.min(text.length, end + 1), '')
    case 1:
      return replace(text, end, end, `\n${line}`)
    case 2:
      return replace(text, start, start, ' '.repeat(1 + random.below(4)))
    case 3:
      return replace(text, start, start + Math.min(1 + random.below(3), /^ */.exec(line)?.[0].length ?? 0), '')
    case 4:
      return replace(text, start, start, '# ')
    default: {
      if (value === null) return replace(text, start, start, '  ')
      const from = start + (value.index as number)
      const other =
        random
          .pick(lines)
          .trim()
          .split(/[:,{}[\]]/)
          .at(-1)
          ?.trim() ?? ''
      const by =
        random.below(3) === 0
          ? random.pick(TOKENS)
          : random.below(2) === 0
            ? other
            : value[0].replace(/[a-z]/i, (c) => (c === c.toLowerCase() ? c.toUpperCase() : c.toLowerCase()))
      return replace(text, from, from + value[0].trimEnd().length, by)
    }
  }
}

interface Leaf {
  /** Keys on the way, list places left out, the line of the list item it belongs to, and its value. */
  readonly path: string
  readonly owner: number
  readonly value: string
  readonly from: number
  readonly to: number
}

function leaves(text: string): readonly Leaf[] {
  const opened = openDocument(text)
  if (!opened.ok) throw new Error('it read, and now it does not open')
  const out: Leaf[] = []
  const visit = (node: unknown, path: string, owner: number, keyAt: number): void => {
    if (isMap(node)) {
      for (const pair of node.items) {
        const key = pair.key as Scalar
        visit(pair.value, `${path}.${key.value}`, owner, key.range?.[0] ?? 0)
      }
    } else if (isSeq(node))
      for (const item of node.items)
        visit(item, `${path}[]`, lineAt(text, (item as Node).range?.[0] ?? 0), (item as Node).range?.[0] ?? 0)
    else if (isScalar(node))
      out.push({
        path,
        owner,
        value: JSON.stringify(node.value),
        from: lineAt(text, keyAt),
        to: lineAt(text, Math.max(keyAt, (node.range?.[1] ?? 1) - 1)),
      })
  }
  visit(opened.value.yaml.contents, '', 0, 0)
  return out
}

/** What the untouched lines say, by line in the numbering of the original. */
function untouched(text: string, touched: readonly [number, number], shift: number): readonly string[] {
  const own = (line: number): number => (line > touched[1] ? line - shift : line < touched[0] ? line : -1)
  return leaves(text)
    .filter((leaf) => leaf.to < touched[0] || leaf.from > touched[1])
    .map((leaf) => `${own(leaf.from)} ${leaf.path} of ${own(leaf.owner)}: ${leaf.value}`)
    .sort()
}

function mangle(texts: readonly string[], times: number, seed: number): { refused: number; read: number } {
  const random = seeded(seed)
  const tally = { refused: 0, read: 0 }
  for (let i = 0; i < times; i++) {
    const text = texts[i % texts.length] as string
    const mangled = random.below(2) === 0 ? bytes(text, random) : tokens(text, random)
    const started = process.threadCpuUsage()
    const read = readJob(mangled.text)
    const spent = process.threadCpuUsage(started)
    if (spent.user + spent.system > 2e6) throw new Error(`slow: ${mangled.text}`)
    if (!read.ok) {
      tally.refused++
      if (read.problems.length === 0 || read.problems.some((p) => p.line === undefined && p.code !== 'job/binary'))
        throw new Error(`refused without a line: ${JSON.stringify(read.problems)}\n${mangled.text}`)
      continue
    }
    tally.read++
    const shift = mangled.is[1] - mangled.was[1]
    const [before, after] = [untouched(text, mangled.was, 0), untouched(mangled.text, mangled.is, shift)]
    const differ = [
      ...before.filter((b) => !after.includes(b)).map((b) => `- ${b}`),
      ...after.filter((a) => !before.includes(a)).map((a) => `+ ${a}`),
    ]
    expect(
      differ,
      mangled.text
        .split('\n')
        .slice(Math.max(0, mangled.is[0] - 3), mangled.is[1] + 2)
        .join('\n'),
    ).toEqual([])
  }
  return tally
}

test.each([1, 2, 3, 4])(
  '4 750 of small documents (seed %d): each is refused, or says the same wherever it was not touched',
  (seed) => {
    const tally = mangle(SMALL, 4750, seed)
    expect(tally.refused).toBeGreaterThan(1000)
    expect(tally.read).toBeGreaterThan(300)
  },
  120_000,
)

test('1 000 of the examples themselves', () => {
  const texts = [
    'two-machines',
    'groomer-yard-us',
    'winter-road-camp-ca',
    'fish-farm-shore-intl',
    'desert-quarry-intl',
    'waterworks-extension-us',
    'bus-pool-lot-ca',
    'moved-box-airstrip-ca',
  ].map(example)
  const tally = mangle(texts, 1000, 5)
  expect(tally.refused + tally.read).toBe(1000)
  expect(tally.read).toBeGreaterThan(100)
}, 240_000)
