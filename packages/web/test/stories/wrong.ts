import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { holds, type Story, same } from '../story.ts'

const root = join(import.meta.dirname, '../../../..')
const example = readFileSync(join(root, 'examples/two-machines.yaml'), 'utf8')

/** Files that are no job, as they come from a mailbox, an editor, a spreadsheet, a broken stick. */
const WRONG: Readonly<Record<string, string | Uint8Array>> = {
  'two-broken-lines.yaml': readFileSync(join(root, 'packages/web/test/broken.yaml')),
  'picture.yaml': new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13]),
  'empty.yaml': '',
  'tabs.yaml': example.replace('\nneeds:', '\nneeds:\n\tgrowth: 20 %'),
  'other-program.yaml': 'openapi: 3.0.0\ninfo:\n  title: something else\n',
  'prices.csv': 'item,supplier,price,currency\nbreaker 20 A,Invented,12.40,USD\n',
  'huge.yaml': Array.from({ length: 600_000 }, (_, i) => `k${i}: 1\n`).join(''),
  'two-bytes.yaml': new Uint8Array(Buffer.from(`\ufeff${example}`, 'utf16le')),
  'near-miss.yaml': example.replace('\nneeds:', '\nnedes:'),
  'twice.yaml': example.replace('\nneeds:', '\nneeds:\n  growth: 20 %\nneeds:'),
  'half.yaml': example.slice(0, example.indexOf('{', example.indexOf('machines:')) + 20),
}

interface Said {
  readonly line?: number
  readonly found: string
  readonly wanted: string
  readonly mend: string
}

export const stories: readonly Story[] = [
  {
    name: `wrong: ${Object.keys(WRONG).length} kinds of wrong file, dropped, are refused in the terminal’s words with the line, and nothing is kept of them`,
    run: async ({ open }) => {
      const folder = mkdtempSync(join(tmpdir(), 'plugstead-wrong-'))
      try {
        const page = await open({ hash: '#/today' })
        for (const [name, content] of Object.entries(WRONG)) {
          await page.reload()
          await page.locator('h1', { hasText: 'Today' }).waitFor()
          const path = join(folder, name)
          writeFileSync(path, content)
          const transfer = await page.evaluateHandle(
            async ([name, base64]) => {
              const data = new DataTransfer()
              data.items.add(new File([Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0))], name))
              return data
            },
            [name, Buffer.from(content).toString('base64')] as const,
          )
          await page.dispatchEvent('.day', 'drop', { dataTransfer: transfer })
          const app = (await page.locator('.problems').textContent()) ?? ''
          const { stdout } = spawnSync(process.execPath, ['packages/cli/bin/plugstead.mjs', 'plan', path, '--json'], {
            ...{ cwd: root, encoding: 'utf8' },
          })
          const { problems } = JSON.parse(stdout) as { readonly problems: readonly Said[] }
          holds(problems.length > 0, `${name}: the terminal refuses it`)
          for (const { line, found, wanted, mend } of problems)
            for (const words of [found, wanted, mend, ...(line === undefined ? [] : [`line ${line}`])])
              holds(app.includes(words), `${name}: “${words}” in “${app}”`)
          same(await page.getByText('No job is kept here yet.').count(), 1, `${name}: nothing kept`)
        }
      } finally {
        rmSync(folder, { recursive: true, force: true })
      }
    },
  },
]
