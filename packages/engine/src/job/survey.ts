import type { Side } from './build.ts'

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
