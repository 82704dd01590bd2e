import type { Assessment } from '@plugstead/engine/assess'
import { type AssumedWords, assumedWords } from '@plugstead/engine/job'
import {
  type Finding,
  formatPair,
  formatQuantity,
  type Judgement,
  type Put,
  type Step,
  type Verdict,
  type Working,
  worst,
} from '@plugstead/engine/kernel'
import type { Inline, Span, WorkingBlock, WorkingRow } from './content.ts'
import { expressionOf, symbolOf, valuesOf } from './expression.ts'
import { plain, restsOf } from './words.ts'

/** Working digits: one more than what is shown elsewhere. */
export const DIGITS = 4

/** What an assessment found, and what it took for granted. */
export type Found = Pick<Assessment, 'findings' | 'assumed'>

/** The derivation as a table of steps, the judgement its last line. */
export function workingBlock(working: Working, { findings, assumed }: Found): WorkingBlock {
  const own = findings.filter((f) => f.workings.includes(working.id))
  const confirm = own.some((f) => f.confirm === true)
  const symbols = symbolsOf(working)
  const verdict: Verdict | null = own.length === 0 ? null : worst(own.map((f) => f.verdict))
  const bases = [...new Set(own.map((f) => f.basis))]
  return {
    k: 'working',
    ids: [working.id],
    title: plain(working.title),
    note: bases.length === 0 ? working.id : `${working.id} · basis: ${bases.join(', ')}`,
    verdict,
    outline: own.length > 0 && own.every((f) => f.basis === 'house'),
    rows: working.steps.map((s) => rowOf(s, symbols, confirm)),
    judgement:
      working.judgement === undefined
        ? null
        : judgementOf(working.judgement, symbols, confirm, verdict, own.every((f) => f.basis === 'house') && own.length > 0),
    crossCheck: (working.crossCheck ?? []).map((s) => ({ ...rowOf(s, symbols, confirm), symbol: withWord(s.symbol, symbols) })),
    notes: [...(working.notes ?? []).map(plain), ...notesOf(own)],
    assumed: assumedWords(
      own.flatMap((f) => f.assumed),
      assumed,
    ),
  }
}

/** Derivations that agree line by line but for the thing they are about: one block for all they hold for. */
export interface Alike {
  readonly block: WorkingBlock
  readonly workings: readonly Working[]
  readonly subjects: readonly string[]
}

/** The same circuit twenty times over is one derivation to check, not twenty. */
export function alike(workings: readonly Working[], found: Found): readonly Alike[] {
  const groups = new Map<string, { readonly block: WorkingBlock; readonly subjects: string[]; readonly workings: Working[] }>()
  for (const working of workings) {
    const block = workingBlock(working, found)
    const [subject = '', what = ''] = parted(working.id)
    const likeness = likenessOf(working, block, subject, what)
    const group = groups.get(likeness)
    if (group === undefined) groups.set(likeness, { block, subjects: [subject], workings: [working] })
    else {
      group.subjects.push(subject)
      group.workings.push(working)
    }
  }
  return [...groups.values()]
}

/** One derivation in full, with all it holds for. */
export function fullBlock({ block: own, subjects, workings }: Alike): WorkingBlock {
  const block = own.assumed.length > 0 ? { ...own, notes: [...own.notes, assumedNote(own.assumed)] } : own
  if (workings.length === 1) return block
  return {
    ...block,
    ids: workings.map((w) => w.id),
    notes: [
      [['b', `line by line the same for ${subjects.length - 1} more: `], `${subjects.slice(1).join(', ')}.`],
      ...block.notes,
    ],
  }
}

/**
 * What two derivations must share to be one: every expression, value, result and clause, and the verdict. The subject may differ where it is
 * named or stands as a symbol, never in a number: a tag may be “11”.
 */
function likenessOf(working: Working, block: WorkingBlock, subject: string, what: string): string {
  const named = (words: string): string => (subject === '' ? words : words.replaceAll(subject, '\u0001'))
  const symbol = (name: string): string => (name === subject ? '\u0001' : name)
  const put = (p: Put): readonly unknown[] => [symbol(p.symbol), p.value, p.unit]
  const step = (s: Step): readonly unknown[] => [
    symbol(s.symbol),
    s.expression,
    s.values.map(put),
    s.result,
    s.unit,
    { ...s.rests, place: named(s.rests.place) },
  ]
  const j = working.judgement
  return JSON.stringify([
    what,
    named(working.title),
    working.steps.map(step),
    (working.crossCheck ?? []).map(step),
    (working.notes ?? []).map(named),
    j === undefined ? null : [put(j.demand), j.relation, put(j.limit), j.tight, j.rests],
    block.notes.map((n) => named(JSON.stringify(n))),
    block.assumed,
    block.verdict,
    block.outline,
    typeof block.note === 'string' ? named(block.note) : '',
  ])
}

