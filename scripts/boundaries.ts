/**
 * Holds the import directions of `.dependency-cruiser.mjs`. A check that looked at nothing would pass, so it also counts: every
 * TypeScript file in a `src` folder must have been looked at.
 */
import { spawnSync } from 'node:child_process'
import { readdirSync } from 'node:fs'
import { dirname, join, relative, resolve, sep } from 'node:path'
import { fileURLToPath } from 'node:url'
import { runtime } from './runtime.mjs'

interface Cruise {
  readonly modules: readonly { readonly source: string }[]
  readonly summary: {
    readonly violations: readonly { readonly rule: { readonly name: string }; readonly from: string; readonly to: string }[]
  }
}

const home = dirname(dirname(fileURLToPath(import.meta.url)))

/** What breaks the boundaries of the tree at `root`, one line each; empty when all holds. */
export function boundaryBreaks(root: string): readonly string[] {
  const run = spawnSync(
    runtime(home) ?? process.execPath,
    [
      join(home, 'node_modules/dependency-cruiser/bin/dependency-cruiser.mjs'),
      ...['--config', join(home, '.dependency-cruiser.mjs'), '--output-type', 'json', 'packages'],
    ],
    { cwd: root, encoding: 'utf8', maxBuffer: 1 << 28 },
  )
  let cruise: Cruise
  try {
    cruise = JSON.parse(run.stdout)
  } catch {
    return [`the boundary check did not run: ${run.stderr.slice(0, 500)}`]
  }
  const seen = new Set(cruise.modules.map((module) => module.source))
  const missed = sources(root).filter((path) => !seen.has(path))
  return [
    ...cruise.summary.violations.map((broken) => `${broken.rule.name}: ${broken.from} → ${broken.to}`),
    ...missed.map((path) => `not looked at: ${path}`),
    ...(seen.size === 0 ? ['no module was looked at'] : []),
  ]
}

function sources(root: string): readonly string[] {
  return readdirSync(join(root, 'packages'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
    .map((entry) => relative(root, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .filter((path) => /^packages\/[^/]+\/src\//.test(path))
}

if (process.argv[1] !== undefined && resolve(process.argv[1]) === fileURLToPath(import.meta.url)) {
  const breaks = boundaryBreaks(home)
  for (const line of breaks) console.log(line)
  if (breaks.length === 0) console.log('Every import points the allowed way.')
  process.exitCode = breaks.length === 0 ? 0 : 1
}
