import { z } from 'zod'
import { choice, count, fraction, group, plain, quantities, quantity, range, special, tag, text, yesNo } from '../fields.ts'
import { problem, shown } from '../problems.ts'
import { window } from '../times.ts'

export const KINDS = ['heater', 'charger', 'electronic', 'motor', 'drive', 'welder', 'mixed'] as const
export const USES = ['vehicle-heater', 'heat-trace', 'tools', 'building', 'charger', 'pump', 'general'] as const
const STARTS = ['direct', 'soft', 'star-delta', 'drive'] as const

const power = range(0.1, 5e6, 'above 0, to 5 MW')
const volts = range(1, 50_000, '1 V to 50 kV')
const amperes = range(0.001, 20_000, 'above 0, to 20 kA')

const motor = z
  .strictObject({
    shaft: quantity('power', power, {
      said: 'Shaft power on the motor’s plate.',
      need: 'must',
      absent: 'reach answers unknown for the start when no locked-rotor figure is given either',
    }).optional(),
    'full-load': quantity('current', amperes, {
      said: 'Full-load current on the plate.',
      need: 'assumed',
      absent: 'the machine’s own current',
    }).optional(),
    'full-load-voltage': quantity('voltage', volts, {
      said: 'Voltage the full-load current belongs to.',
      need: 'assumed',
      absent: 'the machine’s voltage',
    }).optional(),
    'locked-rotor': quantity('current', amperes, {
      said: 'Locked-rotor current on the plate.',
      need: 'bounded',
      absent: 'from the code letter, the start ratio, or a sourced range',
    }).optional(),
    'code-letter': choice('ABCDEFGHJKLMNPRSTUV'.split('') as readonly string[], {
      said: 'Locked-rotor code letter on the plate.',
      need: 'bounded',
      absent: 'from the start ratio, or a sourced range',
    }).optional(),
    'start-ratio': plain(range(1, 15, '1 to 15'), false, {
      said: 'Starting current over full-load current, as the motor is started.',
      need: 'bounded',
      absent: 'from locked rotor or code letter, or a sourced range',
    }).optional(),
    start: choice(STARTS, { said: 'How it is started.', need: 'assumed', absent: 'direct' }).optional(),
    efficiency: fraction(range(0.1, 1, '10 % to 100 %'), {
      said: 'Shaft power over electrical input at full load.',
      need: 'bounded',
      absent: '40 % to 98 % when judged against the plate',
    }).optional(),
  })
  .meta(group('A motor’s plate.', 'must', 'reach answers unknown for the start of a motor without a plate'))

const elementPlate = z
  .strictObject({
    power: quantity('power', power, { said: 'Watts marked on the element.', need: 'must', absent: 'the line cannot be read' }),
    voltage: quantity('voltage', volts, {
      said: 'Voltage marked on the element.',
      need: 'must',
      absent: 'the line cannot be read',
    }),
  })
  .meta(
    group(
      'What stands on a heating element that is fed at another voltage: it then gives P0·(V/V0)².',
      'assumed',
      'the element is made for the voltage it is fed',
    ),
  )

const fedBy = special<string | Readonly<Record<string, string>>>(
  (value) => {
    if (typeof value === 'string' && value.trim() !== '') return { ok: true, value: value.trim() }
    if (value !== null && typeof value === 'object' && !Array.isArray(value)) {
      const entries = Object.entries(value)
      if (entries.length > 0 && entries.every(([, box]) => typeof box === 'string'))
        return { ok: true, value: Object.fromEntries(entries) as Record<string, string> }
    }
    return {
      ok: false,
      problems: [
        problem(
          'job/wrong-kind',
          value,
          'a box, or for each phase a box or “nothing”',
          `Write “fed-by: tower”, or a map such as {first: tower, second: nothing} instead of ${shown(value)}.`,
        ),
      ],
    }
  },
  {
    type: ['string', 'object'],
    unit: 'none',
    range: 'id of a box; or phase: box, with “nothing” for a phase in which it is not there',
    examples: ['tower'],
  },
  {
    said: 'Box that feeds it, always or by phase.',
    need: 'must',
    absent: 'with one box: that box. With several: needs answers unknown',
  },
)

const sharesPlug = special<readonly string[]>(
  (value) => {
    const all = Array.isArray(value) ? value : [value]
    if (all.length > 0 && all.every((one) => typeof one === 'string' && one.trim() !== ''))
      return { ok: true, value: all as string[] }
    return {
      ok: false,
      problems: [
        problem('job/wrong-kind', value, 'the tag of a row or plug, or a list of them', 'Write for example “[BW1, BW2]”.'),
      ],
    }
  },
  { type: ['string', 'array'], unit: 'none', range: 'tags of rows or plugs', examples: ['BW1'] },
  {
    said: 'Rows whose plugs this row hangs on, in order: one cord, one outlet, currents add.',
    need: 'assumed',
    absent: 'a plug of its own',
  },
)

