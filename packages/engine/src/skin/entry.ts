import type { Span } from '../job/index.ts'
import { Fault, put, type Source, source, step, type Worked } from '../kernel/index.ts'
import { tables } from './tables.generated.ts'

export interface EntrySize {
  readonly thread: string
  readonly threadMm: number
  readonly holeMm: number
  readonly leastMm: number
  readonly mostMm: number
}

const RANGES: Source = source('table metric-entry', 'memory')
const CORDS: Source = source('table cord-outside', 'memory')

export const ENTRIES: readonly EntrySize[] = tables['metric-entry'].rows.map(([thread, threadMm, , holeMm, leastMm, mostMm]) => ({
  thread,
  threadMm,
  holeMm,
  leastMm,
  mostMm,
}))

/** A cord's outside diameter may differ from the table by this. */
export const CORD_TOLERANCE_FRAC = 0.08

/**
 * Outside diameter of a cord by gauge and cores, both ends of its tolerance. Null where the table has none: measure it.
 *
 *   od · (1 ± 0.08)
 */
export function cordOutsideMm(size: string, cores: number): Span | null {
  const bare = size.replace(/ (AWG|mm2)$/, '')
  const names = [`${bare}/${cores} mm2`, `${bare}/${cores}`]
  const wanted = size.endsWith('mm2') ? names : names.slice(1)
  const row = wanted.map((n) => tables['cord-outside'].rows.find(([cord]) => cord === n)).find((r) => r !== undefined)
  if (row === undefined) return null
  return {
    low: row[1] * (1 - CORD_TOLERANCE_FRAC),
    high: row[1] * (1 + CORD_TOLERANCE_FRAC),
    basis: `table cord-outside, ${row[0]}, ± 8 %`,
    told: false,
  }
}

/**
 * The smallest entry that clamps a cord at both ends of its tolerance, and all that would. Null where none does: a cord thicker than any
 * gland, or thinner.
 *
 *   least ≤ od·(1 − 0.08)  and  od·(1 + 0.08) ≤ most
 */
export function entryFor(
  cord: Pick<Span, 'low' | 'high'>,
): Worked<{ readonly chosen: EntrySize | null; readonly candidates: readonly EntrySize[] }> {
  if (!(cord.low > 0 && cord.high >= cord.low && cord.high < 1000)) throw new Fault('skin/cord-range', cord)
  const candidates = ENTRIES.filter((e) => e.leastMm <= cord.low && cord.high <= e.mostMm)
  const chosen = candidates[0] ?? null
  return {
    value: { chosen, candidates },
    steps: [
      step(
        'od',
        'od·(1 ± 0.08)',
        [put('low', cord.low, 'mm'), put('high', cord.high, 'mm')],
        `${round(cord.low)} … ${round(cord.high)}`,
        'mm',
        CORDS,
      ),
      step(
        'entry',
        'least ≤ low and high ≤ most',
        candidates.slice(0, 2).map((e) => put(e.thread, `${e.leastMm} … ${e.mostMm}`, 'mm')),
        chosen === null ? `none: the widest clamps ${ENTRIES[ENTRIES.length - 1]!.mostMm} mm` : chosen.thread,
        '',
        RANGES,
      ),
    ],
  }
}

const round = (n: number) => Math.round(n * 10) / 10

/** Across the corners of a locknut, of a thread. */
export const acrossMm = (threadMm: number): number => 1.25 * threadMm
export const ENTRY_GAP_MM = 3
export const ENTRY_EDGE_MM = 15
const LAYOUT: Source = source('entry layout: D 1.25 thread, gap 3 mm, edge 15 mm', 'common practice')

/**
 * How many entries of one size stand in a row of a plate.
 *
 *   pitch = D + g;   n = 1 + ⌊(w − 2e − D)/pitch⌋, 0 where not even one fits
 *
 * @source entry layout. Provenance: common practice
 */
export function entriesInRow(of: {
  readonly widthMm: number
  readonly edgeMm: number
  readonly acrossMm: number
  readonly gapMm: number
}): Worked<{
  readonly pitchMm: number
  readonly count: number
}> {
  const { widthMm: w, edgeMm: e, acrossMm: d, gapMm: g } = of
  if (![w, e, d, g].every((n) => n >= 0 && n < 1e5) || d + g <= 0) throw new Fault('skin/row-range', of)
  const pitchMm = d + g
  const room = w - 2 * e - d
  const count = room < 0 ? 0 : 1 + Math.floor(room / pitchMm + 1e-9)
  return {
    value: { pitchMm, count },
    steps: [
      step('pitch', 'D + g', [put('D', d, 'mm'), put('g', g, 'mm')], pitchMm, 'mm', LAYOUT),
      step(
        'n',
        '1 + ⌊(w − 2e − D)/pitch⌋',
        [put('w', w, 'mm'), put('e', e, 'mm'), put('D', d, 'mm'), put('pitch', pitchMm, 'mm')],
        count,
        '',
        LAYOUT,
      ),
    ],
  }
}

/**
 * Open area of holes, and what leaks past cords that are not sealed.
 *
 *   A = n·π/4·d²,   leak = n·π/4·(d² − c²)
 */
export function holeAreaM2(of: { readonly count: number; readonly holeMm: number; readonly cordMm: number }): {
  readonly holesM2: number
  readonly leakM2: number
} {
  if (!(of.count >= 0 && of.holeMm >= of.cordMm && of.cordMm >= 0)) throw new Fault('skin/hole-range', of)
  const quarter = (of.count * Math.PI) / 4 / 1e6
  return { holesM2: quarter * of.holeMm ** 2, leakM2: quarter * (of.holeMm ** 2 - of.cordMm ** 2) }
}
