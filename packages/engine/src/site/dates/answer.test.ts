import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { type Job, readJob } from '../../job/index.ts'
import { answerDates, chained, type DatesInputs } from './index.ts'

const yard = (change: (text: string) => string = (t) => t): Job => {
  const read = readJob(change(readFileSync(new URL('../../../../../examples/groomer-yard-us.yaml', import.meta.url), 'utf8')))
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return read.value
}

const STEPS = [
  ['1', "the shop's helper", 6],
  ['3', "the shop's welder", 40],
  ['5', 'the painter', 12],
  ['9', 'the electrician', 60],
  ['14', "the shop's helper", 3],
] as const

const shop = [
  {
    box: 'yard',
    steps: STEPS.map(([id, who, hours]) => ({
      ...{ id, who, words: id, hold: null, caution: null },
      hours: { low: hours * 0.7, middle: hours, high: hours * 1.4 },
    })),
    goods: ['panel/200 A', 'strut/12 ga'],
  },
]

const ask = (change?: (text: string) => string, more: Partial<DatesInputs> = {}) =>
  answerDates({
    job: chained(yard(change)),
    design: { boxes: [{ box: 'yard', phase: 'stay', offer: 'pole', interim: null }] },
    shop,
    drawsCount: 2000,
    ...more,
  })
const facts = (rows: string) => (text: string) => text.replace('facts:\n', `facts:\n${rows}`)
const taskOf = (a: ReturnType<typeof ask>, id: string) => a.result.chain.find((t) => t.id === id)!
const finding = (a: ReturnType<typeof ask>, code: string, subject?: string) =>
  a.findings.find((f) => f.code === code && (subject === undefined || f.subject === subject))

