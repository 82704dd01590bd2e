import type { YardCircuit, YardCord, YardElement, YardPlug } from './yard.ts'

const NEUTRAL = 3

/** The elements of a yard as the passes read them: numbers only, in typed arrays. */
export interface FlatYard {
  readonly from: Uint8Array
  readonly to: Uint8Array
  readonly plug: Int32Array
  readonly cord: Int32Array
  readonly circuit: Int32Array
  readonly panel: Int32Array
  readonly watts: Float64Array
  readonly vars: Float64Array
  readonly nominalV: Float64Array
  /** 0 impedance, 1 current, 2 power. */
  readonly model: Uint8Array
  /** 1: alone on its cord and circuit, so that run and cord are one loop in series. */
  readonly alone: Uint8Array
  readonly loopR: Float64Array
  readonly loopX: Float64Array
  /** Circuits and cords that carry more than one element. */
  readonly sharedCircuits: readonly number[]
  readonly sharedCords: readonly number[]
}

export function flatYard(
  elements: readonly YardElement[],
  plugs: readonly YardPlug[],
  cords: readonly YardCord[],
  circuits: readonly YardCircuit[],
): FlatYard {
  const n = elements.length
  const onCircuit = new Int32Array(circuits.length)
  for (const e of elements) onCircuit[plugs[e.plug]!.circuit]!++
  const flat = {
    from: new Uint8Array(n),
    to: new Uint8Array(n),
    plug: new Int32Array(n),
    cord: new Int32Array(n),
    circuit: new Int32Array(n),
    panel: new Int32Array(n),
    watts: new Float64Array(n),
    vars: new Float64Array(n),
    nominalV: new Float64Array(n),
    model: new Uint8Array(n),
    alone: new Uint8Array(n),
    loopR: new Float64Array(n),
    loopX: new Float64Array(n),
  }
  elements.forEach((e, k) => {
    const plug = plugs[e.plug]!
    const cord = cords[plug.cord]!
    const circuit = circuits[plug.circuit]!
    flat.from[k] = e.from
    flat.to[k] = e.to
    flat.plug[k] = e.plug
    flat.cord[k] = plug.cord
    flat.circuit[k] = plug.circuit
    flat.panel[k] = circuit.panel
    flat.watts[k] = e.sVA.re
    flat.vars[k] = e.sVA.im
    flat.nominalV[k] = e.nominalV
    flat.model[k] = e.model === 'Z' ? 0 : e.model === 'I' ? 1 : 2
    flat.alone[k] = onCircuit[plug.circuit] === 1 ? 1 : 0
    for (const w of [e.from, e.to]) {
      const run = w === NEUTRAL ? circuit.neutralOhm : circuit.phaseOhm
      const own = w === NEUTRAL ? cord.neutralOhm : cord.phaseOhm
      flat.loopR[k]! += run.re + own.re
      flat.loopX[k]! += run.im + own.im
    }
  })
  const sharedCircuits = circuits.flatMap((_, c) => (onCircuit[c]! > 1 ? [c] : []))
  const sharedCords = cords.flatMap((c, k) => (onCircuit[c.circuit]! > 1 ? [k] : []))
  return { ...flat, sharedCircuits, sharedCords }
}
