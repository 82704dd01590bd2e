import { Fault, log10, put, step, type Worked } from '../../kernel/index.ts'
import { type Book, figure } from './book.ts'

/**
 * k of S ≥ I·√t/k from the melting-free heating of a conductor, A·√s/mm².
 *
 *   (I/A)²·t = C · log10((T2 + T0)/(T1 + T0)),  A in circular mils;  k = √(C·log10(…)) · cmil/mm²
 *
 * @source ICEA P-32-382. Provenance: memory
 */
export function heatingK(
  book: Book,
  wire: { readonly metal: 'cu' | 'al'; readonly initialC: number; readonly finalC: number },
): Worked<number> {
  if (!(wire.finalC > wire.initialC)) throw new Fault('rules/adiabatic-range', wire)
  const c = figure(book, `heat-constant-${wire.metal}`)
  const t0 = figure(book, `heat-offset-${wire.metal}`)
  const mils = figure(book, 'mil-per-mm2')
  const value = Math.sqrt(c.value * log10((wire.finalC + t0.value) / (wire.initialC + t0.value))) * mils.value
  const puts = [put('C', c.value), put('T0', t0.value, '°C'), put('T1', wire.initialC, '°C'), put('T2', wire.finalC, '°C')]
  return { value, steps: [step('k', '√(C·log10((T2 + T0)/(T1 + T0)))·cmil/mm²', puts, value, 'A√s/mm²', c.rests)] }
}

/** Least area that bears a fault: S = I·√t/k, mm². For 0.1 to 5 s. @source IEC 60364-4-43 434.5.2. Provenance: memory */
export const adiabaticAreaMm2 = (fault: { readonly currentA: number; readonly timeS: number; readonly k: number }): number =>
  (fault.currentA * Math.sqrt(fault.timeS)) / fault.k

/** Fault current that an area bears for a time: I = k·S/√t, A. For 0.1 to 5 s. @source IEC 60364-4-43 434.5.2. Provenance: memory */
export const adiabaticCurrentA = (wire: { readonly areaMm2: number; readonly timeS: number; readonly k: number }): number =>
  (wire.k * wire.areaMm2) / Math.sqrt(wire.timeS)
