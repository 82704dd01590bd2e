// Installs from the lock file what is missing. Plain JavaScript for any Node from 18 on; imports nothing that has to be installed.
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'

const STAMP = 'node_modules/.plugstead-installed.json'

/** What is installed in `root`: `full` (with the tools of development), `running` (what running needs), or `missing`. */
export function installed(root) {
  const lockText = textOf(join(root, 'package-lock.json'))
  if (lockText === null) return 'missing'
  const hash = createHash('sha256').update(lockText).digest('hex')
  const lock = JSON.parse(lockText).packages
  const stamp = jsonOf(join(root, STAMP))
  // npm writes its own list when it has finished: a tree that was cut off has none, and one from another lock has other entries.
  const trusted = stamp?.lock === hash ? lock : jsonOf(join(root, 'node_modules/.package-lock.json'))?.packages
  if (!trusted) return 'missing'
  const whole = (withTools) =>
    Object.entries(lock).every(([place, entry]) => {
      if (!place.startsWith('node_modules/') || entry.optional || (entry.dev && !withTools)) return true
      if (entry.link) return existsSync(join(root, place))
      return trusted[place]?.integrity === entry.integrity && existsSync(join(root, place, 'package.json'))
    })
  if (whole(true) && stamp?.kind !== 'running') return 'full'
  return whole(false) ? 'running' : 'missing'
}

/**
 * Sees to it that `root` holds what is wanted: `running` or `full`. Returns null, or what went wrong in words.
 * Only npm's failures are shown: that an old Node is too old for a tool says nothing, for the tools run on the pinned one.
 */
export function install(root, wanted) {
  const state = installed(root)
  if (state === 'full' || state === wanted) {
    if (!jsonOf(join(root, STAMP))) stamp(root, state)
    return null
  }
  console.log(
    wanted === 'full'
      ? 'Installing from the lock file, with the tools for testing …'
      : 'Installing from the lock file what running needs …',
  )
  rmSync(join(root, STAMP), { force: true })
  const npmCli = process.env.npm_execpath
  const direct = npmCli !== undefined && /\.c?js$/.test(npmCli) && existsSync(npmCli)
  const args = [
    'ci',
    '--no-audit',
    '--no-fund',
    '--no-progress',
    '--loglevel=error',
    ...(wanted === 'running' ? ['--omit=dev'] : []),
  ]
  const run = spawnSync(direct ? process.execPath : 'npm', direct ? [npmCli, ...args] : args, {
    cwd: root,
    stdio: ['ignore', 'ignore', 'inherit'],
    // A test run under NODE_ENV=production would silently go without its tools.
    env: { ...process.env, NODE_ENV: wanted === 'full' ? 'development' : (process.env.NODE_ENV ?? '') },
  })
  if (run.error) return `npm did not start (${run.error.message}). Install npm, then run this again.`
  if (run.status !== 0)
    return 'npm could not install from package-lock.json. Check the network and the disk, then run this again.'
  if (installed(root) === 'missing') return 'npm ended, but packages are still missing. Remove node_modules, then run this again.'
  stamp(root, wanted)
  return null
}

function stamp(root, kind) {
  const lock = createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .digest('hex')
  mkdirSync(join(root, 'node_modules'), { recursive: true })
  writeFileSync(join(root, STAMP), `${JSON.stringify({ lock, kind })}\n`)
}

function textOf(path) {
  try {
    return readFileSync(path, 'utf8')
  } catch {
    return null
  }
}

function jsonOf(path) {
  try {
    return JSON.parse(readFileSync(path, 'utf8'))
  } catch {
    return null
  }
}
