/** Writes docs/validation.md: every published case, ours beside theirs. `--check` says whether it is current. */
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { caseFile } from '../packages/cli/src/case-files.ts'
import {
  adapters,
  type CheckedCase,
  type CheckedValue,
  publishedCases,
  runCases,
  type Scalar,
} from '../packages/engine/src/check/index.ts'
import { writeOrCheck } from './generated.ts'

const root = dirname(dirname(fileURLToPath(import.meta.url)))
const cases = runCases(publishedCases, adapters, caseFile)
const met = cases.filter((one) => one.ok).length

const text = `# Validation

Published worked examples, handbook rows and test feeders, computed by the engine and laid beside what the source prints.
Run them yourself: \`npx plugstead check\`. This page is written by \`npm run validation\`; a test says when it is not current.

**${met} of ${cases.length} cases agree.** Provenance: *read* was seen in a public document; *memory* was recalled from the named standard
and waits to be confirmed in the book; *computed* was worked out from the stated formula outside the program.

| case | value | ours | theirs | difference | allowed |
|---|---|--:|--:|--:|--:|
${cases.flatMap(rows).join('\n')}

## Sources

${cases.map(sourceOf).join('\n')}
`
writeOrCheck(join(root, 'docs/validation.md'), text, 'npm run validation')

function rows(one: CheckedCase): readonly string[] {
  if (one.values.length === 0)
    return [`| **${one.id}** ${cell(one.topic)} | not met: ${cell(one.reason ?? 'no value')} | | | | |`]
  return one.values.map((value, at) => `| ${at === 0 ? `**${one.id}** ${cell(one.topic)}` : ''} | ${valueCells(value)} |`)
}

function valueCells(value: CheckedValue): string {
  const name = `${value.ok ? '' : '**off** '}\`${value.name}\``
  const difference = typeof value.ours === 'number' && typeof value.theirs === 'number' ? shown(value.ours - value.theirs, 3) : ''
  return [
    name,
    shown(value.ours),
    shown(value.theirs),
    difference,
    value.tolerance === null ? 'the same' : shown(value.tolerance, 3),
  ].join(' | ')
}

function shown(value: Scalar | undefined, digits = 6): string {
  if (value === undefined) return 'none'
  if (typeof value !== 'number') return cell(String(value))
  const rounded = Number(value.toPrecision(digits))
  return Math.abs(rounded) < 1e-9 ? '0' : String(rounded)
}

function sourceOf(one: CheckedCase): string {
  const why = publishedCases.find((other) => other.id === one.id)?.tolerance.why ?? ''
  const note = one.note === undefined ? '' : ` ${one.note}`
  return `- **${one.id}**: ${one.source}. Provenance: ${one.provenance}. Tolerance: ${why}.${note}`
}

function cell(text: string): string {
  return text.replaceAll('|', '\\|').replaceAll('\n', ' ')
}
