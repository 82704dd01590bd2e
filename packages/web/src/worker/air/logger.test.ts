import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { editDocument, readJob } from '@plugstead/engine/job'
import { beforeAll, expect, test } from 'vitest'
import { loggerFormOf, loggerLacking, logMappingText } from '../../air/logger-form.ts'
import { type AtWork, worked } from '../at-work.ts'
import { shopNow } from '../shop.ts'
import { loggerBeside, logTable, surveyEdits } from './logger.ts'
import type { LoggerAnswer, LoggerAsked, LoggerView } from './logger-types.ts'
import { remedyTask } from './remedies.ts'

const ROOT = join(import.meta.dirname, '../../../../..')
const read = (path: string): string => readFileSync(join(ROOT, 'examples', path), 'utf8')
const FILE = 'two-machines.yaml'
const LOG = read('logger/log.csv')
const WEATHER = { name: 'weather.csv', text: read('logger/weather.csv'), columns: read('logger/weather.columns.yaml') }
const GLASS = { units: 'metric', widthPx: 900, letterPx: 13 } as const
let at: AtWork
let view: LoggerView
let counted: readonly (readonly [number, number])[]

const asked = (over: Partial<LoggerAsked> = {}): LoggerAsked => ({
  ...{ ...GLASS, task: remedyTask(at, 'yard'), log: { name: 'log.csv', text: LOG }, mapping: null, weather: WEATHER },
  ...over,
})
const doneOf = (answer: LoggerAnswer): LoggerView => {
  if (answer.is !== 'done') throw new Error(JSON.stringify(answer))
  return answer.view
}

beforeAll(() => {
  const shop = shopNow()
  if (!shop.ok) throw new Error('no shop')
  const result = worked({ file: FILE, text: read(FILE) }, shop.value)
  if (!result.ok) throw new Error(JSON.stringify(result.problems))
  at = result.value
  const told: (readonly [number, number])[] = []
  view = doneOf(loggerBeside(asked(), (done, of) => told.push([done, of])))
  counted = told
}, 240_000)

test('errors, what was found and its band are those of the terminal for the same list', () => {
  const words = ['year', `examples/${FILE}`, '--weather', 'examples/logger/weather.csv']
  const more = ['--columns', 'examples/logger/weather.columns.yaml', '--measured', 'examples/logger/log.csv', '--json']
  const out = execFileSync(join(ROOT, 'node_modules/.bin/plugstead'), [...words, ...more], { cwd: ROOT, encoding: 'utf8' })
  const { trial } = JSON.parse(out).result
  expect(view.rows.map(({ name, bias, rms, hoursCount }) => ({ name, bias, rms, hoursCount }))).toEqual(
    trial.errors.map((e: never) => {
      const { sensor, bias, rms, hoursCount } = e as { sensor: { name: string }; bias: number; rms: number; hoursCount: number }
      return { name: sensor.name, bias, rms, hoursCount }
    }),
  )
  type Told = { unknown: { id: string }; value: number; low: number; high: number; told: boolean }
  expect(view.unknowns.map(({ id, found, told }) => ({ id, ...found, told }))).toEqual(
    trial.fit.told.map(({ unknown, value, low, high, told }: Told) => ({ id: unknown.id, value, low, high, told })),
  )
  // What is kept says what the lines say that the terminal shows.
  const kept = JSON.stringify(view.edits)
  for (const line of (trial.lines as string[]).filter((l) => /found|low|high|by:|on:/.test(l)))
    expect(kept).toContain(line.split(': ').slice(1).join(': ').replaceAll('"', ''))
}, 240_000)

test('the leakage, roof and gear that the made list holds (in its head) are found, nearer than what was taken before', () => {
  const truth: Record<string, number> = { leakage: 340, 'roof-absorptance': 0.58, 'gear-mass': 260 }
  for (const { id, before, found } of view.unknowns) {
    expect(Math.abs(found.value / truth[id]! - 1)).toBeLessThan(0.05)
    expect(Math.abs(found.value - truth[id]!)).toBeLessThan(Math.abs(before.value - truth[id]!))
    expect(before.low <= before.value && before.value <= before.high).toBe(true)
  }
  const [leak] = view.unknowns
  expect(leak!.before.high / leak!.before.low).toBeGreaterThan(leak!.found.high / leak!.found.low)
})

test('its runs are counted, each once, up to the last', () => {
  const [, of] = counted[0]!
  expect(counted.map(([done]) => done)).toEqual(Array.from({ length: counted.length }, (_, i) => i))
  expect(counted.length).toBe(of)
})

