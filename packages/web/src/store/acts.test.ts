import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type Act, inverse, meet, patchBetween, patched, textAfter, undoable } from './acts.ts'

test('a patch leads from one text to the other, and its inverse back', () => {
  fc.assert(
    fc.property(fc.string(), fc.string(), (a, b) => {
      const patch = patchBetween(a, b)
      expect(patched(a, patch)).toBe(b)
      expect(patched(b, inverse(patch))).toBe(a)
    }),
    { seed: 5, numRuns: 300 },
  )
})

test('a patch is only as long as what changed', () => {
  expect(patchBetween('cord: 30 m\nhours: 3 h\n', 'cord: 36 m\nhours: 3 h\n')).toEqual({ at: 7, gone: '0', come: '6' })
})

test('a patch made on another text is refused', () => {
  expect(() => patched('abc', { at: 0, gone: 'x', come: 'y' })).toThrow(RangeError)
})

/** Does and undoes, as a person would. */
function log(base: string, moves: readonly (string | null)[]): readonly Act[] {
  const acts: Act[] = []
  for (const move of moves) {
    const now = textAfter(base, acts)
    const last = undoable(acts)
    const n = acts.length + 1
    if (move !== null) acts.push({ job: 'j', n, words: move, edits: [], patch: patchBetween(now, move) })
    else if (last !== null) acts.push({ job: 'j', n, words: '', edits: [], patch: inverse(last.patch), undoes: last.n })
  }
  return acts
}

test('undone as often as done, the text is what it was, however the two were mixed', () => {
  fc.assert(
    fc.property(fc.array(fc.option(fc.string({ minLength: 1 }), { nil: null }), { maxLength: 30 }), (moves) => {
      const acts = log('base', [...moves, ...moves.map(() => null)])
      expect(textAfter('base', acts)).toBe('base')
      expect(undoable(acts)).toBeNull()
    }),
    { seed: 11, numRuns: 200 },
  )
})

test('after an undo and another act, the act before the undone one is next', () => {
  const acts = log('a', ['b', 'c', null, 'd', null])
  expect(undoable(acts)?.words).toBe('b')
  expect(textAfter('a', acts)).toBe('b')
})

test('two acts meet where one asks for a place within the other’s', () => {
  const at = (...path: (string | number)[]) => [{ path }]
  expect(meet(at('choices', 'a'), at('choices', 'a'))).toBe(true)
  expect(meet(at('choices'), at('choices', 'a'))).toBe(true)
  expect(meet(at('choices', 'a'), at('choices', 'b'))).toBe(false)
})
