import { spawnSync } from 'node:child_process'
import { copyFileSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { engineOf } from '../packages/engine/src/air/year/engine.ts'
import { layoutOf } from '../packages/engine/src/air/year/layout.ts'
import type { Surroundings } from '../packages/engine/src/air/year/surroundings.ts'
import type { BoxModel, YearRun } from '../packages/engine/src/air/year/types.ts'
import { FIRST_RUN_HOURS } from '../packages/engine/src/air/year/year-of.ts'
import { bytesOf, loopInC } from './loop-in-c.ts'

/** Sum over a run by which the C twin is held to the engine; the twin adds the same in the same order. */
export function checkSum({ series, hoursCount }: YearRun): number {
  let sum = 0
  for (let h = 0; h < hoursCount; h++) sum += series.airC[h]! + series.gearC[h]! + series.vapourPa[h]! + series.floorWaterKg[h]!
  for (let j = 0; j < hoursCount * 6; j++) sum += series.faceC[j]! + 1e3 * series.filmKgPerM2[j]!
  return sum
}

export interface InC {
  readonly medianMs: number
  readonly fastestMs: number
  readonly sum: number
  readonly airC: readonly number[]
}

export interface HowInC {
  /** Every product and sum rounded by itself, as in the engine; else as fast as gcc makes it. */
  readonly exact?: boolean
  /** No step is taken again in parts. */
  readonly whole?: boolean
  /** Backward Euler: both stages at the end of the step. */
  readonly euler?: boolean
  readonly firstRunHours?: number
}

/** A run of the kernel's loop by a C program made here from the kernel's text; null when there is no gcc. */
export function yearInC(model: BoxModel, around: Surroundings, rounds: number, how: HowInC = {}): InC | null {
  if (spawnSync('gcc', ['--version']).status !== 0) return null
  const folder = mkdtempSync(join(tmpdir(), 'year-'))
  try {
    const options = { firstRunHours: how.firstRunHours ?? FIRST_RUN_HOURS, startC: null, startVapourPa: null }
    const engine = engineOf(model, layoutOf(model), around, options)
    const { c, values } = loopInC(engine)
    let loop = how.whole || how.euler ? set(c, 'SPLIT_K', '1e9') : c
    if (how.euler) loop = set(loop, 'GAMMA', '1.0')
    writeFileSync(join(folder, 'loop.h'), loop)
    copyFileSync(join(dirname(fileURLToPath(import.meta.url)), 'c/year.c'), join(folder, 'year.c'))
    const program = join(folder, 'year')
    const flags = ['-O3', '-march=native', '-fno-math-errno', ...(how.exact ? ['-ffp-contract=off'] : [])]
    const made = spawnSync('gcc', [...flags, '-o', program, join(folder, 'year.c'), '-lm'], { encoding: 'utf8' })
    if (made.status !== 0) throw new Error(`gcc: ${made.stderr.slice(0, 2000)}`)
    const first = engine.start === engine.stepsCount ? 0 : engine.start - engine.stepsCount
    const out = spawnSync(program, [String(first), String(engine.stepsCount), String(rounds), String(engine.hoursCount)], {
      input: bytesOf(
        how.euler ? values.map(([name, value, kind]) => [name, name === 'back' ? 0 : value, kind] as const) : values,
      ),
      encoding: 'utf8',
    })
    if (out.status !== 0) throw new Error(`the loop in C ended with ${out.status ?? out.signal}`)
    const [head, ...rest] = out.stdout.trim().split('\n')
    const [medianMs, fastestMs, sum] = head!.split(' ').map(Number)
    return { medianMs: medianMs!, fastestMs: fastestMs!, sum: sum!, airC: rest.map(Number) }
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

function set(c: string, name: string, value: string): string {
  const line = new RegExp(`#define ${name} .*`)
  if (!line.test(c)) throw new Error(`the loop has no ${name}`)
  return c.replace(line, `#define ${name} (${value})`)
}
