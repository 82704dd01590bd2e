import { expect, test } from 'vitest'
import { NEIGHBOURS } from './key-net.ts'

test('whoever turns right four times has seen every wall and stands where they began', () => {
  let at: keyof typeof NEIGHBOURS = 'left'
  const seen: string[] = []
  for (let turn = 0; turn < 4; turn++) {
    seen.push(at)
    const [left, right] = NEIGHBOURS[NEIGHBOURS[at][1]]
    expect(left).toBe(at)
    expect(right).not.toBe(at)
    at = NEIGHBOURS[at][1]
  }
  expect(seen).toEqual(['left', 'blind end', 'right', 'door end'])
  expect(at).toBe('left')
})
