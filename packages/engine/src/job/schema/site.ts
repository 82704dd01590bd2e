import { z } from 'zod'
import { choice, fraction, group, quantity, range, readBy, text, yesNo } from '../fields.ts'
import { problem } from '../problems.ts'
import { HOLIDAY_PLACES } from './dates.ts'

const ohmM = range(0.1, 1e6, '0.1 to 1 000 000 ohm m')
const share = range(0, 1, '0 to 100 %')
const later = (
  ...all: ('place' | 'papers' | 'dates' | 'fit' | 'skin' | 'air' | 'haul' | 'keep' | 'shop' | 'money' | 'energise')[]
) => ({ later: all })

/** Soils of the table the range comes from. */
export const SOILS = [
  'fill',
  'clay or loam',
  'clay with sand or gravel',
  'gravel and stones',
  'boggy',
  'silt or humus',
  'moist sand',
  'moist gravel',
  'rocky',
  'dry sand',
  'granite or permafrost',
] as const

const access = z
  .strictObject({
    'road-grade': quantity('share', range(0, 0.5, '0 to 50 %'), {
      said: 'Steepest stretch of the road.',
      need: 'must',
      absent: 'haul answers unknown',
      ...readBy('haul', 'place'),
    }).optional(),
    'straight-run': quantity('length', range(0, 1000, '0 to 1000 m'), {
      said: 'Straight run for a tilt-bed to back along.',
      need: 'must',
      absent: 'haul answers unknown',
      ...readBy('haul', 'place'),
    }).optional(),
    width: quantity('length', range(0, 100, '0 to 100 m'), {
      said: 'Clear width.',
      need: 'must',
      absent: 'haul answers unknown',
      ...readBy('haul', 'place'),
    }).optional(),
    'overhead-line': text({
      said: 'Lines over the way: voltage, height, where; or “none”.',
      need: 'must',
      absent: 'haul answers unknown; a line that is found is taken as live',
      ...readBy('haul', 'place'),
    }).optional(),
    unload: text({
      said: 'How it is set down: tilt-bed, crane, forks, skids.',
      need: 'assumed',
      absent: 'tilt-bed',
      ...readBy('haul'),
    }).optional(),
    'longest-box': quantity('length', range(1.9, 16.5, '1.9 to 16.5 m (8 to 53 ft)'), {
      said: 'Longest box that has room where it is to stand.',
      need: 'must',
      absent: 'a box longer than the one wanted answers unknown',
    }).optional(),
    'months-open': text({
      said: 'When trucks can come.',
      need: 'assumed',
      absent: 'all year',
      ...readBy('dates', 'haul'),
    }).optional(),
    hours: text({
      said: 'Hours in which lifts or deliveries are allowed.',
      need: 'assumed',
      absent: 'any',
      ...readBy('dates', 'haul'),
    }).optional(),
  })
  .meta(group('The way to it.', 'must', 'haul answers unknown', readBy('haul', 'place')))

const ground = z
  .strictObject({
    surface: text({
      said: 'What it stands on.',
      need: 'assumed',
      absent: 'firm gravel',
      ...readBy('place', 'haul', 'air'),
    }).optional(),
    bearing: quantity('pressure', range(1000, 5e6, '1 to 5000 kPa'), {
      said: 'Bearing pressure allowed.',
      need: 'must',
      absent: 'place and haul answer unknown',
      ...readBy('haul', 'place'),
    }).optional(),
    'frost-depth': quantity('length', range(0, 20, '0 to 20 m'), {
      said: 'Depth of frost in the coldest usual winter.',
      need: 'bounded',
      absent: '0 to 3 m; with permafrost 0 to 20 m',
    }).optional(),
    permafrost: yesNo({ said: 'Ground that never thaws lies below.', need: 'assumed', absent: 'no' }).optional(),
    slope: quantity('share', share, {
      said: 'Slope.',
      need: 'must',
      absent: 'place and haul answer unknown',
      ...readBy('place', 'haul'),
    }).optional(),
    groundwater: quantity('length', range(0, 500, '0 to 500 m'), {
      said: 'Depth of groundwater.',
      need: 'must',
      absent: 'place answers unknown',
      ...later('place'),
    }).optional(),
  })
  .meta(group('The ground.', 'must', 'place answers unknown'))

const soil = z
  .strictObject({
    kind: choice(SOILS, {
      said: 'Kind of soil, when its resistivity was not measured.',
      need: 'bounded',
      absent: 'any soil of the table',
    }).optional(),
    resistivity: quantity('resistivity', ohmM, {
      said: 'Soil resistivity in the season of use when not frozen.',
      need: 'bounded',
      absent: 'the range of its kind',
    }).optional(),
    frozen: quantity('resistivity', ohmM, {
      said: 'Soil resistivity when frozen.',
      need: 'bounded',
      absent: 'the unfrozen range times 2.3 to 46, frozen soil to -15 C',
    }).optional(),
    wet: quantity('resistivity', ohmM, {
      said: 'Soil resistivity when wet, the lowest of the year.',
      need: 'bounded',
      absent: 'that of the season of use',
    }).optional(),
    dry: quantity('resistivity', ohmM, {
      said: 'Soil resistivity when dry, the highest of the year.',
      need: 'bounded',
      absent: 'that of the season of use',
    }).optional(),
  })
  .meta(group('Soil as a conductor.', 'bounded', 'any soil of the table'))

