// Builds the app when its sources are newer than what was built. Plain JavaScript for any Node from 18 on; the build runs on the pinned Node.
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import { brotliCompressSync, constants } from 'node:zlib'

export const APP_FOLDER = 'packages/web/dist'
const STAMP = 'packages/web/dist/sources.txt'
/** Everything that goes into the app, and what builds it. */
const SOURCES = [
  'packages/web/src',
  'packages/web/public',
  'packages/web/index.html',
  'packages/web/vite.config.ts',
  'packages/web/ship.ts',
  'packages/web/kept.ts',
  'scripts/app-build.mjs',
  'packages/engine/src',
  'packages/drawings/src',
  'packages/book/src',
  'packages/lists/src',
  'packages/book/template',
  'shop',
  'examples',
  'package-lock.json',
]

/** First the drawing that a first visit shows, then everything else. */
const STEPS = [['packages/web/ship.ts'], ['node_modules/vite/bin/vite.js', 'build', 'packages/web', '--logLevel', 'error']]

/** One number for all sources: by content, so that a fresh clone or a touched file builds nothing twice. */
export function sourcesHash(root) {
  const hash = createHash('sha256')
  for (const path of SOURCES.flatMap((source) => filesIn(join(root, source))).filter((path) => !/\.test\.tsx?$/.test(path)))
    hash.update(relative(root, path)).update('\0').update(readFileSync(path)).update('\0')
  return hash.digest('hex')
}

/** Sees to it that the built app is of these sources. Returns null, or what went wrong in words. */
export function buildApp(root, node) {
  const hash = sourcesHash(root)
  const stamp = join(root, STAMP)
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === hash) return null
  console.log('Building the app …')
  for (const step of STEPS) {
    const run = spawnSync(node, step, { cwd: root, encoding: 'utf8', env: { ...process.env, NODE_ENV: 'production' } })
    if (run.error || run.status !== 0)
      return `The app could not be built.\n${run.error?.message ?? ''}${run.stdout ?? ''}${run.stderr ?? ''}`
  }
  squeeze(join(root, APP_FOLDER))
  writeFileSync(stamp, hash)
  return null
}

/** Past this the hardest squeezing takes longer than anybody waits for a build. */
const LARGEST_SQUEEZED_BYTES = 4_000_000

/** Writes beside every text that is built the same text squeezed, as the server hands it out. */
function squeeze(folder) {
  for (const path of filesIn(folder).filter((path) => /\.(html|js|css|svg|json|webmanifest)$/.test(path))) {
    const data = readFileSync(path)
    if (data.length > LARGEST_SQUEEZED_BYTES) continue
    const params = { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_SIZE_HINT]: data.length }
    writeFileSync(`${path}.br`, brotliCompressSync(data, { params }))
  }
}

function filesIn(path) {
  if (!existsSync(path)) return []
  if (statSync(path).isFile()) return [path]
  return readdirSync(path)
    .sort()
    .flatMap((name) => filesIn(join(path, name)))
}
