import type { LiftMethod } from '../job/index.ts'
import { methodRow } from './slings.ts'

/** Ways of setting down that the words of the site name, in the order of our preference; dragging is no lift. */
export function methodsSaid(unload: string | null): { readonly methods: readonly LiftMethod[]; readonly dragged: boolean } {
  const words = (unload ?? '').toLowerCase()
  const named: readonly (readonly [RegExp, readonly LiftMethod[]])[] = [
    [/tilt/, ['tilt-bed']],
    [/side-?\s?lift/, ['side-lift frame']],
    [/crane/, ['bottom slings with spreader', 'top spreader, vertical', 'top slings, inclined']],
    [/fork|telehandler/, ['forks, wide pockets', 'forks, narrow pockets']],
  ]
  return { methods: named.flatMap(([name, methods]) => (name.test(words) ? methods : [])), dragged: /skid|drag/.test(words) }
}

export type Allowed = 'allowed' | 'allowed with limits' | 'not allowed'

/** What the matrix says of a method for a box of this length, with gear in it or bare. */
export function allowedFor(method: LiftMethod, lengthM: number, load: 'empty' | 'packed'): Allowed {
  return methodRow(method, lengthM)[load] as Allowed
}

export const METHODS: readonly LiftMethod[] = [
  'top spreader, vertical',
  'top slings, inclined',
  'bottom slings with spreader',
  'forks, wide pockets',
  'forks, narrow pockets',
  'side-lift frame',
  'tilt-bed',
]

/** A line as the words of the site have it. */
export interface OverheadLine {
  readonly words: string
  readonly kV: number | null
  readonly heightM: number | null
  /** Level distance from the place, where the words say that it runs beside it. */
  readonly besideM: number | null
}

/**
 * Lines in the words of a site: `7.2 kV line crosses the access 40 m before the pad, 6.9 m up`; parts between semicolons are one line
 * each, and a part that begins with “none” is none. Nothing is made up: what the words do not hold is null.
 */
export function linesSaid(words: string): readonly OverheadLine[] {
  return words
    .split(';')
    .map((part) => part.trim())
    .filter((part) => part !== '' && !/^(none|no line|no\b)/i.test(part))
    .map((part) => {
      const kV = /([\d.]+)\s*kV/.exec(part)?.[1]
      const volts = /([\d.]+)(?:\/[\d.]+)?\s*V\b/.exec(part)?.[1]
      const height = /([\d.]+)\s*m\s+(?:up|high|above)/.exec(part)?.[1]
      const beside = /([\d.]+)\s*m\s+(?:off|from|away|beside)/.exec(part)?.[1]
      return {
        words: part,
        kV: kV !== undefined ? Number(kV) : volts !== undefined ? Number(volts) / 1000 : null,
        heightM: height === undefined ? null : Number(height),
        besideM: beside === undefined ? null : Number(beside),
      }
    })
}
