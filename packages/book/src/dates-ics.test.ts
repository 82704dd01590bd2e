import type { Assessment } from '@plugstead/engine/assess'
import ICAL from 'ical.js'
import { expect, test } from 'vitest'
import { datesCsv } from './dates-csv.ts'
import { datesIcs } from './dates-ics.ts'

type Dates = Assessment['results']['dates']

const task = (more: Partial<Dates['chain'][number]>): Dates['chain'][number] => ({
  ...{ id: 'visit', what: 'the utility’s visit', group: 'supply', who: 'the utility', after: ['order'], calendar: 'office days' },
  ...{ takes: { low: 3, likely: 5, high: 10 }, spread: 'assumed', start: '2028-02-28', finish: '2028-02-29' },
  ...{
    latestStart: '2028-03-01',
    latestFinish: '2028-03-02',
    slackDays: 2,
    critical: true,
    crew: null,
    nineInTen: '2028-03-04',
    done: null,
  },
  ...{ must: 'later', rests: { place: 'table', provenance: 'read' }, assumed: [] },
  ...more,
})

const dates: Dates = {
  ...{
    today: '2028-02-28',
    needed: '2028-12-31',
    neededFrom: 'needs.needed-by',
    earliest: '2028-02-29',
    earliestAlone: null,
    interimFrom: null,
  },
  ...{ interim: null, marginDays: 200, orderBy: '2028-02-28', leastDays: null, critical: ['visit'], closed: [], chance: null },
  ...{ acts: [], mustStart: [], holidays: { place: 'us', days: [] } },
  chain: [
    task({}),
    task({
      id: 'long',
      what: `=a; b, c \\ d – ${'größte Länge über dem Rand '.repeat(6)}\nsecond line`,
      critical: false,
    }),
  ],
}
const job = { title: 'Yard, “upper”; half way' }

test('a second reader reads back every day, text and name', () => {
  const ics = datesIcs(job, dates)
  const read = new ICAL.Component(ICAL.parse(ics))
  const events = read.getAllSubcomponents('vevent').map((e) => new ICAL.Event(e))
  expect(events).toHaveLength(3)
  for (const [i, t] of dates.chain.entries()) {
    expect(events[i]!.startDate.isDate).toBe(true)
    expect(events[i]!.startDate.toString()).toBe(t.start)
    // The end is the day after the last: 29 February ends on 1 March.
    expect(events[i]!.endDate.toString()).toBe('2028-03-01')
    expect(events[i]!.summary).toBe(t.what)
    expect(events[i]!.uid).toMatch(new RegExp(`^${t.id}-[0-9a-f]{8}@`))
  }
  expect(events[2]!.startDate.toString()).toBe('2028-12-31')
  expect(events[2]!.endDate.toString()).toBe('2029-01-01')
  expect(read.getFirstPropertyValue('name')).toBe(`${job.title}: dates`)
  expect(events[0]!.description).toMatch(/Who: the utility\.\nTakes 3, likely 5, most 10 days/)
})

test('no line is longer than 75 octets, every line ends with CR LF, and the same job gives the same bytes', () => {
  const ics = datesIcs(job, dates)
  for (const line of ics.split('\r\n')) expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75)
  expect(ics.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
  expect(datesIcs(job, dates)).toBe(ics)
  const moved = datesIcs(job, { ...dates, chain: dates.chain.map((t) => ({ ...t, start: '2028-03-06', finish: '2028-03-07' })) })
  const uids = (text: string) => [...text.replaceAll('\r\n ', '').matchAll(/^UID:(.*)$/gm)].map(([, u]) => u)
  expect(uids(moved)).toEqual(uids(ics))
  expect(uids(datesIcs({ title: 'Another' }, dates))).not.toEqual(uids(ics))
})

test('where the beginning is not known tasks stand on their latest days', () => {
  const read = new ICAL.Component(ICAL.parse(datesIcs(job, { ...dates, today: null })))
  const [first] = read.getAllSubcomponents('vevent').map((e) => new ICAL.Event(e))
  expect(first!.startDate.toString()).toBe('2028-03-01')
  expect(first!.summary).toBe('Latest: the utility’s visit')
})

test('the list has a row a task, and text that begins like a formula stays text', () => {
  const lines = datesCsv(dates).trim().split('\r\n')
  expect(lines[0]).toContain('latest start')
  expect(datesCsv(dates)).not.toMatch(/(^|,)=a/)
})
