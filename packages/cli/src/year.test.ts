import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { charCount } from './print/wrap.ts'
import { plugstead, ROOT } from './spawned.ts'

const JOB = 'examples/two-machines.yaml'
const WEATHER = ['--weather', 'examples/logger/weather.csv', '--columns', 'examples/logger/weather.columns.yaml']
const LOG = ['--measured', 'examples/logger/log.csv']
let folder = ''
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'plugstead-year-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))
const file = (name: string, text: string): string => {
  const path = join(folder, name)
  writeFileSync(path, text)
  return path
}

describe('a box beside a made log (examples/logger, invented)', () => {
  const ended = plugstead(['year', JOB, ...WEATHER, ...LOG, '--json'])
  const answer = JSON.parse(ended.out)

  test('the answer holds extremes, wet hours, energy, errors by sensor and what was found', () => {
    expect([ended.code, answer.problems, answer.questions.length]).toEqual([0, [], 16])
    const { summary, trial, weather, box, end } = answer.result
    expect([box, end, weather.hours, weather.year]).toEqual(['yard', 'middle', 1008, 2027])
    expect(summary.airHighestC.value).toBeGreaterThan(summary.airLowestC.value)
    expect(summary.faces.map(({ side }: { side: string }) => side)).toEqual([
      ...['left', 'right', 'blind end', 'door end', 'roof', 'floor'],
    ])
    expect(trial.errors).toHaveLength(7)
    for (const [s, { rms, unit }] of trial.errors.entries()) if (unit === 'K') expect(trial.fit.errors[s].rms).toBeLessThan(rms)
    expect(answer.result.energyResidualFrac).toBeLessThan(1e-8)
  })

  test('leakage, roof and gear that the list was made with are found again', () => {
    // They stand in the head of examples/logger/log.csv.
    const [leak, roof, gear] = answer.result.trial.fit.told
    expect([leak.told, roof.told, gear.told]).toEqual([true, true, true])
    expect(Math.abs(leak.value / 340 - 1)).toBeLessThan(0.05)
    expect(Math.abs(roof.value - 0.58)).toBeLessThan(0.01)
    expect(Math.abs(gear.value / 260 - 1)).toBeLessThan(0.03)
  })

  test('the lines for the survey, put into the job, are read', () => {
    const lines: readonly string[] = answer.result.trial.lines
    const job = readFileSync(join(ROOT, JOB), 'utf8').replace(/^facts:$/m, lines.join('\n'))
    const { code, out } = plugstead(['plan', file('measured.yaml', job), '--json'])
    expect(JSON.parse(out).problems).toEqual([])
    expect(code).not.toBe(2)
    expect(readFileSync(join(ROOT, JOB), 'utf8')).not.toContain('roof-absorptance')
  })

  test('a person reads it within 80 columns; the hours lie beside it as a list with units in its headings', () => {
    const { code, out } = plugstead(['year', JOB, ...WEATHER, ...LOG, '--out', folder])
    expect(code).toBe(0)
    expect(out).toContain('What the log tells of the box')
    expect(out).toContain('nothing was written')
    for (const line of out.split('\n').filter((text) => !text.includes(folder)))
      expect(charCount(line), line).toBeLessThanOrEqual(80)
    const rows = readFileSync(join(folder, 'two-machines.yard.hours.csv'), 'utf8').trimEnd().split('\r\n')
    expect(rows).toHaveLength(1009)
    const heads = rows[0]!.split('","').join(',').split(',')
    for (const head of ['air (C)', 'humidity (%)', 'roof inside (C)', 'floor frost (g/m2)', 'heater (Wh)'])
      expect(rows[0]).toContain(head)
    expect(heads.length).toBeGreaterThan(40)
    expect(rows[1]).toMatch(/^2027-03-15 01:00,/)
  })
})

describe('without a log, or with a wrong one', () => {
  test('the made design year of the place is run, and that it is made is said', () => {
    const { code, out } = plugstead(['year', 'examples/groomer-yard-us.yaml'])
    expect(code).toBe(0)
    expect(out).toContain('8760 hours')
    expect(out).toContain('made design year')
  })

  test('a place that nobody told ends with 3 and says what is missing', () => {
    const job = readFileSync(join(ROOT, JOB), 'utf8').replace(', latitude: 45 deg', '')
    const { code, out } = plugstead(['year', file('nowhere.yaml', job)])
    expect(code).toBe(3)
    expect(out).toContain('Nobody has said the latitude')
  })

  test('a log of other days is refused with both spans', () => {
    const log = readFileSync(join(ROOT, 'examples/logger/log.csv'), 'utf8').replaceAll('2027-', '2026-')
    const { code, out, err } = plugstead(['year', JOB, ...WEATHER, '--measured', file('other.csv', log), '--json'])
    expect([code, err.includes('Error')]).toEqual([2, false])
    expect(JSON.parse(out).problems.map((p: { code: string }) => p.code)).toEqual(['log/apart'])
  })

  test('a list in the letters of old programs, packed, is read as the plain one is', () => {
    const log = readFileSync(join(ROOT, 'examples/logger/log.csv'), 'utf8').replaceAll('(C)', '(°C)')
    const path = join(folder, 'old.csv.gz')
    writeFileSync(path, gzipSync(Buffer.from(log, 'latin1')))
    const errorsOf = (words: readonly string[]) =>
      JSON.parse(plugstead(['year', 'examples/groomer-yard-us.yaml', ...words, '--json']).out).result.trial.errors
    const [old, plain] = [errorsOf(['--measured', path]), errorsOf(LOG)]
    expect(old.map(({ rms }: { rms: number }) => rms)).toEqual(plain.map(({ rms }: { rms: number }) => rms))
    expect(old[0].sensor.name).toBe('air high (°C)')
  })

  test('beside weather of no year errors are told, and nothing is fitted', () => {
    const { out } = plugstead(['year', 'examples/groomer-yard-us.yaml', ...LOG, '--json'])
    const { trial } = JSON.parse(out).result
    expect([trial.byCalendar, trial.fit, trial.lines]).toEqual([true, null, []])
    expect(trial.fitless).toContain('no certain year')
  })

  test.each([
    [['--measured', JOB], 'log/not-a-log'],
    [['--box', 'barn'], 'command-line/box'],
    [['--end', 'best'], 'command-line/value-unknown'],
    [['--log-columns', 'x.yaml'], 'command-line/log-columns'],
  ])('%j is refused as %s', (words, code) => {
    const { code: ended, out } = plugstead(['year', JOB, ...WEATHER, ...words, '--json'])
    expect(ended).toBe(2)
    expect(JSON.parse(out).problems[0].code).toBe(code)
  })
})
