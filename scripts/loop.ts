/**
 * Writes the hourly loop of a box, which people keep as TypeScript in `kernel.ts`, as a WebAssembly module that the engine carries.
 *
 *   node scripts/loop.ts           writes packages/engine/src/air/year/kernel-wasm.generated.ts
 *   node scripts/loop.ts --check   writes nothing; exit 1 when the module does not agree with the text
 */
import { dirname, join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { engineOf } from '../packages/engine/src/air/year/engine.ts'
import { surroundingsOf } from '../packages/engine/src/air/year/index.ts'
import { layoutOf } from '../packages/engine/src/air/year/layout.ts'
import { sampleBox } from '../packages/engine/src/air/year/sample-boxes.ts'
import { sampleHours } from '../packages/engine/src/air/year/sample-hours.ts'
import { writeOrCheck } from './generated.ts'
import { loopInWasm, READS_AT } from './loop/in-wasm.ts'

export const modulePath = join(
  dirname(fileURLToPath(import.meta.url)),
  '../packages/engine/src/air/year/kernel-wasm.generated.ts',
)
const WIDE = 120

/** The text of the generated module. Same loop, same bytes. */
export function kernelModule(): string {
  const box = sampleBox(0)
  const around = surroundingsOf(box, sampleHours(48), { stepsPerHour: 4 })
  const options = { firstRunHours: 0, startC: null, startVapourPa: null }
  const { bytes, reads, faults } = loopInWasm(engineOf(box, layoutOf(box), around, options))
  const code = Buffer.from(bytes).toString('base64')
  const lines = Array.from({ length: Math.ceil(code.length / WIDE) }, (_, i) => code.slice(i * WIDE, (i + 1) * WIDE))
  return [
    '// Written by scripts/loop.ts from kernel.ts. Change that, then run: npm run loop',
    '',
    '/** What the loop reads, eight bytes each from `READS_AT` on: a number, or where a list stands. A path that ends in `?` asks whether something stands there. */',
    'export const READS = [',
    ...reads.map((read) => `  ${JSON.stringify(read)},`),
    '] as const',
    '',
    `export const READS_AT = ${READS_AT}`,
    '',
    '/** What the loop throws, counted from 1, and the names of the numbers that it leaves at the beginning of the memory. */',
    `export const FAULTS = ${JSON.stringify(faults)} as const`,
    '',
    'export const MODULE =',
    ...lines.map((line, i) => `  '${line}'${i < lines.length - 1 ? ' +' : ''}`),
    '',
  ].join('\n')
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href)
  writeOrCheck(modulePath, kernelModule(), 'npm run loop')
