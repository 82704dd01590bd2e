import { expect, test } from 'vitest'
import { type Engine, engineOf } from './engine.ts'
import { advance, PLACE } from './kernel.ts'
import { layoutOf } from './layout.ts'
import { sampleBox } from './sample-boxes.ts'
import { sampleHours } from './sample-hours.ts'
import { surroundingsOf } from './surroundings.ts'

const DAYS = 6
const PARTS = 3
const box = { ...sampleBox(0), waterKgS: new Float64Array(288), floor: { ...sampleBox(0).floor, dryKgPerM2: 0 } }
const hours = sampleHours(24 * DAYS, 6)
const sur = surroundingsOf(
  box,
  { ...hours, columns: { ...hours.columns, vapourPa: new Float64Array(24 * DAYS).fill(30) } },
  { stepsPerHour: 4 },
)
const begun = (): Engine => engineOf(box, layoutOf(box), sur, { firstRunHours: 0, startC: sur.airC[0]!, startVapourPa: 30 })
/** States of the step before, and where they now stand. */
const BEFORE = [
  [PLACE.AT_AP, PLACE.AT_A],
  [PLACE.AT_RP, PLACE.AT_R],
  [PLACE.AT_WP, PLACE.AT_W],
  [PLACE.AT_U1P, PLACE.AT_U1],
  [PLACE.AT_U2P, PLACE.AT_U2],
] as const
/** The same slope of everything, told over a share of the time. */
function toldOver(engine: Engine, frac: number): void {
  const { state, X, N } = engine
  for (const [before, now] of BEFORE) state[before] = state[now]! - frac * (state[now]! - state[before]!)
  for (let i = 0; i < N; i++) {
    const at = i * PLACE.DEEP
    X[at + PLACE.BEFORE] = X[at + PLACE.NOW]! - frac * (X[at + PLACE.NOW]! - X[at + PLACE.BEFORE]!)
  }
  state[PLACE.AT_BEFORE_S] = state[PLACE.AT_BEFORE_S]! * frac
}

test('after a step taken in parts the step before is one part long, after a whole one it is whole', () => {
  const engine = begun()
  const lengths = new Map<number, number>()
  for (let k = 0; k < 4 * 24 * DAYS; k++) {
    const [a, ap] = [engine.state[PLACE.AT_A]!, engine.state[PLACE.AT_AP]!]
    advance(engine, k, k + 1)
    const seconds = engine.state[PLACE.AT_BEFORE_S]!
    lengths.set(seconds, (lengths.get(seconds) ?? 0) + 1)
    // A whole step leaves behind it where it began; parts leave where the last of them began.
    if (seconds === 900) expect(engine.state[PLACE.AT_AP]).toBe(a)
    else expect(Math.abs(engine.state[PLACE.AT_AP]! - a) + Math.abs(a - ap)).toBeGreaterThan(0)
  }
  expect([...lengths.keys()].sort((one, other) => one - other)).toEqual([900 / PARTS, 900])
  expect(lengths.get(900 / PARTS)).toBeGreaterThan(5)
  expect(lengths.get(900)).toBeGreaterThan(100)
})

test('where a step points is a slope: told over the whole step before or over a third of it, the next step is the same', () => {
  for (const at of [30, 41, 70, 200, 333]) {
    const [one, other] = [begun(), begun()]
    for (const engine of [one, other]) {
      advance(engine, 0, at)
      // Air that the box breathes is told by the middle of the last step, which is not carried over here.
      engine.state[PLACE.AT_DRY_KG_BEFORE] = -1
    }
    toldOver(other, 1 / 3)
    for (const engine of [one, other]) advance(engine, at, at + 1)
    expect(one.state[PLACE.AT_A]).not.toBe(one.state[PLACE.AT_AP])
    for (const place of [PLACE.AT_A, PLACE.AT_R, PLACE.AT_W])
      expect(Math.abs(one.state[place]! - other.state[place]!)).toBeLessThan(1e-9)
    for (let i = 0; i < one.N; i++)
      expect(Math.abs(one.X[i * PLACE.DEEP + PLACE.NOW]! - other.X[i * PLACE.DEEP + PLACE.NOW]!)).toBeLessThan(1e-9)
  }
})
