import { Fault, power, put, step, type Worked } from '../../kernel/index.ts'
import { type Book, figure } from './book.ts'

/**
 * Longest time a class A ground-fault interrupter may take.
 *
 *   T = (20 / I)^1.43 s,  I in mA; at most 7.26 s; 0.025 s from 264 mA up
 *
 * @throws Fault `rules/current-range`
 * @source UL 943. Provenance: memory
 */
export function classATimeS(book: Book, currentA: number): Worked<number> {
  if (!(currentA > 0)) throw new Fault('rules/current-range', currentA)
  const mA = currentA * 1000
  const [top, falls, longest] = [
    figure(book, 'class-a-numerator'),
    figure(book, 'class-a-exponent'),
    figure(book, 'class-a-longest'),
  ]
  const [fastFrom, fast] = [figure(book, 'class-a-fast-from'), figure(book, 'class-a-fast')]
  const value = mA >= fastFrom.value ? fast.value : Math.min(power(top.value / mA, falls.value), longest.value)
  return { value, steps: [step('T', '(20/I)^1.43', [put('I', mA, 'mA')], value, 's', falls.rests)] }
}
