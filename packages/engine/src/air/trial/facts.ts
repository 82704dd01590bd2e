import { BOX_UNKNOWNS, type BoxUnknown } from './box-unknowns.ts'
import type { Told } from './told.ts'

/** Value with its unit as a job document writes it. */
const WRITTEN: Readonly<Record<BoxUnknown, (value: number) => string>> = {
  leakage: (value) => `${threeDigits(value)} m3/h`,
  'roof-absorptance': (value) => `${threeDigits(value * 100)} %`,
  'gear-mass': (value) => `${threeDigits(value)} kg`,
}

/**
 * What was told, as the lines that would stand under `facts.surveys` of the box: found, band of 95 %, from what, and on which day. What was
 * not told stands as a comment with the reason. They are shown; a person copies them. Empty where nothing of a box was asked.
 */
export function surveyLines(
  told: readonly Told[],
  given: { readonly box: string; readonly by: string; readonly on: string; readonly missed?: readonly string[] },
): readonly string[] {
  const own = told.filter((t): t is Told & { unknown: { id: BoxUnknown } } => BOX_UNKNOWNS.includes(t.unknown.id as BoxUnknown))
  if (own.length === 0) return []
  const lines = own.flatMap(({ unknown, value, low, high, told: is, why }) => {
    const write = WRITTEN[unknown.id]
    if (!is) return [`      # ${unknown.id}: not told. ${why}`]
    return [
      `      ${unknown.id}:`,
      `        found: ${write(value)}`,
      `        low: ${write(low)}`,
      `        high: ${write(high)}`,
      `        by: ${JSON.stringify(given.by)}`,
      `        on: ${given.on}`,
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