/** One row of the machine list. */
export const machine = z
  .strictObject({
    tag: tag({
      said: 'Tag of the row. With a count, a range such as “G1-4C” gives G1C to G4C; any other gives TAG.1, TAG.2 and so on.',
      need: 'must',
      absent: 'the row cannot be read',
    }),
    what: text({ said: 'What it is, in the owner’s words.', need: 'assumed', absent: 'the tag' }).optional(),
    count: count(range(1, 500, '1 to 500'), { said: 'How many alike.', need: 'assumed', absent: '1' }).optional(),
    machine: text(
      {
        said: 'Machine this element belongs to; ranges expand as tags do (“G1-4”). Two rows with one machine are two cords of one machine.',
        need: 'assumed',
        absent: 'each plug is a machine of its own',
      },
      60,
    ).optional(),
    kind: choice(KINDS, {
      said: 'How it takes its current: decides load model, harmonics and leakage.',
      need: 'must',
      absent: 'the row is kept out of the sums, and every question of power answers unknown',
    }).optional(),
    use: choice(USES, {
      said: 'What the outlet is used for: rule sets treat vehicle heaters, heat trace and hand tools apart.',
      need: 'assumed',
      absent: 'by kind: charger, pump for a motor, else general',
    }).optional(),
    power: quantity('power', power, {
      said: 'Electrical input of each while on, at the voltage it is fed.',
      need: 'must',
      absent:
        'from the element’s plate, from current and voltage, or from shaft power and efficiency; else the row is kept out and every question of power answers unknown',
    }).optional(),
    voltage: quantity('voltage', volts, {
      said: 'Voltage it is fed.',
      need: 'must',
      absent: 'the row is kept out of the sums, and every question of power answers unknown',
    }).optional(),
    phases: special<1 | 3>(
      (value) =>
        value === 1 || value === 3
          ? { ok: true, value }
          : { ok: false, problems: [problem('job/not-a-choice', shown(value), null, ['1', '3'])] },
      { type: 'integer', unit: 'none', range: '1 | 3', examples: [1, 3] },
      { said: 'Phases it takes; line to line on one winding is 1.', need: 'assumed', absent: '1' },
    ).optional(),
    'line-neutral-share': fraction(range(0, 1, '0 to 1'), {
      said: 'Share of the power that hangs between a line and neutral, for a machine on two lines and neutral (a cabin with heat line to line and outlets line to neutral).',
      need: 'bounded',
      absent: '0 to 50 % where its outlet has two lines and neutral; else none',
    }).optional(),
    'power-factor': fraction(range(0.05, 1, '0.05 to 1'), {
      said: 'Displacement power factor, lagging, while on.',
      need: 'bounded',
      absent: 'a range by kind',
    }).optional(),
    current: quantity('current', amperes, {
      said: 'Current on the plate, at the voltage it is fed.',
      need: 'assumed',
      absent: 'P/(V·pf), or P/(√3·V·pf)',
    }).optional(),
    outlet: text(
      {
        said: 'Receptacle or socket by its trade or standard name: “5-20R”, “16 A 3-pin”; or “hard-wired”.',
        need: 'must',
        absent: 'circuits answers unknown',
      },
      80,
    ).optional(),
    'shares-plug-of': sharesPlug.optional(),
    hours: quantity('time', range(0, 86_400, '0 to 24 h'), {
      said: 'Hours of heat or running wanted in each window.',
      need: 'assumed',
      absent: '3 h of heat, else the whole window',
    }).optional(),
    window: window({
      said: 'May be on from, must be ready at, local time. An end at or before the start crosses midnight.',
      need: 'assumed',
      absent: 'heaters: the night before 07:00; else all day',
    }).optional(),
    days: plain(range(0, 366, '0 to 366'), true, {
      said: 'Days of use in a year.',
      need: 'assumed',
      absent: 'the season’s days, else 365',
    }).optional(),
    duty: fraction(range(0, 1, '0 to 1'), {
      said: 'Mean share of the nameplate while on (thermostat, float, welding).',
      need: 'assumed',
      absent: '1',
    }).optional(),
    cord: quantities('length', range(0, 3000, '0 to 3000 m'), {
      said: 'Cord or cable run from the box to the machine: one for all, or one for each.',
      need: 'assumed',
      absent: '30 m',
    }).optional(),
    motor: motor.optional(),
    'element-plate': elementPlate.optional(),
    'fed-by': fedBy.optional(),
    essential: yesNo({ said: 'Never shed or held back: always ready.', need: 'assumed', absent: 'no' }).optional(),
    'leaks-dc': yesNo({
      said: 'May leak smooth direct current, as its maker says (some chargers and drives).',
      need: 'assumed',
      absent: 'no for heaters; not known for chargers and drives',
    }).optional(),
    note: text({ said: 'Anything else.', need: 'assumed', absent: 'nothing' }).optional(),
  })
  .meta(group('One row of the machine list: one or several alike.', 'must', 'needs answers unknown'))

/** Where one machine stands in the yard. */
export const place = z
  .strictObject({
    bearing: quantity('angle', range(0, 360, '0 to 360 deg'), {
      said: 'Way from the box that feeds it, seen from above: clockwise from the way the box’s door end looks. Its cord says how far.',
      need: 'must',
      absent: 'the line cannot be read',
    }),
  })
  .meta(group('Where one machine stands, under the name of the machine.', 'assumed', 'the drawing spreads it beside the others'))

export type MachineRow = z.output<typeof machine>
