import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import ICAL from 'ical.js'
import { expect, test } from 'vitest'
import { plugstead } from './spawned.ts'

const JOB = 'examples/two-machines.yaml'

test('dates prints the chain from the day asked, and writes it so that a second reader has the same days', () => {
  const folder = mkdtempSync(join(tmpdir(), 'plugstead-dates-'))
  try {
    const ended = plugstead(['dates', JOB, '--today', '2028-02-28', '--out', folder, '--json'])
    const answer = JSON.parse(ended.out)
    const { dates } = answer.result
    expect(dates.today).toBe('2028-02-28')
    const read = new ICAL.Component(ICAL.parse(readFileSync(join(folder, 'two-machines.ics'), 'utf8')))
    const events = read.getAllSubcomponents('vevent').map((e) => new ICAL.Event(e))
    expect(events.map((e) => e.startDate.toString())).toEqual(dates.chain.map((t: { start: string }) => t.start))
    expect(readFileSync(join(folder, 'two-machines.dates.csv'), 'utf8').trim().split('\r\n')).toHaveLength(dates.chain.length + 1)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
})

test('a day that is none is refused with what is wanted', () => {
  const ended = plugstead(['dates', JOB, '--today', '2027-02-29', '--json'])
  expect(ended.code).toBe(2)
  expect(JSON.parse(ended.out).problems[0].wanted).toBe('a day with its year, 2027-07-10')
})
