import { z } from 'zod'
import { parseQuantity } from '../../kernel/index.ts'
import { choice, count, group, money, quantity, range, readBy, special, system, text, texts } from '../fields.ts'
import { problem, shown } from '../problems.ts'
import { date } from '../times.ts'

const SETS = ['us', 'ca', 'intl'] as const
/** Ways a box comes off the truck. */
export const SET_DOWN = ['tilt-bed', 'crane', 'forks', 'skids'] as const
export type SetDown = (typeof SET_DOWN)[number]
const amperes = range(0.5, 20_000, '0.5 A to 20 kA')
const air = range(-90, 90, '-90 to 90 C')

const poles = special<1 | 2 | 3>(
  (value) =>
    value === 1 || value === 2 || value === 3
      ? { ok: true, value }
      : { ok: false, problems: [problem('job/not-a-choice', shown(value), null, ['1', '2', '3'])] },
  { type: 'integer', unit: 'none', range: '1 | 2 | 3', examples: [1, 2, 3] },
  { said: 'Poles of the breaker.', need: 'must', absent: 'the line cannot be read' },
)

export const circuit = z
  .strictObject({
    outlet: text({ said: 'Outlet, by trade or standard name.', need: 'must', absent: 'the line cannot be read' }, 80),
    count: count(range(1, 500, '1 to 500'), { said: 'How many alike.', need: 'assumed', absent: '1' }).optional(),
    device: quantity('current', amperes, { said: 'Rating of the breaker.', need: 'must', absent: 'the line cannot be read' }),
    poles,
    conductor: text({ said: 'Conductor: size and metal.', need: 'must', absent: 'the line cannot be read' }, 80),
    shock: text({ said: 'Shock protection, or “none”.', need: 'must', absent: 'the line cannot be read' }, 120),
  })
  .meta(group('Circuits as built, alike ones in one row.', 'must', 'circuits answers unknown'))

export const cord = z
  .strictObject({
    count: count(range(1, 500, '1 to 500'), { said: 'How many alike.', need: 'assumed', absent: '1' }).optional(),
    size: special<string>(
      (value) => {
        const trade = typeof value === 'string' ? /^(\d+)\/(\d)$/.exec(value.trim()) : null
        if (typeof value === 'string' && trade !== null && Number(trade[1]) >= 2) return { ok: true, value: value.trim() }
        return {
          ok: false,
          problems: [problem('job/wrong-kind', value, 'gauge and conductors as on the jacket', 'Write for example “12/3”.')],
        }
      },
      { type: 'string', unit: 'AWG / conductors', range: 'as marked on the jacket', examples: ['12/3'] },
      { said: 'Gauge and number of conductors as on the jacket.', need: 'must', absent: 'the line cannot be read' },
    ),
    length: quantity('length', range(0.1, 1000, '0.1 to 1000 m'), {
      said: 'Length.',
      need: 'must',
      absent: 'the line cannot be read',
    }),
    'marked-to': quantity('temperature', air, {
      said: 'Lowest temperature marked on the jacket.',
      need: 'must',
      absent: 'not taken as fit for cold',
    }).optional(),
  })
  .meta(group('Cords that belong to the box.', 'must', 'none are counted'))

