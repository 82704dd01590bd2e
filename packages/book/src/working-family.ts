import type { Step, Working } from '@plugstead/engine/kernel'
import { formatQuantity } from '@plugstead/engine/kernel'
import type { Block, FamilyBlock, FamilyTable, Inline, Span, WorkingBlock } from './content.ts'
import { expressionOf, symbolOf, valuesOf } from './expression.ts'
import { columnsNeedMm } from './measure.ts'
import { plain, restsOf } from './words.ts'
import { type Alike, alike, assumedNote, DIGITS, edged, type Found, fullBlock, parted, symbolsOf } from './working-block.ts'

/** From so many derivations of one kind on, the worst stands in full and the others each on a row. */
const FAMILY = 3
/** A line that so many share word for word stands once with its values. */
const SHARED = 4
/** Room of a row: the working's columns less those of the check print. */
export const FAMILY_MM = 161

/** Every working of a question: the worst of each kind in full, the others of the kind as one table with a row each. */
export function workingBlocks(workings: readonly Working[], found: Found): readonly Block[] {
  const kinds = new Map<string, Alike[]>()
  for (const one of alike(workings, found)) {
    const kind = parted(one.workings[0]!.id)[1].replace(/-\d+$/, '')
    kinds.set(kind, [...(kinds.get(kind) ?? []), one])
  }
  return [...kinds.values()].flatMap((all): readonly Block[] => {
    if (all.length < FAMILY) return all.map(fullBlock)
    const worst = all.reduce((a, b) => (graver(b, a) ? b : a))
    return [
      fullBlock(worst),
      familyBlock(
        all.filter((a) => a !== worst),
        found,
      ),
    ]
  })
}

const RANK = { holds: 0, tight: 1, unknown: 2, fails: 3 } as const
const rankOf = (b: WorkingBlock): number => (b.verdict === null ? -1 : RANK[b.verdict])
const graver = (a: Alike, b: Alike): boolean =>
  rankOf(a.block) > rankOf(b.block) || (rankOf(a.block) === rankOf(b.block) && shareOf(a) > shareOf(b))

/** How much of the limit is taken. Where nothing is judged, the longest derivation tells most. */
function shareOf({ workings }: Alike): number {
  const w = workings[0]!
  const demand = w.judgement?.demand.value
  const limit = w.judgement?.limit.value
  if (typeof demand !== 'number' || typeof limit !== 'number') return w.steps.length
  const share = w.judgement?.relation === '≥' ? limit / demand : demand / limit
  return Number.isFinite(share) ? share : 0
}

/** One line of one derivation, as it will be numbered. */
interface Use {
  readonly step: Step
  readonly symbols: ReadonlySet<string>
  readonly cross: boolean
  readonly subject: string
  /** What makes two lines the same but for their values, and the same altogether. */
  readonly form: string
  /** The same but for numbers in the expression: “30 m of cord”. */
  readonly loose: string
  readonly exact: string
}