const snow = z
  .strictObject({
    'ground-load': quantity('pressure', range(0, 1e5, '0 to 100 kPa'), {
      said: 'Ground snow load, characteristic: about once in fifty years.',
      need: 'must',
      absent: 'place and haul answer unknown',
      ...readBy('place', 'haul'),
    }).optional(),
    depth: quantity('length', range(0, 30, '0 to 30 m'), {
      said: 'Deepest snow on the ground.',
      need: 'must',
      absent: 'place and skin answer unknown',
      ...readBy('place', 'skin'),
    }).optional(),
    drifting: text({
      said: 'Drifting, and from where.',
      need: 'must',
      absent: 'place answers unknown; haul takes the worse',
      ...readBy('haul', 'skin', 'place'),
    }).optional(),
  })
  .meta(group('Snow.', 'must', 'place answers unknown', readBy('place', 'haul', 'skin')))

const wind = z
  .strictObject({
    pressure: quantity('pressure', range(0, 2e4, '0 to 20 kPa'), {
      said: 'Design wind pressure.',
      need: 'must',
      absent: 'haul answers unknown',
      ...readBy('haul', 'place'),
    }).optional(),
    'pressure-is': choice(['velocity pressure', 'net pressure'], {
      said: 'Velocity pressure (no shape coefficient in it) or net pressure on a face (coefficient in it).',
      need: 'bounded',
      absent: 'judged both ways',
      ...readBy('haul'),
    }).optional(),
    level: choice(['service', 'ultimate'], {
      said: 'Load level of the figure.',
      need: 'bounded',
      absent: 'judged both ways',
      ...readBy('haul'),
    }).optional(),
    height: quantity('length', range(0.5, 200, '0.5 to 200 m'), {
      said: 'Height above ground the figure belongs to.',
      need: 'assumed',
      absent: '10 m',
      ...readBy('haul'),
    }).optional(),
    coefficient: fraction(range(0.1, 3, '0.1 to 3'), {
      said: 'Shape coefficient contained in a net pressure.',
      need: 'bounded',
      absent: '1.0 to 1.3',
      ...readBy('haul'),
    }).optional(),
    'winter-from': quantity('angle', range(0, 360, '0 to 360 deg'), {
      said: 'Where the winter wind comes from, clockwise from north.',
      need: 'must',
      absent: 'place answers unknown',
      ...readBy('haul', 'skin', 'place', 'air'),
    }).optional(),
    note: text({ said: 'Anything else.', need: 'assumed', absent: 'nothing' }).optional(),
  })
  .meta(group('Wind.', 'must', 'haul answers unknown', readBy('haul', 'place')))

const floodGroup = z
  .strictObject({
    'highest-water': quantity('length', range(-500, 9000, '-500 to 9000 m'), {
      said: 'Highest water, above the datum.',
      need: 'must',
      absent: 'place answers unknown',
      ...later('place'),
    }).optional(),
    'ground-level': quantity('length', range(-500, 9000, '-500 to 9000 m'), {
      said: 'Ground, deck or quay, above the same datum.',
      need: 'must',
      absent: 'place answers unknown',
      ...later('place'),
    }).optional(),
    'above-ground': quantity('length', range(0, 50, '0 to 50 m'), {
      said: 'Base flood above the ground at the box.',
      need: 'must',
      absent: 'place answers unknown',
      ...later('place'),
    }).optional(),
    datum: text({
      said: 'Datum both levels are counted from.',
      need: 'must',
      absent: 'levels of one site are taken to share one datum',
      ...later('place'),
    }).optional(),
    said: text({ said: 'What is known in words.', need: 'assumed', absent: 'nothing', ...later('place') }).optional(),
  })
  .meta(group('Flood: levels above one datum, or a depth above the ground.', 'must', 'place answers unknown', ['place']))

export type Flood = { readonly floods: false } | ({ readonly floods: true } & z.output<typeof floodGroup>)