const oldPlace = z
  .strictObject({
    rules: choice(SETS, { said: 'Rule set there.', need: 'must', absent: 'not compared' }).optional(),
    'design-min': quantity('temperature', air, {
      said: 'Lowest design temperature there.',
      need: 'must',
      absent: 'not compared',
    }).optional(),
    'design-max': quantity('temperature', air, {
      said: 'Highest design temperature there.',
      need: 'must',
      absent: 'not compared',
    }).optional(),
    'ground-snow': quantity('pressure', range(0, 1e5, '0 to 100 kPa'), {
      said: 'Ground snow load there.',
      need: 'must',
      absent: 'not compared',
    }).optional(),
    'wind-pressure': quantity('pressure', range(0, 2e4, '0 to 20 kPa'), {
      said: 'Wind pressure there.',
      need: 'must',
      absent: 'not compared',
    }).optional(),
    fault: quantity('current', range(10, 300_000, '10 A to 300 kA'), {
      said: 'Fault level at the panel there.',
      need: 'must',
      absent: 'not compared; it proves nothing elsewhere',
    }).optional(),
    soil: quantity('resistivity', range(0.1, 1e6, '0.1 to 1 000 000 ohm m'), {
      said: 'Soil resistivity there.',
      need: 'must',
      absent: 'not compared',
    }).optional(),
  })
  .meta(group('Where it stood before.', 'assumed', 'nothing is carried over', ['place', 'air', 'haul', 'keep']))

/** What the money of a box that stands is: what it stands at in the books, or what is asked for it. */
export const WORTH_IS = ['book value', 'price asked'] as const

const worth = z
  .strictObject({
    money: money(null, { said: 'So much.', need: 'must', absent: 'the line cannot be read' }),
    is: choice(WORTH_IS, {
      said: 'What it stands at in the books, before any margin; or what is asked for it.',
      need: 'must',
      absent: 'the line cannot be read',
    }),
    on: date({ said: 'Day of it.', need: 'must', absent: 'the line cannot be read' }),
    by: text({ said: 'Who says so, or where it is written.', need: 'must', absent: 'the line cannot be read' }, 200),
  })
  .meta(group('What it is worth as it stands, before any change.', 'must', 'its price is unknown', ['money', 'keep']))

/** `no`, or the heater in words. */
const heaterText = text({ said: 'Heater, or “none”.', need: 'must', absent: 'air answers unknown', ...readBy('air') })

