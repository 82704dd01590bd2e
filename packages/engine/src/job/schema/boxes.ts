import { z } from 'zod'
import { parseQuantity } from '../../kernel/index.ts'
import { SIDES } from '../build.ts'
import { choice, fraction, group, plain, quantity, range, readBy, special, tag, text, yesNo } from '../fields.ts'
import { problem, shown } from '../problems.ts'
import { monthSpan } from '../times.ts'

const air = range(-70, 90, '-70 to 90 C')

/** Lowest temperature the heater is to hold at the panel, or `no`. */
const heated = special<number | null>(
  (value) => {
    if (value === false || value === 'no') return { ok: true, value: null }
    if (typeof value !== 'string')
      return {
        ok: false,
        problems: [
          problem('job/wrong-kind', value, '“no”, or the lowest temperature wanted at the panel', 'Write for example “0 C”.'),
        ],
      }
    const read = parseQuantity(value, 'temperature')
    if (!read.ok) return read
    return read.value.value < -60 || read.value.value > 40
      ? { ok: false, problems: [problem('job/out-of-range', shown(value), '-60 to 40 C')] }
      : { ok: true, value: read.value.value }
  },
  { type: ['string', 'boolean'], unit: 'C, F', range: 'no | -60 to 40 C', examples: ['0 C', 'no'] },
  {
    said: 'Lowest temperature the box’s heater is to hold at the panel, or “no”.',
    need: 'assumed',
    absent: 'no heater beyond what air will ask for',
  },
)

const fedFrom = z
  .strictObject({
    box: tag({ said: 'Box that feeds this one.', need: 'must', absent: 'the line cannot be read' }),
    distance: quantity('length', range(0, 5000, '0 to 5000 m'), {
      said: 'Length of the feeder between them.',
      need: 'must',
      absent: 'the line cannot be read',
    }),
  })
  .meta(group('Fed from another box instead of a supply of its own.', 'assumed', 'a supply of its own'))

const distance = z.strictObject({
  box: tag({ said: 'The other box.', need: 'must', absent: 'the line cannot be read' }),
  distance: quantity('length', range(0, 5000, '0 to 5000 m'), {
    said: 'Length of a feeder between them, as it would be led; the longest where a box moves.',
    need: 'must',
    absent: 'the line cannot be read',
  }),
})

const visits = z
  .strictObject({
    'per-day': plain(range(0, 200, '0 to 200'), false, {
      said: 'Times a day that somebody comes in, on the mean.',
      need: 'assumed',
      absent: '1',
      ...readBy('air'),
    }).optional(),
    'door-open': quantity('time', range(0, 36_000, '0 to 10 h'), {
      said: 'How long the door stands open for one, in and out.',
      need: 'assumed',
      absent: '60 s',
      ...readBy('air'),
    }).optional(),
    water: quantity('mass', range(0, 20, '0 to 20 kg'), {
      said: 'Water that comes in on boots and cords each time.',
      need: 'bounded',
      absent: '0.2 kg to 1 kg in months with snow, 0.2 kg in others',
      ...readBy('air'),
    }).optional(),
  })
  .meta(group('How often somebody comes in.', 'assumed', 'once a day', readBy('air')))

/** How tight a shut box is, as classes of table `box-leakage`. */
export const LEAK_CLASSES = ['fumigation tight', 'fair seals', 'bad seals', 'cut'] as const
export type LeakClass = (typeof LEAK_CLASSES)[number]

const CHANGES = /^(\d{1,3}(?:\.\d+)?)(?: changes)? (?:an hour|per hour|\/h|per h)$/

const leakage = special<LeakClass | number>(
  (value) => {
    const words = typeof value === 'string' ? value.trim() : ''
    const named = LEAK_CLASSES.find((one) => one === words)
    if (named !== undefined) return { ok: true, value: named }
    const changes = Number(CHANGES.exec(words)?.[1] ?? Number.NaN)
    if (changes >= 0.05 && changes <= 200) return { ok: true, value: changes }
    return Number.isNaN(changes)
      ? { ok: false, problems: [problem('job/not-a-choice', shown(value), null, [...LEAK_CLASSES, '“6 an hour”'])] }
      : { ok: false, problems: [problem('job/out-of-range', shown(value), '0.05 to 200 an hour')] }
  },
  {
    ...{ type: 'string', unit: 'changes of its air an hour at 50 Pa' },
    ...{ range: `${LEAK_CLASSES.join(' | ')} | 0.05 to 200 an hour`, examples: ['cut', '6 an hour'] },
  },
  {
    said: 'How much air goes through the cracks of the shut box: a class, or changes of its air an hour at 50 Pa. What a logger told (`facts.surveys`) stands before it.',
    need: 'bounded',
    absent: '2 to 15 an hour at 50 Pa',
    ...readBy('air'),
  },
)

const beside = z
  .strictObject({
    side: choice(
      SIDES.filter((side) => side !== 'roof' && side !== 'floor'),
      { said: 'Side of this box that looks at it.', need: 'must', absent: 'the line cannot be read' },
    ),
    distance: quantity('length', range(0.05, 500, '50 mm to 500 m'), {
      said: 'Clear distance between them.',
      need: 'must',
      absent: 'the line cannot be read',
    }),
    height: quantity('length', range(0.3, 300, '0.3 to 300 m'), {
      said: 'Its height over the ground the box stands on.',
      need: 'assumed',
      absent: 'that of a standard box, 2.59 m',
      ...readBy('air'),
    }).optional(),
    length: quantity('length', range(0.3, 1000, '0.3 to 1000 m'), {
      said: 'Its length along that side; its middle stands across from the middle of the side.',
      need: 'assumed',
      absent: 'that of a 20 ft box, 6.06 m',
      ...readBy('air'),
    }).optional(),
  })
  .meta(group('Another box, a wall or a bank close by, that shades it.', 'assumed', 'nothing stands close', readBy('air')))

