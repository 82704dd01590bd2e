import { Fault } from '../../kernel/index.ts'
import { TWO_STAGE_RATIO } from './node.ts'

/** One layer, from outside to inside. */
export interface WallLayer {
  readonly resistanceM2KPerW: number
  readonly heatJPerM2K: number
  /** Slices it is cut into, a node in the middle of each. ≥ 1; of no count without heat. */
  readonly nodesCount: number
}

/** A wall as a chain of nodes: `heatJPerM2K` of each, and the resistance before each and after the last (one more). */
export interface WallChain {
  readonly heatJPerM2K: Float64Array
  readonly betweenM2KPerW: Float64Array
}

/**
 * Nodes in the middle of slices; a layer without heat is resistance only.
 * @throws Fault `air/wall-range` when no layer keeps heat
 */
export function wallChain(layers: readonly WallLayer[]): WallChain {
  const heat: number[] = []
  const between: number[] = [0]
  for (const layer of layers) {
    const { resistanceM2KPerW: r, heatJPerM2K: c, nodesCount: n } = layer
    if (!(r >= 0 && c >= 0 && Number.isInteger(n) && n >= 1)) throw new Fault('air/wall-range', layer)
    if (c === 0) {
      between[between.length - 1]! += r
      continue
    }
    for (let i = 0; i < n; i++) {
      between[between.length - 1]! += r / n / 2
      heat.push(c / n)
      between.push(r / n / 2)
    }
  }
  if (heat.length === 0) throw new Fault('air/wall-range', layers)
  return { heatJPerM2K: Float64Array.from(heat), betweenM2KPerW: Float64Array.from(between) }
}

/** Edges of a wall in one run. Null inside: nothing goes in, the inner face is shut off. */
export interface WallEdges {
  readonly outsideWPerM2K: number
  readonly insideWPerM2K: number | null
  readonly outsideC: (timeS: number) => number
  readonly insideC: (timeS: number) => number
}

/**
 * Temperature of the innermost face at each asked time, °C, from a wall at one temperature: two-stage L-stable steps (γ = 1 − 1/√2), edges
 * read at each stage. Times rise and are whole steps.
 * @throws Fault `air/wall-range`
 */
export function wallRunC(
  layers: readonly WallLayer[],
  edges: WallEdges,
  startC: number,
  stepS: number,
  atS: readonly number[],
): readonly number[] {
  const { heatJPerM2K: heat, betweenM2KPerW: between } = wallChain(layers)
  const n = heat.length
  if (!(stepS > 0 && edges.outsideWPerM2K > 0)) throw new Fault('air/wall-range', { stepS })
  const gain = Float64Array.from(between, (r, i) =>
    i === 0
      ? 1 / (1 / edges.outsideWPerM2K + r)
      : i < n
        ? 1 / r
        : edges.insideWPerM2K === null
          ? 0
          : 1 / (1 / edges.insideWPerM2K + r),
  )
  const t = new Float64Array(n).fill(startC)
  const stage = new Float64Array(n)
  const base = new Float64Array(n)
  const h = TWO_STAGE_RATIO * stepS
  const solve = (timeS: number) => chainStage(stage, base, heat, gain, h, edges.outsideC(timeS), edges.insideC(timeS))
  const faceC = (timeS: number): number => {
    const last = t[n - 1]!
    if (edges.insideWPerM2K === null) return last
    return last + gain[n]! * between[n]! * (edges.insideC(timeS) - last)
  }
  const found: number[] = []
  let steps = 0
  for (const until of atS) {
    const last = Math.round(until / stepS)
    if (Math.abs(last * stepS - until) > 1e-6 || last < steps) throw new Fault('air/wall-range', { until, stepS })
    for (; steps < last; steps++) {
      const now = steps * stepS
      base.set(t)
      solve(now + h)
      for (let i = 0; i < n; i++) base[i] = t[i]! + ((1 - TWO_STAGE_RATIO) / TWO_STAGE_RATIO) * (stage[i]! - t[i]!)
      solve(now + stepS)
      t.set(stage)
    }
    found.push(faceC(until))
  }
  return found
}

/** One implicit stage of the chain by elimination from outside inward: C(x − base)/h = what flows in at x. */
function chainStage(
  x: Float64Array,
  base: Float64Array,
  heat: Float64Array,
  gain: Float64Array,
  h: number,
  outsideC: number,
  insideC: number,
): void {
  const n = heat.length
  const upper = new Float64Array(n)
  for (let i = 0; i < n; i++) {
    const c = heat[i]! / h
    const before = i === 0 ? 0 : gain[i]! * upper[i - 1]!
    const diagonal = c + gain[i]! + gain[i + 1]! - before
    const known = c * base[i]! + (i === 0 ? gain[0]! * outsideC : gain[i]! * x[i - 1]!) + (i === n - 1 ? gain[n]! * insideC : 0)
    upper[i] = gain[i + 1]! / diagonal
    x[i] = known / diagonal
  }
  for (let i = n - 2; i >= 0; i--) x[i]! += upper[i]! * x[i + 1]!
}
