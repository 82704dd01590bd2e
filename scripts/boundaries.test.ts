import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { beforeAll, expect, test } from 'vitest'
import { boundaryBreaks } from './boundaries.ts'

const home = dirname(import.meta.dirname)

/** A small tree of the same shape, with one import that points the wrong way. */
function breaksOf(files: Readonly<Record<string, string>>): readonly string[] {
  const root = mkdtempSync(join(tmpdir(), 'plugstead-boundaries-'))
  try {
    for (const [path, text] of Object.entries(files)) {
      mkdirSync(dirname(join(root, path)), { recursive: true })
      writeFileSync(join(root, path), text)
    }
    symlinkSync(join(home, 'node_modules'), join(root, 'node_modules'))
    return boundaryBreaks(root)
  } finally {
    rmSync(root, { recursive: true, force: true })
  }
}

const WRONG: readonly (readonly [said: string, path: string, line: string, rule: string, more?: Record<string, string>])[] = [
  [
    'the kernel reaching up',
    'packages/engine/src/kernel/up.ts',
    "export { p } from '../plan/index.ts'",
    'engine-kernel-imports-downwards',
    { 'packages/engine/src/plan/index.ts': 'export const p = 1\n' },
  ],
  [
    'a type that points up',
    'packages/engine/src/rules/type-up.ts',
    "export type { P } from '../power/index.ts'",
    'engine-rules-imports-downwards',
    { 'packages/engine/src/power/index.ts': 'export interface P { readonly a: 1 }\n' },
  ],
  [
    'a domain reaching into another domain',
    'packages/engine/src/site/across.ts',
    "export { p } from '../power/index.ts'",
    'engine-site-imports-downwards',
    { 'packages/engine/src/power/index.ts': 'export const p = 1\n' },
  ],
  [
    'a folder entered by another door than its index',
    'packages/engine/src/power/side-door.ts',
    "export { s } from '../kernel/step.ts'",
    'engine-folders-meet-at-their-index',
    { 'packages/engine/src/kernel/step.ts': 'export const s = 1\n' },
  ],
  [
    'the engine reading the disk',
    'packages/engine/src/power/disk.ts',
    "export { readFileSync } from 'node:fs'",
    'engine-touches-no-machine',
  ],
  [
    'the engine using a tool of ours',
    'packages/engine/src/power/tool.ts',
    "export { build } from 'vite'",
    'engine-uses-two-libraries',
  ],
  [
    'the book knowing the terminal',
    'packages/book/src/terminal.ts',
    "export { c } from '../../cli/src/c.ts'",
    'book-does-not-know-the-terminal',
    { 'packages/cli/src/c.ts': 'export const c = 1\n' },
  ],
  [
    'a path into another package',
    'packages/cli/src/path.ts',
    "export { one } from '../../engine/src/kernel/index.ts'",
    'packages-meet-at-their-exports',
  ],
  ['a file that is not there', 'packages/cli/src/lost.ts', "export { one } from './nowhere.ts'", 'everything-resolves'],
  [
    'two files that need each other',
    'packages/cli/src/a.ts',
    "import { b } from './b.ts'\nexport const a = (): number => b()",
    'no-circles',
    { 'packages/cli/src/b.ts': "import { a } from './a.ts'\nexport const b = (): number => a()\n" },
  ],
]

const LOWER = {
  'packages/engine/src/kernel/index.ts': 'export const one = 1\n',
  'packages/engine/src/power/good.ts': "export { one } from '../kernel/index.ts'\n",
}
// One tree with every wrong import in it: each is found by its own rule at its own place.
const tree = {
  ...LOWER,
  ...Object.fromEntries(WRONG.flatMap(([, path, line, , more = {}]) => [[path, `${line}\n`], ...Object.entries(more)])),
}
let breaks: readonly string[] = []
beforeAll(() => {
  breaks = breaksOf(tree)
})

for (const [said, path, , rule] of WRONG)
  test(`the check sees ${said}`, () => {
    expect(breaks.filter((text) => text.startsWith(`${rule}: `) && text.includes(path))).not.toEqual([])
  })

test('an import that points downwards is let through', () => {
  expect(breaks.filter((text) => text.includes('power/good.ts'))).toEqual([])
  expect(breaksOf(LOWER)).toEqual([])
})

test('a check that looked at nothing fails', () => {
  expect(breaksOf({ 'packages/engine/readme.txt': '' })).not.toEqual([])
})
