import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { answered, type Story, same } from '../story.ts'

const root = join(import.meta.dirname, '../../../..')

export const stories: readonly Story[] = [
  {
    name: 'the same document gives the same answer, byte for byte, in the terminal and in the app',
    run: async ({ open }) => {
      const page = await open()
      await answered(page)
      for (const name of ['groomer-yard-us', 'two-machines', 'moved-box-airstrip-ca']) {
        const file = `examples/${name}.yaml`
        const text = readFileSync(join(root, file), 'utf8')
        same(await answerInApp(page, file, text), answerInTerminal(file), name)
      }
      const broken = 'packages/web/test/broken.yaml'
      same(
        await answerInApp(page, broken, readFileSync(join(root, broken), 'utf8')),
        answerInTerminal(broken),
        'a document that cannot be read',
      )
    },
  },
]

/** Asked of the built worker itself, as the app asks it. */
function answerInApp(page: Page, file: string, text: string): Promise<string> {
  return page.evaluate(
    ([file, text]) =>
      new Promise<string>((resolve, reject) => {
        const address = performance.getEntriesByType('resource').find((entry) => /\/worker-[^/]*\.js$/.test(entry.name))?.name
        if (address === undefined) return reject(new Error('the worker was not loaded'))
        const worker = new Worker(address, { type: 'module' })
        worker.onmessage = ({ data }) => {
          if (data.kind === 'work') return
          worker.terminate()
          if (data.kind === 'answer') resolve(data.answer)
          else reject(new Error(data.said))
        }
        worker.postMessage({ id: 1, call: 'json', asked: { file, text } })
      }),
    [file, text] as const,
  )
}

function answerInTerminal(file: string): string {
  const run = spawnSync(process.execPath, ['packages/cli/bin/plugstead.mjs', 'plan', file, '--json'], {
    cwd: root,
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  })
  return run.stdout
}
