/** Writes the published feeders as text into the engine, which reads no file. `--check` says whether it is current. */
import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { writeOrCheck } from './generated.ts'

const root = dirname(dirname(fileURLToPath(import.meta.url)))
const folder = join(root, 'packages/engine/data/network')
const target = join(root, 'packages/engine/src/power/network/published.generated.ts')
const body = readdirSync(folder)
  .filter((name) => name.endsWith('.yaml'))
  .sort()
  .map((name) => `  ${JSON.stringify(name)}: ${JSON.stringify(readFileSync(join(folder, name), 'utf8'))},`)
  .join('\n')
const text = `// Written by scripts/networks.ts from packages/engine/data/network/*.yaml. Do not edit.
export const publishedNetworks: Readonly<Record<string, string>> = {
${body}
}
`
writeOrCheck(target, text, 'node scripts/networks.ts')