describe('the yard half way up the hill', () => {
  test('13 weeks from 10 July: the meter is set by 8 October, days before the road closes, and there is no slack for it', () => {
    const a = ask()
    expect(taskOf(a, 'utility-set').finish).toBe('2027-10-08')
    expect(a.result.earliest).toBe('2027-10-12')
    expect(finding(a, 'dates/closed', 'road')?.verdict).toBe('tight')
    expect(finding(a, 'dates/ready')?.verdict).toBe('holds')
    expect(a.result.critical).toContain('build')
    expect(a.result.orderBy).toBe('2027-07-13')
  })

  test('asked two weeks later it is missed by the winter, and a set for the gap is offered as a mend', () => {
    const a = ask(undefined, { today: '2027-07-26' })
    expect(finding(a, 'dates/ready')?.verdict).toBe('fails')
    expect(a.result.earliest! > '2028-04-30').toBe(true)
    expect(finding(a, 'dates/ready')?.mends.map((m) => m.value)).toContain('hired-set')
    expect(taskOf(a, 'application').must).toBe('past')
    expect(finding(a, 'dates/closed', 'road')?.verdict).toBe('fails')
  })

  test('with the set for the gap it is tight, and late only when both are', () => {
    const design = { boxes: [{ box: 'yard', phase: 'stay', offer: 'pole', interim: 'hired-set' }] }
    const a = ask(undefined, { today: '2027-07-26', design })
    expect(finding(a, 'dates/ready')?.verdict).toBe('tight')
    expect(a.result.chance!.withoutInterimFrac).toBe(1)
    expect(a.result.chance!.lateFrac!).toBeLessThan(0.5)
    expect(finding(a, 'dates/interim')?.verdict).not.toBe('fails')
  })

  test('what is told of a task stands before the table: done, not before, takes', () => {
    const done = ask(facts('  tasks:\n    - { task: design, done: 2027-07-20, by: letter of the utility }\n'))
    expect(taskOf(done, 'design')).toMatchObject({ done: '2027-07-20', must: 'done' })
    expect(done.result.earliest! < ask().result.earliest!).toBe(true)
    const later = ask(facts('  tasks:\n    - { task: haul, not-before: 2027-09-27 }\n'))
    expect(taskOf(later, 'haul').start).toBe('2027-09-27')
    const slow = ask(facts('  tasks:\n    - { task: buy-panel, takes: 10 weeks, least: 9 weeks, most: 20 weeks }\n'))
    expect(taskOf(slow, 'buy-panel')).toMatchObject({ takes: { low: 63, likely: 70, high: 140 }, spread: 'told', assumed: [] })
    expect(taskOf(slow, 'buy-panel').finish! > taskOf(ask(), 'buy-panel').finish!).toBe(true)
    expect(finding(ask(facts('  tasks:\n    - { task: bulid, takes: 1 week }\n')), 'dates/missing')?.verdict).toBe('unknown')
    expect(finding(ask(facts('  tasks:\n    - { task: design, done: 2027-08-20 }\n')), 'dates/done-ahead')?.verdict).toBe(
      'unknown',
    )
  })

  test('a closed time, a holiday, a refused consent and an easement each change the answer', () => {
    const shut = ask(facts('  closed:\n    - { what: shop, from: 24 July, to: 9 August, why: the shop is on holiday }\n'))
    expect(taskOf(shut, 'shop-14').finish! > taskOf(ask(), 'shop-14').finish!).toBe(true)
    const none = ask((t) => t.replace('    place: alpine yard\n', '    place: alpine yard\n    holidays: none\n'))
    expect(none.result.earliest).toBe('2027-10-11') // Columbus Day
    const refused = ask(facts('  permits:\n    - { what: right of way over the neighbour, status: refused }\n'))
    expect(finding(refused, 'dates/ready')?.verdict).toBe('unknown')
    const easement = ask(facts('  permits:\n    - { what: easement of the lower field }\n'))
    expect(finding(easement, 'dates/missing')?.said).toMatch(/consent-1/)
    const given = ask(facts('  permits:\n    - { what: easement of the lower field, status: given }\n'))
    expect(given.result.earliest).toBe(ask().result.earliest)
  })

  test('people, hours, paint bay and lead times of the shop change the days in the shop', () => {
    const end = (crew: DatesInputs['crew']) => taskOf(ask(undefined, crew === undefined ? {} : { crew }), 'shop-14').finish!
    const base = end(undefined)
    expect(end({ people: { welder: 4, electrician: 4 } }) < base).toBe(true)
    expect(end({ hoursPerDay: 4 }) > base).toBe(true)
    expect(end({ bayC: 6 }) > base).toBe(true)
    expect(
      end({ booked: [{ trade: 'welder', from: '2027-07-20', to: '2027-09-01', shareFrac: 0.8, why: 'another box' }] }) > base,
    ).toBe(true)
    expect(end({ leads: { 'buy panel': { low: 60, likely: 60, high: 60 } } }) > base).toBe(true)
    const cold = ask(undefined, { crew: { bayC: 2 } })
    expect(finding(cold, 'dates/missing')?.said).toMatch(/does not harden/)
  })

  test('frost whose depth nobody told is judged at both ends', () => {
    const a = ask((t) => t.replace('frost-depth: 1.5 m, ', '').replace('    - No trench after 30 September.\n', ''))
    expect(finding(a, 'dates/ready')?.verdict).toBeDefined()
    expect(a.assumed.some((x) => /frozen ground/.test(x.said))).toBe(true)
  })
})

describe('two boxes and one crew of each trade', () => {
  const two = [
    { ...shop[0]!, box: 'yard' },
    { ...shop[0]!, box: 'shed' },
  ]
  const both = (more: Partial<DatesInputs> = {}) => ask(undefined, { shop: two, ...more })

  test('the second box waits for the welder, not for the first box, and the finding says how long and why', () => {
    const a = both()
    const [yardWeld, shedWeld] = ['shop-3.yard', 'shop-3.shed'].map((id) => taskOf(a, id))
    const [first, second] = [yardWeld!, shedWeld!].toSorted((x, y) => (x.start! < y.start! ? -1 : 1))
    expect(second!.start! >= first!.finish!).toBe(true)
    expect(second!.crew).toMatchObject({ trade: 'welder', behind: [first!.id] })
    // 40 h of the first, 8 h a day, less what the helper took on both before.
    expect(second!.crew!.waitsDays).toBeGreaterThan(3)
    expect(second!.crew!.waitsDays).toBeLessThanOrEqual(5)
    expect(finding(a, 'dates/crew')?.said).toContain(`${second!.id} waits`)
    // The painter is at one box while the welder is at the other.
    const paint = taskOf(a, first!.id.replace('shop-3', 'shop-5'))
    expect(paint.start! < second!.finish!).toBe(true)
  })

  test('sooner than all hours step by step, later than with crews without end, and one box alone waits for nobody', () => {
    const end = (a: ReturnType<typeof ask>) =>
      a.result.chain
        .filter((t) => t.id.startsWith('shop-14'))
        .map((t) => t.finish!)
        .toSorted()
        .at(-1)!
    const summed = ask(undefined, {
      shop: [
        {
          ...shop[0]!,
          steps: shop[0]!.steps.map((s) => ({
            ...s,
            hours: { low: 2 * s.hours.low, middle: 2 * s.hours.middle, high: 2 * s.hours.high },
          })),
        },
      ],
    })
    expect(end(both()) < end(summed)).toBe(true)
    expect(end(both()) > end(ask())).toBe(true)
    expect(both().result.earliestAlone! <= both().result.earliest!).toBe(true)
    expect(finding(ask(), 'dates/crew')).toBeUndefined()
    expect(ask().result.earliestAlone).toBe(ask().result.earliest)
  })

  test('slack is that after the crews are in order: a box whose crew another waits for has none to spare before it', () => {
    const a = both()
    for (const t of a.result.chain.filter((x) => x.critical && x.group === 'shop')) expect(t.slackDays).toBeLessThan(0.01)
  })

  test('the draws keep the order of the crews: nobody is at two boxes in any of them', () => {
    const late = (shop: DatesInputs['shop']) =>
      ask(undefined, { shop })
        .result.chain.filter((t) => t.id.startsWith('shop-14'))
        .map((t) => t.nineInTen!)
        .toSorted()
        .at(-1)!
    expect(late(two) > late(shop)).toBe(true)
  })
})

