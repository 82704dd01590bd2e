import { spawnSync } from 'node:child_process'
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { outputName } from '@plugstead/engine/answer'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { Failure } from './problem.ts'
import { writeFiles } from './write-files.ts'

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'plugstead-write-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

test('files are written whole, in folders made for them, with nothing left beside them', async () => {
  await writeFiles([
    { path: join(folder, 'a/b/one.txt'), data: 'one' },
    { path: join(folder, 'two.bin'), data: new Uint8Array([0, 255]) },
  ])
  expect(readFileSync(join(folder, 'a/b/one.txt'), 'utf8')).toBe('one')
  expect([...readFileSync(join(folder, 'two.bin'))]).toEqual([0, 255])
  expect(readdirSync(folder).sort()).toEqual(['a', 'two.bin'])
})

test('a file that is replaced keeps its permissions, and a link stays a link', async () => {
  const real = join(folder, 'real.yaml')
  writeFileSync(real, 'old')
  chmodSync(real, 0o640)
  symlinkSync(real, join(folder, 'link.yaml'))
  await writeFiles([{ path: join(folder, 'link.yaml'), data: 'new' }])
  expect(readFileSync(real, 'utf8')).toBe('new')
  expect(statSync(real).mode & 0o777).toBe(0o640)
  expect(existsSync(join(folder, 'link.yaml'))).toBe(true)
})

test('when one of them cannot be written, none is, and it says what to do', async () => {
  const standing = join(folder, 'job.yaml')
  writeFileSync(standing, 'old')
  mkdirSync(join(folder, 'taken'))
  const act = writeFiles([
    { path: standing, data: 'new' },
    { path: join(folder, 'taken'), data: 'x' },
  ])
  await expect(act).rejects.toThrow(Failure)
  await expect(act).rejects.toThrow(/A folder of that name stands there.*--out.*Nothing was changed/)
  expect(readFileSync(standing, 'utf8')).toBe('old')
  expect(readdirSync(folder).sort()).toEqual(['job.yaml', 'taken'])
})

test('a full disk is a failure that says so', async () => {
  if (!existsSync('/dev/full')) return
  const { status, stderr } = spawnSync('sh', [
    '-c',
    `"${process.execPath}" "${join(import.meta.dirname, '../bin/plugstead.mjs')}" --version > /dev/full`,
  ])
  expect(status).toBe(4)
  expect(String(stderr)).toMatch(/could not be printed/)
})

for (const [signal, code] of [
  ['SIGINT', 130],
  ['SIGTERM', 143],
] as const)
  test(`${signal} in the middle of writing leaves no half file`, () => {
    const script = `
      import { writeFiles } from ${JSON.stringify(join(import.meta.dirname, 'write-files.ts'))}
      const outputs = Array.from({ length: 400 }, (_, at) => ({ path: process.argv[1] + '/' + at + '.txt', data: 'x'.repeat(100_000) }))
      setTimeout(() => process.kill(process.pid, '${signal}'), 3)
      await writeFiles(outputs)
      process.exit(99)`
    const run = spawnSync(process.execPath, ['--input-type=module', '-e', script, folder])
    expect(run.status, String(run.stderr)).toBe(code)
    expect(readdirSync(folder)).toEqual([])
  })

test('a name made from a job keeps the job’s own', () => {
  expect(outputName('jobs/yard.yaml', 'book.pdf')).toBe('yard.book.pdf')
  expect(outputName('yard', 'panel.csv')).toBe('yard.panel.csv')
})
