import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { fillRadial, type Radial, radialWork } from '../packages/engine/src/power/network/radial.ts'
import { radialExample } from '../packages/engine/src/power/network/radial-example.ts'
import { exampleInputs } from '../packages/engine/src/power/reach/example.ts'
import { answerReach } from '../packages/engine/src/power/reach/index.ts'
import type { Bench } from './run.ts'

const TOLERANCE_V = 230e-8

function sweepBench(nodes: number, wires: 3 | 5, limitS?: number): Bench {
  const { radial, sourceV } = radialExample(nodes, wires)
  const work = radialWork(radial)
  return {
    name: `sweep, ${nodes} nodes, ${wires} wires, flat start to 1e-8${limitS === undefined ? '' : ` (${beside(nodes, wires)})`}`,
    ...(limitS === undefined ? {} : { limitS }),
    run: () => fillRadial(radial, sourceV, TOLERANCE_V, 100, work) + work.volts[7]!,
  }
}

/** The same feeder given to a plain C program, compiled here; null when there is no compiler. */
export function plainC(
  nodes: number,
  wires: 3 | 5,
): { readonly medianUs: number; readonly passes: number; readonly sum: number } | null {
  const folder = mkdtempSync(join(tmpdir(), 'sweep-'))
  try {
    const program = join(folder, 'sweep')
    const here = dirname(fileURLToPath(import.meta.url))
    if (spawnSync('gcc', ['-O3', '-march=native', '-o', program, join(here, 'c/sweep.c'), '-lm']).status !== 0) return null
    const { radial, sourceV } = radialExample(nodes, wires)
    const out = spawnSync(program, { input: asText(radial, sourceV), encoding: 'utf8' })
    const [medianUs, passes, sum] = out.stdout.trim().split(' ').map(Number)
    return out.status === 0 ? { medianUs: medianUs!, passes: passes!, sum: sum! } : null
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

function asText(r: Radial, sourceV: Float64Array): string {
  const rows = [
    [r.wires, r.nodes, r.loadW.length],
    r.parent,
    r.loadStart,
    r.loadFrom,
    r.loadTo,
    r.loadModel,
    r.zOhm,
    r.loadW,
    r.loadVar,
    r.loadV,
    sourceV,
  ]
  return rows
    .map((row) => Array.from(row as Iterable<number>, (x) => (Number.isInteger(x) ? String(x) : x.toExponential(17))).join(' '))
    .join('\n')
}

/** What plain C takes for the same feeder in this run, in words; says so when it gave other volts. */
function beside(nodes: number, wires: 3 | 5): string {
  const c = plainC(nodes, wires)
  if (c === null) return 'plain C not run, no gcc'
  const { radial, sourceV } = radialExample(nodes, wires)
  const work = radialWork(radial)
  fillRadial(radial, sourceV, TOLERANCE_V, 100, work)
  const off = Math.abs(work.volts.reduce((a, b) => a + b, 0) - c.sum)
  return off < 1e-6 ? `plain C beside it ${c.medianUs.toFixed(1)} µs` : `plain C gives other volts, off by ${off} V`
}

const one = exampleInputs({ interim: false })
const sixteen = exampleInputs({ interim: false, plugs: 96 })

export const benches: readonly Bench[] = [
  sweepBench(123, 3, 60e-6),
  sweepBench(123, 5, 200e-6),
  sweepBench(492, 3),
  sweepBench(1968, 3),
  { name: 'reach of one box, 24 machines, one source', run: () => answerReach(one).findings.length },
  { name: 'reach of one box, 96 machines, one source', run: () => answerReach(sixteen).findings.length },
]
