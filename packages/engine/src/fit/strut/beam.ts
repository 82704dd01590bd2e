import { Fault } from '../../kernel/index.ts'

/** A straight member on hinged supports, with point loads and a uniform load. Forces and deflections are positive the same way. */
export interface Beam {
  readonly lengthM: number
  /** Rising, at least two. */
  readonly supportsM: readonly number[]
  readonly loads: readonly { readonly atM: number; readonly forceN: number }[]
  readonly uniformNPerM: number
  readonly stiffnessNm2: number
  /** False where nobody asks how far it gives. */
  readonly deflections?: boolean
}

/** A stretch between neighbouring supports, or from the last one to a free end. */
export interface BeamSpan {
  readonly kind: 'span' | 'arm'
  readonly fromM: number
  readonly toM: number
  /** Largest deflection from the straight line, without sign; null where it was not asked. */
  readonly deflectionM: number | null
  /** Largest bending moment, without sign. */
  readonly momentNm: number
}

export interface BeamAnswer {
  /** What the beam presses on each support with; they sum to the loads. */
  readonly reactionsN: readonly number[]
  readonly spans: readonly BeamSpan[]
  readonly mostMomentNm: number
}

/**
 * Reactions, moments and deflections of a continuous beam, exact for these loads: third-degree elements between supports and loads,
 * the uniform load's own quartic on top.
 *
 *   K·u = F;   M(x) = −E·I·v″(x);   R = K·u − F at the supports
 *
 * @throws Fault `fit/beam-range` with fewer than two supports, outside loads, or a number that is not finite
 * @source slope–deflection (direct stiffness) for a prismatic beam. Provenance: computed
 */
export function beamAnswer(beam: Beam): BeamAnswer {
  check(beam)
  const nodes = nodesOf(beam)
  const n = nodes.length
  const held = nodes.map((x) => beam.supportsM.some((s) => Math.abs(s - x) <= MERGE_M))
  const loadAt = new Float64Array(2 * n)
  for (const { atM, forceN } of beam.loads) add(loadAt, 2 * nearest(nodes, atM), forceN)
  const band = new Float64Array(2 * n * BAND)
  const k = new Float64Array(16)
  const q = beam.uniformNPerM
  for (let e = 0; e + 1 < n; e++) {
    const l = (nodes[e + 1] as number) - (nodes[e] as number)
    fillElement(k, beam.stiffnessNm2, l)
    for (let i = 0; i < 4; i++) for (let j = i; j < 4; j++) add(band, (2 * e + i) * BAND + (j - i), k[4 * i + j] as number)
    add(loadAt, 2 * e, (q * l) / 2)
    add(loadAt, 2 * e + 1, (q * l * l) / 12)
    add(loadAt, 2 * e + 2, (q * l) / 2)
    add(loadAt, 2 * e + 3, (-q * l * l) / 12)
  }
  const u = solve(band, loadAt, held)
  const reactionsN = new Float64Array(n)
  for (let e = 0; e + 1 < n; e++) {
    fillElement(k, beam.stiffnessNm2, (nodes[e + 1] as number) - (nodes[e] as number))
    for (let i = 0; i < 4; i += 2)
      for (let j = 0; j < 4; j++) add(reactionsN, e + i / 2, -(k[4 * i + j] as number) * (u[2 * e + j] as number))
  }
  for (let i = 0; i < n; i++) add(reactionsN, i, loadAt[2 * i] as number)
  const spans = spansOf(beam, nodes, u)
  return {
    reactionsN: beam.supportsM.map((s) => reactionsN[nearest(nodes, s)] as number),
    spans,
    mostMomentNm: Math.max(...spans.map((one) => one.momentNm)),
  }
}

function check(beam: Beam): void {
  const { lengthM, supportsM, loads, uniformNPerM, stiffnessNm2 } = beam
  const numbers = [lengthM, uniformNPerM, stiffnessNm2, ...supportsM, ...loads.flatMap((l) => [l.atM, l.forceN])]
  const inside = (x: number) => x >= -MERGE_M && x <= lengthM + MERGE_M
  const apart = supportsM.every((s, i) => i === 0 || s - (supportsM[i - 1] as number) > MERGE_M)
  const fine = lengthM > 0 && stiffnessNm2 > 0 && supportsM.length > 1 && apart
  if (!numbers.every(Number.isFinite) || !fine || ![...supportsM, ...loads.map((l) => l.atM)].every(inside))
    throw new Fault('fit/beam-range', beam)
}

/** Points nearer than this are one: a tenth of a millimetre is nothing on a strut. */
const MERGE_M = 1e-4
const BAND = 4

function nodesOf(beam: Beam): readonly number[] {
  const fixed = [...beam.supportsM]
  const free = [0, beam.lengthM, ...beam.loads.map((l) => l.atM)].filter((x) => !fixed.some((s) => Math.abs(s - x) <= MERGE_M))
  return [...fixed, ...free].sort((a, b) => a - b).filter((x, i, all) => i === 0 || x - (all[i - 1] as number) > MERGE_M)
}

function nearest(nodes: readonly number[], x: number): number {
  let best = 0
  for (let i = 1; i < nodes.length; i++) if (Math.abs((nodes[i] as number) - x) < Math.abs((nodes[best] as number) - x)) best = i
  return best
}

