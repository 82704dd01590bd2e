import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { shopFolder } from '../packages/cli/src/shop-folder.ts'
import { assess } from '../packages/engine/src/assess/index.ts'
import { type Job, readJob } from '../packages/engine/src/job/index.ts'
import { plan } from '../packages/engine/src/plan/index.ts'
import type { Bench } from './run.ts'

const root = dirname(import.meta.dirname)
const EXAMPLE = 'examples/groomer-yard-us.yaml'
const shop = shopFolder()

const read = readJob(readFileSync(join(root, EXAMPLE)), { file: EXAMPLE })
if (!read.ok) throw new Error(`${EXAMPLE} cannot be read`)
const yard = read.value

/** The yard so many times over: each copy has its own machines and its own box. */
function times(job: Job, copies: number): Job {
  const all = Array.from({ length: copies }, (_, at) => (at === 0 ? '' : `-${at + 1}`))
  return {
    ...job,
    boxes: all.flatMap((end) =>
      job.boxes.map((box) => ({
        ...box,
        id: box.id + end,
        ...(box.fedFrom === undefined ? {} : { fedFrom: { ...box.fedFrom, box: box.fedFrom.box + end } }),
      })),
    ),
    plugs: all.flatMap((end) =>
      job.plugs.map((plug) => ({
        ...plug,
        tag: plug.tag + end,
        row: plug.row + end,
        machine: plug.machine + end,
        ...(plug.plugShared === undefined ? {} : { plugShared: plug.plugShared + end }),
        fedBy: Object.fromEntries(Object.entries(plug.fedBy).map(([phase, box]) => [phase, box + end])),
      })),
    ),
  }
}

const grown = [1, 4, 16].map((copies) => ({ copies, job: times(yard, copies) }))
const designs = grown.map(({ job }) => plan(job, shop).design)
const first = `read ${EXAMPLE}`

export const benches: readonly Bench[] = [
  { name: first, run: () => readJob(readFileSync(join(root, EXAMPLE)), { file: EXAMPLE }) },
  ...grown.map(({ copies, job }, at): Bench => {
    const design = designs[at]
    if (design === undefined) throw new Error('no design')
    return {
      name: `assess, ${job.plugs.length} plugs`,
      run: () => assess(job, design, shop),
      ...(copies === 1 ? {} : { against: `assess, ${yard.plugs.length} plugs` }),
    }
  }),
  ...grown.map(
    ({ copies, job }): Bench => ({
      name: `plan with runners-up, ${job.plugs.length} plugs`,
      run: () => plan(job, shop),
      slow: true,
      ...(copies === 1 ? { limitS: 0.4 } : { against: `plan with runners-up, ${yard.plugs.length} plugs` }),
    }),
  ),
  {
    name: 'plan as a whole process',
    run: () => spawnSync(process.execPath, [join(root, 'packages/cli/bin/plugstead.mjs'), 'plan', EXAMPLE], { cwd: root }).status,
    slow: true,
    limitS: 1.2,
  },
]
