import { expect, test } from 'vitest'
import { answerReach } from './answer.ts'
import { runDropV } from './drop.ts'
import { exampleInputs } from './example.ts'
import { reachMoved } from './moved-cords.ts'

const inputs = exampleInputs()
const one = (lengthM: number) => reachMoved(inputs, { M0: lengthM })[0]!

test('at its own length a cord is answered as the design is', () => {
  const { findings, result } = answerReach(inputs)
  const plug = inputs.job.plugs.find((p) => p.tag === 'M0')!
  const row = result.boxes[0]!.states[0]!.plugs.find((p) => p.plug === 'M0')!
  const moved = one(plug.cordM)
  expect(moved.voltageV).toBe(row.voltageV)
  expect(moved.dropFrac).toBe(row.totalDropFrac)
  const own = findings.filter((f) => f.subject === 'M0').map((f) => f.verdict)
  expect(own).toContain(moved.verdict)
})

// ΔU = 2·I·L·r at the current between the two, by hand: a heater takes fewer amperes at fewer volts, so the network loses a little less.
// NEC 210.19 informational note (practice). Provenance: memory
test('ten metres more lose what the hand’s formula says, less by at most six in a hundred', () => {
  const [near, far] = [one(20), one(30)]
  const { rules } = inputs
  const size = inputs.design.boxes[0]!.circuits.flatMap((c) => c.cords).find((c) => c.plug === 'M0')!.size
  const { r } = rules.impedanceOhmPerM({ size, metal: 'cu', where: 'cord', temperatureC: 60 }).value
  const currentA = ((1500 / 120) * (near.voltageV! + far.voltageV!)) / 2 / 120
  const run = { lengthM: 10, currentA, resistanceOhmPerM: r, reactanceOhmPerM: 0, powerFactorFrac: 1, phases: 1 as const }
  const ratio = (near.voltageV! - far.voltageV!) / runDropV(run)
  expect(ratio).toBeGreaterThan(0.94)
  expect(ratio).toBeLessThan(1)
})

test('a cord grows until it fails, and a heavier one is offered', () => {
  expect(['holds', 'tight']).toContain(one(5).verdict)
  const far = one(300)
  expect(far.verdict).toBe('fails')
  expect(far.said.length).toBeGreaterThan(0)
  expect(far.mends.some((m) => /cord instead of|branch conductors instead of|feed instead of/.test(m))).toBe(true)
})
