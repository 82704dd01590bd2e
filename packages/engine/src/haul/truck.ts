import { Fault } from '../kernel/index.ts'
import { finite } from './shelf.ts'

/**
 * How a box on a trailer's deck shares between its axle (or the middle of its axle group) and its kingpin.
 *
 *   axle = m · x / l, kingpin = m − axle; x: centre of gravity behind the kingpin, l: kingpin to axle
 *
 * x > l takes load off the kingpin: the share comes back negative, and the trailer lifts the tractor.
 * @throws Fault `haul/axle-range`
 */
export function axleShare(of: { readonly massKg: number; readonly kingpinToAxleM: number; readonly centreM: number }): {
  readonly axleKg: number
  readonly kingpinKg: number
} {
  finite('axle-range', of)
  if (!(of.massKg >= 0 && of.kingpinToAxleM > 0 && of.centreM >= 0)) throw new Fault('haul/axle-range', of)
  const axleKg = (of.massKg * of.centreM) / of.kingpinToAxleM
  return { axleKg, kingpinKg: of.massKg - axleKg }
}
