import { describe, expect, test } from 'vitest'
import { nodeAfter, nodeByEuler, nodeByTwoStages, type WallLayer, wallChain, wallRunC } from './index.ts'

const HOUR = 3600
const BRICK = { k: 1.2, rho: 2000, c: 1000 }
const INSULATION = { k: 0.04, rho: 50, c: 1000 }
const BOARD = { k: 0.14, rho: 800, c: 1500 }
const layer = (m: typeof BRICK, thick: number, nodesCount: number): WallLayer => ({
  resistanceM2KPerW: thick / m.k,
  heatJPerM2K: thick * m.rho * m.c,
  nodesCount,
})
/** Outside to inside. */
const WALLS: Readonly<Record<string, (n: number) => readonly WallLayer[]>> = {
  'brick alone': (n) => [layer(BRICK, 0.2, n)],
  'insulation outside': (n) => [layer(INSULATION, 0.1, n), layer(BRICK, 0.2, n)],
  'insulation inside': (n) => [layer(BRICK, 0.2, n), layer(INSULATION, 0.1, n), layer(BOARD, 0.005, n)],
}

/**
 * Exact answer inside, shut off, to a degree outside that comes over `rampS`: poles of the layers' transfer matrices (Carslaw & Jaeger ch. 12; the
 * matrix of a slab in any text on periodic heat flow), found by halving, residues by difference.
 */
function exactFrac(layers: readonly WallLayer[], film: number, rampS: number, timeS: number): number {
  const head = (p: number): number => {
    let [t, q] = [1, 0]
    for (const { resistanceM2KPerW: r, heatJPerM2K: c } of layers.toReversed()) {
      const a = Math.sqrt(p * r * c)
      ;[t, q] = [Math.cos(a) * t + (r * Math.sin(a) * q) / a, (-a * Math.sin(a) * t) / r + Math.cos(a) * q]
    }
    return t + q / film
  }
  let sum = 1
  const end = 60 / (timeS - rampS)
  let [low, last] = [1e-9, head(1e-9)]
  for (let p = 1e-9; p < end; p *= 1.001) {
    const value = head(p)
    if (value * last < 0) {
      let [a, b] = [low, p]
      for (let n = 0; n < 80; n++) {
        const middle = (a + b) / 2
        if (head(middle) * head(a) > 0) a = middle
        else b = middle
      }
      const slope = -(head(a * (1 + 1e-6)) - head(a * (1 - 1e-6))) / (2e-6 * a)
      sum += ((-1 / (a * slope)) * Math.exp(-a * timeS) * (Math.exp(a * rampS) - 1)) / (a * rampS)
    }
    ;[low, last] = [p, value]
  }
  return sum
}

const run = (name: string, nodes: number, stepS: number, hours: readonly number[]) =>
  wallRunC(
    WALLS[name]!(nodes),
    { outsideWPerM2K: 8, insideWPerM2K: null, outsideC: (s) => 20 + 10 * Math.min(s / HOUR, 1), insideC: () => 20 },
    20,
    stepS,
    hours.map((h) => h * HOUR),
  )

describe('a wall of layers against its exact series', () => {
  const HOURS = [2, 6, 12, 24, 48, 120]
  for (const name of Object.keys(WALLS))
    test(`${name}: within 0.005 K at every hour`, () => {
      const exact = HOURS.map((h) => 20 + 10 * exactFrac(WALLS[name]!(1), 8, HOUR, h * HOUR))
      const ours = run(name, 40, 60, HOURS)
      for (const [i, c] of exact.entries())
        expect(Math.abs(ours[i]! - c), `${HOURS[i]} h: ${ours[i]} for ${c}`).toBeLessThan(0.005)
    })

  test('the printed answers (EN ISO 13791) lie within their 0.1 K of the series', () => {
    const printed = { 'brick alone': [20.04, 21.26, 23.48, 26.37], 'insulation inside': [20, 20.26, 21.67, 24.9] }
    for (const [name, values] of Object.entries(printed))
      for (const [i, c] of values.entries())
        expect(Math.abs(20 + 10 * exactFrac(WALLS[name]!(1), 8, HOUR, [2, 6, 12, 24][i]! * HOUR) - c)).toBeLessThan(0.1)
  })

  test('half the slices, four times the error; steps of a quarter hour cost less than slices of 4 cm', () => {
    const exact = 20 + 10 * exactFrac(WALLS['brick alone']!(1), 8, HOUR, 6 * HOUR)
    const error = (nodes: number, step: number) => Math.abs(run('brick alone', nodes, step, [6])[0]! - exact)
    const ratio = error(5, 60) / error(10, 60)
    expect(ratio).toBeGreaterThan(3)
    expect(ratio).toBeLessThan(5)
    expect(error(40, 900)).toBeLessThan(error(5, 60))
  })

  test('between two standing airs it comes to rest on its U', () => {
    const wall = WALLS['insulation outside']!(10)
    const r = wall.reduce((sum, one) => sum + one.resistanceM2KPerW, 0)
    const edges = { outsideWPerM2K: 20, insideWPerM2K: 5, outsideC: () => -10, insideC: () => 20 }
    const u = 1 / (1 / 20 + r + 1 / 5)
    expect(wallRunC(wall, edges, 0, HOUR, [2000 * HOUR])[0]).toBeCloseTo(20 - (u * 30) / 5, 9)
  })

  test('a layer without heat is resistance, and a wall of nothing else is refused', () => {
    const chain = wallChain([{ resistanceM2KPerW: 2, heatJPerM2K: 0, nodesCount: 1 }, layer(BRICK, 0.2, 2)])
    expect([...chain.heatJPerM2K]).toEqual([200_000, 200_000])
    expect(chain.betweenM2KPerW[0]).toBeCloseTo(2 + 0.05 / 1.2, 12)
    expect(() => wallChain([{ resistanceM2KPerW: 2, heatJPerM2K: 0, nodesCount: 1 }])).toThrow('air/wall-range')
    expect(() => run('brick alone', 4, 7000, [2])).toThrow('air/wall-range')
  })
})

describe('a thin sheet', () => {
  const TAU = 361.1
  test('one step of backward Euler by its formula to 1e-9', () => {
    for (const dt of [3600, 900, 60]) expect(nodeByEuler(0, 10, dt, TAU)).toBeCloseTo((10 * dt) / TAU / (1 + dt / TAU), 9)
  })

  test('two stages: half the step, a quarter of the error; and no ringing however long the step', () => {
    const error = (n: number) => {
      let x = 0
      for (let i = 0; i < n; i++) x = nodeByTwoStages(x, 10, 900 / n, TAU)
      return Math.abs(x - nodeAfter(0, 10, 900, TAU))
    }
    expect(error(16) / error(32)).toBeGreaterThan(3.7)
    expect(error(16) / error(32)).toBeLessThan(4.3)
    expect(Math.abs(nodeByTwoStages(0, 10, 1e9, TAU) - 10)).toBeLessThan(1e-4)
  })
})
