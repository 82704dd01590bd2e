import { BOX_UNKNOWNS, type BoxUnknown } from './box-unknowns.ts'
import type { PairedLog, RunHours } from './pair.ts'
import type { Told } from './told.ts'
import { hourEndText } from './words.ts'

/** Value with its unit as a job document writes it. */
const WRITTEN: Readonly<Record<BoxUnknown, (value: number) => string>> = {
  leakage: (value) => `${threeDigits(value)} m3/h`,
  'roof-absorptance': (value) => `${threeDigits(value * 100)} %`,
  'gear-mass': (value) => `${threeDigits(value)} kg`,
}

/** One thing found, as it stands under `facts.surveys` of a box: with its band of 95 %, from what, and on which day. */
export interface SurveyFound {
  readonly found: string
  readonly low: string
  readonly high: string
  readonly by: string
  readonly on: string
}

const own = (told: readonly Told[]) =>
  told.filter((t): t is Told & { unknown: { id: BoxUnknown } } => BOX_UNKNOWNS.includes(t.unknown.id as BoxUnknown))

/** What was told of the unknowns of a box, by the names of its survey; what was not told is not there. */
export const surveyFound = (
  told: readonly Told[],
  { by, on }: { readonly by: string; readonly on: string },
): Readonly<Partial<Record<BoxUnknown, SurveyFound>>> =>
  Object.fromEntries(
    own(told).flatMap(({ unknown, value, low, high, told: is }) => {
      const write = WRITTEN[unknown.id]
      return is ? [[unknown.id, { found: write(value), low: write(low), high: write(high), by, on }]] : []
    }),
  )

/**
 * What was told, as the lines that would stand under `facts.surveys` of the box: found, band of 95 %, from what, and on which day. What was
 * not told stands as a comment with the reason. They are shown; a person copies them. Empty where nothing of a box was asked.
 */
export function surveyLines(
  told: readonly Told[],
  given: { readonly box: string; readonly by: string; readonly on: string; readonly missed?: readonly string[] },
): readonly string[] {
  const all = own(told)
  if (all.length === 0) return []
  const found = surveyFound(told, given)
  const lines = all.flatMap(({ unknown, why }) => {
    const one = found[unknown.id]
    if (one === undefined) return [`      # ${unknown.id}: not told. ${why}`]
    return [
      `      ${unknown.id}:`,
      `        found: ${one.found}`,
      `        low: ${one.low}`,
      `        high: ${one.high}`,
      `        by: ${JSON.stringify(one.by)}`,
      `        on: ${one.on}`,
    ]
  })
  const { missed = [] } = given
  const caution =
    missed.length === 0
      ? []
      : [
          '      # Not to be used yet: the fitted run still misses',
          `      # ${missed.join(', ')}.`,
          '      # Something else is wrong, and the bands are too narrow.',
        ]
  return ['facts:', '  surveys:', `    - box: ${given.box}`, ...caution, ...lines]
}

const threeDigits = (value: number): string => String(Number(value.toPrecision(3)))

/** From which list, sensors and days it was found, and up to which day: the last of the log. */
export function foundBy(name: string, paired: PairedLog, hours: RunHours): { readonly by: string; readonly on: string } {
  const [from, to] = [hourEndText(hours, paired.firstHour - 1), hourEndText(hours, paired.lastHour)]
  const count = paired.sensors.filter(({ fits }) => fits).length
  return {
    by: `fitted to ${name}, ${count} sensors, ${from.slice(0, 10)} to ${to.slice(0, 10)}`,
    on: to.slice(0, 10),
  }
}
