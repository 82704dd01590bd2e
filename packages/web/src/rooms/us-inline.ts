import type { Inline, Span } from '@plugstead/book/working'
import { usePreferences } from '../hands/preferences.ts'
import { sentence, shown } from '../hands/units.ts'

/** Words of a sheet in the units a person reads. */
export function useInline(): (of: Inline) => Inline {
  const { units } = usePreferences()
  if (units === 'metric') return (of) => of
  return (of) =>
    typeof of === 'string'
      ? sentence(of, units)
      : of.map(
          (span): Span =>
            typeof span === 'string' ? sentence(span, units) : span[0] === 'sheet' ? span : [span[0], sentence(span[1], units)],
        )
}

/** The unit that the figures of a column stand in, as its title says it: “m”, “from left, mm”. */
export function unitOfTitle(title: string): string | null {
  const found = /(?:^|, )(mm|m|kg|kN|kPa)$/.exec(title)
  return found?.[1] ?? null
}

/** A bare figure of such a column, and its title, in US units: “30” under “m” is “98.4” under “ft”. */
export function inUs(cell: string, unit: string): string {
  return cell.replace(/\d[\d\u202f]*(?:\.\d+)?/g, (digits) =>
    shown(Number(digits.replace(/\u202f/g, '')), unit, 'us').replace(/\u202f\D+$/, ''),
  )
}

export function titleInUs(title: string, unit: string): string {
  const us = shown(1, unit, 'us').split('\u202f').at(-1) ?? unit
  return `${title.slice(0, title.length - unit.length)}${us}`
}
