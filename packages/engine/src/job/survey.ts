import type { Side } from './build.ts'
import type { JobDocument } from './schema/job.ts'

/** What was measured on the steel of one box. Everything is optional: null means that nobody measured it. */
export interface BoxSurvey {
  readonly box: string
  readonly by: string | null
  readonly on: string | null
  /** Outside. */
  readonly lengthMm: number | null
  readonly widthMm: number | null
  readonly heightMm: number | null
  readonly innerLengthMm: number | null
  readonly innerWidthMm: number | null
  readonly innerHeightMm: number | null
  /** Of the long sides. */
  readonly ribPitchMm: number | null
  readonly innerFlatMm: number | null
  readonly outerFlatMm: number | null
  readonly ribDepthMm: number | null
  readonly sheetMm: number | null
  /** From the datum of the side (outer face of the blind end; of the left side on the ends) to the near edge of its first inner flat. */
  readonly firstRibMm: Readonly<Partial<Record<Side, number>>>
  readonly crossmemberPitchMm: number | null
  readonly bows: { readonly pitchMm: number; readonly depthMm: number } | null
  readonly tareKg: number | null
  /** As it stands, with what is built in. */
  readonly weighedKg: number | null
  readonly plate: { readonly ratingKg: number | null; readonly state: 'valid' | 'removed' } | null
  /** Mass proven by a lifting test. */
  readonly testedKg: number | null
  /** Null: nobody looked. */
  readonly pockets: { readonly spacingMm: number; readonly widthMm: number; readonly heightMm: number } | 'none' | null
  readonly dents: readonly SurveyedDent[]
  /** Found by laying a run beside a logger’s list. Absent: nothing was. */
  readonly air?: MeasuredAir
}

export interface MeasuredAir {
  /** With vents shut, at 50 Pa. */
  readonly leakM3SAt50Pa: MeasuredFigure | null
  readonly roofAbsorptanceFrac: MeasuredFigure | null
  readonly gearKg: MeasuredFigure | null
}

/** A figure with its band of 95 %, in the unit that its holder names. */
export interface MeasuredFigure {
  readonly value: number
  readonly low: number
  readonly high: number
  readonly by: string
  readonly on: string
}

export interface SurveyedDent {
  readonly side: Side
  /** Near edge, from the datum of the side; up: lower edge, from the underside of the bottom fittings (from the left face on roof and floor). */
  readonly fromMm: number
  readonly upMm: number
  readonly widthMm: number
  readonly heightMm: number
  readonly depthMm: number
}

type Rows = NonNullable<NonNullable<JobDocument['facts']>['surveys']>

const mm = (metres: number | undefined): number | null => (metres === undefined ? null : exact(metres * 1000))
/** `278 mm` is read as 0.278 m: the millimetre comes back as it was written, to a ten-thousandth. */
const exact = (millimetres: number): number => Math.round(millimetres * 1e4) / 1e4

/** Surveys of the document, one for each box that was measured. */
export const surveysOf = (rows: Rows | undefined): readonly BoxSurvey[] => (rows ?? []).map(surveyOf)

function surveyOf(row: Rows[number]): BoxSurvey {
  const first = row['first-rib'] ?? {}
  const edges: readonly (readonly [Side, number | undefined])[] = [
    ['left', first.left],
    ['right', first.right],
    ['blind end', first['blind-end']],
    ['roof', first.roof],
  ]
  return {
    box: row.box,
    by: row.by ?? null,
    on: row.on ?? null,
    lengthMm: mm(row.length),
    widthMm: mm(row.width),
    heightMm: mm(row.height),
    innerLengthMm: mm(row['inner-length']),
    innerWidthMm: mm(row['inner-width']),
    innerHeightMm: mm(row['inner-height']),
    ribPitchMm: mm(row['rib-pitch']),
    innerFlatMm: mm(row['inner-flat']),
    outerFlatMm: mm(row['outer-flat']),
    ribDepthMm: mm(row['rib-depth']),
    sheetMm: mm(row.sheet),
    firstRibMm: Object.fromEntries(edges.flatMap(([side, at]) => (at === undefined ? [] : [[side, exact(at * 1000)]]))),
    crossmemberPitchMm: mm(row['crossmember-pitch']),
    bows: row.bows === undefined ? null : { pitchMm: exact(row.bows.pitch * 1000), depthMm: exact(row.bows.depth * 1000) },
    tareKg: row.tare ?? null,
    weighedKg: row.weighed ?? null,
    plate: row.plate === undefined ? null : { ratingKg: row.plate.rating ?? null, state: row.plate.state },
    testedKg: row.tested ?? null,
    pockets: pocketsOf(row.pockets),
    ...measuredAirOf(row),
    dents: (row.dents ?? []).map((dent) => ({
      side: dent.side,
      fromMm: exact(dent.from * 1000),
      upMm: exact(dent.up * 1000),
      widthMm: exact(dent.width * 1000),
      heightMm: exact(dent.height * 1000),
      depthMm: exact(dent.depth * 1000),
    })),
  }
}

function pocketsOf(row: Rows[number]['pockets']): BoxSurvey['pockets'] {
  if (row === undefined) return null
  if (row === 'none') return 'none'
  return { spacingMm: exact(row.spacing * 1000), widthMm: exact(row.width * 1000), heightMm: exact(row.height * 1000) }
}

const LITRES_PER_HOUR = 3.6e6

function measuredAirOf(row: Rows[number]): { readonly air?: MeasuredAir } {
  const { leakage, 'roof-absorptance': absorptance, 'gear-mass': gear } = row
  if (leakage === undefined && absorptance === undefined && gear === undefined) return {}
  const figure = (of: typeof leakage, by = 1): MeasuredFigure | null =>
    of === undefined ? null : { value: of.found / by, low: of.low / by, high: of.high / by, by: of.by, on: of.on }
  return {
    air: { leakM3SAt50Pa: figure(leakage, LITRES_PER_HOUR), roofAbsorptanceFrac: figure(absorptance), gearKg: figure(gear) },
  }
}
