import { z } from 'zod'
import { choice, fraction, group, money, quantity, range, readBy, special, text, texts, yesNo } from '../fields.ts'
import { problem, shown } from '../problems.ts'
import { clock, date, isDay } from '../times.ts'
import { machine, place } from './machines.ts'

/** A day, or so long after the order: `14 weeks after order`. */
export interface NeededBy {
  readonly date: string | null
  readonly daysAfterOrder: number | null
  readonly text: string
}

const DAYS: Readonly<Record<string, number>> = { day: 1, days: 1, week: 7, weeks: 7 }

const neededBy = special<NeededBy>(
  (value) => {
    if (typeof value === 'string') {
      if (isDay(value)) return { ok: true, value: { date: value, daysAfterOrder: null, text: value } }
      const after = /^(\d{1,4}) (day|days|week|weeks) after order$/.exec(value.trim())
      if (after)
        return {
          ok: true,
          value: { date: null, daysAfterOrder: Number(after[1]) * (DAYS[after[2] as string] as number), text: value.trim() },
        }
    }
    return { ok: false, problems: [problem('job/date', shown(value))] }
  },
  {
    type: 'string',
    unit: 'none',
    range: 'a date with its year, or “N weeks after order”',
    examples: ['2027-11-01', '14 weeks after order'],
  },
  { said: 'Day by which it must be live.', need: 'must', absent: 'dates answers unknown, and no interim is planned for a gap' },
)

const moneyNeeds = z
  .strictObject({
    currency: text(
      {
        said: 'Currency of every figure in this job, three capital letters (ISO 4217).',
        need: 'assumed',
        absent: 'that of the first figure written; else of the shop’s price table',
      },
      3,
    ).optional(),
    electrician: money('h', { said: 'Loaded rate of an electrician.', need: 'assumed', absent: 'the shop’s own' }).optional(),
    welder: money('h', {
      said: 'Loaded rate of a welder.',
      need: 'assumed',
      absent: 'the shop’s own',
    }).optional(),
    helper: money('h', {
      said: 'Loaded rate of a helper.',
      need: 'assumed',
      absent: 'the shop’s own',
    }).optional(),
    'shop-overhead': money('h', {
      said: 'Shop overhead on each hour.',
      need: 'assumed',
      absent: 'the shop’s own',
    }).optional(),
    margin: fraction(range(0, 0.9, '0 to 90 % of the price'), {
      said: 'Margin as a share of the price (not of the cost).',
      need: 'assumed',
      absent: 'the shop’s own',
    }).optional(),
    'used-box': money(null, {
      said: 'Price of a used container.',
      need: 'must',
      absent: 'money answers unknown',
    }).optional(),
    'new-box': money(null, {
      said: 'Price of a new, fitted box to compare a change list with.',
      need: 'must',
      absent: 'the comparison answers unknown',
    }).optional(),
    haul: money(null, {
      said: 'One haul, one way.',
      need: 'must',
      absent: 'money answers unknown',
    }).optional(),
    interest: fraction(range(0, 1, '0 to 100 % a year'), {
      said: 'Interest a year, effective: it already holds all compounding within the year.',
      need: 'assumed',
      absent: 'not counted',
    }).optional(),
    'rent-period': quantity('time', range(86_400, 366 * 86_400, '1 day to a year'), {
      said: 'Length of one rent period.',
      need: 'assumed',
      absent: '28 days',
    }).optional(),
    'rent-wanted': text({
      said: 'Rent asked for, in words.',
      need: 'assumed',
      absent: 'bought and rented are both priced',
    }).optional(),
    'lost-per-day': money(null, {
      said: 'What is lost each day without power.',
      need: 'must',
      absent: 'unknown, not counted',
      later: ['dates'],
    }).optional(),
    budget: money(null, { said: 'What may be spent.', need: 'must', absent: 'no limit is judged' }).optional(),
  })
  .meta(
    group('Money the person who calls has named; the shop’s own rates stand in the shop’s folder.', 'assumed', 'the shop’s own'),
  )

const hoursOfWinter = (said: string) =>
  quantity('time', range(3600, 9000 * 3600, '1 to 9000 h'), { said, need: 'must', absent: 'the line cannot be read' })
const winters = z
  .strictObject({
    mild: hoursOfWinter('In a mild one.'),
    middle: hoursOfWinter('In a usual one: as planned.'),
    hard: hoursOfWinter('In a hard one.'),
  })
  .meta(group('Hours that heaters run in a winter.', 'must', 'only the winter that is planned for is compared'))

