import { createHash } from 'node:crypto'
import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join, relative, sep } from 'node:path'

export const KEEPER = 'keeper.js'

/** Writes the list of a built folder's files, each with its hash, in front of its keeper. Done again on a folder that has one, it takes the place of that. */
export function writeKept(folder: string): void {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .map((path) => ({ path, name: relative(folder, path).split(sep).join('/') }))
    // Neither what the server hands out only when it is asked for, the typesetter and its faces: that keeps itself.
    .filter(({ name }) => /\.(html|js|css|svg|json|woff2)$/.test(name) && name !== KEEPER)
    .map(({ path, name }) => [
      name === 'index.html' ? '/' : `/${name}`,
      `sha256-${createHash('sha256').update(readFileSync(path)).digest('base64')}`,
    ])
    .sort(([a = ''], [b = '']) => (a < b ? -1 : 1))
  const build = createHash('sha256').update(JSON.stringify(files)).digest('hex').slice(0, 16)
  const keeper = join(folder, KEEPER)
  const text = readFileSync(keeper, 'utf8').replace(/^self\.kept=.*\n/, '')
  writeFileSync(keeper, `self.kept=${JSON.stringify({ build, files })}\n${text}`)
}
