// `npm start`: installs what running needs, builds the app when it is not built, and serves it at a local address until Ctrl-C.
// `npm start -- --once`: plans and assesses an example job instead, writes its book and lists into out/, and ends.
// Plain JavaScript for any Node from 18 on; the program itself runs on the pinned Node.
import { spawnSync } from 'node:child_process'
import { existsSync, readdirSync, statSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { install } from './install.mjs'
import { NO_RUNTIME, runtime } from './runtime.mjs'

const root = dirname(dirname(fileURLToPath(import.meta.url)))
const EXAMPLES = ['examples/groomer-yard-us.yaml', 'examples/two-machines.yaml']

const unknown = process.argv.slice(2).filter((word) => word !== '--once')
if (unknown.length > 0) stop(`npm start knows --once, not ${unknown.join(' ')}.`, 2)
const trouble = install(root, 'running')
if (trouble !== null) stop(trouble)
const node = runtime(root)
if (node === null) stop(NO_RUNTIME)
if (process.argv.includes('--once')) book()
else await app()

async function app() {
  const { APP_FOLDER, buildApp } = await import('./app-build.mjs')
  const { serve } = await import('./app-server.mjs')
  const unbuilt = buildApp(root, node)
  if (unbuilt !== null) stop(unbuilt)
  const { address, usual, close } = await serve(join(root, APP_FOLDER))
  console.log(`The app: ${address}`)
  if (!usual) console.log('The usual address is taken. Jobs kept in the browser under another address are not seen here.')
  console.log('Ctrl-C ends it. The book of the example, without the app: npm start -- --once')
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'])
    process.once(signal, () => {
      void close().then(() => process.exit(0))
    })
}

function book() {
  const job = EXAMPLES.find((path) => existsSync(join(root, path)))
  if (job === undefined) stop(`No example job: ${EXAMPLES.join(' and ')} are not there.`)
  const started = Date.now()
  const run = spawnSync(node, ['packages/cli/bin/plugstead.mjs', 'book', job, '--out', 'out'], { cwd: root, stdio: 'inherit' })
  const books = booksSince(started)
  if (books.length === 0) stop('The book was not written.', run.status || 4)
  console.log(`\nThe book: ${books.map((name) => join('out', name)).join(', ')}`)
  console.log('Another job: npx plugstead plan JOB · all commands: npx plugstead --help')
  process.exit(0)
}

/** Job books in out/ that this run wrote. */
function booksSince(timeMs) {
  const out = join(root, 'out')
  if (!existsSync(out)) return []
  return readdirSync(out).filter((name) => name.endsWith('.pdf') && statSync(join(out, name)).mtimeMs >= timeMs - 2000)
}

function stop(said, code = 4) {
  console.error(said)
  process.exit(code)
}
