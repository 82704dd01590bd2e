import type { BoxSurvey, MeasuredFigure } from '../../job/index.ts'

/** One thing that was measured on a box and stands in its model, as a finding says it. */
export interface MeasuredSaid {
  readonly what: 'leakage' | 'roof-absorptance' | 'gear-mass'
  readonly words: string
  readonly value: number
  readonly low: number
  readonly high: number
  readonly unit: string
  readonly by: string
  readonly on: string
}

/** What a logger told of a box and its model rests on; `roof`: the roof still has the coat that was measured. `gear`: gear lies in the room’s air. */
export function measuredOf(
  survey: BoxSurvey | undefined,
  stands: { readonly roof: boolean; readonly gear: boolean },
): readonly MeasuredSaid[] {
  const air = survey?.air
  if (air === undefined) return []
  const said = (
    what: MeasuredSaid['what'],
    words: string,
    unit: string,
    of: MeasuredFigure | null,
    factor: number,
  ): readonly MeasuredSaid[] =>
    of === null
      ? []
      : [
          {
            ...{ what, words, unit, by: of.by, on: of.on },
            ...{ value: of.value * factor, low: of.low * factor, high: of.high * factor },
          },
        ]
  return [
    ...said('leakage', 'what goes through its cracks at 50 Pa', 'm³/h', air.leakM3SAt50Pa, 3600),
    ...(stands.roof
      ? said('roof-absorptance', 'the share of the sun that its roof takes in', '%', air.roofAbsorptanceFrac, 100)
      : []),
    ...(stands.gear ? said('gear-mass', 'the mass of gear that lags', 'kg', air.gearKg, 1) : []),
  ]
}
