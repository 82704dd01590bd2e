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
  notTold,
  offerContent,
  PAPERS,
  type Reader,
  type Sheet,
  setBlock,
  usualPaper,
  workingBlocks,
} from '@plugstead/book'
import { yearsHeld } from '@plugstead/engine/air'
import { outputName } from '@plugstead/engine/answer'
import { assess, rulesOf, withFound } from '@plugstead/engine/assess'
import { moneyWorkbook } from '@plugstead/lists/workbook'
import { type KeptAir, keptAir } from './air/kept.ts'
import type { AtWork } from './at-work.ts'
import type {
  Calls,
  FileGroup,
  FileLine,
  OfferAnswer,
  OfferAsked,
  PageAnswer,
  PageAsked,
  SheetLine,
  SheetsAnswer,
} from './protocol.ts'

/** Sheets, files and book of the job that is open. Each is made once for an answer. */
interface Papers {
  /** What was kept of made years when these were made. */
  readonly kept: KeptAir
  readonly book: BookContent
  readonly usual: 'letter' | 'a4'
  readonly files: readonly (JobFile & { readonly line: FileLine })[]
}

const known = new WeakMap<AtWork, Papers>()

function papersOf(at: AtWork): Papers {
  const kept = keptAir(at)
  const had = known.get(at)
  if (had?.kept === kept) return had
  const { job, shop, found, given } = at
  const { design, changeList } = found
  const assessment = withYears(found.assessment, kept)
  const rules = rulesOf(job, shop)
  const input = { job, design, assessment, rules, airRemedies: kept.remedies }
  const usual = usualPaper(rules)
  const inGroup = (group: FileGroup, files: readonly (JobFile & { readonly title?: string })[]) =>
    files.map((file) => ({
      ...file,
      line: { kind: file.kind, name: outputName(given.file, file.kind), group, title: file.title ?? null },
    }))
  const lists = jobLists(input, changeList)
  const papers: Papers = {
    kept,
    book: bookContent(input, changeList),
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

/** In how many made years each box holds, as far as it was found: of all thirty, else of those that the table of remedies came to. */
function withYears(assessment: AtWork['found']['assessment'], { years, remedies }: KeptAir): typeof assessment {
  const byTable = Object.values(remedies).flatMap(({ table, stackedYearsCount }) =>
    stackedYearsCount === 0 || years[table.box] !== undefined ? [] : [{ ...table, yearsCount: stackedYearsCount }],
  )
  const all = [...Object.values(years), ...byTable]
  return all.length === 0 ? assessment : withFound(assessment, all.map(yearsHeld))
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
  return pageOf(book, { line, sheet }, lines, options)
}

function pageOf(
  book: BookContent,
  { line, sheet }: ReturnType<typeof linesOf>[number],
  lines: ReturnType<typeof linesOf>,
  options: BookOptions,
): PageAnswer {
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

/** The offer of that day, judged on it as `plugstead offer --date` judges: prices grow old, and so do days. */
function offerOf(at: AtWork, { day, rent }: OfferAsked): BookContent {
  const { job, shop } = at
  const { assessment, design } = judgedOn(at, day)
  return offerContent({ ...{ job, design, assessment, day, rent }, rules: rulesOf(job, shop), shopName: shop.name })
}

const judged = new WeakMap<AtWork, { readonly day: string; readonly found: Pick<AtWork['found'], 'design' | 'assessment'> }>()

function judgedOn(at: AtWork, day: string): Pick<AtWork['found'], 'design' | 'assessment'> {
  const had = judged.get(at)
  if (had?.day === day) return had.found
  const { design, beside } = at.found
  const found = { design, assessment: assess(at.job, design, at.shop, { ...beside, today: day }) }
  judged.set(at, { day, found })
  return found
}

const offerOptions = (at: AtWork, { day, paper }: OfferAsked): BookOptions => ({
  paper: paper ?? usualPaper(rulesOf(at.job, at.shop)),
  revision: { letter: 'A', day },
})

export function offerAnswer(at: AtWork | null, asked: OfferAsked): OfferAnswer | null {
  if (at === null) return null
  const book = offerOf(at, asked)
  const options = offerOptions(at, asked)
  const { assessment } = judgedOn(at, asked.day)
  const lines = linesOf(book, null)
  return {
    paper: options.paper,
    rents: assessment.results.money.rent !== null,
    notTold: notTold({ job: at.job, assessment }),
    pages: lines.map((one) => pageOf(book, one, lines, options)),
  }
}

export const offerBookAnswer = (at: AtWork | null, asked: OfferAsked): ReadonlyMap<string, string> | null =>
  at === null ? null : bookFiles(offerOf(at, asked), offerOptions(at, asked))

export function derivationsAnswer(
  at: AtWork | null,
  { question }: Calls['derivations']['asked'],
): Calls['derivations']['answer'] {
  if (at === null) return null
  const { assessment } = at.found
  const { workings, findings } = assessment
  const named = new Set(findings.flatMap((f) => (f.question === question ? f.workings : [])))
  return workingBlocks(
    workings.filter((w) => named.has(w.id)),
    assessment,
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
