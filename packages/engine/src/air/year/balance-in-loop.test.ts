import { expect, test } from 'vitest'
import { engineOf } from './engine.ts'
import { PLACE } from './kernel.ts'
import { layoutOf } from './layout.ts'
import { plainLoop } from './loop.ts'
import { sampleBox } from './sample-boxes.ts'
import { sampleHours } from './sample-hours.ts'
import { surroundingsOf } from './surroundings.ts'
import type { BoxModel } from './types.ts'

const HOURS = 24 * 60
const box = sampleBox(0)
const vent = (areaM2: number) => ({ id: 'vent', side: 'left' as const, areaM2, heightM: 2, dischargeRatio: 0.45, winterFrac: 1 })

/** Root laws of all sizes among cracks: by itself Newton's step leaps across a wide hole's root and back, and only halving brings it in. */
test.each<readonly [string, BoxModel]>([
  ['two vents alike', box],
  ['one wide vent among cracks', { ...box, openings: [vent(0.16)] }],
  ['a wide vent and a small one', { ...box, openings: [vent(0.16), { ...vent(0.001), id: 'small', heightM: 0.2 }] }],
  ['cracks alone', { ...box, openings: [] }],
])('found: %s come into balance within five passes, in the mean', (_, model) => {
  const around = surroundingsOf(model, sampleHours(HOURS, -2), { stepsPerHour: 4 })
  const engine = engineOf(model, layoutOf(model), around, { firstRunHours: 0, startC: null, startVapourPa: null })
  plainLoop(engine, 0, engine.stepsCount)
  const balances = engine.state[PLACE.AT_BALANCES]!
  expect(balances).toBeGreaterThanOrEqual(engine.stepsCount)
  expect(engine.state[PLACE.AT_PASSES]! / balances).toBeLessThan(5)
  // Nothing is left over at the end: the flows stand as the last balance left them.
  const [net, all] = engine.flowOf.reduce(([n, a], f) => [n + f, a + Math.abs(f)] as const, [0, 0] as readonly [number, number])
  expect(Math.abs(net)).toBeLessThan(1e-12 * all + 1e-15)
})
