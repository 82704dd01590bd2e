import { markSvg, svg } from '@plugstead/drawings'
import {
  type Block,
  type BookContent,
  type BookOptions,
  CAUTION,
  type FamilyBlock,
  type FamilyTable,
  type Inline,
  type Span,
  type WorkingBlock,
  type WorkingRow,
} from './content.ts'
import { frameSvg, KEY_NET, keySideSvg, PAPERS } from './frame.ts'
import { columnsMm, columnsNeedMm, headMm, inlineMm } from './measure.ts'
import { forReader, READER_WORDS } from './readers.ts'
import { FAMILY_MM, SUBJECT_MM } from './working-family.ts'

/**
 * What the template reads, by path from its root: content as JSON, frame, silhouettes and drawings as SVG. Everything that is decided about the
 * book is decided here; what sets it, in a terminal or in a browser, adds nothing.
 */
export function bookFiles(whole: BookContent, options: BookOptions): ReadonlyMap<string, string> {
  const { reader } = options
  const book = reader === undefined ? whole : forReader(whole, reader)
  const paper = PAPERS[options.paper]
  const files = new Map<string, string>()
  const put = (path: string, words: string): void => void files.set(path, words)
  for (const which of ['holds', 'tight', 'fails', 'unknown', 'others', 'punch'] as const) put(`m/${which}.svg`, markSvg(which))
  put('frame.svg', frameSvg(paper))
  for (const side of new Set(book.sheets.flatMap((s) => s.sides ?? []))) put(`k/${side}.svg`, keySideSvg(side))

  let drawings = 0
  const blockOf = (block: Block): object => {
    const set = setBlock(block)
    if (set.k !== 'drawing') return set
    drawings += 1
    put(`d/${drawings}.svg`, svg.render(set.scene))
    return { k: 'drawing', n: drawings, w: set.scene.sizeMm[0], h: set.scene.sizeMm[1], alt: set.scene.said }
  }
  put(
    'book.json',
    JSON.stringify({
      title: options.title ?? book.title,
      foot: footTitle(options.title ?? book.title),
      tag: book.tag,
      rules: book.rules,
      caution: CAUTION,
      check: options.checkPrint ?? false,
      paper: { w: paper.widthMm, h: paper.heightMm },
      keyNet: KEY_NET,
      revision: issueLines(options),
      part: reader !== undefined,
      sheets: book.sheets.map((s) => ({ ...s, single: SINGLE.has(s.part), blocks: s.blocks.map(blockOf) })),
    }),
  )
  return files
}

/** The third cell of the tag: revision, its day, what kind of print for whom. */
export function issueLines({ revision, checkPrint, reader }: BookOptions): readonly string[] {
  const readerWord = `for the ${reader === undefined ? 'reader' : READER_WORDS[reader]}`
  return [
    revision === undefined ? 'no revision' : `revision ${revision.letter}`,
    revision?.day ?? 'day not given',
    ...(checkPrint === true ? ['check print', ...(reader === undefined ? [] : [readerWord])] : [readerWord]),
  ]
}

/** A row of a derivation: `long`, its expression and values stand over both columns; `many`, its values over the whole width. */
export type SetRow = WorkingRow & { readonly long: boolean; readonly many?: true }

/** A block with everything decided that its words decide: widths of columns, what stands over two of them, what may break. */
export type SetBlock =
  | (Extract<Block, { readonly k: 'table' }> & { readonly widths: readonly number[]; readonly together: boolean })
  | (Omit<WorkingBlock, 'rows' | 'crossCheck' | 'judgement'> & {
      readonly rows: readonly SetRow[]
      readonly crossCheck: readonly SetRow[]
      readonly judgement: (NonNullable<WorkingBlock['judgement']> & SetRow) | null
      readonly breaks: boolean
    })
  | (Omit<FamilyBlock, 'lines' | 'tables'> & {
      readonly lines: readonly (FamilyBlock['lines'][number] & { readonly long: boolean })[]
      readonly tables: readonly (FamilyTable & { readonly widths: readonly number[] })[]
    })
  | (Extract<Block, { readonly k: 'panel' }> & { readonly plugMm: number })
  | Exclude<Block, { readonly k: 'table' | 'working' | 'family' | 'panel' }>

export function setBlock(block: Block): SetBlock {
  switch (block.k) {
    case 'table':
      return {
        ...block,
        widths: columnsMm(block.columns, block.rows, block.small === true ? 8 : 9, WIDE_MM),
        rows: block.rows.map((r) => r.map(wrappable)),
        together: block.rows.every((r) => r.every((c) => lengthOf(c) < TOGETHER_CHARACTERS)),
      }
    case 'working':
      return setWorking(block)
    case 'family':
      return setFamily(block)
    case 'panel':
      return {
        ...block,
        plugMm: Math.min(MOST_PLUG_MM, Math.max(...[...block.left, ...block.right].map((w) => inlineMm(w.outlet, 8)), 6) + 2),
      }
    default:
      return block
  }
}