export const box = z
  .strictObject({
    id: tag({ said: 'Name of the box.', need: 'must', absent: 'the line cannot be read' }),
    what: text({ said: 'What it is for.', need: 'assumed', absent: 'nothing' }).optional(),
    length: quantity('length', range(1.9, 16.5, '1.9 to 16.5 m (8 to 53 ft)'), {
      said: 'Length of the container.',
      need: 'assumed',
      absent: '20 ft',
    }).optional(),
    height: choice(['standard', 'high'], {
      said: 'Standard (8 ft 6 in) or high cube (9 ft 6 in).',
      need: 'assumed',
      absent: 'standard',
    }).optional(),
    paint: text({
      said: 'Colour and coating.',
      need: 'assumed',
      absent: 'not judged',
      ...readBy('skin', 'air', 'shop'),
    }).optional(),
    'on-skids': yesNo({
      said: 'Stands on skids and is dragged.',
      need: 'assumed',
      absent: 'no',
      ...readBy('haul', 'place'),
    }).optional(),
    heated: heated.optional(),
    cooled: text({ said: 'How it is to be cooled, in words.', need: 'assumed', absent: 'vents', ...readBy('air') }).optional(),
    'inside-hot': quantity('temperature', air, {
      said: 'Air inside at the hottest hour it carries load.',
      need: 'bounded',
      absent: 'from the site’s highest design temperature to 30 K above it',
    }).optional(),
    'inside-cold': quantity('temperature', air, {
      said: 'Air inside in the coldest hour.',
      need: 'bounded',
      absent: 'from the site’s extreme minimum to what the heater is to hold',
    }).optional(),
    'spare-ways': fraction(range(0, 3, '0 to 300 %'), {
      said: 'Spare ways, as a share of those used.',
      need: 'assumed',
      absent: '25 %',
    }).optional(),
    moves: special<string>(
      (value) =>
        typeof value === 'string' && value.trim() !== ''
          ? { ok: true, value }
          : typeof value === 'number' && Number.isInteger(value) && value >= 0
            ? { ok: true, value: String(value) }
            : {
                ok: false,
                problems: [
                  problem(
                    'job/wrong-kind',
                    value,
                    'how often it moves, in words or a number',
                    'Write for example “once, in month 13”.',
                  ),
                ],
              },
      { type: ['string', 'integer'], unit: 'none', range: 'words, or a number a year', examples: ['3 each season'] },
      {
        said: 'How often it moves. When it moves decides by phases.',
        need: 'assumed',
        absent: 'one move: to the site',
        ...readBy('haul', 'keep', 'dates', 'air'),
      },
    ).optional(),
    place: text({
      said: 'Where on the site it stands, in words.',
      need: 'must',
      absent: 'place answers unknown',
      later: ['place'],
    }).optional(),
    'door-faces': quantity('angle', range(0, 360, '0 to 360 deg'), {
      said: 'Compass bearing that the door end looks to, clockwise from true north.',
      need: 'assumed',
      absent:
        'no north is drawn; air takes the long sides to look east and west, the hottest way to stand, and for water the wetter of that and north and south',
    }).optional(),
    visits: visits.optional(),
    leakage: leakage.optional(),
    skirted: yesNo({
      said: 'Closed all round below, so that neither wind nor blown snow goes under it.',
      need: 'assumed',
      absent: 'no: outside air goes under it',
      ...readBy('air'),
    }).optional(),
    beside: z
      .array(beside)
      .meta(group('What stands close by and shades it.', 'assumed', 'nothing', readBy('air')))
      .optional(),
    'fed-from': fedFrom.optional(),
    distances: z
      .array(distance)
      .meta(
        group(
          'How far other boxes are, for a feeder that might be laid; told at one of the two.',
          'assumed',
          'one service for both is not weighed',
        ),
      )
      .optional(),
    note: text({ said: 'Anything else.', need: 'assumed', absent: 'nothing' }).optional(),
  })
  .meta(group('One box that is wanted.', 'assumed', 'one box of 20 ft, standard height'))

export const phase = z
  .strictObject({
    id: tag({ said: 'Name of the phase.', need: 'must', absent: 'the line cannot be read' }),
    months: monthSpan({
      said: 'First and last month, counted from the beginning of the stay; a whole month belongs to one phase.',
      need: 'must',
      absent: 'the line cannot be read',
    }),
    what: text({ said: 'What changes.', need: 'assumed', absent: 'nothing' }).optional(),
    boxes: special<readonly string[]>(
      (value) =>
        Array.isArray(value) && value.every((one) => typeof one === 'string')
          ? { ok: true, value: value as string[] }
          : { ok: false, problems: [problem('job/wrong-kind', value, 'a list of boxes', 'Write for example “[tower, yard]”.')] },
      { type: 'array', unit: 'none', range: 'ids of boxes', examples: [] },
      { said: 'Boxes that stand on the site in this phase.', need: 'assumed', absent: 'all of them' },
    ).optional(),
  })
  .meta(group('A stretch of the stay in which the same boxes feed the same machines.', 'assumed', 'one phase, the whole stay'))

export type BesideRow = z.output<typeof beside>
export type BoxRow = z.output<typeof box>
export type PhaseRow = z.output<typeof phase>
