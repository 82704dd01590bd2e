import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Problem } from '@plugstead/engine/kernel'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { Unreadable } from './problem.ts'
import { fileBytes } from './read-file.ts'

let folder = ''
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'plugstead-read-'))
  writeFileSync(join(folder, 'yard.yaml'), 'plugstead: 1\n')
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

function problemOf(path: string): Problem {
  try {
    fileBytes(path)
  } catch (thrown) {
    if (thrown instanceof Unreadable && thrown.problems[0] !== undefined) return thrown.problems[0]
    throw thrown
  }
  throw new Error('it was read')
}

test('a file is read as it is', () => {
  expect(new TextDecoder().decode(fileBytes(join(folder, 'yard.yaml')))).toBe('plugstead: 1\n')
})

test('a file that is not there is named, with what was probably meant', () => {
  expect(problemOf(join(folder, 'yrad.yaml'))).toMatchObject({
    code: 'file/absent',
    mend: `Did you mean ${join(folder, 'yard.yaml')}?`,
  })
  expect(problemOf(join(folder, 'no/such/place.yaml')).mend).toMatch(/folder .* is not there/)
  expect(problemOf(join(folder, 'quite-another-name')).mend).toContain('yard.yaml')
})

test('a folder is named as one, with the documents in it', () => {
  expect(problemOf(folder)).toMatchObject({ code: 'file/folder', found: 'a folder' })
  expect(problemOf(folder).mend).toContain('yard.yaml')
})

test('100 MB is refused before it is read', () => {
  const path = join(folder, 'large.yaml')
  writeFileSync(path, '')
  truncateSync(path, 100 * 1024 * 1024)
  expect(problemOf(path)).toMatchObject({ code: 'file/too-large', found: '100 MB' })
})

test('a device and a pipe that nobody writes to are refused at once', () => {
  expect(problemOf('/dev/zero').code).toBe('file/not-a-file')
  const pipe = join(folder, 'pipe')
  if (spawnSync('mkfifo', [pipe]).status === 0) expect(problemOf(pipe).code).toBe('file/not-a-file')
})

test('a link that leads to itself, a name too long and a null character are told apart from our own mistakes', () => {
  symlinkSync('loop', join(folder, 'loop'))
  expect(problemOf(join(folder, 'loop')).code).toBe('file/absent')
  expect(problemOf('x'.repeat(5000)).code).toBe('file/name')
  expect(problemOf('a\0b').code).toBe('file/name')
})

// Root may read everything, so there is nothing to refuse.
test.skipIf(process.getuid?.() === 0)(
  'a file that may not be read is named with what makes it readable (skipped for root)',
  () => {
    const path = join(folder, 'locked.yaml')
    writeFileSync(path, 'x', { mode: 0 })
    expect(problemOf(path)).toMatchObject({ code: 'file/no-permission' })
  },
)
