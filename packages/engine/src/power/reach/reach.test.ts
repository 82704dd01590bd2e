import { expect, test } from 'vitest'
import { seeded } from '../../kernel/index.ts'
import { solveNodal, wireVolts } from '../network/index.ts'
import { exampleInputs } from './example.ts'
import { answerReach } from './index.ts'
import { networkOfYard } from './network-of.ts'
import { solveYard } from './solve-yard.ts'
import { type Yard, yardOf } from './yard.ts'

function yard(changes: Parameters<typeof exampleInputs>[0] = {}, mode: 'network' | 'own set' = 'network'): Yard {
  const inputs = exampleInputs(changes)
  return yardOf(inputs.design.boxes[0]!, {
    ...inputs,
    mode,
    end: 'weak',
    state: mode === 'network' ? 'steady' : 'transient',
    conductorC: 75,
    powerFactor: 'low',
  })
}

for (const system of ['split', 'wye'] as const) {
  for (const mode of ['network', 'own set'] as const) {
    test(`the passes of a box agree with the nodal solution to 1e-8 (${system}, ${mode})`, () => {
      const y = yard({ system, plugs: 30 }, mode)
      const r = seeded(11)
      for (let round = 0; round < 12; round++) {
        const on = Uint8Array.from(y.plugs, () => (r.next() < 0.7 ? 1 : 0))
        const ours = solveYard(y, { on })
        const { network, ends } = networkOfYard(y, { on })
        const theirs = solveNodal(network)
        expect(theirs.outcome).toBe('solved')
        y.elements.forEach((_, e) => {
          const [from, to] = ends[e]!
          const a = wireVolts(theirs, from)
          const b = wireVolts(theirs, to)
          expect(Math.hypot(a.re - b.re - ours.elementV[2 * e]!, a.im - b.im - ours.elementV[2 * e + 1]!) / 120).toBeLessThan(
            1e-8,
          )
        })
        expect(ours.imbalanceW).toBeLessThan(1e-6 * Math.max(1, ours.sourceW))
        expect(ours.residualA).toBeLessThan(1e-7)
      }
    })
  }
}

test('a constant-power load that no volts can feed is proven to have none, fails, and is named', () => {
  const inputs = exampleInputs({ plugs: 6, chargerW: 4200, cordM: 60, cordSize: '14 AWG' })
  const { findings, result } = answerReach(inputs)
  const found = findings.find((f) => f.code === 'reach/collapse')!
  expect(found.verdict).toBe('fails')
  expect(found.subject).toBe('M5')
  expect(result.boxes[0]!.states[0]!.outcome).toBe('none')
})

test('a heavier cord never lowers the volts at its own plug, and a longer one never raises them', () => {
  const at = (cordSize: string, cordM: number) =>
    answerReach(exampleInputs({ cordSize, cordM, interim: false })).result.boxes[0]!.states[0]!.plugs.map((p) => p.voltageV)
  const thin = at('12 AWG', 20),
    heavy = at('10 AWG', 20),
    longer = at('12 AWG', 24)
  thin.forEach((v, k) => {
    expect(heavy[k]!).toBeGreaterThanOrEqual(v - 1e-9)
    expect(longer[k]!).toBeLessThanOrEqual(v + 1e-9)
  })
})

test('renaming plugs and turning the rows around changes no number', () => {
  const plain = exampleInputs({ interim: false })
  const box = plain.design.boxes[0]!
  const turned = {
    ...plain,
    job: { ...plain.job, plugs: [...plain.job.plugs].reverse() },
    design: { ...plain.design, boxes: [{ ...box, circuits: [...box.circuits].reverse() }] },
  }
  const volts = (inputs: typeof plain, strip = '') =>
    new Map(answerReach(inputs).result.boxes[0]!.states[0]!.plugs.map((p) => [p.plug.replace(strip, ''), p.voltageV]))
  const a = volts(plain)
  const b = volts(turned)
  const c = volts(exampleInputs({ interim: false, rename: (tag) => `Z-${tag}` }), 'Z-')
  for (const [tag, v] of a) {
    expect(Math.abs(b.get(tag)! - v)).toBeLessThan(1e-9)
    expect(c.get(tag)!).toBe(v)
  }
})

test('the longest cord of a gauge, laid, just holds the limit; one metre more does not', () => {
  const size = '10 AWG'
  const first = answerReach(exampleInputs({ interim: false, cordSize: size })).result.boxes[0]!
  const cord = first.cords.find((c) => c.plug === 'M0')!
  const longest = cord.longest.find((l) => l.size === size)!.lengthM!
  const dropAt = (lengthM: number) => {
    const inputs = exampleInputs({ interim: false, cordSize: size })
    const box = inputs.design.boxes[0]!
    const circuits = box.circuits.map((c) => (c.plugs[0] === 'M0' ? { ...c, cords: [{ ...c.cords[0]!, lengthM }] } : c))
    return answerReach({
      ...inputs,
      design: { ...inputs.design, boxes: [{ ...box, circuits }] },
    }).result.boxes[0]!.states[0]!.plugs.find((p) => p.plug === 'M0')!.totalDropFrac
  }
  // Laid longer it draws less, so the panel stands a little higher than it was held: 0.2 % of the limit.
  expect(dropAt(longest)).toBeLessThanOrEqual(0.05 * 1.002)
  expect(dropAt(longest + 1)).toBeGreaterThan(0.05)
})

test('an own set dips more at a start than the network, behind its transient reactance', () => {
  const { result } = answerReach(exampleInputs())
  const [network, set] = result.boxes
  expect(set!.starts[0]!.atPanelPct).toBeGreaterThan(network!.starts[0]!.atPanelPct)
})

test('every finding names a working that exists, once', () => {
  const { findings, workings } = answerReach(exampleInputs({ system: 'wye' }))
  const ids = workings.map((w) => w.id)
  expect(new Set(ids).size).toBe(ids.length)
  for (const f of findings) for (const id of f.workings) expect(ids).toContain(id)
  expect(findings.some((f) => f.code === 'reach/open-neutral')).toBe(true)
})
