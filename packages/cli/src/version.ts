import { readFileSync } from 'node:fs'
import { join } from 'node:path'

/** The program's version, as its package says. */
export function version(): string {
  return (JSON.parse(readFileSync(join(import.meta.dirname, '../package.json'), 'utf8')) as { version: string }).version
}
