import { Fault } from '../../kernel/index.ts'
import type { WeatherHours } from '../types.ts'
import type { Climate } from './climate.ts'
import { madeYear } from './year.ts'

/** The year a design is made for: a normal one, seed 1. */
export const DESIGN_SEED = 1
/** Years that a design is tried over. */
export const YEARS = 30

/** The year of a job: seed 1, each month with the mean and the spread of the normals. */
export const designYear = (climate: Climate): WeatherHours => madeYear(climate, { seed: DESIGN_SEED, normal: true })

/**
 * One of thirty years, 1 to 30, whose months lie off the normals as the months of real years do. Seeds 2 to 31: none repeats the design year.
 * @throws Fault `weather/year-of-thirty`
 */
export function oneOfThirty(climate: Climate, n: number): WeatherHours {
  if (!(Number.isInteger(n) && n >= 1 && n <= YEARS)) throw new Fault('weather/year-of-thirty', n)
  return madeYear(climate, { seed: DESIGN_SEED + n, normal: false })
}
