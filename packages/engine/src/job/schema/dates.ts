import { z } from 'zod'
import { choice, group, quantity, range, readBy, special, tag, text } from '../fields.ts'
import { problem, shown } from '../problems.ts'
import { date, isDay } from '../times.ts'

const lead = (said: string, absent: string) =>
  quantity('time', range(0, 10 * 366 * 86_400, '0 to 10 years'), { said, need: 'assumed', absent, ...readBy('dates') })

const task = z
  .strictObject({
    task: tag({
      said: 'Task of the chain, as “plugstead dates JOB” names it: visit, permit, buy-panel, haul.',
      need: 'must',
      absent: 'the line cannot be read',
    }),
    done: date({ said: 'Day on which it was finished.', need: 'assumed', absent: 'not finished' }).optional(),
    'not-before': date({
      said: 'Day before which it cannot begin.',
      need: 'assumed',
      absent: 'as soon as what is before it',
    }).optional(),
    takes: lead(
      'How long it takes, likely: weeks and days of the calendar; nothing is taken off for holidays.',
      'the usual time',
    ).optional(),
    least: lead('Least it takes.', '90 % of what it takes').optional(),
    most: lead('Most it takes.', '130 % of what it takes').optional(),
    by: text({ said: 'Who said so, and when.', need: 'assumed', absent: 'the job document' }, 200).optional(),
  })
  .meta(group('What is known of one task of the chain.', 'assumed', 'the usual time', readBy('dates')))

export const tasks = z
  .array(task)
  .meta(group('Tasks that are done, or whose time somebody told.', 'assumed', 'the usual times', readBy('dates')))

/** `15 October`, or a date with its year. */
const day = (said: string, need: 'must' | 'assumed', absent: string) =>
  special<string>(
    (value) => {
      const match = typeof value === 'string' ? /^(\d{1,2}) ([A-Za-z]+)$/.exec(value.trim()) : null
      const month = match === null ? -1 : MONTHS.indexOf(match[2]!.toLowerCase())
      if (month >= 0 && Number(match?.[1]) >= 1 && Number(match?.[1]) <= LAST[month]!)
        return { ok: true, value: (value as string).trim() }
      if (typeof value === 'string' && isDay(value)) return { ok: true, value }
      return { ok: false, problems: [problem('job/year-day', shown(value))] }
    },
    { type: 'string', unit: 'none', range: 'a day of every year, or a date', examples: ['15 October', '2027-12-24'] },
    { said, need, absent },
  )

const MONTHS = [
  ...['january', 'february', 'march', 'april', 'may', 'june', 'july', 'august', 'september', 'october', 'november', 'december'],
]
const LAST = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]

export const CLOSED_KINDS = ['road', 'digging', 'site', 'shop', 'offices'] as const

const closed = z
  .strictObject({
    what: choice(CLOSED_KINDS, {
      said: 'What rests: trucks on the road, digging, all work on site, the shop, offices.',
      need: 'must',
      absent: 'the line cannot be read',
    }),
    from: day('First day of it. Without a year: every year.', 'must', 'the line cannot be read'),
    to: day('Last day of it. Without a year it may lie in the next one.', 'must', 'the line cannot be read'),
    why: text({ said: 'Why.', need: 'assumed', absent: 'not said' }, 200).optional(),
  })
  .meta(group('A time in which something rests.', 'assumed', 'none', readBy('dates')))

export const closedTimes = z
  .array(closed)
  .meta(
    group('Times in which something rests, beside what the road and what is forbidden say.', 'assumed', 'none', readBy('dates')),
  )

/** Places whose holidays the program knows as rules. */
export const HOLIDAY_PLACES = ['us', 'ca', 'ca-bc', 'ca-on', 'ca-nt', 'gb-eng', 'gb-sct', 'de', 'ae', 'none'] as const
