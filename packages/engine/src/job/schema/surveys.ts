import { z } from 'zod'
import { SIDES } from '../build.ts'
import { choice, group, groupOrNo, quantity, range, readBy, tag, text } from '../fields.ts'

const size = (said: string, absent: string) =>
  quantity('length', range(1.5, 17, '1.5 to 17 m'), { said, need: 'assumed', absent })
const small = (said: string, absent: string) =>
  quantity('length', range(0.005, 0.5, '5 to 500 mm'), { said, need: 'assumed', absent })
const along = (said: string) =>
  quantity('length', range(0, 17, '0 to 17 m'), {
    said,
    need: 'bounded',
    absent: 'the pattern stands in the middle between the posts, and every flat may lie half a pitch to either side',
  }).optional()

const firstRib = z
  .strictObject({
    left: along('Left long side, from the outer face of the blind end.'),
    right: along('Right long side, from the outer face of the blind end.'),
    'blind-end': along('Blind end, from the outer face of the left side.'),
    roof: along('Roof, from the outer face of the blind end.'),
  })
  .meta(
    group(
      'Near edge of the first inner flat of each side. Inner flats stand into the box; left and right are those of a person who stands in the cargo doors and looks in.',
      'bounded',
      'the pattern stands in the middle between the posts, and every flat may lie half a pitch to either side',
    ),
  )

const plate = z
  .strictObject({
    rating: quantity('mass', range(500, 60_000, '0.5 to 60 t'), {
      said: 'Largest gross mass on it.',
      need: 'must',
      absent: 'its rating is unknown',
    }).optional(),
    state: choice(['valid', 'removed'], {
      said: 'On the box and valid, or taken off.',
      need: 'must',
      absent: 'the line cannot be read',
    }),
  })
  .meta(group('Safety approval plate.', 'must', 'a short or cut box has no rating; another has that of its type'))

const pocket = (said: string, limits: readonly [number, number], words: string) =>
  quantity('length', range(limits[0], limits[1], words), { said, need: 'must', absent: 'the line cannot be read' })

export const pocketsGroup = z
  .strictObject({
    spacing: pocket('Between the middles of the two.', [0.3, 4], '0.3 to 4 m'),
    width: pocket('Clear width of one.', [0.1, 0.8], '100 to 800 mm'),
    height: pocket('Clear height.', [0.05, 0.3], '50 to 300 mm'),
  })
  .meta(group('Fork pockets.', 'must', 'haul answers unknown for forks'))

const bows = z
  .strictObject({
    pitch: quantity('length', range(0.2, 4, '0.2 to 4 m'), {
      said: 'Between their middles.',
      need: 'must',
      absent: 'the line cannot be read',
    }),
    depth: small('How far they stand down from the roof sheet.', 'the line cannot be read'),
  })
  .meta(group('Bows under the roof.', 'assumed', 'none: a stamped roof carries itself'))

const dentSize = (said: string, least = 0) =>
  quantity('length', range(least, 17, least === 0 ? '0 to 17 m' : 'above 0, to 17 m'), {
    said,
    need: 'must',
    absent: 'the line cannot be read',
  })
const ABOVE_ZERO = 0.001

const dent = z
  .strictObject({
    side: choice(SIDES, { said: 'On which side.', need: 'must', absent: 'the line cannot be read' }),
    from: dentSize('Near edge, from the outer face of the blind end (on the ends: of the left side).'),
    up: dentSize('Lower edge, from the underside of the bottom fittings (on roof and floor: from the left face).'),
    width: dentSize('Along the side.', ABOVE_ZERO),
    height: dentSize('Up (on roof and floor: across).', ABOVE_ZERO),
    depth: small('How deep.', 'the line cannot be read'),
  })
  .meta(group('One dent: nothing sits on it.', 'assumed', 'none known'))

/** One figure found by laying a run beside a logger: its band of 95 %, who, and when. It stands beside what is told, and never over it unsaid. */
const found = (
  dimension: 'flow' | 'share' | 'mass',
  limits: readonly [number, number],
  words: string,
  said: string,
  absent: string,
) => {
  const figure = (what: string) =>
    quantity(dimension, range(limits[0], limits[1], words), { said: what, need: 'must', absent: 'the line cannot be read' })
  return z
    .strictObject({
      found: figure('As found.'),
      low: figure('Low end of the band that holds it in 95 of 100 cases.'),
      high: figure('High end of the band.'),
      by: text({ said: 'From what: the logger’s list, and who kept it.', need: 'must', absent: 'the line cannot be read' }, 200),
      on: text({ said: 'Day on which it was found.', need: 'must', absent: 'the line cannot be read' }, 40),
    })
    .meta(group(said, 'bounded', absent, readBy('air')))
}