export const built = z
  .strictObject({
    built: text({ said: 'When it was built.', need: 'must', absent: 'keep answers unknown', later: ['keep'] }).optional(),
    serial: text({ said: 'Serial number or name.', need: 'assumed', absent: 'none', later: ['keep'] }, 80).optional(),
    'rules-when-built': choice(SETS, { said: 'Rule set it was built under.', need: 'must', absent: 'the line cannot be read' }),
    system: system({ said: 'Voltage system of its panel.', need: 'must', absent: 'the line cannot be read' }),
    service: quantity('current', amperes, { said: 'Rating of its main.', need: 'must', absent: 'the line cannot be read' }),
    interrupting: quantity('current', range(500, 300_000, '0.5 to 300 kA'), {
      said: 'Lowest interrupting rating in its panel.',
      need: 'must',
      absent: 'the line cannot be read',
    }),
    ways: count(range(1, 200, '1 to 200'), { said: 'Ways of its panel.', need: 'must', absent: 'the line cannot be read' }),
    circuits: z.array(circuit).meta(group('Circuits as built.', 'must', 'circuits answers unknown')),
    cords: z
      .array(cord)
      .meta(group('Cords.', 'must', 'none are counted'))
      .optional(),
    'outlet-device-min': quantity('temperature', air, {
      said: 'Lowest temperature its outlet protective devices are rated for.',
      need: 'must',
      absent: 'not taken as fit for cold',
    }).optional(),
    'air-max': quantity('temperature', air, {
      said: 'Hottest outside air it may carry its service in, as its builder proved it.',
      need: 'must',
      absent: 'not taken as fit for heat when it is to stand elsewhere',
    }).optional(),
    'set-down': special<readonly SetDown[]>(
      (value) =>
        Array.isArray(value) && value.length > 0 && value.every((one) => SET_DOWN.includes(one as SetDown))
          ? { ok: true, value: value as SetDown[] }
          : { ok: false, problems: [problem('job/not-a-choice', shown(value), null, SET_DOWN)] },
      { type: 'array', unit: 'none', range: SET_DOWN.join(' | '), examples: [] },
      {
        said: 'Ways it may be lifted and set down as it is fitted out.',
        need: 'must',
        absent: 'asked for when it is to stand elsewhere',
      },
    ).optional(),
    electrode: text({ said: 'Electrode, in words.', need: 'must', absent: 'none is counted' }).optional(),
    'electrode-reading': quantity('resistance', range(0.01, 1e5, '0.01 to 100 000 ohm'), {
      said: 'Electrode reading at the old place; says nothing about other soil.',
      need: 'must',
      absent: 'unknown',
    }).optional(),
    'neutral-bond': text({ said: 'Where neutral and earth are bonded.', need: 'must', absent: 'the line cannot be read' }),
    approval: text({ said: 'Marks and labels of approval it carries.', need: 'must', absent: 'the line cannot be read' }),
    'last-full-test': special<number>(
      (value) => {
        const read = typeof value === 'string' ? parseQuantity(value.replace(/ ago$/, ''), 'stay') : null
        if (read?.ok && read.value.value >= 0 && read.value.value <= 1200) return { ok: true, value: read.value.value }
        return { ok: false, problems: [problem('job/wrong-kind', value, 'how long ago', 'Write for example “14 months ago”.')] }
      },
      { type: 'string', unit: 'months, years, weeks, days', range: '0 or more', examples: ['14 months ago'] },
      { said: 'How long ago its last full test was.', need: 'must', absent: 'not to be switched on before a full test' },
    ).optional(),
    defects: texts({ said: 'Open defects, one sentence each.', need: 'assumed', absent: 'none known' }).optional(),
    length: quantity('length', range(1.9, 16.5, '1.9 to 16.5 m (8 to 53 ft)'), {
      said: 'Length.',
      need: 'assumed',
      absent: '20 ft',
    }).optional(),
    height: choice(['standard', 'high'], {
      said: 'Standard or high cube.',
      need: 'assumed',
      absent: 'standard',
      ...readBy('haul', 'fit'),
    }).optional(),
    paint: text({ said: 'Colour and coating.', need: 'must', absent: 'air answers unknown', ...readBy('air') }).optional(),
    insulation: text({
      said: 'Insulation, or “none”.',
      need: 'must',
      absent: 'air answers unknown',
      ...readBy('air'),
    }).optional(),
    tare: quantity('mass', range(500, 50_000, '0.5 to 50 t'), {
      said: 'Tare of the bare container.',
      need: 'must',
      absent: 'haul answers unknown',
      ...readBy('haul'),
    }).optional(),
    'fit-out': quantity('mass', range(0, 50_000, '0 to 50 t'), {
      said: 'Mass of what was built in.',
      need: 'must',
      absent: 'haul answers unknown',
      ...readBy('haul'),
    }).optional(),
    weighed: quantity('mass', range(500, 80_000, '0.5 to 80 t'), {
      said: 'Mass on the scale.',
      need: 'must',
      absent: 'haul answers unknown',
      ...readBy('haul'),
    }).optional(),
    'transport-plate': text({
      said: 'Safety approval plate: there, removed, and why.',
      need: 'must',
      absent: 'haul answers unknown',
      ...readBy('haul', 'papers'),
    }).optional(),
    vents: text({
      said: 'Vents: where, free area, mesh.',
      need: 'must',
      absent: 'air answers unknown',
      ...readBy('air', 'skin'),
    }).optional(),
    heater: heaterText.optional(),
    'lowest-exit': quantity('length', range(0, 5, '0 to 5 m'), {
      said: 'Lowest cord exit above the ground.',
      need: 'must',
      absent: 'skin answers unknown',
      ...readBy('skin', 'place'),
    }).optional(),
    'old-place': oldPlace.optional(),
    worth: worth.optional(),
    'free-from': text(
      {
        said: 'From when the box is free.',
        need: 'must',
        absent: 'it is free on the day of the order',
        ...readBy('dates', 'keep'),
      },
      60,
    ).optional(),
  })
  .meta(group('A box that stands, as it was built: facts, not choices.', 'assumed', 'a new box'))
