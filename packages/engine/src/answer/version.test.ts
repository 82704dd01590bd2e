import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { VERSION } from './version.ts'

test('the version that is said is the one of the packages', () => {
  for (const name of ['engine', 'cli', 'web']) {
    const path = join(import.meta.dirname, `../../../${name}/package.json`)
    expect(JSON.parse(readFileSync(path, 'utf8')).version, name).toBe(VERSION)
  }
})
