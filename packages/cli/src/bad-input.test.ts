import { createHash } from 'node:crypto'
import { mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, truncateSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Answer } from '@plugstead/engine/answer'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { charCount } from './print/wrap.ts'
import { plugstead, ROOT } from './spawned.ts'

const good = readFileSync(join(ROOT, 'examples/two-machines.yaml'), 'utf8')
let folder = ''
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'plugstead-bad-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** The example with one line of it changed. */
function changed(from: RegExp, to: string): string {
  const text = good.replace(from, to)
  if (text === good) throw new Error(`the example has no ${from}`)
  return text
}

const machine = /power: [^,]+/
const length = /cord: [^,}]+/

interface Bad {
  readonly said: string
  readonly data: string | Uint8Array
  /** Found in the problem's words. */
  readonly told: RegExp
  /** It has a place in the file. */
  readonly line?: boolean
}

const BAD: readonly Bad[] = [
  { said: 'empty', data: '', told: /empty|nothing/i },
  { said: 'only a comment', data: '# later\n', told: /empty|nothing/i },
  { said: 'binary', data: new Uint8Array([0x7f, 0x45, 0x4c, 0x46, 0, 1, 2, 0xff]), told: /text|binary|UTF-8/i },
  { said: 'cut off', data: `${good}\nneeds: { machines: [`, told: /./, line: true },
  { said: 'nested deeply', data: `plugstead: 1\nneeds: ${'['.repeat(5000)}${']'.repeat(5000)}\n`, told: /deep/i },
  {
    said: 'an alias bomb',
    data: `plugstead: 1\na: &a [x,x,x,x,x,x,x,x,x]\n${'bcdefghi'
      .split('')
      .map((key, at) => `${key}: &${key} [${Array(9).fill(`*${'abcdefghi'[at]}`).join(',')}]`)
      .join('\n')}\n`,
    told: /alias|anchor|values/i,
  },
  { said: 'a key twice', data: `${good}\ntitle: again\n`, told: /title/, line: true },
  { said: 'a tag', data: changed(machine, 'power: !!js/function "x"'), told: /tag|!!/i, line: true },
  { said: 'an unknown key', data: changed(machine, 'pwoer: 1500 W'), told: /Did you mean.*power/is, line: true },
  { said: 'a bare number where a unit is needed', data: changed(machine, 'power: 1500'), told: /W/, line: true },
  { said: 'a wrong unit', data: changed(machine, 'power: 1500 V'), told: /1500 V/, line: true },
  { said: 'a wrong kind', data: changed(machine, 'power: [1, 2]'), told: /./, line: true },
  { said: 'not a number', data: changed(machine, 'power: .nan'), told: /nan/i, line: true },
  { said: 'infinite', data: changed(machine, 'power: .inf'), told: /inf/i, line: true },
  { said: 'a negative length', data: changed(length, 'cord: -5 m '), told: /-5|−5/, line: true },
  { said: 'no read as a word', data: changed(machine, 'power: no'), told: /no/, line: true },
  { said: 'a time where a power is wanted', data: changed(machine, 'power: 12:30'), told: /12:30/, line: true },
  { said: 'of a newer version', data: changed(/^plugstead: 1$/m, 'plugstead: 99'), told: /99/, line: true },
  { said: 'another program’s file', data: '{ "name": "x", "dependencies": {} }\n', told: /plugstead/i },
  { said: 'not YAML', data: 'plugstead: 1\n\t- a: [\n', told: /./, line: true },
]

/** A whole process on a busy machine; that reading itself takes no longer than two seconds is tested in the engine. */
const A_WHILE_MS = 15_000

const hash = (path: string) => createHash('sha256').update(readFileSync(path)).digest('hex')

describe('a job that cannot be read', () => {
  for (const { said, data, told, line } of BAD)
    test(`${said}: exit 2, where, found, wanted and a mend, no stack, the file as it was`, () => {
      const path = join(folder, `${said.replace(/\W+/g, '-')}.yaml`)
      writeFileSync(path, data)
      const [before, { mtimeMs }] = [hash(path), statSync(path)]
      const started = performance.now()
      const { code, out, err } = plugstead(['plan', path, '--json'])
      const tookMs = performance.now() - started
      const answer = JSON.parse(out) as Answer
      expect({ code, err }).toEqual({ code: 2, err: '' })
      expect(answer.problems.length).toBeGreaterThan(0)
      for (const problem of answer.problems) {
        expect(problem.file).toBe(path)
        for (const word of [problem.found, problem.wanted, problem.mend]) expect(word.length).toBeGreaterThan(0)
        if (line) expect(problem.line).toBeGreaterThan(0)
      }
      expect(answer.problems.map((problem) => `${problem.found} ${problem.wanted} ${problem.mend}`).join('\n')).toMatch(told)
      expect(answer.questions).toHaveLength(16)
      expect([hash(path), statSync(path).mtimeMs]).toEqual([before, mtimeMs])
      expect(tookMs).toBeLessThan(A_WHILE_MS)
    })

  test('a file that is not there, a folder and 100 MB are refused the same way', () => {
    mkdirSync(join(folder, 'a-folder'))
    writeFileSync(join(folder, 'large.yaml'), 'plugstead: 1\n')
    truncateSync(join(folder, 'large.yaml'), 100 * 1024 * 1024)
    for (const [name, problem] of [
      ['nowhere.yaml', 'file/absent'],
      ['a-folder', 'file/folder'],
      ['large.yaml', 'file/too-large'],
    ] as const) {
      const { code, out } = plugstead(['assess', join(folder, name), '--json'])
      expect([code, (JSON.parse(out) as Answer).problems[0]?.code]).toEqual([2, problem])
    }
  })

  test('all problems are told at once, in words within 80 columns, on standard error', () => {
    const path = join(folder, 'many.yaml')
    writeFileSync(path, `${changed(machine, 'power: 1500 V').replace(length, 'cord: -5 m ')}\nnosuchkey: 1\n`)
    const { code, out, err } = plugstead(['plan', path])
    expect([code, out]).toEqual([2, ''])
    expect(err).toMatch(/nothing was changed; \d+ places/)
    for (const word of ['1500 V', 'nosuchkey', 'found', 'wanted', 'mend']) expect(err).toContain(word)
    expect(err).not.toMatch(/\n\s+at |node:internal|Error:/)
    for (const printed of err.split('\n')) expect(charCount(printed), printed).toBeLessThanOrEqual(80)
  })
})
