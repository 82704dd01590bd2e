/** `npm run bench:web`: what is measured against what is wanted, of one run on one machine. Exit 1 when a goal is missed by over a third. */
import { arch, cpus, loadavg, platform } from 'node:os'
import { join } from 'node:path'
import { benches as dates } from '../../../../bench/dates.bench.ts'
import { benches as models } from '../../../../bench/models.bench.ts'
import { benches as money } from '../../../../bench/money.bench.ts'
import type { Bench } from '../../../../bench/run.ts'
import { APP_FOLDER, buildApp } from '../../../../scripts/app-build.mjs'
import { serve } from '../../../../scripts/app-server.mjs'
import { launched } from '../browser.ts'
import { type Figure, isMissed, table } from './figures.ts'
import { editsToVerdicts, firstVisit, longestTasksDragging, returnVisits, SLOWED } from './in-browser.ts'

const root = join(import.meta.dirname, '../../../..')
const unbuilt = buildApp(root, process.execPath)
if (unbuilt !== null) {
  console.log(unbuilt)
  process.exit(1)
}
const { address, close } = await serve(join(root, APP_FOLDER), 0)
const browser = await launched()
const visits: { readonly ms: number; readonly kB: number }[] = []
for (let round = 0; round < 3; round++) visits.push(await firstVisit(browser, address))
const returns = await returnVisits(browser, address, 5)
const dragging = await longestTasksDragging(browser, address, 3)
const edits = await editsToVerdicts(browser, address, 9)
const version = browser.version()
await browser.close()
await close()

const figures: readonly Figure[] = [
  { what: `edit to new verdicts, processor slowed × ${SLOWED}`, goal: 100, unit: 'ms', measured: edits, of: 'p95' },
  { what: `longest task while dragging, × ${SLOWED}`, goal: 50, unit: 'ms', measured: dragging, of: 'median' },
  { what: 'first drawing, loaded', goal: 250, unit: 'kB', measured: visits.map((v) => v.kB), of: 'largest' },
  { what: 'first drawing, slow 4G', goal: 2500, unit: 'ms', measured: visits.map((v) => v.ms), of: 'median' },
  { what: 'return visit, drawn', goal: 800, unit: 'ms', measured: returns, of: 'median' },
  ...models.filter(({ name }) => name.startsWith('rank')).map((bench) => inNode(bench, 3)),
  ...[...money, ...dates].map((bench) => inNode(bench, 7)),
]
console.log(
  `node ${process.version}, Chromium ${version}, ${platform()} ${arch()}, ${cpus()[0]?.model.trim() ?? 'unknown processor'} × ${cpus().length}, load ${loadavg()[0]!.toFixed(1)}\n`,
)
console.log(table(figures))
const missed = figures.filter(isMissed)
console.log(`\n${figures.length} goals, ${missed.length} missed by over a third`)
process.exit(missed.length === 0 ? 0 : 1)

/** What the engine takes by itself, in Node, after one run to warm it. */
function inNode({ name, run, limitS }: Bench, rounds: number): Figure {
  run()
  const measured = Array.from({ length: rounds }, () => {
    const started = performance.now()
    run()
    return performance.now() - started
  })
  return { what: name, goal: (limitS ?? Number.NaN) * 1000, unit: 'ms', measured, of: 'median' }
}