/** The title in the tag: smaller where one line cannot hold it, and cut where two of those cannot. It stands whole on the cover. */
export function footTitle(title: string): { readonly words: string; readonly sizePt: number } {
  if (headMm(title, FOOT_PT) <= FOOT_TITLE_MM) return { words: title, sizePt: FOOT_PT }
  const fits = (words: string): boolean => headMm(words, FOOT_SMALL_PT) <= 2 * FOOT_TITLE_MM * WRAPPED_FRAC
  if (fits(title)) return { words: title, sizePt: FOOT_SMALL_PT }
  const letters = [...title]
  const kept = letters.findLastIndex((_, i) => fits(`${letters.slice(0, i).join('')} …`))
  return { words: `${letters.slice(0, kept).join('').trimEnd()} …`, sizePt: FOOT_SMALL_PT }
}
const FOOT_PT = 12
const FOOT_SMALL_PT = 10
const FOOT_TITLE_MM = 66
/** What a line gives away where its last word does not fit. */
const WRAPPED_FRAC = 0.85

/** Parts of one sheet, named without a number. */
const SINGLE: ReadonlySet<string> = new Set(['cover', 'offer'])

const WIDE_MM = 185
const MOST_PLUG_MM = 18
/** Rooms of the working's columns for expression and values, less their insets. */
const EXPRESSION_MM = 31 - 1.8
const VALUES_MM = 39 - 1.8
/** A derivation of so many lines stays together; a longer one may go over to the next sheet, its heads repeated. */
const TOGETHER = 12

/** Values of so many lines of their own stand over the whole width instead. */
const MANY_LINES = 8

const isMany = (r: { readonly values: Inline }): boolean => inlineMm(r.values, 9) > MANY_LINES * (EXPRESSION_MM + VALUES_MM)
const isLong = (r: { readonly expression: Inline; readonly values: Inline }): boolean =>
  inlineMm(r.expression, 9) > EXPRESSION_MM || inlineMm(r.values, 9) > VALUES_MM

function setFamily(block: FamilyBlock): SetBlock {
  const widthsOf = (t: FamilyTable): readonly number[] => {
    const needs = columnsNeedMm(t.heads, t.rows, 8, SUBJECT_MM)
    if (t.runs === undefined) {
      const spare = FAMILY_MM - needs.reduce((a, b) => a + b, 0)
      return needs.map((w, i) => (i === 0 ? Math.min(w + spare, FAMILY_SUBJECT_MM) : w))
    }
    if (t.heads.length === 2) return [SUBJECT_MM, FAMILY_MM - SUBJECT_MM]
    const judged = Math.min(Math.max(needs[2]!, 20), JUDGED_MM)
    return [SUBJECT_MM, FAMILY_MM - SUBJECT_MM - judged, judged]
  }
  return {
    ...block,
    lines: block.lines.map((r) => ({ ...r, long: isLong(r) })),
    tables: block.tables.map((t) => ({ ...t, widths: widthsOf(t), rows: t.rows.map((r) => r.map(wrappable)) })),
  }
}
const FAMILY_SUBJECT_MM = 80
const JUDGED_MM = 44

function setWorking(block: WorkingBlock): SetBlock {
  const rowOf = <T extends WorkingRow>(r: T): T & SetRow => ({
    ...r,
    long: isLong(r),
    ...(isMany(r) ? { many: true as const } : {}),
  })
  const lines = block.rows.length + block.crossCheck.length
  const many = block.rows.some(isMany)
  return {
    ...block,
    rows: block.rows.map(rowOf),
    crossCheck: block.crossCheck.map(rowOf),
    judgement: block.judgement === null ? null : rowOf(block.judgement),
    breaks: lines > TOGETHER || many,
  }
}

const lengthOf = (words: Inline): number =>
  typeof words === 'string' ? words.length : words.reduce((n, s) => n + (typeof s === 'string' ? s : s[1]).length, 0)
/** A row stays on one sheet unless a cell of it could fill one. */
const TOGETHER_CHARACTERS = 1200

/** A word too long for a column may break after its stops and strokes, or, without any, wherever it must. */
function wrappable(words: Inline): Inline {
  if (typeof words !== 'string')
    return words.map(
      (s): Span => (typeof s === 'string' ? broken(s) : [s[0], s[0] === 'sheet' || s[0] === 'mark' ? s[1] : broken(s[1])]),
    )
  return broken(words)
}

const broken = (words: string): string =>
  words.replace(/\S{19,}/g, (word) =>
    /[./_\-[\]]/.test(word)
      ? word.replace(/[./_\-\]]/g, (c) => `${c}${MAY_BREAK}`)
      : word.replace(/.{12}/gu, (part) => `${part}${MAY_BREAK}`),
  )
const MAY_BREAK = '\u200b'
