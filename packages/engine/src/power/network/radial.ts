import { Fault } from '../../kernel/index.ts'

/**
 * A radial network of equal nodes: every node has the same k wires, node 0 is the source, and each node hangs on one before it.
 * Wire w of node i stands at 2·(k·i + w) (re) and the place after it (im) in every array of volts or currents.
 */
export interface Radial {
  readonly wires: number
  readonly nodes: number
  /** Parent of each node, smaller than the node itself; node 0 has none (−1). */
  readonly parent: Int32Array
  /** Impedance of the branch above each node, k × k, re and im in turn. */
  readonly zOhm: Float64Array
  /** Loads of node i are `loadStart[i]` to `loadStart[i + 1]`. */
  readonly loadStart: Int32Array
  readonly loadFrom: Int32Array
  /** −1: earth. */
  readonly loadTo: Int32Array
  readonly loadW: Float64Array
  readonly loadVar: Float64Array
  readonly loadV: Float64Array
  /** 0 impedance, 1 current, 2 power. */
  readonly loadModel: Uint8Array
}

/** What a sweep fills; allocated once, used as often as wanted. */
export interface RadialWork {
  readonly volts: Float64Array
  readonly amps: Float64Array
}

export const radialWork = (radial: Radial): RadialWork => ({
  volts: new Float64Array(2 * radial.wires * radial.nodes),
  amps: new Float64Array(2 * radial.wires * radial.nodes),
})

/**
 * Backward–forward passes from a flat start until no wire moves by more than `toleranceV`; gives the passes, or −1 when they do
 * not settle. Fills `work.volts`; allocates nothing.
 *
 *   I_branch = I_load + Σ I_below,   V_node = V_parent − Z·I_branch
 */
export function fillRadial(
  radial: Radial,
  sourceV: Float64Array,
  toleranceV: number,
  passesMost: number,
  work: RadialWork,
): number {
  const { wires: k, nodes, parent } = radial
  const { volts, amps } = work
  if (sourceV.length !== 2 * k) throw new Fault('network/radial-source', sourceV.length)
  for (let i = 0; i < nodes; i++) for (let w = 0; w < 2 * k; w++) volts[2 * k * i + w] = sourceV[w]!
  const limit = toleranceV * toleranceV
  for (let pass = 1; pass <= passesMost; pass++) {
    amps.fill(0)
    for (let i = nodes - 1; i > 0; i--) {
      addLoads(radial, i, volts, amps)
      const at = 2 * k * i
      const up = 2 * k * parent[i]!
      for (let w = 0; w < 2 * k; w++) amps[up + w]! += amps[at + w]!
    }
    const moved =
      k === 3 ? forwardThree(radial, volts, amps) : k === 5 ? forwardFive(radial, volts, amps) : forwardAny(radial, volts, amps)
    if (moved < limit) return pass
    if (!(moved < Infinity)) return -1
  }
  return -1
}

function addLoads(radial: Radial, i: number, volts: Float64Array, amps: Float64Array): void {
  const { wires: k, loadStart, loadFrom, loadTo, loadW, loadVar, loadV, loadModel } = radial
  const at = 2 * k * i
  const end = loadStart[i + 1]!
  for (let l = loadStart[i]!; l < end; l++) {
    const f = at + 2 * loadFrom[l]!
    const to = loadTo[l]!
    const t = at + 2 * to
    let ur = volts[f]!
    let ui = volts[f + 1]!
    if (to >= 0) {
      ur -= volts[t]!
      ui -= volts[t + 1]!
    }
    const square = ur * ur + ui * ui
    const model = loadModel[l]!
    const vn = loadV[l]!
    const g = model === 2 ? 1 / square : model === 1 ? 1 / (vn * Math.sqrt(square)) : 1 / (vn * vn)
    const p = loadW[l]! * g
    const q = loadVar[l]! * g
    const ir = p * ur + q * ui
    const ii = p * ui - q * ur
    amps[f]! += ir
    amps[f + 1]! += ii
    if (to >= 0) {
      amps[t]! -= ir
      amps[t + 1]! -= ii
    }
  }
}

