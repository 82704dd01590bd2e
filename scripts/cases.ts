/** Writes `packages/engine/src/check/cases.generated.ts` from the YAML people read. `--check` says whether it is current. */
import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parse } from 'yaml'
import { writeOrCheck } from './generated.ts'

const root = dirname(dirname(fileURLToPath(import.meta.url)))
const folder = join(root, 'packages/engine/check')
const target = join(root, 'packages/engine/src/check/cases.generated.ts')

interface Written {
  readonly id?: unknown
  readonly [key: string]: unknown
}

const TEXT = ['id', 'topic', 'source', 'provenance']

const seen = new Map<string, string>()
const cases: Written[] = []
for (const file of readdirSync(folder)
  .filter((name) => name.endsWith('.yaml'))
  .sort()) {
  const all: unknown = parse(readFileSync(join(folder, file), 'utf8'))
  const list = Array.isArray(all) ? all : (all as { cases?: unknown } | null)?.cases
  if (!Array.isArray(list)) throw new Error(`${file}: a list of cases is wanted`)
  for (const one of list as Written[]) {
    const id = String(one.id)
    for (const key of TEXT)
      if (typeof one[key] !== 'string' || one[key] === '') throw new Error(`${file}, ${id}: ${key} is missing`)
    for (const key of ['given', 'expect', 'tolerance'])
      if (typeof one[key] !== 'object') throw new Error(`${file}, ${id}: ${key} is missing`)
    const { relative, absolute, why } = one.tolerance as Record<string, unknown>
    if (typeof why !== 'string') throw new Error(`${file}, ${id}: the tolerance gives no reason`)
    for (const value of [relative, absolute])
      if (value !== undefined && (typeof value !== 'number' || !(value >= 0)))
        throw new Error(`${file}, ${id}: the tolerance is not a number`)
    const other = seen.get(id)
    if (other !== undefined) throw new Error(`${id} stands in ${other} and in ${file}`)
    seen.set(id, file)
    cases.push(one)
  }
}

const body = cases.map((one) => `  ${JSON.stringify(one)},`).join('\n')
const text = `// Written by scripts/cases.ts from packages/engine/check/*.yaml. Do not edit.
import type { PublishedCase } from './types.ts'

export const publishedCases: readonly PublishedCase[] = [
${body}
]
`
writeOrCheck(target, text, 'npm run cases')
