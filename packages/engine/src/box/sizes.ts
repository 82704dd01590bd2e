import type { Assumption, BoxSurvey, BoxWanted, PointMm } from '../job/index.ts'
import { type Source, source } from '../kernel/index.ts'
import { bodyFigure, numberIn, rowOf, rowSource } from './shelf.ts'

const MM_PER_FT = 304.8

/** What is known of a standard length, by the row of table `box-sizes` for each height it comes in. */
interface Standard {
  readonly feet: number
  /** Shorter than a box whose rating could be inherited. */
  readonly short: boolean
  readonly rows: { readonly standard?: string; readonly high?: string }
}

const STANDARDS: readonly Standard[] = [
  { feet: 10, short: true, rows: { standard: '10 ft (1D height 8 ft 6)' } },
  { feet: 20, short: false, rows: { standard: '20 ft 1CC', high: '20 ft high cube' } },
  { feet: 40, short: false, rows: { standard: '40 ft 1AA', high: '40 ft high cube 1AAA' } },
  { feet: 45, short: false, rows: { high: '45 ft high cube 1EEE' } },
  { feet: 53, short: false, rows: { high: '53 ft domestic (North America)' } },
]

export interface Sizes {
  readonly type: string
  readonly standard: Standard | null
  /** Row of `box-sizes` it is, when it is one. */
  readonly row: string | null
  /** Outer length, width, height. */
  readonly outsideMm: PointMm
  readonly insideMm: PointMm
  readonly doorMm: { readonly widthMm: number; readonly heightMm: number }
  readonly rests: Source
  readonly assumed: readonly Assumption[]
  readonly notes: readonly string[]
}

const anyRow = (s: Standard): string => (s.rows.standard ?? s.rows.high) as string
const lengthIn = (row: string): number => numberIn(rowOf('box-sizes', row).ext_l)
/** Nobody builds or cuts nearer than this; ISO 668 allows 0 to 10 mm under. */
const NEAR_MM = 10

/** A length belongs to a standard box when it lies between that box's true length and its name in feet. */
function standardOf(lengthMm: number): Standard | null {
  return (
    STANDARDS.find((s) => {
      const trueMm = lengthIn(anyRow(s))
      return lengthMm >= trueMm - NEAR_MM && lengthMm <= Math.max(trueMm, s.feet * MM_PER_FT) + NEAR_MM
    }) ?? null
  )
}

function typeOf(wanted: BoxWanted, standard: Standard | null, lengthMm: number): string {
  const high = wanted.heightKind === 'high'
  if (standard !== null && !standard.short) return `${standard.feet} ft ${wanted.heightKind}`
  const feet = standard?.feet ?? Math.round((lengthMm / MM_PER_FT) * 10) / 10
  return `${feet} ft cut${high ? ', high' : ''}`
}

/** Sizes outside and inside: the table's, a shop product's between the standard lengths, and over both what was measured. */
export function sizesOf(wanted: BoxWanted, survey: BoxSurvey | null): Sizes {
  const askedMm = survey?.lengthMm ?? wanted.lengthFt * MM_PER_FT
  const standard = standardOf(askedMm)
  const row = standard?.rows[wanted.heightKind] ?? null
  const like20 = wanted.heightKind === 'high' ? '20 ft high cube' : '20 ft 1CC'
  // Widths and the loss of length and width in the walls are the standard length's own in either height.
  const across = rowOf('box-sizes', standard === null ? like20 : anyRow(standard))
  const up = rowOf('box-sizes', row ?? like20)
  const lengthMm = survey?.lengthMm ?? (standard === null ? Math.round(askedMm) : numberIn(across.ext_l))
  const widthMm = survey?.widthMm ?? numberIn(across.ext_w)
  const heightMm = survey?.heightMm ?? numberIn(up.ext_h)
  const lossMm = standard === null ? bodyFigure('shop length loss') : numberIn(across.ext_l) - numberIn(across.int_l)
  const insideMm: PointMm = [
    survey?.innerLengthMm ?? lengthMm - lossMm,
    survey?.innerWidthMm ?? widthMm - (numberIn(across.ext_w) - numberIn(across.int_w)),
    survey?.innerHeightMm ?? heightMm - (numberIn(up.ext_h) - numberIn(up.int_h)),
  ]
  const door = rowOf('box-sizes', row !== null && rowOf('box-sizes', row).door_w !== null ? row : like20)
  return {
    type: typeOf(wanted, standard, lengthMm),
    standard,
    row,
    outsideMm: [lengthMm, widthMm, heightMm],
    insideMm,
    doorMm: {
      widthMm: Math.min(numberIn(door.door_w) + (widthMm - numberIn(door.ext_w)), insideMm[1]),
      heightMm: Math.min(numberIn(door.door_h) + (heightMm - numberIn(door.ext_h)), insideMm[2]),
    },
    rests:
      row !== null
        ? rowSource('box-sizes', row)
        : source('table box-sizes, a length between the standard ones', 'common practice'),
    assumed: assumedSizes(wanted, survey, { row, insideMm }),
    notes: sizeNotes(wanted, standard, row),
  }
}

/** Clear inside of a box as it was measured, else as the table has it. */
export const insideOf = (wanted: BoxWanted, survey: BoxSurvey | null): PointMm => sizesOf(wanted, survey).insideMm

function assumedSizes(
  wanted: BoxWanted,
  survey: BoxSurvey | null,
  of: { readonly row: string | null; readonly insideMm: PointMm },
): readonly Assumption[] {
  const said = (key: string, what: string, value: number): Assumption => ({
    path: `facts.surveys.${wanted.id}.${key}`,
    said: `${wanted.id}: ${what} ${Math.round(value)} mm inside`,
    source:
      of.row === null
        ? 'outside length less 160 mm, width and height as a standard box (table box-sizes): common practice'
        : `table box-sizes, ${of.row}`,
  })
  return [
    ...(survey?.innerWidthMm == null ? [said('inner-width', 'width', of.insideMm[1])] : []),
    ...(survey?.innerHeightMm == null ? [said('inner-height', 'height', of.insideMm[2])] : []),
  ]
}

function sizeNotes(wanted: BoxWanted, standard: Standard | null, row: string | null): readonly string[] {
  if (standard === null)
    return ['A length between the standard ones is a product of the shop: inside 160 mm shorter than outside (common practice).']
  if (row === null)
    return [
      `No ${standard.feet} ft box of ${wanted.heightKind} height stands in the table: height as of a 20 ft box. Measure it.`,
    ]
  return standard.feet === 53 ? ['A 53 ft box is not an ISO box: sizes are recalled to 2 %. Measure it.'] : []
}