function familyBlock(all: readonly Alike[], { findings }: Found): FamilyBlock {
  const members = all.map((one) => ({ ...one, uses: usesOf(one.workings[0]!, one.subjects[0]!) }))
  const counts = new Map<string, number>()
  for (const m of members)
    for (const key of new Set(m.uses.flatMap((u) => [u.exact, u.form, u.loose]))) counts.set(key, (counts.get(key) ?? 0) + 1)
  const count = (key: string): number => counts.get(key) ?? 0
  const keyOf = (u: Use): string => {
    if (count(u.exact) >= SHARED) return u.exact
    if (count(u.form) > 1) return u.form
    return count(u.loose) > 1 ? u.loose : u.exact
  }
  const numbers = new Map<string, { readonly n: number; readonly uses: Use[] }>()
  for (const m of members)
    for (const u of m.uses) {
      const line = numbers.get(keyOf(u))
      if (line === undefined) numbers.set(keyOf(u), { n: numbers.size + 1, uses: [u] })
      else line.uses.push(u)
    }
  const ids = new Set(members.flatMap((m) => m.workings.map((w) => w.id)))
  const own = findings.filter((f) => f.workings.some((id) => ids.has(id)))
  const confirm = own.some((f) => f.confirm === true)
  const constants = new Map([...numbers.entries()].map(([key, line]) => [key, constantPuts(line.uses)]))
  const lines = [...numbers.entries()].map(([key, { uses }]): FamilyBlock['lines'][number] => {
    const u = uses[0]!
    const { step } = u
    const whole = key === u.exact
    const puts = whole ? step.values : step.values.filter((p) => constants.get(key)!.has(p.symbol))
    return {
      symbol: crossed(u),
      expression: expressionOf(
        plain(named(key === u.loose ? numberless(step.expression) : step.expression, u.subject)),
        u.symbols,
      ),
      values: valuesOf(whole ? step.expression : '', puts, u.symbols),
      result: whole ? resultOf(step) : null,
      rests: restsOf({ ...step.rests, place: named(step.rests.place, u.subject) }, confirm),
    }
  })

  const assumed = [...new Map(members.flatMap((m) => m.block.assumed.map((a) => [a.said, a] as const))).values()]
  const noteUses = new Map<string, number>()
  const noteKey = (n: Inline, subject: string): string => named(JSON.stringify(n), subject)
  for (const m of members)
    for (const n of m.block.notes) noteUses.set(noteKey(n, m.subjects[0]!), (noteUses.get(noteKey(n, m.subjects[0]!)) ?? 0) + 1)
  const shared = new Set([...noteUses].filter(([, n]) => n > 1 && n >= members.length / 3).map(([key]) => key))
  /** Notes of some of the rows stand once under the tables, by a letter. */
  const letters = new Map([...noteUses].filter(([key, n]) => n > 1 && !shared.has(key)).map(([key], i) => [key, letterOf(i)]))

  const rows = members.map((m): Row => {
    const whole: number[] = []
    const cells: Cell[] = []
    const last = new Map<string, number | string>()
    const flow: Span[] = []
    const flush = (): void => {
      if (whole.length > 0) flow.push(...(flow.length > 0 ? ['; '] : []), ['b', runs(whole.splice(0))])
    }
    const order: number[] = []
    for (const u of m.uses) {
      const key = keyOf(u)
      const { n } = numbers.get(key)!
      if (key === u.exact) {
        whole.push(n)
        order.push(n)
      } else {
        flush()
        const puts = u.step.values.filter((p) => !constants.get(key)!.has(p.symbol) && last.get(p.symbol) !== p.value)
        const values = valuesOf('', puts, u.symbols)
        const result = resultOf(u.step)
        const own = key === u.loose ? spans(expressionOf(plain(u.step.expression), u.symbols)) : []
        flow.push(
          ...(flow.length > 0 ? ['; '] : []),
          ['b', String(n)],
          ' ',
          ...own,
          own.length > 0 && puts.length > 0 ? ', ' : '',
          ...spans(values),
          own.length + puts.length > 0 ? ': ' : '',
          ...spans(crossed(u)),
          ' = ',
          ...spans(result),
        )
        if (own.length > 0) cells.push({ head: [['b', `${n} line`]], value: own })
        for (const p of puts) cells.push({ head: [['b', `${n} `], ...spans(symbolOf(p.symbol, u.symbols))], value: putOf(p) })
        cells.push({ head: [['b', `${n} `], ...spans(crossed(u)), ' ='], value: result })
      }
      last.set(u.step.symbol, u.step.result)
    }
    flush()
    const keyed = m.block.notes.map((n) => ({ n, key: noteKey(n, m.subjects[0]!) })).filter(({ key }) => !shared.has(key))
    const notes = keyed.filter(({ key }) => !letters.has(key)).map(({ n }) => n)
    const j = m.block.judgement
    return {
      subject: [...(m.block.verdict === null ? [] : [['mark', m.block.verdict] as const, ' ']), ['b', m.subjects.join(', ')]],
      flow,
      order,
      cells,
      letters: keyed.flatMap(({ key }) => letters.get(key) ?? []).join(', '),
      notes: notes.flatMap((n, i): readonly Span[] => [...(i > 0 ? [' '] : []), ...spans(n)]),
      judged: j === null ? '' : j.values,
      result: j === null ? '' : j.reversed ? [['fails', textOf(j.result)]] : j.result,
    }
  })
  const titles = members.map((m) => named(textOf(m.block.title), m.subjects[0]!, 'each'))
  const judgements = new Map<string, FamilyBlock['judgements'][number]>()
  for (const m of members) {
    const j = m.block.judgement
    if (j === null) continue
    const expression = JSON.parse(named(JSON.stringify(j.expression), m.subjects[0]!)) as Inline
    const rests = `${named(textOf(j.rests), m.subjects[0]!)}; ${j.tight}`
    judgements.set(JSON.stringify([expression, rests]), { expression, rests })
  }
  return {
    k: 'family',
    ids: [...ids],
    title: capital(most(titles)),
    note: `${ids.size} more, one row each`,
    lines,
    judgements: [...judgements.values()],
    tables: tablesOf(rows),
    notes: members
      .flatMap((m) => m.block.notes.map((n) => ({ n, key: noteKey(n, m.subjects[0]!) })))
      .filter(({ key }, i, every) => shared.has(key) && every.findIndex((e) => e.key === key) === i)
      .map(({ key }) => JSON.parse(key) as Inline)
      .concat([...letters].map(([key, letter]) => [['b', `${letter} `], ...spans(JSON.parse(key) as Inline)]))
      .concat(assumed.length > 0 ? [assumedNote(assumed)] : []),
  }
}