export const survey = z
  .strictObject({
    box: tag({ said: 'Box it belongs to.', need: 'must', absent: 'the line cannot be read' }),
    by: text({ said: 'Who measured, with what.', need: 'assumed', absent: 'not said' }, 200).optional(),
    on: text({ said: 'Day of the survey.', need: 'assumed', absent: 'not said' }, 40).optional(),
    length: size('Length outside.', 'by type').optional(),
    width: size('Width outside.', 'by type').optional(),
    height: size('Height outside.', 'by type').optional(),
    'inner-length': size('Clear length inside.', 'by type').optional(),
    'inner-width': size('Clear width inside, between inner flats.', 'by type').optional(),
    'inner-height': size('Clear height inside, floor to roof.', 'by type').optional(),
    'rib-pitch': quantity('length', range(0.05, 0.6, '50 to 600 mm'), {
      said: 'Pitch of the ribs of the long sides: measured over ten, divided by ten.',
      need: 'assumed',
      absent: '278 mm (table corrugation)',
    }).optional(),
    'inner-flat': small('Width of a flat that stands into the box.', '70 mm (table corrugation)').optional(),
    'outer-flat': small('Width of a flat that stands out.', '72 mm (table corrugation)').optional(),
    'rib-depth': small('Depth of the ribs.', '36 mm (table corrugation)').optional(),
    sheet: quantity('length', range(0.0008, 0.012, '0.8 to 12 mm'), {
      said: 'Thickness of the side sheet.',
      need: 'assumed',
      absent: '1.6 mm (table corrugation)',
    }).optional(),
    'first-rib': firstRib.optional(),
    'crossmember-pitch': quantity('length', range(0.1, 1.5, '0.1 to 1.5 m'), {
      said: 'Between the middles of the crossmembers.',
      need: 'assumed',
      absent: '305 mm: common practice',
    }).optional(),
    bows: bows.optional(),
    tare: quantity('mass', range(500, 50_000, '0.5 to 50 t'), {
      said: 'Mass of the bare box, on a scale or by its plate.',
      need: 'bounded',
      absent: 'that of its type, 5 % either way; of an odd length 10 %',
    }).optional(),
    weighed: quantity('mass', range(500, 80_000, '0.5 to 80 t'), {
      said: 'Mass on the scale as it stands, with what is built in.',
      need: 'must',
      absent: 'the sum of the bill, with its band',
    }).optional(),
    plate: plate.optional(),
    tested: quantity('mass', range(500, 60_000, '0.5 to 60 t'), {
      said: 'Largest mass a lifting test with a scale has proven for it, as certified.',
      need: 'must',
      absent: 'nothing was proven; a short or cut box without a plate has no rating',
    }).optional(),
    pockets: groupOrNo(
      pocketsGroup,
      {
        said: 'Fork pockets: “no”, or spacing, width and height.',
        need: 'must',
        absent: 'a 20 ft box: taken from the table, not seen; any other: none taken',
      },
      'Write “pockets: no”, or “pockets: {spacing: 2050 mm, width: 355 mm, height: 115 mm}”.',
    ).optional(),
    leakage: found(
      'flow',
      [100, 1e7],
      '0.1 to 10 000 m3/h',
      'Air that the shut box lets through at 50 Pa, vents shut: by a pressure test, or fitted to a logger’s list.',
      'that of boxes as bought and as cut, judged at both ends',
    ).optional(),
    'roof-absorptance': found(
      'share',
      [0.05, 0.99],
      '5 to 99 %',
      'Share of the sun that the roof takes in, as it is: fitted to a logger’s list.',
      'that of its paint, new and soiled',
    ).optional(),
    'gear-mass': found(
      'mass',
      [1, 20_000],
      '1 kg to 20 t',
      'Steel and copper that warm and cool with the air: fitted to a logger’s list.',
      'the sum of the bill',
    ).optional(),
    dents: z
      .array(dent)
      .meta(group('Dents.', 'assumed', 'none known'))
      .optional(),
  })
  .meta(group('What was measured on the steel of one box; it wins over every table.', 'assumed', 'the box is as its type'))

export const surveys = z.array(survey).meta(group('Surveys, one for each box.', 'assumed', 'every box is as its type'))
