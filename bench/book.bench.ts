import { readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { bookContent, bookPdf } from '../packages/book/src/index.ts'
import { rulesOf } from '../packages/engine/src/assess/index.ts'
import { readJob } from '../packages/engine/src/job/index.ts'
import { plan } from '../packages/engine/src/plan/index.ts'
import { shopFolder } from '../packages/cli/src/shop-folder.ts'
import type { Bench } from './run.ts'

const EXAMPLE = 'examples/groomer-yard-us.yaml'
const shop = shopFolder()
const read = readJob(readFileSync(join(dirname(import.meta.dirname), EXAMPLE)), { file: EXAMPLE })
if (!read.ok) throw new Error(`${EXAMPLE} cannot be read`)
const job = read.value
const { design, assessment } = plan(job, shop)
const rules = rulesOf(job, shop)
const content = bookContent(job, design, assessment, rules)

export const benches: readonly Bench[] = [
  { name: `book of ${content.sheets.length} sheets: content`, run: () => bookContent(job, design, assessment, rules) },
  { name: `book of ${content.sheets.length} sheets: typeset`, run: () => bookPdf(content, { paper: 'letter' }), slow: true, limitS: 0.5 },
]
