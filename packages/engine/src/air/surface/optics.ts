import { Fault, type Source } from '../../kernel/index.ts'
import { numberIn, rowOf, rowsOf, sourceOf, wordsIn } from '../shelf.ts'

/** How a coat takes the sun and gives off heat. */
export interface Optics {
  readonly absorptanceFrac: number
  readonly emittanceFrac: number
  readonly rests: Source
  /** Its age changed nothing because no figure of ageing is known of it. */
  readonly ageUnknown: boolean
}

/** Names of coats that have both figures: those a wall or roof may have outside. */
export const OUTSIDE_COATS: readonly string[] = rowsOf('surface-optics')
  .filter((row) => typeof row.absorptance === 'number' && row.surface !== 'snow on the roof')
  .map((row) => String(row.surface))

/** What is taken of a used box of which nobody said the colour: absorptance 0.75, emittance 0.9. @source common practice */
export const COAT_UNTOLD = 'red oxide, brown'

/**
 * Absorptance and emittance of a coat after years in the open: straight from fresh to aged over the years of table `paint-ages`, then as it is.
 * @throws Fault `air/no-row` for a coat that is not in the table, `air/age-range` for an age below 0
 */
export function opticsOf(surface: string, ageYears: number): Optics {
  if (!(ageYears >= 0)) throw new Fault('air/age-range', ageYears)
  const fresh = rowOf('surface-optics', surface)
  const ages = rowsOf('paint-ages').find((row) => row.surface === surface)
  // What another coat becomes has done its ageing: it stays as it is.
  const aged = rowsOf('paint-ages').some((row) => row.becomes === surface)
  const start = { a: numberIn(fresh, 'absorptance'), e: numberIn(fresh, 'emittance') }
  if (ages === undefined)
    return {
      absorptanceFrac: start.a,
      emittanceFrac: start.e,
      rests: sourceOf('surface-optics', fresh),
      ageUnknown: ageYears > 0 && !aged,
    }
  const old = rowOf('surface-optics', wordsIn(ages, 'becomes'))
  const share = Math.min(ageYears / numberIn(ages, 'age'), 1)
  return {
    absorptanceFrac: start.a + share * (numberIn(old, 'absorptance') - start.a),
    emittanceFrac: start.e + share * (numberIn(old, 'emittance') - start.e),
    rests: share === 0 ? sourceOf('surface-optics', fresh) : sourceOf('paint-ages', ages),
    ageUnknown: false,
  }
}

/** Emittance of a coat, inside ones too. */
export const emittanceFrac = (surface: string): number => numberIn(rowOf('surface-optics', surface), 'emittance')

/** Roughness of a surface to the wind, table `roughness`. */
export const roughnessRatio = (kind: string): number => numberIn(rowOf('roughness', kind), 'Rf')
