import type { SizeName } from '../../job/index.ts'
import { put, step, type Worked } from '../../kernel/index.ts'
import { numberAt, numberOrNull, tableOf } from '../common/book.ts'
import { sizeCell, sizeName } from '../common/size.ts'
import { ambientFactor } from './ampacity.ts'
import type { North } from './spec.ts'

/**
 * Ampacity of a flexible cord: column A three loaded, B two loaded, times the ambient factor of the cord's own temperature rating.
 * The cold does not raise it.
 * @throws Fault `rules/no-row` for a type or size that is not listed
 * @source NEC Table 400.5(A)(1). Provenance: read in the 2017 text; the rating of a type is common practice
 */
export function cordAmpacityA(
  north: North,
  cord: { readonly size: SizeName; readonly type: string; readonly loaded: 2 | 3; readonly ambientC: number },
): Worked<number> {
  const base = numberAt(
    north.book,
    'us-cord-ampacity',
    sizeCell(cord.size),
    cord.loaded === 3 ? 'three_loaded_A' : 'two_loaded_B',
  )
  const rating = numberAt(north.book, 'cord-jackets', cord.type, 'rating')
  const ambient = ambientFactor(north, rating.value, Math.max(cord.ambientC, TABLE_AMBIENT_C))
  const value = base.value * ambient.value
  return {
    value,
    steps: [
      step('I0', `${cord.size} ${cord.type}, ${cord.loaded} loaded`, [], base.value, 'A', base.rests),
      step('Tc', 'temperature rating of the cord', [], rating.value, '°C', rating.rests),
      ...ambient.steps,
      step('Iz', 'I0·Ca', [put('I0', base.value, 'A'), put('Ca', ambient.value)], value, 'A', base.rests),
    ],
  }
}

/** Sizes of the cord table that are sold and whose resistance is known, rising. */
export const cordSizes = (north: North): readonly SizeName[] =>
  tableOf(north.book, 'us-cord-ampacity')
    .rows.map((row) => row[0])
    .filter((cell): cell is string => typeof cell === 'string')
    .filter((cell) => numberOrNull(north.book, 'us-dc-resistance', cell, 'cu') !== null)
    .map((cell) => sizeName(cell))

/** Ambient that the cord table is printed for, part of its title. */
const TABLE_AMBIENT_C = 30
