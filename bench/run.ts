/**
 * `npm run bench [WORD]`: runs every `bench/*.bench.ts`, and prints medians and ratios of one run on one machine side by side.
 * A bench file exports `benches`; the runs of all benches are interleaved, so that a slow moment of the machine hits all alike.
 */
import { readdirSync } from 'node:fs'
import { arch, cpus, platform } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

export interface Bench {
  readonly name: string
  /** One piece of work. What it gives is kept, so that no engine leaves the work out. A promise is waited for. */
  readonly run: () => unknown
  /** Compared with this bench's median, by name. */
  readonly against?: string
  /** Longest time allowed, seconds. */
  readonly limitS?: number
  /** Whole processes and the like: fewer rounds, no calls in a row. */
  readonly slow?: boolean
}

interface Measured {
  readonly bench: Bench
  readonly file: string
  readonly timesS: number[]
  calls: number
}

const ROUNDS = 15
const SLOW_ROUNDS = 3
/** Long enough for the clock's own step not to matter. */
const ROUND_S = 0.02
const WARM_S = 0.3

let kept: unknown
const folder = dirname(fileURLToPath(import.meta.url))
const word = process.argv[2] ?? ''
const all: Measured[] = []
for (const file of readdirSync(folder)
  .filter((name) => name.endsWith('.bench.ts'))
  .sort()) {
  if (word !== '' && !file.includes(word)) continue
  const module: { readonly benches: readonly Bench[] } = await import(join(folder, file))
  for (const bench of module.benches) all.push({ bench, file, timesS: [], calls: 1 })
}

for (const one of all) await warm(one)
for (let round = 0; round < ROUNDS; round += 1) {
  // The order turns round each time: who comes first pays for nobody.
  for (const one of round % 2 === 0 ? all : all.toReversed())
    if (!one.bench.slow || round < SLOW_ROUNDS) one.timesS.push(await timeS(one))
}

const medians = new Map(all.map((one) => [one.bench.name, median(one.timesS)]))
const wide = Math.max(20, ...all.map((one) => one.bench.name.length))
console.log(
  `node ${process.version}, ${platform()} ${arch()}, ${cpus()[0]?.model.trim() ?? 'unknown processor'} × ${cpus().length}`,
)
let file = ''
let over = 0
for (const one of all) {
  if (one.file !== file)
    console.log(
      `\n${one.file}\n${'-'.repeat(wide)}  ${'median'.padStart(10)}  ${'fastest'.padStart(10)}  ${'ratio'.padStart(8)}  limit`,
    )
  file = one.file
  const middle = median(one.timesS)
  const other = one.bench.against === undefined ? undefined : medians.get(one.bench.against)
  const ratio = other === undefined ? '' : `${(middle / other).toFixed(2)} ×`
  const late = one.bench.limitS !== undefined && middle > one.bench.limitS
  if (late) over += 1
  const limit = one.bench.limitS === undefined ? '' : `${shown(one.bench.limitS)}${late ? '  over' : ''}`
  console.log(
    `${one.bench.name.padEnd(wide)}  ${shown(middle).padStart(10)}  ${shown(Math.min(...one.timesS)).padStart(10)}  ${ratio.padStart(8)}  ${limit}`.trimEnd(),
  )
}
console.log(`\n${all.length} benches, ${over} over their limit${kept === undefined ? '' : '.'}`)
process.exitCode = over === 0 ? 0 : 1

async function warm(one: Measured): Promise<void> {
  if (one.bench.slow) {
    kept = await one.bench.run()
    return
  }
  const started = performance.now()
  let calls = 0
  while (performance.now() - started < WARM_S * 1000) {
    kept = await one.bench.run()
    calls += 1
  }
  const callS = (performance.now() - started) / 1000 / calls
  one.calls = Math.max(1, Math.round(ROUND_S / callS))
}

async function timeS({ bench, calls }: Measured): Promise<number> {
  const started = performance.now()
  for (let call = 0; call < calls; call += 1) {
    const result = bench.run()
    kept = result instanceof Promise ? await result : result
  }
  return (performance.now() - started) / 1000 / calls
}

function median(values: readonly number[]): number {
  const order = values.toSorted((a, b) => a - b)
  const middle = order.length >> 1
  return order.length % 2 === 1 ? (order[middle] ?? 0) : ((order[middle - 1] ?? 0) + (order[middle] ?? 0)) / 2
}

function shown(seconds: number): string {
  if (seconds >= 1) return `${seconds.toFixed(2)} s`
  return seconds >= 1e-3 ? `${(seconds * 1e3).toFixed(2)} ms` : `${(seconds * 1e6).toFixed(1)} µs`
}
