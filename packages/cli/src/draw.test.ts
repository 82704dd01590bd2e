import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { charCount } from './print/wrap.ts'
import { plugstead } from './spawned.ts'

const JOB = 'examples/two-machines.yaml'
let folder = ''
let first: ReturnType<typeof drawn>
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'plugstead-draw-'))
  first = drawn('first')
}, 240_000)
afterAll(() => rmSync(folder, { recursive: true, force: true }))

interface Row {
  readonly path: string
  readonly box: string
  readonly drawing: string
  readonly title: string
  readonly kind: string
}

function drawn(name: string, ...words: readonly string[]) {
  const { code, out } = plugstead(['draw', JOB, '--out', join(folder, name), '--json', ...words])
  return { code, files: JSON.parse(out).result.files as readonly Row[] }
}

const bytes = (path: string): Buffer => readFileSync(path)

test('sheets, cut files and a solid are written, and the list names every one of them', () => {
  expect([0, 1, 3]).toContain(first.code)
  const written = readdirSync(join(folder, 'first')).toSorted()
  expect(first.files.map((f) => f.path.slice(join(folder, 'first').length + 1)).toSorted()).toEqual(written)
  const drawings = first.files.map((f) => f.drawing)
  for (const id of [
    'six-sides',
    'plan',
    'wall-left-inside',
    'wall-left-outside',
    'raceways',
    'lifting',
    'lashing',
    'pads',
    'solid',
  ])
    expect(drawings).toContain(id)
  expect(drawings.some((id) => id.startsWith('bars-'))).toBe(true)
  for (const f of first.files) {
    const [begin, end] = [bytes(f.path).subarray(0, 8).toString('latin1'), f.path.split('.').at(-1)]
    expect({ svg: '<svg xml', dxf: '  0\nSECT', glb: 'glTF\u0002\0\0\0' }[end!], f.path).toBe(begin)
  }
})

test('a second run writes the same bytes', () => {
  const again = drawn('second')
  expect(again.files.length).toBe(first.files.length)
  for (const [i, file] of first.files.entries())
    expect(Buffer.compare(bytes(file.path), bytes(again.files[i]!.path)), file.path).toBe(0)
}, 240_000)

test('a larger paper takes a larger scale', () => {
  const scale = (rows: readonly Row[]): number =>
    Number(/>1:(\d+)</.exec(bytes(rows.find((f) => f.drawing === 'wall-left-inside')!.path).toString())![1])
  expect(scale(drawn('large', '--paper', 'a3').files)).toBeLessThan(scale(first.files))
}, 240_000)

test('a person is told where they lie, within 80 columns', () => {
  const { out } = plugstead(['draw', JOB, '--out', join(folder, 'told')])
  expect(out).toContain('1 solid')
  expect(out).toContain('two-machines.')
  for (const line of out.split('\n').filter((text) => !text.includes(folder)))
    expect(charCount(line), line).toBeLessThanOrEqual(80)
}, 240_000)

test('without a folder nothing is drawn, and the mend is said', () => {
  const { code, err } = plugstead(['draw', JOB])
  expect(code).toBe(2)
  expect(err).toContain('--out out')
})
