import { spawnSync } from 'node:child_process'
import { dirname, join } from 'node:path'
import type { Bench } from './run.ts'

const root = dirname(import.meta.dirname)
const program = join(root, 'packages/cli/bin/plugstead.mjs')

const whole = (words: readonly string[]) => () => spawnSync(process.execPath, [program, ...words], { cwd: root }).status

export const benches: readonly Bench[] = [
  { name: 'node alone, as a process', run: () => spawnSync(process.execPath, ['-e', '0']).status, slow: true },
  { name: 'plugstead --help, as a process', run: whole(['--help']), slow: true, against: 'node alone, as a process' },
]