const season = z
  .strictObject({
    from: text(
      { said: 'First day, day and month.', need: 'assumed', absent: 'all year', ...readBy('dates', 'air') },
      40,
    ).optional(),
    to: text({ said: 'Last day, day and month.', need: 'assumed', absent: 'all year', ...readBy('dates', 'air') }, 40).optional(),
    days: special<number>(
      (value) =>
        typeof value === 'number' && Number.isInteger(value) && value >= 1 && value <= 366
          ? { ok: true, value }
          : { ok: false, problems: [problem('job/wrong-kind', value, 'days, 1 to 366', 'Write for example “156”.')] },
      { type: 'integer', unit: 'days', range: '1 to 366', examples: [156] },
      { said: 'Days of the season, 29 February counted only when the dates carry a leap year.', need: 'assumed', absent: '365' },
    ).optional(),
    note: text({
      said: 'Anything else, for example on how many of these days heat is wanted.',
      need: 'assumed',
      absent: 'nothing',
    }).optional(),
    winters: winters.optional(),
  })
  .meta(group('Season of use.', 'assumed', 'all year'))

const shift = z
  .strictObject({
    name: text({ said: 'Name of the shift.', need: 'assumed', absent: 'none' }, 80),
    start: clock({ said: 'When it starts, local time.', need: 'must', absent: 'the line cannot be read' }),
    days: text({ said: 'Days, in words.', need: 'assumed', absent: 'daily' }, 80).optional(),
    machines: text({ said: 'How many machines leave with it, in words.', need: 'assumed', absent: 'not said' }, 80).optional(),
  })
  .meta(group('One shift. Windows of machines rule; shifts say why.', 'assumed', 'none', ['dates']))

export const needs = z
  .strictObject({
    machines: z
      .array(machine)
      .meta(group('What has to run.', 'must', 'needs answers unknown'))
      .optional(),
    places: z
      .record(z.string(), place)
      .meta(
        group(
          'Where machines stand in the yard, each under its name (“G1”). Drawn, and judged by nobody.',
          'assumed',
          'machines are drawn side by side where their cords leave the box',
        ),
      )
      .optional(),
    growth: fraction(range(0, 5, '0 to 500 %'), {
      said: 'Growth to leave room for, as a share of the load.',
      need: 'assumed',
      absent: '25 %',
    }).optional(),
    goal: choice(['least cost over the stay', 'least first cost', 'earliest date'], {
      said: 'What the plan seeks.',
      need: 'assumed',
      absent: 'least cost over the stay',
    }).optional(),
    stay: quantity('stay', range(0.1, 600, '3 days to 50 years'), {
      said: 'How long it is needed.',
      need: 'assumed',
      absent: '12 months',
    }).optional(),
    'order-placed': date({
      said: 'Day of the order or enquiry: lead times count from it.',
      need: 'must',
      absent: 'dates answers unknown; lead times are compared in days after the order',
    }).optional(),
    'needed-by': neededBy.optional(),
    customer: text(
      {
        said: 'Whom the offer is made to: name, and where letters reach them.',
        need: 'assumed',
        absent: 'the offer says that it is not told',
      },
      120,
    ).optional(),
    'ring-back': date({
      said: 'Day by which the shop promised to ring back. Taken out once it has.',
      need: 'assumed',
      absent: 'nobody waits for an answer',
    }).optional(),
    season: season.optional(),
    shifts: z
      .array(shift)
      .meta(group('Shifts.', 'assumed', 'none', ['dates']))
      .optional(),
    'manual-all-on': yesNo({
      said: 'A person wants a switch that turns everything on at once, past all staging.',
      need: 'assumed',
      absent: 'yes: someone will do it in a cold spell',
    }).optional(),
    forbidden: texts({
      said: 'What is forbidden or must stay so, one sentence each.',
      need: 'assumed',
      absent: 'nothing',
      ...readBy('fit', 'skin', 'haul', 'place', 'papers', 'dates'),
    }).optional(),
    wishes: texts({
      said: 'What else is wanted, one sentence each.',
      need: 'assumed',
      absent: 'nothing',
      later: ['keep', 'shop'],
    }).optional(),
    'buy-or-rent': choice(['buy', 'rent', 'both'], {
      said: 'What to price.',
      need: 'assumed',
      absent: 'both',
    }).optional(),
    money: moneyNeeds.optional(),
  })
  .meta(group('What somebody wants.', 'must', 'needs answers unknown'))
