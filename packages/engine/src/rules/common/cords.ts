import { put, step, type Worked } from '../../kernel/index.ts'
import { type Book, numberOrNull } from './book.ts'

/** Lowest temperature usually marked on a jacket that is moved; null when the type is not in the table. */
export function cordColdC(book: Book, type: string): Worked<number | null> {
  const lowest = numberOrNull(book, 'cord-jackets', type, 'lowest')
  if (lowest === null) {
    const rests = {
      place: 'cord-jackets: type not listed, take the number printed on the jacket',
      provenance: 'assumed',
    } as const
    return { value: null, steps: [step('T', 'not in the table', [put('type', type)], 'unknown', '°C', rests)] }
  }
  return {
    value: lowest.value,
    steps: [step('T', 'lowest temperature usually marked', [put('type', type)], lowest.value, '°C', lowest.rests)],
  }
}
