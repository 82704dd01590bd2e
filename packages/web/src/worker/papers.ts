import {
  type BookContent,
  type BookOptions,
  bookContent,
  bookFiles,
  CAUTION,
  dateLists,
  drawingFiles,
  footTitle,
  forReader,
  frameScene,
  issueLines,
  type JobFile,
  jobLists,
  KEY_NET,
  keySideScene,
  PAPERS,
  type Reader,
  type Sheet,
  setBlock,
  usualPaper,
  workingBlocks,
} from '@plugstead/book'
import { outputName } from '@plugstead/engine/answer'
import { rulesOf } from '@plugstead/engine/assess'
import { moneyWorkbook } from '@plugstead/lists/workbook'
import type { AtWork } from './at-work.ts'
import type { Calls, FileGroup, FileLine, PageAnswer, PageAsked, SheetLine, SheetsAnswer } from './protocol.ts'

/** Sheets, files and book of the job that is open. Each is made once for an answer. */
interface Papers {
  readonly book: BookContent
  readonly usual: 'letter' | 'a4'
  readonly files: readonly (JobFile & { readonly line: FileLine })[]
}

const known = new WeakMap<AtWork, Papers>()

function papersOf(at: AtWork): Papers {
  const had = known.get(at)
  if (had !== undefined) return had
  const { job, shop, found, given } = at
  const { design, assessment, changeList } = found
  const rules = rulesOf(job, shop)
  const input = { job, design, assessment, rules }
  const usual = usualPaper(rules)
  const inGroup = (group: FileGroup, files: readonly (JobFile & { readonly title?: string })[]) =>
    files.map((file) => ({
      ...file,
      line: { kind: file.kind, name: outputName(given.file, file.kind), group, title: file.title ?? null },
    }))
  const lists = jobLists(input, changeList)
  const papers: Papers = {
    book: bookContent(job, design, assessment, rules, changeList),
    usual,
    files: [
      ...inGroup(
        'answers',
        lists.filter(({ kind }) => kind.endsWith('.json')),
      ),
      ...inGroup(
        'lists',
        lists.filter(({ kind }) => !kind.endsWith('.json')),
      ),
      ...inGroup('lists', [{ kind: 'money.xlsx', make: () => moneyWorkbook(assessment.results.money, job.title) }]),
      ...inGroup('dates', dateLists(input)),
      ...inGroup('drawings', drawingFiles(input, 'letter')),
    ],
  }
  known.set(at, papers)
  return papers
}

/** Sheets of one reader, each named by its part and its place in it. The names are those of the whole book. */
function linesOf(book: BookContent, reader: Reader | null): readonly { readonly line: SheetLine; readonly sheet: Sheet }[] {
  const counts = new Map<string, number>()
  const all = book.sheets.map((sheet) => {
    const n = (counts.get(sheet.part) ?? 0) + 1
    counts.set(sheet.part, n)
    return { line: { id: `${sheet.part}-${n}`, part: sheet.part, head: sheet.head, sub: sheet.sub }, sheet }
  })
  if (reader === null) return all
  const theirs = new Set(forReader(book, reader).sheets)
  return all.filter(({ sheet }) => theirs.has(sheet))
}

export function sheetsAnswer(at: AtWork | null, { reader }: Calls['sheets']['asked']): SheetsAnswer | null {
  if (at === null) return null
  const { book, usual } = papersOf(at)
  return { usualPaper: usual, sheets: linesOf(book, reader).map(({ line }) => line) }
}

export function pageAnswer(at: AtWork | null, { sheet: id, ...options }: PageAsked): PageAnswer | null {
  if (at === null) return null
  const { book } = papersOf(at)
  const lines = linesOf(book, options.reader ?? null)
  const { line, sheet } = lines.find((one) => one.line.id === id) ?? lines[0]!
  const paper = PAPERS[options.paper]
  return {
    line,
    widthMm: paper.widthMm,
    heightMm: paper.heightMm,
    frame: frameScene(paper),
    keySides: (sheet.sides ?? []).map(keySideScene),
    keyAt: KEY_NET,
    scale: sheet.scale,
    key: sheet.key,
    caution: CAUTION,
    foot: footTitle(book.title),
    tag: book.tag,
    rules: book.rules,
    issue: issueLines(options),
    blocks: sheet.blocks.map(setBlock),
    partOf: Object.fromEntries(
      lines.flatMap((one) =>
        one.sheet.blocks.flatMap((b) => (b.k === 'working' || b.k === 'family' ? b.ids.map((w) => [w, one.line.part]) : [])),
      ),
    ),
    contents: lines.map((one) => one.line),
  }
}

export function derivationsAnswer(
  at: AtWork | null,
  { question }: Calls['derivations']['asked'],
): Calls['derivations']['answer'] {
  if (at === null) return null
  const { workings, findings } = at.found.assessment
  const named = new Set(findings.flatMap((f) => (f.question === question ? f.workings : [])))
  return workingBlocks(
    workings.filter((w) => named.has(w.id)),
    findings,
  ).map(setBlock)
}

export const bookAnswer = (at: AtWork | null, options: BookOptions): ReadonlyMap<string, string> | null =>
  at === null ? null : bookFiles(papersOf(at).book, options)

export const filesAnswer = (at: AtWork | null): readonly FileLine[] | null =>
  at === null ? null : papersOf(at).files.map(({ line }) => line)

export const fileAnswer = (at: AtWork | null, kind: string): string | Uint8Array | null =>
  at === null
    ? null
    : (papersOf(at)
        .files.find((file) => file.kind === kind)
        ?.make() ?? null)