/** `subject/what`: the subject may itself hold a stroke. */
export function parted(id: string): readonly [string, string] {
  const at = id.lastIndexOf('/')
  return at < 0 ? ['', id] : [id.slice(0, at), id.slice(at + 1)]
}

function rowOf(step: Step, symbols: ReadonlySet<string>, confirm: boolean): WorkingRow {
  const result = formatQuantity(step.result, step.unit, { digits: DIGITS })
  return {
    symbol: symbolOf(step.symbol, symbols),
    expression: expressionOf(plain(step.expression), symbols),
    values: valuesOf(step.expression, step.values, symbols),
    result: edged(plain(result), step.rests.provenance),
    rests: restsOf(step.rests, confirm),
  }
}

/** A value nobody worked out wears its edge: told, assumed. */
export function edged(words: string, provenance: string): Inline {
  return provenance === 'told' || provenance === 'assumed' ? [[provenance, words]] : words
}

function withWord(symbol: string, symbols: ReadonlySet<string>): Inline {
  const set = symbolOf(symbol, symbols)
  return [['quiet', 'cross-check '], ...(typeof set === 'string' ? [set] : set)]
}

function judgementOf(
  j: Judgement,
  symbols: ReadonlySet<string>,
  confirm: boolean,
  verdict: Verdict | null,
  house: boolean,
): WorkingBlock['judgement'] {
  const expression = expressionOf(`${j.demand.symbol} ${j.relation} ${j.limit.symbol}`, symbols)
  const rests = restsOf(j.rests, confirm)
  const tight = j.tight === '' || j.tight === 'none' ? 'no margin stated for tight.' : `tight within ${plain(j.tight)}.`
  const { value: demand } = j.demand
  const { value: limit } = j.limit
  if (typeof demand !== 'number' || typeof limit !== 'number' || Number.isNaN(demand) || Number.isNaN(limit)) {
    // Words are compared by the check itself: its verdict says whether they agree.
    const agreed = verdict === 'holds' || verdict === 'tight'
    const holds = typeof demand === 'string' && (demand === limit || agreed)
    return {
      symbol: '',
      expression,
      values: `${formatQuantity(demand, j.demand.unit)} ${j.relation} ${formatQuantity(limit, j.limit.unit)}`,
      result: holds
        ? 'holds'
        : Number.isNaN(demand) || Number.isNaN(limit) || verdict === 'unknown'
          ? 'unknown'
          : 'does not hold',
      rests,
      reversed: !holds && reverses(verdict, house),
      barFrac: 0,
      stopFrac: 1,
      tight,
    }
  }
  const holds =
    j.relation === '≤'
      ? demand <= limit * (1 + EXACT)
      : j.relation === '≥'
        ? demand >= limit * (1 - EXACT)
        : Math.abs(demand - limit) <= Math.abs(limit) * EXACT
  const pair = formatPair(demand, limit, j.limit.unit, { digits: DIGITS })
  const scale = Math.max(Math.abs(demand), Math.abs(limit)) || 1
  const finite = Number.isFinite(scale)
  const over = j.relation === '≥' ? ['above', 'short'] : ['left', 'over']
  return {
    symbol: '',
    expression,
    values: `${pair.demand} ${j.relation} ${pair.limit}`,
    result:
      demand === limit
        ? 'just holds'
        : !finite
          ? holds
            ? 'holds'
            : 'does not hold'
          : `${pair.difference} ${holds ? over[0] : over[1]}`,
    rests,
    reversed: !holds && reverses(verdict, house),
    barFrac: finite ? Math.abs(demand) / scale : Number.isFinite(demand) ? 0.5 : 1,
    stopFrac: finite ? Math.abs(limit) / scale : Number.isFinite(limit) ? 0.5 : 1,
    tight,
  }
}

/** Only a breach is set in reverse: what a finding calls tight, and a preference of the house, stand in outline. */
const reverses = (verdict: Verdict | null, house: boolean): boolean => (verdict === null || verdict === 'fails') && !house

/** As in the engine's own judging: no verdict hangs on the last bits of a sum. */
const EXACT = 1e-9

function notesOf(findings: readonly Finding[]): readonly Inline[] {
  const mends = findings.flatMap((f) => f.mends.map((m) => plain(m.words)))
  return mends.length > 0 ? [[['b', 'what would change it '], `${[...new Set(mends)].join('; ')}.`]] : []
}

export const assumedNote = (all: readonly AssumedWords[]): Inline => [
  ['b', 'assumed '],
  ...all.flatMap((a, i): Span[] => [...(i > 0 ? [' '] : []), ['assumed', plain(a.said)]]),
]

export function symbolsOf(working: Working): ReadonlySet<string> {
  const out = new Set<string>()
  for (const s of [...working.steps, ...(working.crossCheck ?? [])]) {
    out.add(s.symbol)
    for (const p of s.values) out.add(p.symbol)
  }
  if (working.judgement !== undefined) out.add(working.judgement.demand.symbol).add(working.judgement.limit.symbol)
  return out
}
