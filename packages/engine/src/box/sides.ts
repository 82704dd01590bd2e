import { type BoxSurvey, SIDES, type Side } from '../job/index.ts'
import { type Frame, postsAlong } from './frame.ts'
import { developed, type Profile, pitchMm, type Sheet, sheetMass, sheetSection, tableProfile } from './profile.ts'
import type { BodyFigure, BodySide, Corrugation, Flat } from './result.ts'
import { computed, fromTable, measuredFigure } from './shelf.ts'
import type { Sizes } from './sizes.ts'

interface Reach {
  readonly fromMm: number
  readonly toMm: number
}

/** Closed profile of the long sides: what was measured, the slope taking up what is left of the pitch. */
export function wallProfile(survey: BoxSurvey | null): Profile & { readonly thicknessMm: number } {
  const table = tableProfile('side wall')
  const pitch = survey?.ribPitchMm ?? null
  const flats = {
    outerFlatMm: survey?.outerFlatMm ?? table.outerFlatMm,
    innerFlatMm: survey?.innerFlatMm ?? table.innerFlatMm,
  }
  const depthMm = survey?.ribDepthMm ?? table.depthMm
  const thicknessMm = survey?.sheetMm ?? table.thicknessMm
  if (pitch === null) return { ...flats, slopeRunMm: table.slopeRunMm, depthMm, thicknessMm }
  const slopeRunMm = (pitch - flats.outerFlatMm - flats.innerFlatMm) / 2
  if (slopeRunMm >= 0) return { ...flats, slopeRunMm, depthMm, thicknessMm }
  // Flats that leave no slope in the pitch: the pitch was measured, so the flats shrink with it (bodyFindings says so).
  const share = pitch / pitchMm(table)
  return {
    outerFlatMm: table.outerFlatMm * share,
    innerFlatMm: table.innerFlatMm * share,
    slopeRunMm: table.slopeRunMm * share,
    depthMm,
    thicknessMm,
  }
}

/** Near edge of the first inner flat when the pattern stands in the middle of the sheet. */
export function centredFirstFlatMm(profile: Profile, sheet: Reach): number {
  const pitch = pitchMm(profile)
  const room = sheet.toMm - sheet.fromMm
  const count = Math.max(1, Math.floor((room - profile.innerFlatMm) / pitch) + 1)
  return sheet.fromMm + (room - (count - 1) * pitch - profile.innerFlatMm) / 2
}

/** The flat measured may be a later one, or under the post: the first that is free stands whole pitches away. */
function firstOnSheet(measuredMm: number, fromMm: number, pitch: number): number {
  const away = Math.floor((measuredMm - fromMm) / pitch + EDGE_MM)
  return away === 0 ? measuredMm : measuredMm - away * pitch
}

/** Whole flats on the sheet, in order along it, none under a post; the pattern runs both ways from the first inner flat. */
export function flatsAlong(profile: Profile, firstFlatMm: number, sheet: Reach, posts: readonly Reach[]): readonly Flat[] {
  const pitch = pitchMm(profile)
  const first = Math.floor((sheet.fromMm - firstFlatMm) / pitch) - 1
  const last = Math.ceil((sheet.toMm - firstFlatMm) / pitch) + 1
  const out: Flat[] = []
  for (let k = first; k <= last; k++) {
    const inner = firstFlatMm + k * pitch
    const outer = inner + profile.innerFlatMm + profile.slopeRunMm
    out.push({ fromMm: inner, toMm: inner + profile.innerFlatMm, kind: 'inner' })
    out.push({ fromMm: outer, toMm: outer + profile.outerFlatMm, kind: 'outer' })
  }
  const free = (flat: Flat) => !posts.some((post) => flat.toMm > post.fromMm + EDGE_MM && flat.fromMm < post.toMm - EDGE_MM)
  return out.filter((flat) => flat.fromMm >= sheet.fromMm - EDGE_MM && flat.toMm <= sheet.toMm + EDGE_MM && free(flat))
}

/** Sums of pitches differ in the last bits. */
const EDGE_MM = 1e-6

interface Sheeted {
  readonly sheet: Sheet
  readonly along: Corrugation['along']
  readonly runs: Corrugation['runs']
}

const SHEETED: Readonly<Record<Side, Sheeted | null>> = {
  left: { sheet: 'side wall', along: 'x', runs: 'z' },
  right: { sheet: 'side wall', along: 'x', runs: 'z' },
  'blind end': { sheet: 'front (end) wall', along: 'y', runs: 'z' },
  'door end': null,
  roof: { sheet: 'roof, die-stamped', along: 'x', runs: 'y' },
  floor: null,
}

