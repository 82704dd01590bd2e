import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { EARTH, type Network } from './model.ts'
import { solveNodal } from './nodal.ts'
import { fillRadial, radialWork } from './radial.ts'
import { radialExample } from './radial-example.ts'
import { randomYard } from './random-yard.ts'
import type { Solution } from './solution.ts'
import { spiceNetlist } from './spice.ts'
import { solveSweep } from './sweep.ts'

const YARDS = Array.from({ length: 200 }, (_, seed) => randomYard(seed + 1))
const solved = YARDS.map((y) => solveNodal(y.network))
const spice = spawnSync('ngspice', ['--version']).status === 0

test('every random yard is solved, Kirchhoff holds, and watts in are loads plus losses', () => {
  YARDS.forEach((y, k) => {
    const s = solved[k]!
    expect(s.outcome, y.words).toBe('solved')
    expect(s.check.residualA, y.words).toBeLessThan(1e-6)
    expect(s.check.imbalanceVA, y.words).toBeLessThan(1e-7 * Math.max(1, s.check.sourceVA.re))
    expect(s.check.neutralSumA, y.words).toBeLessThan(1e-6)
    expect(s.check.lossVA.re, y.words).toBeGreaterThan(0)
  })
  expect(YARDS.filter((y) => y.radial).length).toBeGreaterThan(80)
  expect(YARDS.filter((y) => !y.radial).length).toBeGreaterThan(40)
})

/** Largest difference of the volts: against earth where a wire is grounded, between wires of its part where it floats. */
function difference(network: Network, a: Solution, at: (wire: number, k: 0 | 1) => number): number {
  const floats = new Set(a.floating)
  const reference = a.floating[0] ?? EARTH
  let most = 0
  let top = 0
  for (let w = 0; w < network.wires.length; w++) {
    const base = floats.has(w) ? reference : EARTH
    const ours = [0, 1].map((k) => a.volts[2 * w + k]! - (base === EARTH ? 0 : a.volts[2 * base + k]!))
    const theirs = ([0, 1] as const).map((k) => at(w, k) - (base === EARTH ? 0 : at(base, k)))
    const size = Math.hypot(ours[0]!, ours[1]!)
    top = Math.max(top, size)
    // Of a neutral's few volts, against the volts of its phases.
    most = Math.max(most, Math.hypot(ours[0]! - theirs[0]!, ours[1]! - theirs[1]!) / Math.max(size, 100))
  }
  expect(top).toBeGreaterThan(100)
  return most
}

test('nodal and sweep agree to 1e-8 on the radial yards', () => {
  let compared = 0
  YARDS.forEach((y, k) => {
    const sweep = solveSweep(y.network)
    if (!y.radial) {
      expect(sweep, y.words).toBeNull()
      return
    }
    compared++
    expect(sweep?.outcome, y.words).toBe('solved')
    expect(
      difference(y.network, solved[k]!, (w, c) => sweep!.volts[2 * w + c]!),
      y.words,
    ).toBeLessThan(1e-8)
  })
  expect(compared).toBeGreaterThan(80)
})

test.skipIf(!spice)(
  spice
    ? 'a circuit simulator given the loads as converged admittances returns the same volts to 1e-6, 200 yards'
    : 'SKIPPED, ngspice is not installed: 200 yards against a circuit simulator',
  () => {
    const folder = mkdtempSync(join(tmpdir(), 'yards-'))
    try {
      let worst = 0
      for (let first = 0; first < YARDS.length; first += 20) {
        const batch = YARDS.slice(first, first + 20).map((y, k) => ({
          network: y.network,
          solved: solved[first + k]!,
          words: y.words,
        }))
        writeFileSync(join(folder, 'yards.cir'), spiceNetlist(batch, join(folder, 'yards.raw')))
        const run = spawnSync('ngspice', ['-b', join(folder, 'yards.cir')], { encoding: 'utf8', timeout: 30_000 })
        expect(run.status, run.stderr.slice(0, 400)).toBe(0)
        const volts = rawVolts(readFileSync(join(folder, 'yards.raw'), 'utf8'))
        batch.forEach(({ network, words }, k) => {
          const d = difference(network, solved[first + k]!, (w, c) => volts.get(`v(y${k}w${w})`)?.[c] ?? Number.NaN)
          worst = Math.max(worst, d)
          expect(d, words).toBeLessThan(1e-6)
        })
      }
      expect(worst).toBeGreaterThan(0)
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  },
  120_000,
)

/** Vectors of a raw file in text form with one point. */
function rawVolts(text: string): ReadonlyMap<string, readonly [number, number]> {
  const [head, body] = text.split('Values:\n') as [string, string]
  const names = [...head.slice(head.indexOf('Variables:')).matchAll(/^\t\d+\t(\S+)/gm)].map((m) => m[1]!)
  const values = [...body.matchAll(/(-?[\d.]+e[+-]\d+),(-?[\d.]+e[+-]\d+)/g)].map((m) => [Number(m[1]), Number(m[2])] as const)
  return new Map(names.map((name, i) => [name, values[i]!]))
}

test('doubling one lagging two-terminal load never raises the volts at its own plug', () => {
  YARDS.slice(0, 60).forEach((y, k) => {
    const at = k % y.network.loads.length
    const load = y.network.loads[at]!
    const doubled = {
      ...y.network,
      loads: y.network.loads.map((l, i) => (i === at ? { ...l, sVA: { re: 2 * l.sVA.re, im: 2 * l.sVA.im } } : l)),
    }
    const across = (s: Solution) => {
      const v = (w: number, c: 0 | 1) => (w === EARTH ? 0 : s.volts[2 * w + c]!)
      return Math.hypot(v(load.from, 0) - v(load.to, 0), v(load.from, 1) - v(load.to, 1))
    }
    const after = solveNodal(doubled)
    if (after.outcome !== 'solved') return
    expect(across(after), y.words).toBeLessThanOrEqual(across(solved[k]!) * (1 + 1e-9))
  })
})

for (const wires of [3, 5] as const) {
  test(`the sweep of a feeder of 123 nodes and ${wires} wires agrees with the nodal solution to 1e-8`, () => {
    const { radial, sourceV, network } = radialExample(123, wires)
    const work = radialWork(radial)
    expect(fillRadial(radial, sourceV, 230e-11, 100, work)).toBeGreaterThan(0)
    const nodal = solveNodal(network)
    network.wires.forEach((name, i) => {
      const [node, wire] = name.split('.')
      const j = 2 * (wires * Number(node) + 'abcnp'.indexOf(wire!))
      expect(Math.hypot(work.volts[j]! - nodal.volts[2 * i]!, work.volts[j + 1]! - nodal.volts[2 * i + 1]!) / 230).toBeLessThan(
        1e-8,
      )
    })
  })
}
