/** Black and white only: a fill is told by its pattern. */
export type Hatch =
  | 'upright close'
  | 'upright wide'
  | 'slant close'
  | 'slant wide'
  | 'dots'
  | 'blank'
  | 'solid'
  | 'at 0'
  | 'at 30'
  | 'at 60'
  | 'at 90'
  | 'at 120'
  | 'back slant'
  | Ink

/** Steps of the ramp of a year map, on glass only: on paper no grey carries meaning. */
export type Ink = 'ink 1' | 'ink 2' | 'ink 3' | 'ink 4' | 'ink 5'

/** Share of ink of each step; the darkest still lets marks of full ink be told on it. */
export const INKS: Readonly<Record<Ink, number>> = { 'ink 1': 0.08, 'ink 2': 0.18, 'ink 3': 0.3, 'ink 4': 0.44, 'ink 5': 0.6 }

export interface HatchStyle {
  /** Of the lines against the horizontal, counter-clockwise as on a protractor. */
  readonly angleDeg: number
  readonly spacingMm: number
  readonly widthMm: number
  readonly dots: boolean
}

const lines = (angleDeg: number, spacingMm: number, widthMm: number): HatchStyle => ({
  angleDeg,
  spacingMm,
  widthMm,
  dots: false,
})

export const HATCHES: Readonly<Record<Exclude<Hatch, 'blank' | 'solid' | Ink>, HatchStyle>> = {
  'upright close': lines(90, 0.75, 0.22),
  'upright wide': lines(90, 1.6, 0.22),
  'slant close': lines(45, 0.9, 0.2),
  'slant wide': lines(45, 1.9, 0.2),
  'back slant': lines(-45, 1.9, 0.2),
  dots: { angleDeg: 0, spacingMm: 1.1, widthMm: 0.34, dots: true },
  'at 0': lines(0, 1, 0.16),
  'at 30': lines(30, 1, 0.16),
  'at 60': lines(60, 1, 0.16),
  'at 90': lines(90, 1, 0.16),
  'at 120': lines(120, 1, 0.16),
}

/** Of groups of machines, heaviest at the base. */
export const GROUP_HATCHES: readonly Hatch[] = ['upright close', 'slant close', 'upright wide', 'slant wide', 'dots', 'blank']
/** Of devices on a time–current chart. */
export const BAND_HATCHES: readonly Hatch[] = ['at 30', 'at 120', 'at 0', 'at 60', 'at 90']
