import type { Assumption, BoxSurvey, BoxWanted, PointMm, Side, Span } from '../job/index.ts'
import { Fault, source } from '../kernel/index.ts'
import { type Frame, frameOf, membersOf, type Pockets } from './frame.ts'
import type { BodyFigure, BoxBody, DoorLeaf } from './result.ts'
import { bodyFigure, computed, fromTable, measuredFigure, numberIn, rowOf, rowSource } from './shelf.ts'
import { sidesOf } from './sides.ts'
import { type Sizes, sizesOf } from './sizes.ts'

/**
 * The steel box as a body: what the tables say of its type, overruled by what was measured on it. A length between the standard ones is
 * built up as a shop product. Nothing is refused here: what contradicts itself is said by `bodyFindings`.
 * @throws Fault `box/length-range` outside 1.5 to 17 m, `box/survey-other` when the survey is of another box
 */
export function boxBody(wanted: BoxWanted, survey: BoxSurvey | null): BoxBody {
  if (survey !== null && survey.box !== wanted.id) throw new Fault('box/survey-other', { box: wanted.id, survey: survey.box })
  const sizes = sizesOf(wanted, survey)
  const [L, W] = sizes.outsideMm
  if (!(L >= 1500 && L <= 17_000)) throw new Fault('box/length-range', { box: wanted.id, lengthMm: L })
  const frame = frameOf(sizes)
  const pockets = pocketsOf(sizes, survey)
  const pitch = crossmemberPitch(survey)
  const rating = ratingOf(sizes, survey)
  const sides = sidesOf(sizes, frame, survey)
  return {
    box: wanted.id,
    type: sizes.type,
    outsideMm: sizes.outsideMm,
    insideAtMm: [frame.blindInnerMm, (W - sizes.insideMm[1]) / 2, frame.floorTopMm],
    insideMm: sizes.insideMm,
    doorOpeningMm: sizes.doorMm,
    sides,
    members: membersOf(sizes, frame, { crossmemberPitchMm: pitch.value, pockets, survey }),
    doors: doorsOf(sizes, frame),
    floor: {
      topMm: frame.floorTopMm,
      what: String(rowOf('frame-members', 'floor').section),
      crossmemberPitchMm: pitch.value,
      mostTonnePerM: floorLimit(sizes, pitch),
    },
    pockets: pockets === null ? null : pocketFigures(pockets, survey),
    pocketsKnown: survey?.pockets != null,
    fittings: fittingsOf(sizes),
    tareKg: tareOf(sizes, wanted, survey),
    tareCentreMm: tareCentre(sizes),
    tareCentreBandMm: bodyFigure('tare off middle band'),
    ratingKg: rating?.value ?? null,
    plate: survey?.plate?.state ?? 'unknown',
    rating,
    weighedKg: survey?.weighedKg ?? null,
    assumed: assumedOf(wanted, sizes, survey),
    notes: [...sizes.notes, ...pocketNotes(sizes, survey), ...ratingNotes(sizes, survey)],
  }
}

const LEAF_MOST_DEG = 270

/** Two leaves, each half the opening, hung on the rear posts, folding back along the sides. */
function doorsOf(sizes: Sizes, frame: Frame): readonly DoorLeaf[] {
  const [L, W] = sizes.outsideMm
  const { widthMm, heightMm } = sizes.doorMm
  return (['left', 'right'] as const).map((hand) => ({
    id: `cargo door ${hand}`,
    side: 'door end' as Side,
    hingeMm: [L, hand === 'left' ? (W - widthMm) / 2 : (W + widthMm) / 2, frame.floorTopMm] as PointMm,
    widthMm: widthMm / 2,
    heightMm,
    swings: 'outward' as const,
    mostDeg: LEAF_MOST_DEG,
  }))
}

const WIDE = 'loaded or empty'

/** Pockets as surveyed; a standard 20 ft box not looked at is taken to have the wide ones of the table, and says so. */
function pocketsOf(sizes: Sizes, survey: BoxSurvey | null): Pockets | null {
  const seen = survey?.pockets ?? null
  if (seen === 'none') return null
  if (seen !== null) return seen
  if (sizes.standard?.feet !== 20) return null
  const row = rowOf('fork-pockets', WIDE)
  return { spacingMm: numberIn(row.centre_spacing), widthMm: numberIn(row.min_width), heightMm: numberIn(row.min_height) }
}