const add = (into: Float64Array, at: number, value: number): void => {
  into[at] = (into[at] as number) + value
}

/** Stiffness of an element, row by row: sink and slope at its near end, sink and slope at its far end. */
function fillElement(k: Float64Array, ei: number, l: number): void {
  const [a, b, c, d] = [(12 * ei) / l ** 3, (6 * ei) / l ** 2, (4 * ei) / l, (2 * ei) / l]
  k.set([a, b, -a, b, b, c, -b, d, -a, -b, a, -b, b, d, -b, c])
}

/** Elimination in the band; held displacements are nought. */
function solve(bandIn: Float64Array, load: Float64Array, held: readonly boolean[]): Float64Array {
  const band = bandIn.slice()
  const u = load.slice()
  const size = load.length
  held.forEach((is, i) => {
    if (!is) return
    const row = 2 * i
    for (let j = 0; j < BAND; j++) band[row * BAND + j] = j === 0 ? 1 : 0
    for (let back = 1; back < BAND; back++) if (row - back >= 0) band[(row - back) * BAND + back] = 0
    u[row] = 0
  })
  for (let i = 0; i < size; i++) {
    const pivot = band[i * BAND] as number
    if (!(pivot > 0)) throw new Fault('fit/beam-range', 'free to move')
    for (let k = 1; k < BAND && i + k < size; k++) {
      const factor = (band[i * BAND + k] as number) / pivot
      if (factor === 0) continue
      for (let j = k; j < BAND && i + j < size; j++) add(band, (i + k) * BAND + (j - k), -factor * (band[i * BAND + j] as number))
      add(u, i + k, -factor * (u[i] as number))
    }
  }
  for (let i = size - 1; i >= 0; i--) {
    for (let k = 1; k < BAND && i + k < size; k++) add(u, i, -(band[i * BAND + k] as number) * (u[i + k] as number))
    u[i] = (u[i] as number) / (band[i * BAND] as number)
  }
  return u
}

function spansOf(beam: Beam, nodes: readonly number[], u: Float64Array): readonly BeamSpan[] {
  const cuts = [0, ...beam.supportsM, beam.lengthM]
  const spans: BeamSpan[] = []
  for (let i = 0; i + 1 < cuts.length; i++) {
    const [fromM, toM] = [cuts[i] as number, cuts[i + 1] as number]
    if (toM - fromM <= MERGE_M) continue
    let [most, moment] = [0, 0]
    for (let e = 0; e + 1 < nodes.length; e++) {
      if ((nodes[e] as number) < fromM - MERGE_M || (nodes[e + 1] as number) > toM + MERGE_M) continue
      const part = peaks(beam, (nodes[e + 1] as number) - (nodes[e] as number), u.subarray(2 * e, 2 * e + 4))
      most = Math.max(most, part.deflectionM)
      moment = Math.max(moment, part.momentNm)
    }
    spans.push({
      kind: i === 0 || i === cuts.length - 2 ? 'arm' : 'span',
      fromM,
      toM,
      deflectionM: beam.deflections === false ? null : most,
      momentNm: moment,
    })
  }
  return spans
}

/** Largest deflection and moment in one element: where the slope, and the shear, pass nought. */
function peaks(beam: Beam, l: number, end: Float64Array): { readonly deflectionM: number; readonly momentNm: number } {
  const [v1, t1, v2, t2] = end as unknown as readonly [number, number, number, number]
  const ei = beam.stiffnessNm2
  const q = beam.uniformNPerM
  const a = (2 * (v1 - v2)) / l ** 3 + (t1 + t2) / l ** 2
  const b = (-3 * (v1 - v2)) / l ** 2 - (2 * t1 + t2) / l
  const v = (x: number) => v1 + t1 * x + b * x ** 2 + a * x ** 3 + (q * x ** 2 * (l - x) ** 2) / (24 * ei)
  const slope = (x: number) => t1 + 2 * b * x + 3 * a * x ** 2 + (q * (2 * l * l * x - 6 * l * x ** 2 + 4 * x ** 3)) / (24 * ei)
  const moment = (x: number) => -ei * (2 * b + 6 * a * x) - (q * (2 * l * l - 12 * l * x + 12 * x * x)) / 24
  let deflection = Math.max(Math.abs(v1), Math.abs(v2))
  let before = slope(0)
  for (let i = 0; i < SAMPLES && beam.deflections !== false; i++) {
    let [low, high] = [(l * i) / SAMPLES, (l * (i + 1)) / SAMPLES]
    const after = slope(high)
    const [first, passes] = [before, before * after <= 0]
    before = after
    if (!passes) continue
    const rising = first < 0
    for (let k = 0; k < HALVINGS; k++) {
      const mid = (low + high) / 2
      if (slope(mid) < 0 === rising) low = mid
      else high = mid
    }
    deflection = Math.max(deflection, Math.abs(v(low)))
  }
  // Shear −E·I·v‴ is linear in x: it passes nought at most once.
  const still = q === 0 ? Number.NaN : l / 2 - (6 * ei * a) / q
  const at = [0, l, ...(still > 0 && still < l ? [still] : [])]
  return { deflectionM: deflection, momentNm: Math.max(...at.map((x) => Math.abs(moment(x)))) }
}

const SAMPLES = 8
const HALVINGS = 40
