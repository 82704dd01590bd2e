import { readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { type Block, type BookContent, bookContent, type Inline } from '../packages/book/src/index.ts'
import { bookPdf } from '../packages/book/src/typeset.ts'
import { shopFolder } from '../packages/cli/src/shop-folder.ts'
import { rulesOf } from '../packages/engine/src/assess/index.ts'
import { readJob } from '../packages/engine/src/job/index.ts'
import { plan } from '../packages/engine/src/plan/index.ts'
import type { Bench } from './run.ts'

const EXAMPLE = 'examples/groomer-yard-us.yaml'
const shop = shopFolder()
const read = readJob(readFileSync(join(dirname(import.meta.dirname), EXAMPLE)), { file: EXAMPLE })
if (!read.ok) throw new Error(`${EXAMPLE} cannot be read`)
const job = read.value
const { design, assessment } = plan(job, shop)
const rules = rulesOf(job, shop)
const content = bookContent({ job, design, assessment, rules })
const pages = Number(
  /\/Count (\d+)/.exec(Buffer.from(bookPdf(content, { paper: 'letter' })).toString('latin1'))?.[1] ?? Number.NaN,
)

/** Every number of every table and working differs from the last run's: the type setter remembers what it has set, and may not here. */
let turn = 0
function otherDigits(): BookContent {
  turn += 1
  const digits = (words: string): string => words.replace(/\d/g, (d) => String((Number(d) + turn) % 10))
  const inline = (i: Inline): Inline =>
    typeof i === 'string'
      ? digits(i)
      : i.map((s) => (typeof s === 'string' ? digits(s) : s[0] === 'sheet' || s[0] === 'mark' ? s : [s[0], digits(s[1])]))
  const block = (b: Block): Block => {
    if (b.k === 'table') return { ...b, rows: b.rows.map((r) => r.map(inline)) }
    if (b.k === 'family')
      return {
        ...b,
        lines: b.lines.map((r) => ({
          ...r,
          values: inline(r.values),
          result: r.result === null ? null : inline(r.result),
          rests: inline(r.rests),
        })),
        tables: b.tables.map((t) => ({ ...t, rows: t.rows.map((r) => r.map(inline)) })),
      }
    if (b.k !== 'working') return b
    return {
      ...b,
      rows: b.rows.map((r) => ({ ...r, values: inline(r.values), result: inline(r.result), rests: inline(r.rests) })),
    }
  }
  return { ...content, sheets: content.sheets.map((s) => ({ ...s, blocks: s.blocks.map(block) })) }
}

export const benches: readonly Bench[] = [
  { name: `book of ${pages} pages: content`, run: () => bookContent({ job, design, assessment, rules }) },
  {
    name: `book of ${pages} pages: typeset, every number new`,
    run: () => bookPdf(otherDigits(), { paper: 'letter' }),
    slow: true,
    limitS: (0.5 * pages) / 40,
  },
  { name: `book of ${pages} pages: typeset again`, run: () => bookPdf(content, { paper: 'letter' }), slow: true },
]