function pocketFigures(pockets: Pockets, survey: BoxSurvey | null): NonNullable<BoxBody['pockets']> {
  const row = rowOf('fork-pockets', WIDE)
  const [nominal = 0, either = 0] = String(row.centre_spacing).split('+/-').map(Number)
  const measured = survey?.pockets != null
  const wide = pockets.spacingMm >= nominal - either && pockets.widthMm >= numberIn(row.min_width)
  return {
    spacingMm: measured
      ? measuredFigure(pockets.spacingMm, 'fork pocket spacing', survey?.by ?? null)
      : fromTable(pockets.spacingMm, 'fork-pockets', WIDE),
    widthMm: pockets.widthMm,
    heightMm: pockets.heightMm,
    use: wide ? 'loaded or empty' : 'empty only',
  }
}

function pocketNotes(sizes: Sizes, survey: BoxSurvey | null): readonly string[] {
  if (survey?.pockets != null) return []
  return sizes.standard?.feet === 20
    ? [
        'Fork pockets are taken from the table; not every 20 ft box has them, and pages disagree on their spacing. Look and measure.',
      ]
    : ['Nobody has looked for fork pockets; none are taken to be there.']
}

const crossmemberPitch = (survey: BoxSurvey | null): BodyFigure =>
  survey?.crossmemberPitchMm == null
    ? computed(bodyFigure('crossmember pitch'), 'table body-figures, crossmember pitch')
    : measuredFigure(survey.crossmemberPitchMm, 'crossmember pitch', survey.by)

/** The 20 ft figure only for a 20 ft box, or a shorter one whose crossmembers were seen to stand as close; else the 40 ft figure. */
function floorLimit(sizes: Sizes, pitch: BodyFigure): BodyFigure {
  const feet = sizes.standard?.feet
  const close = pitch.measured && pitch.value <= bodyFigure('crossmember pitch')
  const row = feet === 20 || (sizes.outsideMm[0] < numberIn(rowOf('box-sizes', '20 ft 1CC').ext_l) && close) ? '20 ft' : '40 ft'
  return fromTable(numberIn(rowOf('floor-loads', row).max_line_load), 'floor-loads', row)
}

/** Distance between the apertures of the fittings; a box with its ends set in has them at the 40 ft places. */
function fittingsOf(sizes: Sizes): BoxBody['fittings'] {
  const [L, W] = sizes.outsideMm
  const feet = sizes.standard?.feet
  const along = (name: string) => numberIn(rowOf('corner-fittings', name).value)
  const across = along('aperture centres across width P')
  const usualW = numberIn(rowOf('box-sizes', '20 ft 1CC').ext_w)
  const usualL = numberIn(rowOf('box-sizes', '20 ft 1CC').ext_l)
  const lengths: Readonly<Record<number, string>> = {
    10: 'aperture centres along length S, 10 ft',
    20: 'S, 20 ft',
    40: 'S, 40 ft',
    45: 'S, 45 ft (end fittings)',
    53: 'S, 40 ft',
  }
  const row = feet === undefined ? undefined : lengths[feet]
  return {
    lengthCentresMm: row === undefined ? L - (usualL - along('S, 20 ft')) : along(row),
    widthCentresMm: feet === 53 ? across : across + (W - usualW),
  }
}

/** Bare tare: on the scale, else the table's and its spread, else in line with length between the rows of its height. */
function tareOf(sizes: Sizes, wanted: BoxWanted, survey: BoxSurvey | null): Span {
  if (survey?.tareKg != null)
    return { low: survey.tareKg, high: survey.tareKg, basis: measuredFigure(0, 'tare', survey.by).rests.place, told: true }
  if (sizes.row !== null && survey?.lengthMm == null) {
    const mass = numberIn(rowOf('box-sizes', sizes.row).tare)
    return spread(mass, bodyFigure('tare spread'), `table box-sizes, ${sizes.row}, 5 % either way`)
  }
  const mass = tareByLength(sizes.outsideMm[0], wanted.heightKind)
  return spread(mass, bodyFigure('tare spread cut'), 'by length between the rows of table box-sizes, 10 % either way')
}

const spread = (mass: number, share: number, basis: string): Span => ({
  low: mass * (1 - share),
  high: mass * (1 + share),
  basis,
  told: false,
})