function forwardAny(radial: Radial, volts: Float64Array, amps: Float64Array): number {
  const { wires: k, nodes, parent, zOhm } = radial
  let moved = 0
  for (let i = 1; i < nodes; i++) {
    const at = 2 * k * i
    const up = 2 * k * parent[i]!
    let z = 2 * k * k * i
    for (let w = 0; w < k; w++) {
      let re = volts[up + 2 * w]!
      let im = volts[up + 2 * w + 1]!
      for (let c = 0; c < k; c++, z += 2) {
        const zr = zOhm[z]!
        const zi = zOhm[z + 1]!
        const ar = amps[at + 2 * c]!
        const ai = amps[at + 2 * c + 1]!
        re -= zr * ar - zi * ai
        im -= zr * ai + zi * ar
      }
      const dr = re - volts[at + 2 * w]!
      const di = im - volts[at + 2 * w + 1]!
      const change = dr * dr + di * di
      if (!(change <= moved)) moved = change
      volts[at + 2 * w] = re
      volts[at + 2 * w + 1] = im
    }
  }
  return moved
}

/** Three wires, written out: the matrix is read once and the currents stay in registers. */
function forwardThree(radial: Radial, volts: Float64Array, amps: Float64Array): number {
  const { nodes, parent, zOhm } = radial
  let moved = 0
  for (let i = 1; i < nodes; i++) {
    const at = 6 * i
    const up = 6 * parent[i]!
    const a0 = amps[at]!,
      a1 = amps[at + 1]!,
      b0 = amps[at + 2]!,
      b1 = amps[at + 3]!,
      c0 = amps[at + 4]!,
      c1 = amps[at + 5]!
    const z = 18 * i
    for (let w = 0; w < 3; w++) {
      const k = z + 6 * w
      const v = at + 2 * w
      const zar = zOhm[k]!,
        zai = zOhm[k + 1]!,
        zbr = zOhm[k + 2]!,
        zbi = zOhm[k + 3]!,
        zcr = zOhm[k + 4]!,
        zci = zOhm[k + 5]!
      const re = volts[up + 2 * w]! - (zar * a0 - zai * a1 + zbr * b0 - zbi * b1 + zcr * c0 - zci * c1)
      const im = volts[up + 2 * w + 1]! - (zar * a1 + zai * a0 + zbr * b1 + zbi * b0 + zcr * c1 + zci * c0)
      const dr = re - volts[v]!
      const di = im - volts[v + 1]!
      const change = dr * dr + di * di
      if (!(change <= moved)) moved = change
      volts[v] = re
      volts[v + 1] = im
    }
  }
  return moved
}

/** Five wires: three phases, neutral, protective. */
function forwardFive(radial: Radial, volts: Float64Array, amps: Float64Array): number {
  const { nodes, parent, zOhm } = radial
  let moved = 0
  for (let i = 1; i < nodes; i++) {
    const at = 10 * i
    const up = 10 * parent[i]!
    const a0 = amps[at]!,
      a1 = amps[at + 1]!,
      b0 = amps[at + 2]!,
      b1 = amps[at + 3]!,
      c0 = amps[at + 4]!
    const c1 = amps[at + 5]!,
      d0 = amps[at + 6]!,
      d1 = amps[at + 7]!,
      e0 = amps[at + 8]!,
      e1 = amps[at + 9]!
    const z = 50 * i
    for (let w = 0; w < 5; w++) {
      const k = z + 10 * w
      const v = at + 2 * w
      const zar = zOhm[k]!,
        zai = zOhm[k + 1]!,
        zbr = zOhm[k + 2]!,
        zbi = zOhm[k + 3]!,
        zcr = zOhm[k + 4]!
      const zci = zOhm[k + 5]!,
        zdr = zOhm[k + 6]!,
        zdi = zOhm[k + 7]!,
        zer = zOhm[k + 8]!,
        zei = zOhm[k + 9]!
      const re =
        volts[up + 2 * w]! -
        (zar * a0 - zai * a1 + zbr * b0 - zbi * b1 + zcr * c0 - zci * c1 + zdr * d0 - zdi * d1 + zer * e0 - zei * e1)
      const im =
        volts[up + 2 * w + 1]! -
        (zar * a1 + zai * a0 + zbr * b1 + zbi * b0 + zcr * c1 + zci * c0 + zdr * d1 + zdi * d0 + zer * e1 + zei * e0)
      const dr = re - volts[v]!
      const di = im - volts[v + 1]!
      const change = dr * dr + di * di
      if (!(change <= moved)) moved = change
      volts[v] = re
      volts[v + 1] = im
    }
  }
  return moved
}
