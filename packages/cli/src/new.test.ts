import { spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { CALL, CALL_DEFAULTS, readJob } from '@plugstead/engine/job'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { PROGRAM, plugstead } from './spawned.ts'

let folder = ''
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'plugstead-new-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const WHERE = ['--where', 'Northgate, AK, US']
const MACHINES = ['--machines', '6 groomer heater 1500 W 120 V; 1 compressor 3 hp 240 V']

test('eleven questions are asked, and their defaults are those that are taken', () => {
  expect(CALL).toHaveLength(11)
  for (const [id, value] of Object.entries(CALL_DEFAULTS))
    expect(CALL.find((question) => question.id === id)?.default, id).toBe(value)
})

test('with the answers as options it asks nothing and prints a job that can be read', () => {
  const { code, out, err } = plugstead(['new', ...WHERE, ...MACHINES])
  expect([code, err]).toEqual([0, ''])
  const read = readJob(out)
  expect(read.ok && read.value.plugs.length).toBe(7)
})

test('the day of the call is what lead times count from, and is no day when it is no day', () => {
  const { out } = plugstead(['new', ...WHERE, ...MACHINES, '--today', '2027-03-02'])
  const read = readJob(out)
  expect(read.ok && read.value.needs.orderDate).toBe('2027-03-02')
  expect(plugstead(['new', ...WHERE, ...MACHINES, '--today', 'tomorrow']).code).toBe(2)
})

test('without a terminal and without the answers that have no default it refuses, and names both', () => {
  const path = join(folder, 'none.yaml')
  const { code, err } = plugstead(['new', path])
  expect(code).toBe(2)
  expect(err).toContain('--where')
  expect(err).toContain('--machines')
  expect(existsSync(path)).toBe(false)
})

test('an answer that cannot be understood is refused at its option, all of them at once', () => {
  const { code, out } = plugstead([
    'new',
    '--where',
    'Northgate',
    '--machines',
    '1 heater 900 W 120 V',
    '--far',
    '30 W',
    '--json',
  ])
  const paths = (JSON.parse(out).problems as { path: string }[]).map((problem) => problem.path)
  expect([code, paths.sort()]).toEqual([2, ['--far', '--where']])
})

test('a file that stands there is replaced only when told', () => {
  const path = join(folder, 'stands.yaml')
  writeFileSync(path, 'mine\n')
  const { code, err } = plugstead(['new', path, ...WHERE, ...MACHINES])
  expect(code).toBe(2)
  expect(err).toContain('--write')
  expect(readFileSync(path, 'utf8')).toBe('mine\n')
  expect(plugstead(['new', path, ...WHERE, ...MACHINES, '--write']).code).toBe(0)
  expect(readJob(readFileSync(path)).ok).toBe(true)
})

const terminal = spawnSync('script', ['--version']).status === 0

/** On a terminal made for it, with these lines typed. */
function typed(words: readonly string[], lines: readonly string[]) {
  const line = [process.execPath, PROGRAM, ...words].map((word) => `'${word}'`).join(' ')
  const run = spawnSync('script', ['-qec', line, '/dev/null'], {
    input: `${lines.join('\n')}\n`,
    encoding: 'utf8',
    timeout: 30_000,
  })
  return { code: run.status, out: run.stdout.replaceAll('\r', '') }
}

test.skipIf(!terminal)(
  'on a terminal it asks one question after another; an empty line takes the default, where there is one',
  () => {
    const path = join(folder, 'asked.yaml')
    const { code, out } = typed(
      ['new', path],
      ['', 'Northgate, AK, US', '2 heater 900 W 120 V', '', '100 ft', '', '', '', '', '', '', ''],
    )
    expect([code, out]).toEqual([0, expect.stringContaining('This one has no default.')])
    for (const question of CALL) expect(out.replaceAll(/\s+/g, ' ')).toContain(question.asks)
    const read = readJob(readFileSync(path))
    expect(read.ok && Math.max(...read.value.plugs.map((plug) => plug.cordM))).toBeCloseTo(30.5, 1)
  },
)

test.skipIf(!terminal)('what was told as an option is not asked again', () => {
  const { code, out } = typed(['new', join(folder, 'some.yaml'), ...WHERE, ...MACHINES], Array(9).fill(''))
  expect(code).toBe(0)
  expect(out).toContain('1 of 9.')
  expect(out).not.toContain('What do you plug in')
})
