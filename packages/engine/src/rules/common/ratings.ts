import { put, type Source, type Step, step, type Worked } from '../../kernel/index.ts'
import { type Book, listAt } from './book.ts'

/** Standard rating at or above a current; null when the list ends below it. */
export function ratingAtOrAboveA(book: Book, list: string, neededA: number): Worked<number | null> {
  const ratings = listAt(book, 'standard-ratings', list, 'ratings')
  const value = ratings.value.find((rating) => rating >= neededA * (1 - EXACT)) ?? null
  return { value, steps: [ratingStep('at or above', neededA, value, ratings.rests)] }
}

/** Standard rating at or below a current; null when the list begins above it. */
export function ratingAtOrBelowA(book: Book, list: string, limitA: number): Worked<number | null> {
  const ratings = listAt(book, 'standard-ratings', list, 'ratings')
  const value = ratings.value.findLast((rating) => rating <= limitA * (1 + EXACT)) ?? null
  return { value, steps: [ratingStep('at or below', limitA, value, ratings.rests)] }
}

function ratingStep(which: string, currentA: number, value: number | null, rests: Source): Step {
  return step('In', `standard rating ${which} I`, [put('I', currentA, 'A')], value ?? 'none', 'A', rests)
}

/** Products of printed figures (1.25 × 64) differ from the rating they mean in the last bits only. */
const EXACT = 1e-9