/** The six sides. */
export function sidesOf(sizes: Sizes, frame: Frame, survey: BoxSurvey | null): Readonly<Record<Side, BodySide>> {
  return Object.fromEntries(SIDES.map((side) => [side, sideOf(side, sizes, frame, survey)])) as Record<Side, BodySide>
}

function sideOf(side: Side, sizes: Sizes, frame: Frame, survey: BoxSurvey | null): BodySide {
  const [L, W, H] = sizes.outsideMm
  const long = side !== 'blind end' && side !== 'door end'
  const flat = side === 'roof' || side === 'floor'
  const sheet = sheetOf(side, sizes, frame)
  const sheeted = SHEETED[side]
  const posts = long && !flat ? postsAlong(sizes, frame) : []
  const made = sheeted === null ? null : corrugationOf(side, sheeted, sheet, survey)
  return {
    side,
    alongMm: long ? L : W,
    upMm: flat ? W : H,
    corrugation: made?.corrugation ?? null,
    flats: made === null ? [] : flatsAlong(made.profile, made.corrugation.firstFlatMm.value, sheet, posts),
    sheet,
    dents: (survey?.dents ?? [])
      .filter((dent) => dent.side === side)
      .map((dent) => ({
        fromMm: dent.fromMm,
        toMm: dent.fromMm + dent.widthMm,
        lowMm: dent.upMm,
        highMm: dent.upMm + dent.heightMm,
        deepMm: dent.depthMm,
      })),
  }
}

/** Sheet between the members. The doors are no sheet to cut, and have none. */
function sheetOf(side: Side, sizes: Sizes, frame: Frame): BodySide['sheet'] {
  const [L, W] = sizes.outsideMm
  const [post, wide] = frame.fittingMm
  const rail = frame.topRailHighMm - frame.topRailLowMm
  const up = { lowMm: frame.bottomRailMm.highMm, highMm: frame.topRailLowMm }
  switch (side) {
    case 'left':
    case 'right':
      return { fromMm: post, toMm: L - post, ...up }
    case 'blind end':
      return { fromMm: wide, toMm: W - wide, ...up }
    case 'roof':
      return { fromMm: post, toMm: L - post, lowMm: rail, highMm: W - rail }
    case 'floor':
      return {
        fromMm: frame.blindInnerMm,
        toMm: Math.min(L, frame.blindInnerMm + sizes.insideMm[0]),
        lowMm: frame.bottomRailMm.wideMm,
        highMm: W - frame.bottomRailMm.wideMm,
      }
    case 'door end':
      return { fromMm: W / 2, toMm: W / 2, lowMm: frame.floorTopMm, highMm: frame.floorTopMm }
  }
}

function corrugationOf(side: Side, of: Sheeted, sheet: Reach, survey: BoxSurvey | null) {
  const wall = of.sheet === 'side wall'
  const profile = wall ? wallProfile(survey) : tableProfile(of.sheet)
  const pitch = pitchMm(profile)
  const measuredFirst = survey?.firstRibMm[side] ?? null
  const by = survey?.by ?? null
  const pitchFigure: BodyFigure =
    wall && survey?.ribPitchMm != null ? measuredFigure(pitch, 'rib pitch', by) : fromTable(pitch, 'corrugation', of.sheet)
  const section = sheetSection(profile, profile.thicknessMm).value
  const corrugation: Corrugation = {
    pitchMm: pitchFigure,
    firstFlatMm:
      measuredFirst === null
        ? computed(centredFirstFlatMm(profile, sheet), 'pattern centred between the posts')
        : measuredFigure(firstOnSheet(measuredFirst, sheet.fromMm, pitch), `first flat, ${side}`, by),
    flatsBandMm: measuredFirst === null ? pitch / 2 : 0,
    innerFlatMm: profile.innerFlatMm,
    outerFlatMm: profile.outerFlatMm,
    slopeRunMm: profile.slopeRunMm,
    depthMm: profile.depthMm,
    thicknessMm: profile.thicknessMm,
    along: of.along,
    runs: of.runs,
    developedRatio: developed(profile).value.ratio,
    inertiaMm4PerPitch: section.inertiaMm4PerPitch,
    sectionMm3PerPitch: section.sectionMm3PerPitch,
    sheetKgPerM2: sheetMass(profile, profile.thicknessMm).value,
  }
  return { profile, corrugation }
}
