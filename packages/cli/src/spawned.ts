import { type ChildProcess, spawn, spawnSync } from 'node:child_process'
import { join } from 'node:path'

export const PROGRAM = join(import.meta.dirname, '../bin/plugstead.mjs')
export const ROOT = join(import.meta.dirname, '../../..')

export interface Ended {
  readonly code: number | null
  readonly out: string
  readonly err: string
}

/** For tests: the program as a process, run to its end. */
export function plugstead(words: readonly string[], options: { readonly cwd?: string; readonly node?: string } = {}): Ended {
  const run = spawnSync(options.node ?? process.execPath, [PROGRAM, ...words], {
    cwd: options.cwd ?? ROOT,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'pipe'],
    maxBuffer: 1 << 28,
    timeout: 200_000,
  })
  return { code: run.status, out: run.stdout, err: run.stderr }
}

/** For tests: the program as a process, running. */
export function started(words: readonly string[], cwd = ROOT): ChildProcess {
  return spawn(process.execPath, [PROGRAM, ...words], { cwd, stdio: ['ignore', 'pipe', 'pipe'] })
}