interface Cell {
  readonly head: readonly Span[]
  readonly value: Inline
}

interface Row {
  readonly subject: readonly Span[]
  readonly flow: readonly Span[]
  /** Numbers of the lines taken whole. */
  readonly order: readonly number[]
  readonly cells: readonly Cell[]
  /** Letters of the notes that stand under the tables. */
  readonly letters: string
  readonly notes: readonly Span[]
  readonly judged: Inline
  readonly result: Inline
}

/** Rows whose own values are of the same lines share a table with a column each, where it is wide enough; the others run on. */
function tablesOf(rows: readonly Row[]): readonly FamilyTable[] {
  const groups = new Map<string, Row[]>()
  for (const r of rows) {
    const key = JSON.stringify(r.cells.map((c) => c.head))
    groups.set(key, [...(groups.get(key) ?? []), r])
  }
  const running: Row[] = []
  const out: FamilyTable[] = []
  for (const group of groups.values()) {
    const judged = group.some((r) => r.judged !== '')
    const noted = group.some((r) => r.notes.length > 0)
    const lined = group.some((r) => r.order.length > 0)
    const lettered = group.some((r) => r.letters !== '')
    const heads: Inline[] = [
      'of',
      ...(lined ? ['lines'] : []),
      ...group[0]!.cells.map((c) => c.head),
      ...(lettered ? ['note'] : []),
      ...(judged ? ['judged', 'left or over'] : []),
    ]
    const cells = group.map((r): Inline[] => [
      r.subject,
      ...(lined ? [runs(r.order)] : []),
      ...r.cells.map((c) => c.value),
      ...(lettered ? [r.letters] : []),
      ...(judged ? [r.judged, r.result] : []),
    ])
    if (group.length >= 2 && !noted && sum(columnsNeedMm(heads, cells, 8, SUBJECT_MM)) <= FAMILY_MM)
      out.push({ heads, rows: cells })
    else running.push(...group)
  }
  const judging = running.some((r) => r.judged !== '')
  if (running.length > 0)
    out.push({
      runs: true,
      heads: ['of', 'lines, with what differs', ...(judging ? ['judged'] : [])],
      rows: running.map((r) => [
        r.subject,
        [
          ...r.flow,
          ...(r.letters === '' ? [] : ([r.flow.length > 0 ? '; ' : '', 'note ', ['b', r.letters]] as Span[])),
          ...(r.notes.length > 0 ? ([r.flow.length > 0 ? '. ' : '', ...r.notes] as Span[]) : []),
        ],
        ...(judging ? [r.judged === '' ? '' : ([...spans(r.judged), ['br', ''], ...spans(r.result)] as Inline)] : []),
      ]),
    })
  return out
}
const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0)
/** Least room for what a row is about. */
export const SUBJECT_MM = 24

