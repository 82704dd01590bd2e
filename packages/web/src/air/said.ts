import type { Preferences } from '../hands/preferences.ts'
import { shownTo } from '../hands/units.ts'

type Units = Preferences['units']

const FL_OZ_PER_KG = 128 / 3.785411784

/** Water by its mass: litres or gallons; grams or fluid ounces where it is little. */
export function waterSaid(massKg: number, units: Units): string {
  if (units === 'us') {
    const flOz = massKg * FL_OZ_PER_KG
    return flOz < 32 ? shownTo(flOz < 9.5 ? 1 : 0, flOz, 'fl\u202foz', units) : shownTo(massKg < 35 ? 2 : 1, massKg, 'l', units)
  }
  return massKg < 0.0995 ? shownTo(0, massKg * 1000, 'g', units) : shownTo(1, massKg, 'l', units)
}
