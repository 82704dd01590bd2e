import { formatQuantity, type Put } from '@plugstead/engine/kernel'
import type { Inline, Span } from './content.ts'

/** An expression as it is set: quantity symbols italic, their subscripts upright, words and units upright. */
export function expressionOf(written: string, symbols: ReadonlySet<string>): Inline {
  // The faces have no raised or lowered letters of their own: mᵢ is set as m with its subscript.
  const words = written.replaceAll('ᵢ', '_i')
  const formula = looksLikeFormula(words)
  const spans: Span[] = []
  for (const token of tokens(words)) {
    if (!token.name) spans.push(operators(token.text))
    else spans.push(...nameSpans(token.text, symbols.has(token.text), formula))
  }
  return joined(spans)
}

/**
 * The values put in. Where every symbol of the expression was given, the expression again with its values in place;
 * else a list, symbol by symbol.
 */
export function valuesOf(expression: string, puts: readonly Put[], symbols: ReadonlySet<string>): Inline {
  if (puts.length === 0) return ''
  const bySymbol = new Map(puts.map((p) => [p.symbol, p]))
  const parts = tokens(expression)
  const names = parts.filter((t) => t.name && !FUNCTIONS.has(t.text))
  const every =
    names.length > 0 && names.every((t) => bySymbol.has(t.text)) && puts.every((p) => names.some((t) => t.text === p.symbol))
  if (!every || !/[·*/÷+−√(^²-]/.test(expression)) {
    return joined(
      puts.flatMap((p, i): Span[] => [
        ...(i > 0 ? [', '] : []),
        ...nameSpans(p.symbol, symbols.has(p.symbol), false),
        ` = ${shown(p)}`,
      ]),
    )
  }
  return joined(
    parts.map((t, i) => {
      const put = t.name ? bySymbol.get(t.text) : undefined
      if (put === undefined) return t.name ? t.text : operators(t.text).replaceAll(' · ', ' × ').replaceAll('·', ' × ')
      const raised = /^[²³^]/.test(parts[i + 1]?.text ?? '')
      const negative = typeof put.value === 'number' && put.value < 0
      return (raised && put.unit !== '') || negative ? `(${shown(put)})` : shown(put)
    }),
  )
}

const shown = (put: Put): string => formatQuantity(put.value, put.unit, { digits: 4, shortest: true })

/** A quantity's symbol on its own. */
export const symbolOf = (symbol: string, symbols: ReadonlySet<string>): Inline => expressionOf(symbol, symbols)

interface Token {
  readonly text: string
  readonly name: boolean
}

/** Names of sizes and of what lies between two words: never an expression. */
const WHOLE = /\d+\/\d+[ \u202f](?:AWG|in|hp)|\p{L}{3,}\/\p{L}{3,}/gu
const NAME = /\p{L}[\p{L}″′]*\d*(?:_[\p{L}\d,″]+)*/gu
const FUNCTIONS: ReadonlySet<string> = new Set(['cos', 'sin', 'tan', 'min', 'max', 'sqrt', 'log', 'ln', 'exp', 'Σ', 'j', 'π'])

function tokens(words: string): readonly Token[] {
  const whole = [...words.matchAll(WHOLE)]
  if (whole.length > 0) {
    const out: Token[] = []
    let from = 0
    for (const m of whole) {
      out.push(...tokens(words.slice(from, m.index)), { text: m[0], name: true })
      from = m.index + m[0].length
    }
    return [...out, ...tokens(words.slice(from))]
  }
  const out: Token[] = []
  let at = 0
  for (const m of words.matchAll(NAME)) {
    if (m.index > at) out.push({ text: words.slice(at, m.index), name: false })
    out.push({ text: m[0], name: true })
    at = m.index + m[0].length
  }
  if (at < words.length) out.push({ text: words.slice(at), name: false })
  return out
}

function nameSpans(name: string, known: boolean, formula: boolean): readonly Span[] {
  const [base = name, ...under] = name.split('_')
  if (under.length > 0)
    return [[isWord(base) ? 'b' : 'i', base] as const, ['sub', under.join(' ')] as const].map(
      (s) => (s[0] === 'b' ? s[1] : s) as Span,
    )
  const numbered = /^(Δ?\p{L})(\d+)$/u.exec(name)
  if (numbered !== null && (known || formula))
    return [
      ['i', numbered[1]!],
      ['sub', numbered[2]!],
    ]
  const capital = /^(Δ?[IUVRXZTCPSQ])([a-z]{1,3}|B)$/u.exec(name)
  if (capital !== null && known)
    return [
      ['i', capital[1]!],
      ['sub', capital[2]!],
    ]
  if (/^Δ?\p{L}$/u.test(name) && (known || formula)) return [['i', name]]
  return [name]
}

const isWord = (name: string): boolean => name.length > 3

/** Words of a sentence are not symbols: “as written”, “a neighbour's spare”. */
function looksLikeFormula(words: string): boolean {
  const plain = words.match(/\p{L}{4,}/gu)?.filter((w) => !FUNCTIONS.has(w)) ?? []
  return /[·*/÷=+√^]/.test(words) && plain.length === 0
}

/** Signs as they are set: × ÷ − ≤. A trade size is a name, `1/0 AWG`, and a stroke between words is no division. */
const operators = (words: string): string =>
  words
    .replaceAll('*', ' · ')
    .replaceAll('·', ' · ')
    .replace(/(?<=[\s)])-(?=[\s(\d])/g, '−')
    .replaceAll('<=', '≤')
    .replaceAll('>=', '≥')
    .replace(/ ?\/ ?/g, ' ÷ ')
    .replace(/ {2,}/g, ' ')

/** Neighbouring plain words as one; a lone plain word as a string. */
function joined(spans: readonly Span[]): Inline {
  const out: Span[] = []
  for (const span of spans) {
    const last = out[out.length - 1]
    if (typeof span === 'string' && typeof last === 'string') out[out.length - 1] = last + span
    else out.push(span)
  }
  return out.length === 1 && typeof out[0] === 'string' ? out[0] : out
}
