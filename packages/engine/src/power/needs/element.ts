import { Fault } from '../../kernel/index.ts'

export interface Element {
  readonly ratedW: number
  readonly ratedV: number
  readonly actualV: number
}

/**
 * What a resistive element gives on another voltage than it is marked for.
 *
 *   P = P0·(V/V0)²,  I = P/V
 *
 * Takes the resistance as the same hot and cold: true within a few per cent for sheathed elements. Volts and watts above 0.
 * @throws Fault `needs/element-range`
 * @source Joule's law. Provenance: computed
 */
export function elementOn({ ratedW, ratedV, actualV }: Element): {
  readonly powerW: number
  readonly leftFrac: number
  readonly currentA: number
} {
  if (!(ratedW > 0 && ratedV > 0 && actualV > 0 && ratedW < Infinity && ratedV < Infinity && actualV < Infinity))
    throw new Fault('needs/element-range', { ratedW, ratedV, actualV })
  const leftFrac = (actualV / ratedV) ** 2
  const powerW = ratedW * leftFrac
  return { powerW, leftFrac, currentA: powerW / actualV }
}
