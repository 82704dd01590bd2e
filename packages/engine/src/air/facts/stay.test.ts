import { expect, test } from 'vitest'
import { daysWords, phasesByMonth, restOfYear, type StayJob, stayOf } from './stay.ts'

interface Told {
  readonly neededBy?: string | null
  readonly stayMonths?: number
  readonly moves?: string
  readonly phases?: readonly (readonly [id: string, from: number, to: number, boxes?: readonly string[]])[]
}
const jobOf = ({ neededBy = '2027-10-15', stayMonths = 12, moves, phases = [['stay', 1, stayMonths]] }: Told): StayJob =>
  ({
    boxes: [{ id: 'A', ...(moves === undefined ? {} : { moves }) }, { id: 'B' }],
    phases: phases.map(([id, fromMonth, toMonth, boxes]) => ({
      ...{ id, fromMonth, toMonth, said: id },
      ...(boxes === undefined ? {} : { boxes }),
    })),
    needs: { neededBy, stayMonths },
  }) as unknown as StayJob
const stay = (told: Told, box = 'A') => stayOf(jobOf(told), box)
const span = (told: Told, box = 'A') => {
  const { span: days } = stay(told, box)
  return days === null ? null : daysWords(days)
}

test('a stay of five months begins on the day it is needed and ends the day before that day of the month, over new year', () => {
  expect(span({ stayMonths: 5 })).toBe('15 October to 14 March')
  expect(span({ stayMonths: 5, neededBy: '2027-03-01' })).toBe('1 March to 31 July')
  // November has 30 days: month 2 of a stay from 31 October begins on its last.
  expect(span({ stayMonths: 1, neededBy: '2027-10-31' })).toBe('31 October to 29 November')
  expect(span({ stayMonths: 12 })).toBeNull()
  expect(stay({ stayMonths: 12 }).said).toBe('')
})

test('a phase holds the boxes it names; months beyond the twelfth fall on their own days of the year', () => {
  const phases = [
    ['first', 1, 6, ['A', 'B']],
    ['second', 7, 12, ['A']],
    ['third', 13, 15, ['A', 'B']],
  ] as const
  expect(span({ stayMonths: 15, phases, neededBy: '2027-01-01' }, 'B')).toBe('1 January to 30 June')
  expect(span({ stayMonths: 15, phases, neededBy: '2027-01-01' })).toBeNull()
  const late = [...phases.slice(0, 2), ['third', 19, 21, ['B']]] as const
  expect(span({ stayMonths: 21, phases: late, neededBy: '2027-01-01' }, 'B')).toBe('1 January to 30 September')
})

test('what lies between two stretches is counted with them, and the longest gap of the year is not', () => {
  const phases = [
    ['a', 1, 2, ['A']],
    ['b', 3, 4, ['B']],
    ['c', 5, 6, ['A']],
  ] as const
  expect(span({ stayMonths: 6, phases, neededBy: '2027-01-01' })).toBe('1 January to 30 June')
  expect(stay({ stayMonths: 6, phases, neededBy: '2027-01-01' }).said).toContain('away for 2 months between them')
  const round = [
    ['a', 1, 2, ['A']],
    ['b', 3, 10, ['B']],
    ['c', 11, 12, ['A']],
  ] as const
  expect(span({ phases: round, neededBy: '2027-01-01' })).toBe('1 November to 28 February')
})

test('no date: the whole year is taken and said, and named as assumed', () => {
  const unknown = stay({ stayMonths: 5, neededBy: null })
  expect([unknown.span, unknown.notes.map((n) => [n.kind, n.path])]).toEqual([null, [['assumed', 'needs.needed-by']]])
  expect(unknown.said).toContain('the whole year is taken')
  expect(stay({ stayMonths: 5, neededBy: '14 weeks after order' }).span).toBeNull()
})

test('where it stands elsewhere within the stay is unknown; the end of the stay is not', () => {
  const phases = [
    ['here', 1, 6, ['A', 'B']],
    ['gone', 7, 12, ['B']],
  ] as const
  expect(stay({ phases })).toMatchObject({
    elsewhere: true,
    said: expect.stringContaining('In months 7 to 12 of the stay it stands elsewhere'),
  })
  expect(stay({ phases }).said).toContain('Nor is the road')
  expect(stay({ phases }, 'B').elsewhere).toBe(false)
  expect(stay({ stayMonths: 6 }).elsewhere).toBe(false)
})

test('moves that name no months take the whole year and say so; those of phases are told by phases', () => {
  expect(stay({ moves: 'three each season' }).said).toContain(
    '“three each season”, which names no months: the whole year is taken',
  )
  for (const moves of ['none', '1', 'one move: to the site']) expect(stay({ moves }).said).toBe('')
  expect(stay({ moves: 'once, in month 13' }).said).toContain('no phase takes it off this site')
})

test('phases of each calendar month: those whose months fall on it, in whichever year of the stay', () => {
  const phases = [
    ['first', 1, 12],
    ['second', 13, 22],
  ] as const
  const at = phasesByMonth(jobOf({ stayMonths: 22, phases, neededBy: '2027-03-01' }))!
  expect(at[2]).toEqual(['first', 'second'])
  expect([at[11], at[0], at[1]]).toEqual([['first', 'second'], ['first'], ['first']])
  const part = phasesByMonth(
    jobOf({
      phases: [
        ['a', 1, 3],
        ['b', 4, 12],
      ],
      neededBy: '2027-03-15',
    }),
  )!
  // From 15 March on three months reach into June.
  expect([part[2], part[5], part[6]]).toEqual([['a', 'b'], ['a', 'b'], ['b']])
  expect(phasesByMonth(jobOf({ phases, neededBy: null }))).toBeNull()
})

test('the rest of a year and a season make a year', () => {
  const season = { from: { month: 10, day: 10 }, to: { month: 4, day: 30 } }
  expect(daysWords(restOfYear(season))).toBe('1 May to 9 October')
  expect(restOfYear(restOfYear(season))).toEqual(season)
})