function usesOf(working: Working, subject: string): readonly Use[] {
  const symbols = symbolsOf(working)
  const use = (step: Step, cross: boolean): Use => {
    const formOf = (expression: string): string =>
      named(JSON.stringify([cross, step.symbol, expression, step.values.map((p) => p.symbol), step.rests]), subject)
    const form = formOf(step.expression)
    return {
      step,
      symbols,
      cross,
      subject,
      form,
      loose: `but for numbers ${formOf(numberless(step.expression))}`,
      exact: `${form} ${JSON.stringify([step.values.map((p) => [p.value, p.unit]), step.result, step.unit])}`,
    }
  }
  return [...working.steps.map((s) => use(s, false)), ...(working.crossCheck ?? []).map((s) => use(s, true))]
}

const numberless = (words: string): string => words.replace(/\d+(?:[.,\u202f]\d+)*/g, '…')

/** Values that all uses of a line share: they stand with the line. */
function constantPuts(uses: readonly Use[]): ReadonlySet<string> {
  const [first, ...others] = uses
  return new Set(
    first!.step.values
      .filter((p, i) => others.every((u) => u.step.values[i]?.value === p.value && u.step.values[i]?.unit === p.unit))
      .map((p) => p.symbol),
  )
}

const resultOf = (step: Step): Inline =>
  edged(plain(formatQuantity(step.result, step.unit, { digits: DIGITS })), step.rests.provenance)
const putOf = (p: Step['values'][number]): string => formatQuantity(p.value, p.unit, { digits: DIGITS, shortest: true })
const crossed = (u: Use): readonly Span[] => [
  ...(u.cross ? [['quiet', 'cross-check '] as const] : []),
  ...spans(symbolOf(named(u.step.symbol, u.subject), u.symbols)),
]
const spans = (words: Inline): readonly Span[] => (typeof words === 'string' ? [words] : words)
const textOf = (words: Inline): string =>
  typeof words === 'string' ? words : words.map((s) => (typeof s === 'string' ? s : s[1])).join('')

/** Words without the thing they are about. A tag that is a bare number stays: it may be any number. */
const named = (words: string, subject: string, by = '…'): string =>
  subject === '' || /^\d*$/.test(subject)
    ? words
    : words.replaceAll(new RegExp(`(?<![\\p{L}\\d])${escaped(subject)}(?![\\p{L}\\d])`, 'gu'), by)
const escaped = (words: string): string => words.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')

/** 1–4, 6, 9–10. */
function runs(numbers: readonly number[]): string {
  const out: string[] = []
  for (let i = 0; i < numbers.length; ) {
    let end = i
    while (numbers[end + 1] === numbers[end]! + 1) end += 1
    out.push(end > i + 1 ? `${numbers[i]}–${numbers[end]}` : numbers.slice(i, end + 1).join(', '))
    i = end + 1
  }
  return out.join(', ')
}

/** a, b … z, aa, ab … */
const letterOf = (n: number): string => `${n >= 26 ? letterOf(Math.floor(n / 26) - 1) : ''}${String.fromCharCode(97 + (n % 26))}`

const capital = (words: string): string => words.slice(0, 1).toUpperCase() + words.slice(1)

function most(words: readonly string[]): string {
  const counts = new Map<string, number>()
  for (const w of words) counts.set(w, (counts.get(w) ?? 0) + 1)
  return [...counts.entries()].reduce((a, b) => (b[1] > a[1] ? b : a))[0]
}