describe('a box that stands', () => {
  const standing = (t: string) =>
    t.replace(
      'facts:\n',
      'facts:\n  built:\n    rules-when-built: us\n    system: 120/240 V single-phase 3-wire\n    service: 200 A\n    interrupting: 10 kA\n    ways: 30\n    circuits: []\n    neutral-bond: in the main panel\n    approval: none\n',
    )

  test('is in the shop for as long as its change list takes the electrician; what nobody counted is said', () => {
    const changes = { box: 'yard', hours: { low: 8, middle: 16, high: 40 }, uncounted: ['cord exits'] }
    const a = ask(standing, { changes })
    expect(taskOf(a, 'shop-work').takes).toEqual({ low: 1, likely: 2, high: 5 })
    expect(a.result.chain.some((t) => t.id.startsWith('shop-9'))).toBe(false)
    expect(a.assumed.some((x) => /cord exits/.test(x.said))).toBe(true)
    // Nobody has sought them: an upper end, that says so.
    const anew = ask(standing)
    expect(anew.result.chain.some((t) => t.id === 'shop-9')).toBe(true)
    expect(anew.assumed.some((x) => /built anew/.test(x.said))).toBe(true)
  })
})

describe('days that nobody told', () => {
  const undated = (t: string) => t.replace('  order-placed: 2027-07-10\n', '')

  test('without a day of the order the latest day for it is told, and all is unknown', () => {
    const a = ask(undated)
    expect(finding(a, 'dates/today')?.verdict).toBe('unknown')
    expect(a.result.orderBy).toBe('2027-07-13')
    expect(a.result.earliest).toBeNull()
  })

  test('so long after an order that nobody dated: late without a holiday is late for certain, else unknown', () => {
    const of = (weeks: number) => ask((t) => undated(t).replace('2027-11-01', `${weeks} weeks after order`))
    expect(finding(of(6), 'dates/ready')?.verdict).toBe('fails')
    expect(finding(of(40), 'dates/today')?.verdict).toBe('unknown')
    expect(ask((t) => t.replace('2027-11-01', '16 weeks after order')).result.needed).toBe('2027-10-30')
  })

  test('without a day needed it is the first day of the next season, and without a season unknown', () => {
    const a = ask((t) => t.replace('  needed-by: 2027-11-01\n', ''))
    expect(a.result.needed).toBe('2027-11-15')
    const b = ask((t) => t.replace('  needed-by: 2027-11-01\n', '').replace(/ {2}season: .*\n/, ''))
    expect(finding(b, 'dates/missing')?.subject).toBe('needs.needed-by')
  })

  test('a road whose months are not read, and a box nobody laid out, leave the answer unknown', () => {
    const road = ask((t) => t.replace('months-open: May to October', 'months-open: while the winter road holds'))
    expect(finding(road, 'dates/unread')?.verdict).toBe('unknown')
    const bare = ask(undefined, { shop: [] })
    expect(finding(bare, 'dates/ready')?.verdict).toBe('unknown')
    expect(bare.result.chance).toBeNull()
  })
})
