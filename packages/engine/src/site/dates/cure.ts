import { Fault, power } from '../../kernel/index.ts'
import { figure } from './figures.ts'

/**
 * Days until a coat is hard in air of a temperature; null where it never hardens.
 *
 *   t = t20 · 2^((20 − T)/10),   T ≥ 5 °C
 *
 * Warmer than the reference the time is not shortened below a half: solvent has to leave.
 * @source a reaction halves in speed for each 10 K: rule of thumb. Provenance: memory
 * @throws Fault `dates/cure-range`
 */
export function cureDays(airC: number): number | null {
  if (!(airC > -90 && airC < 90)) throw new Fault('dates/cure-range', airC)
  if (airC < figure('cure least')) return null
  return figure('cure') * Math.max(0.5, power(2, (figure('cure reference') - airC) / figure('cure doubles')))
}
