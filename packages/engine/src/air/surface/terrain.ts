import { Fault } from '../../kernel/index.ts'
import { numberIn, rowOf } from '../shelf.ts'
import { powerOf } from './roots.ts'

/** Profile of the wind: exponent and depth of the layer it is slowed in. */
export interface Terrain {
  readonly exponentRatio: number
  readonly layerM: number
}

/**
 * Wind at a height over one terrain from a mast over another, as a share of the mast's: (d₀/h₀)^a₀ · (h/d)^a.
 * One number for a whole run: the wind of each hour is multiplied by it.
 * @throws Fault `air/terrain-range`
 * @source ASHRAE Fundamentals ch. 24, table 1. Provenance: memory
 */
export function windAtHeightRatio(mast: Terrain, mastHeightM: number, there: Terrain, heightM: number): number {
  if (!(mastHeightM > 0 && heightM > 0 && mast.layerM > 0 && there.layerM > 0))
    throw new Fault('air/terrain-range', { mast, mastHeightM, there, heightM })
  return powerOf(mast.layerM / mastHeightM, mast.exponentRatio) * powerOf(heightM / there.layerM, there.exponentRatio)
}

/** Words of a job for the ground that wind comes over, and their rows of table `wind-terrain`. */
const ROWS = { open: 'open, airport', country: 'rough, wooded, suburb', town: 'town centre' } as const
export type TerrainWord = keyof typeof ROWS

/** Profile of the wind over such ground. @source table `wind-terrain` */
export function terrainOf(word: TerrainWord): Terrain {
  const row = rowOf('wind-terrain', ROWS[word])
  return { exponentRatio: numberIn(row, 'a'), layerM: numberIn(row, 'd') }
}