function tareByLength(lengthMm: number, height: BoxWanted['heightKind']): number {
  const points = (rows: readonly string[]) =>
    rows.map((row) => [row, numberIn(rowOf('box-sizes', row).ext_l), numberIn(rowOf('box-sizes', row).tare)] as const)
  const standard = points(['10 ft (1D height 8 ft 6)', '20 ft 1CC', '40 ft 1AA'])
  const low = onLine(standard, lengthMm)
  if (height === 'standard') return low
  // A high box weighs more by what its walls are taller: the difference of the 20 ft rows, in proportion to length.
  const more = numberIn(rowOf('box-sizes', '20 ft high cube').tare) - numberIn(rowOf('box-sizes', '20 ft 1CC').tare)
  return low + (more * lengthMm) / numberIn(rowOf('box-sizes', '20 ft 1CC').ext_l)
}

function onLine(points: readonly (readonly [string, number, number])[], at: number): number {
  // Beyond the last row the last line goes on, before the first the first.
  const above = points.findIndex(([, x]) => x >= at)
  const upper = above < 0 ? points.length - 1 : Math.max(1, above)
  const [, x0, y0] = points[upper - 1] as readonly [string, number, number]
  const [, x1, y1] = points[upper] as readonly [string, number, number]
  return y0 + ((y1 - y0) * (at - x0)) / (x1 - x0)
}

function tareCentre(sizes: Sizes): PointMm {
  const [L, W, H] = sizes.outsideMm
  return [L / 2 + bodyFigure('tare off middle'), W / 2, H * bodyFigure('tare centre height')]
}

/**
 * A valid plate, or a mass proven by a lifting test, says the rating. Without either a standard box is taken as its type is usually plated;
 * a short, cut or odd length has no rating, and none once the plate is off: that of a longer box is never inherited.
 */
function ratingOf(sizes: Sizes, survey: BoxSurvey | null): BodyFigure | null {
  const plate = survey?.plate ?? null
  if (plate?.state === 'valid' && plate.ratingKg !== null)
    return measuredFigure(plate.ratingKg, 'safety approval plate', survey?.by ?? null)
  if (survey?.testedKg != null) return measuredFigure(survey.testedKg, 'mass proven by a lifting test', survey.by)
  if (plate !== null || sizes.row === null || sizes.standard === null || sizes.standard.short) return null
  return { value: numberIn(rowOf('box-sizes', sizes.row).max_gross), measured: false, rests: rowSource('box-sizes', sizes.row) }
}

function ratingNotes(sizes: Sizes, survey: BoxSurvey | null): readonly string[] {
  if (survey?.plate?.state === 'removed') return ['The safety approval plate is off: the rating it bore no longer counts.']
  const rating = ratingOf(sizes, survey)
  if (rating === null)
    return [
      'Its rating is not known: a shorter or cut box does not inherit that of a longer one. Read its plate, or prove it by test.',
    ]
  return rating.measured
    ? []
    : ['Its rating is that of its type; plates read 24 000 to 36 000 kg. Read the plate of the box itself.']
}

function assumedOf(wanted: BoxWanted, sizes: Sizes, survey: BoxSurvey | null): readonly Assumption[] {
  const path = (key: string) => `facts.surveys.${wanted.id}.${key}`
  const pitch = survey?.ribPitchMm == null
  const first = (['left', 'right', 'blind end', 'roof'] as const).filter((side) => survey?.firstRibMm[side] === undefined)
  return [
    ...sizes.assumed,
    ...(pitch
      ? [
          {
            path: path('rib-pitch'),
            said: `${wanted.id}: ribs of the long sides at 278 mm`,
            source: rowSource('corrugation', 'side wall').place,
          },
        ]
      : []),
    ...first.map((side) => ({
      path: path(`first-rib.${side.replace(' ', '-')}`),
      said: `${wanted.id}: ribs of the ${side} stand in the middle between the posts; every flat may lie half a pitch to either side`,
      source: source('pattern centred between the posts', 'common practice').place,
    })),
    ...(survey?.crossmemberPitchMm == null
      ? [
          {
            path: path('crossmember-pitch'),
            said: `${wanted.id}: crossmembers at ${bodyFigure('crossmember pitch')} mm`,
            source: 'common practice',
          },
        ]
      : []),
  ]
}
