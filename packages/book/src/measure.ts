import type { Column, Inline, Span } from './content.ts'
import { type FaceName, faces } from './faces.generated.ts'

const PT_MM = 25.4 / 72
/** A sign from the mathematical face: wide, so that a column is never too narrow for it. */
const FALLBACK_EM = 0.75
const text = face('text')
const strong = face('strong')
const plate = face('plate')

/** Advance widths of a face, so that columns are measured before the type setter sees them. */
function face(name: FaceName): { widthMm(words: string): number } {
  const widths = new Map(
    Object.entries(faces[name]).flatMap(([from, run]) => run.map((width, i) => [Number(from) + i, width / 1000] as const)),
  )
  return {
    /** Width of the words at 1 mm font size. */
    widthMm(words) {
      let sum = 0
      for (const c of words) sum += widths.get(c.codePointAt(0)!) ?? FALLBACK_EM
      return sum
    },
  }
}

/** Length of words on one line. Edges and silhouettes count; the name of a sheet counts as a usual one. */
export function inlineMm(words: Inline, sizePt: number): number {
  return typeof words === 'string' ? text.widthMm(words) * sizePt * PT_MM : words.reduce((sum, s) => sum + spanMm(s, sizePt), 0)
}

function spanMm(span: Span, sizePt: number): number {
  const size = sizePt * PT_MM
  if (typeof span === 'string') return text.widthMm(span) * size
  const [kind, words] = span
  switch (kind) {
    case 'b':
      return strong.widthMm(words) * size
    case 'sub':
    case 'sup':
      return text.widthMm(words) * size * 0.74
    case 'mark':
      return size * 1.05
    case 'sheet':
      return text.widthMm('circuits 88') * size
    case 'quiet':
      return text.widthMm(words) * 8 * PT_MM
    case 'pinned':
      return text.widthMm(words) * size + size
    case 'assumed':
    case 'bounded':
      return text.widthMm(words) * size + 2.6
    case 'told':
      return text.widthMm(words) * size + 3.2
    case 'fails':
    case 'boxed':
      return strong.widthMm(words) * size + 2.8
    case 'br':
      return 0
    default:
      return text.widthMm(words) * size
  }
}

export const headMm = (words: string, sizePt: number): number => plate.widthMm(words) * sizePt * PT_MM

const INSET_MM = 2
const SLACK_MM = 0.5

/** Widths of a table's columns: what the words need, and the rest shared out; where they need too much, the longest give way and wrap. */
export function columnsMm(
  columns: readonly Column[],
  rows: readonly (readonly Inline[])[],
  sizePt: number,
  wideMm: number,
): readonly number[] {
  const needs = columns.map((c, i) => {
    if (c.widthMm > 0) return c.widthMm
    const head = headMm(c.title, 9)
    const words = rows.reduce((most, row) => Math.max(most, inlineMm(row[i] ?? '', sizePt)), head)
    return words + INSET_MM + SLACK_MM
  })
  const fixed = columns.reduce((sum, c, i) => (c.widthMm > 0 ? sum + needs[i]! : sum), 0)
  const shares = columns.reduce((sum, c) => sum + Math.max(0, -c.widthMm), 0)
  const wordsNeed = columns.reduce((sum, c, i) => (c.widthMm === 0 ? sum + needs[i]! : sum), 0)
  const leastForShares = columns.reduce(
    (sum, c, i) => (c.widthMm < 0 ? sum + Math.min(needs[i]!, LEAST_SHARE_MM * -c.widthMm) : sum),
    0,
  )
  const room = wideMm - fixed
  const give = Math.min(1, Math.max(0.1, (room - leastForShares) / Math.max(wordsNeed, 1)))
  const natural = columns.map((c, i) => (c.widthMm === 0 ? (give < 1 ? narrowed(needs[i]!, give) : needs[i]!) : needs[i]!))
  const taken = columns.reduce((sum, c, i) => (c.widthMm === 0 ? sum + natural[i]! : sum), 0)
  if (shares === 0) return natural
  return columns.map((c, i) => (c.widthMm < 0 ? Math.max(8, ((room - taken) * -c.widthMm) / shares) : natural[i]!))
}

/** What columns need so that nothing wraps; the first takes at least what it is given. */
export function columnsNeedMm(
  heads: readonly Inline[],
  rows: readonly (readonly Inline[])[],
  sizePt: number,
  firstMm: number,
): readonly number[] {
  return heads.map((h, i) =>
    i === 0 ? firstMm : Math.max(inlineMm(h, sizePt), ...rows.map((r) => inlineMm(r[i] ?? '', sizePt))) + INSET_MM + SLACK_MM,
  )
}

/** A column of words gets at least this much before the others do. */
const LEAST_SHARE_MM = 18
/** Below this a number would break. */
const SHORT_MM = 12

const narrowed = (needMm: number, give: number): number => (needMm <= SHORT_MM ? needMm : Math.max(SHORT_MM, needMm * give))