const floodField = z
  .unknown()
  .transform((value, context): Flood => {
    if (value === false || value === 'no') return { floods: false }
    if (value === null || typeof value !== 'object') {
      context.issues.push({
        code: 'custom',
        input: value,
        message: 'job/wrong-kind',
        params: {
          problem: problem(
            'job/wrong-kind',
            value,
            '“no”, or levels of water',
            'Write “flood: no”, or “flood: {above-ground: 0.6 m}”.',
          ),
        },
      })
      return z.NEVER
    }
    const read = floodGroup.safeParse(value)
    if (read.success) return { floods: true, ...read.data }
    for (const issue of read.error.issues) context.issues.push({ ...issue, input: value } as never)
    return z.NEVER
  })
  .meta({
    ...group(
      'Whether the place floods: “no”, or levels above one datum, or a depth above the ground.',
      'must',
      'place answers unknown',
      ['place'],
    ),
    type: ['string', 'boolean', 'object'],
  })

export { floodGroup }

const heightLimit = z
  .strictObject({
    height: quantity('length', range(0.5, 500, '0.5 to 500 m'), {
      said: 'Nothing may stand higher.',
      need: 'must',
      absent: 'no limit',
      ...readBy('haul', 'place', 'papers'),
    }),
    said: text({ said: 'Where and why.', need: 'assumed', absent: 'not said', ...readBy('haul', 'place', 'papers') }).optional(),
  })
  .meta(group('Limit of height.', 'assumed', 'none', readBy('haul', 'place', 'papers')))

const rise = z
  .strictObject({
    from: quantity('angle', range(0, 360, '0 to 360 deg'), {
      said: 'Bearing at which it begins, clockwise from true north.',
      need: 'must',
      absent: 'the line cannot be read',
      ...readBy('air'),
    }),
    to: quantity('angle', range(0, 360, '0 to 360 deg'), {
      said: 'Bearing at which it ends, clockwise from there.',
      need: 'must',
      absent: 'the line cannot be read',
      ...readBy('air'),
    }),
    height: quantity('angle', range(0, 89, '0 to 89 deg'), {
      said: 'How high it stands over the level, seen from the box.',
      need: 'must',
      absent: 'the line cannot be read',
      ...readBy('air'),
    }),
  })
  .meta(group('A hill, a wood or a building on the skyline.', 'assumed', 'nothing stands over the level', readBy('air')))

export const site = z
  .strictObject({
    place: text({ said: 'Where it is, in words.', need: 'assumed', absent: 'not said' }).optional(),
    kind: text({
      said: 'What kind of place: “open shore”, “farm”, “town”, “forest”.',
      need: 'assumed',
      absent: 'not said; air takes the wind to come over country with a few obstacles',
      ...readBy('place', 'air'),
    }).optional(),
    latitude: quantity('angle', range(-90, 90, '-90 to 90 deg'), {
      said: 'Latitude, north positive.',
      need: 'must',
      absent: 'air answers unknown about the sun',
    }).optional(),
    longitude: quantity('angle', range(-180, 180, '-180 to 180 deg'), {
      said: 'Longitude, east positive.',
      need: 'must',
      absent: 'air answers unknown about the sun',
      ...readBy('air'),
    }).optional(),
    elevation: quantity('length', range(-450, 6000, '-450 to 6000 m'), {
      said: 'Height above the sea.',
      need: 'must',
      absent: 'supply answers unknown where a generator derates with altitude',
    }).optional(),
    'time-zone': text(
      {
        said: 'Time zone of every clock time in the job, as in the IANA list or as an offset from UTC. Times are local clock time; summer time moves none of them.',
        need: 'assumed',
        absent: 'local time of the site',
        ...readBy('air'),
      },
      60,
    ).optional(),
    temporary: yesNo({
      said: 'It is a temporary installation in the words of the code.',
      need: 'must',
      absent: 'papers answers unknown; shock protection is judged both ways',
    }).optional(),
    access: access.optional(),
    ground: ground.optional(),
    soil: soil.optional(),
    snow: snow.optional(),
    wind: wind.optional(),
    corrosivity: text(
      {
        said: 'Corrosivity category (C1 to CX), and what causes it.',
        need: 'must',
        absent: 'skin answers unknown',
        ...readBy('skin', 'fit', 'shop'),
      },
      80,
    ).optional(),
    horizon: z
      .array(rise)
      .meta(group('Skyline: what hides the sun when it is low.', 'assumed', 'flat all round', readBy('air')))
      .optional(),
    flood: floodField.optional(),
    'height-limit': heightLimit.optional(),
    holidays: choice(HOLIDAY_PLACES, {
      said: 'Place whose public holidays are kept; “none”: every weekday is worked.',
      need: 'assumed',
      absent: 'those of the rule set’s country; intl: none, and it is said',
      ...readBy('dates'),
    }).optional(),
    lanes: text({
      said: 'Lanes that must stay clear.',
      need: 'must',
      absent: 'place answers unknown',
      ...later('place'),
    }).optional(),
    'stands-there': text({
      said: 'What stands there now: service, meter, panel, building; working, damaged or dead, and who has made it dead.',
      need: 'assumed',
      absent: 'nothing; anything found is treated as live',
      ...later('place', 'energise'),
    }).optional(),
  })
  .meta(group('The site.', 'must', 'place answers unknown'))