test('what was told, kept in the document, is read as measured; a survey that stands gets it and keeps what it has', () => {
  const kept = editDocument(at.given.text, view.edits)
  if (!kept.ok) throw new Error(JSON.stringify(kept.problems))
  const job = readJob(kept.value, { file: FILE })
  if (!job.ok) throw new Error(JSON.stringify(job.problems))
  const [survey] = job.value.surveys
  expect(survey).toMatchObject({ box: 'yard' })
  expect(survey!.air!.leakM3SAt50Pa!.value * 3600).toBeCloseTo(view.unknowns[0]!.found.value, -1)
  expect(survey!.air!.roofAbsorptanceFrac!.by).toMatch(/^fitted to log\.csv, 5 sensors, 2027-04-05/)
  const found = { leakage: { found: '340 m3/h', low: '330 m3/h', high: '350 m3/h', by: 'a log', on: '2027-04-26' } }
  const text = 'facts:\n  surveys:\n    - box: other\n    - box: yard\n      rib-pitch: 278 mm\n'
  expect(surveyEdits(text, 'yard', found)).toEqual([{ path: ['facts', 'surveys', 1, 'leakage'], value: found.leakage }])
  expect(surveyEdits(text, 'barn', found)[0]!.value).toMatchObject([{ box: 'other' }, { box: 'yard' }, { box: 'barn' }])
  expect(surveyEdits(text, 'yard', {})).toEqual([])
})

test('beside the made year the days are laid by the calendar, and nothing is fitted or kept', () => {
  const told = editDocument(at.given.text, [{ path: ['facts', 'site', 'longitude'], value: '-93 deg' }])
  if (!told.ok) throw new Error(JSON.stringify(told.problems))
  expect(loggerBeside(asked({ weather: null }))).toMatchObject({ is: 'lacks', lacks: [expect.stringContaining('longitude')] })
  const task = { ...remedyTask(at, 'yard'), given: { file: FILE, text: told.value } }
  const made = doneOf(loggerBeside(asked({ weather: null, task })))
  expect([made.weather, made.unknowns, made.edits]).toEqual(['', [], []])
  expect(made.fitless).toContain('no certain year')
})

test('a list of other days, one that is none, and weather without a column are refused in the words of the terminal', () => {
  const codes = (over: Partial<LoggerAsked>) => {
    const answer = loggerBeside(asked(over))
    return answer.is === 'refused' ? [answer.of, ...answer.problems.map((p) => p.code)] : [answer.is]
  }
  expect(codes({ log: { name: 'a', text: LOG.replaceAll('2027-', '2026-') } })).toEqual(['log', 'log/apart'])
  expect(codes({ log: { name: 'a', text: 'bring milk\n' } })).toEqual(['log', 'log/no-heading'])
  expect(codes({ weather: { name: 'w', text: WEATHER.text } })).toEqual(['weather', 'weather/not-known'])
  const dark = WEATHER.columns.replace(/^ {2}(level|direct|diffuse|cloud):.*\n/gm, '')
  expect(codes({ weather: { ...WEATHER, columns: dark } })[0]).toBe('weather')
})

test('headings that say too little are named by a person, and the mapping is one that the terminal reads', () => {
  const odd = LOG.replace('time,air high (C),air low (C),roof (C),wall (C)', 'Stamp,T1,T2,T3,T4')
  const head = logTable({ text: odd.slice(0, 4000), between: null, skipLines: 2 })!
  expect(head.columns.map((c) => c.heading).slice(0, 3)).toEqual(['Stamp', 'T1', 'T2'])
  const begun = loggerFormOf(head)
  expect(loggerLacking(begun, head)).toEqual(['time'])
  const kinds = ['time', 'air high', 'air low', 'roof', 'wall'] as const
  const form = {
    ...begun,
    columns: begun.columns.map((c, i) => (kinds[i] === undefined ? c : { what: kinds[i], unit: i === 0 ? '' : 'C' })),
  }
  expect(loggerLacking(form, head)).toEqual([])
  const answer = loggerBeside(asked({ log: { name: 'odd.csv', text: odd }, mapping: logMappingText('odd.csv', head, form) }))
  expect(doneOf(answer).rows.map((r) => r.rms)).toEqual(view.rows.map((r) => r.rms))
}, 240_000)

test('lines above the headings are passed over where nobody counts them', () => {
  expect(logTable({ text: LOG.slice(0, 4000), between: null, skipLines: null })).toMatchObject({ skipLines: 2 })
})
