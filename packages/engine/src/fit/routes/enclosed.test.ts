import fc from 'fast-check'
import { expect, test } from 'vitest'
import { BLOCKED, isEnclosed, NO_BEND, NO_LEVEL, NO_UPRIGHT } from './enclosed.ts'

const [WIDE, HIGH] = [7, 6]
const STEPS = [HIGH, -HIGH, 1, -1] as const

/** One line on in a direction; −1: off the grid. */
function on(cell: number, way: number): number {
  const [i, j] = [Math.floor(cell / HIGH), cell % HIGH]
  const off = [i === WIDE - 1, i === 0, j === HIGH - 1, j === 0][way]
  return off === true ? -1 : cell + STEPS[way]!
}

/** Forwards from every start, every turn tried: what the search looks for backwards. */
function isLed(bits: Uint8Array, starts: readonly number[], goals: ReadonlySet<number>): boolean {
  const seen = new Set<number>()
  const open = [...starts]
  for (let state = open.pop(); state !== undefined; state = open.pop()) {
    const way = state & 3
    const next = on(state >> 2, way)
    if (next < 0) continue
    if (goals.has(4 * next + way)) return true
    if ((bits[next]! & (BLOCKED | (way < 2 ? NO_LEVEL : NO_UPRIGHT))) !== 0) continue
    const ways = (bits[next]! & NO_BEND) !== 0 ? [way] : [way, ...(way < 2 ? [2, 3] : [0, 1])]
    for (const w of ways) {
      if (seen.has(4 * next + w)) continue
      seen.add(4 * next + w)
      open.push(4 * next + w)
    }
  }
  return false
}

const bit = fc.constantFrom(0, 0, 0, BLOCKED, BLOCKED, NO_LEVEL, NO_UPRIGHT, NO_BEND, NO_BEND | NO_LEVEL, NO_BEND | NO_UPRIGHT)
const state = fc.integer({ min: 0, max: 4 * WIDE * HIGH - 1 })

test('an end that is shut in is led to by no thread, tried from the other side', () => {
  const seen = { shut: 0, open: 0 }
  fc.assert(
    fc.property(
      fc.array(bit, { minLength: WIDE * HIGH, maxLength: WIDE * HIGH }),
      fc.array(state, { minLength: 1, maxLength: 3 }),
      fc.array(state, { minLength: 1, maxLength: 3 }),
      (cells, from, to) => {
        const bits = Uint8Array.from(cells)
        const starts = new Uint8Array(4 * bits.length)
        for (const k of from) starts[k] = 1
        const goals = to.map((k) => ({ cell: k >> 2, way: k & 3 }))
        const shut = isEnclosed({ columns: HIGH, bits, goals, starts, across: false })
        seen[shut ? 'shut' : 'open'] += 1
        if (shut) expect(isLed(bits, from, new Set(to))).toBe(false)
      },
    ),
    { numRuns: 3000, seed: 11 },
  )
  expect(Math.min(seen.shut, seen.open)).toBeGreaterThan(300)
})

test('an end in a ring is shut in; a gap in the ring, or a way down from the ceiling, opens it', () => {
  const bits = new Uint8Array(WIDE * HIGH)
  for (let i = 1; i <= 5; i++) for (let j = 1; j <= 5; j++) if (i === 1 || i === 5 || j === 1) bits[i * HIGH + j] = BLOCKED
  const starts = new Uint8Array(4 * bits.length)
  starts[4 * (HIGH * 0 + 0) + 2] = 1
  const ends = { columns: HIGH, goals: [{ cell: 3 * HIGH + 3, way: 3 }], starts }
  expect(isEnclosed({ ...ends, bits, across: false })).toBe(true)
  expect(isEnclosed({ ...ends, bits, across: true })).toBe(false)
  expect(isEnclosed({ ...ends, bits: bits.with(1 * HIGH + 3, 0), across: false })).toBe(false)
})
