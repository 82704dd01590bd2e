import { abs, angleRad, type Complex, sub } from '../../kernel/index.ts'
import { caseNames, networkOfFile } from './build-network.ts'
import type { NetworkFile } from './file-types.ts'
import { solveNodal } from './nodal.ts'
import { type Outcome, wireVolts } from './solution.ts'

export interface Phasor {
  readonly voltageV: number
  readonly angleDeg: number
}

export interface CaseAnswer {
  readonly outcome: Outcome
  /** `nodes[id][key]`: a b c n against earth, ab bc ca an bn cn between wires. Empty without a solution. */
  readonly nodes: Readonly<Record<string, Readonly<Record<string, Phasor>>>>
  /** Parts that touch neither earth nor source: their volts against earth are fixed by equal leaks and mean only that. */
  readonly floating: readonly string[]
  readonly passes: number
  readonly residualA: number
  readonly sourceW: number
  readonly loadW: number
  readonly lossW: number
  readonly imbalanceVA: number
  readonly neutralSumA: number
  /** Without a solution: the loads at which it breaks, and the share of the load that can be carried. */
  readonly culprits: readonly string[]
  readonly turnsAtFrac: number | null
}

export interface NetworkAnswer {
  readonly title: string
  readonly source: string
  readonly base: string
  readonly reference: string
  readonly frequencyHz: number
  readonly cases: Readonly<Record<string, CaseAnswer>>
}

const BETWEEN = [
  ['a', 'b'],
  ['b', 'c'],
  ['c', 'a'],
  ['a', 'n'],
  ['b', 'n'],
  ['c', 'n'],
] as const

/** Volts at every node of every case (or of one). @throws Fault `network/no-such-case` */
export function networkAnswer(file: NetworkFile, caseName?: string): NetworkAnswer {
  const cases: Record<string, CaseAnswer> = {}
  for (const name of caseName === undefined ? caseNames(file) : [caseName]) cases[name] = caseAnswer(file, name)
  const { title, source, base, reference, frequencyHz } = file
  return { title, source, base, reference, frequencyHz, cases }
}

function caseAnswer(file: NetworkFile, name: string): CaseAnswer {
  const network = networkOfFile(file, name)
  const solved = solveNodal(network)
  const at = new Map<string, Map<string, Complex>>()
  network.wires.forEach((full, i) => {
    const dot = full.lastIndexOf('.')
    const node = full.slice(0, dot)
    const wire = full.slice(dot + 1)
    if (wire.length !== 1) return
    if (!at.has(node)) at.set(node, new Map())
    at.get(node)!.set(wire, wireVolts(solved, i))
  })
  const nodes: Record<string, Record<string, Phasor>> = {}
  if (solved.outcome === 'solved') {
    for (const [node, wires] of at) {
      const out: Record<string, Phasor> = {}
      for (const [wire, v] of wires) out[wire] = phasor(v)
      for (const [x, y] of BETWEEN) if (wires.has(x) && wires.has(y)) out[x + y] = phasor(sub(wires.get(x)!, wires.get(y)!))
      nodes[node] = out
    }
  }
  const { check } = solved
  return {
    outcome: solved.outcome,
    nodes,
    floating: solved.floating.map((w) => network.wires[w]!),
    passes: solved.passes,
    residualA: check.residualA,
    sourceW: check.sourceVA.re,
    loadW: check.loadVA.re,
    lossW: check.lossVA.re,
    imbalanceVA: check.imbalanceVA,
    neutralSumA: check.neutralSumA,
    culprits: solved.culprits,
    turnsAtFrac: solved.turnsAtFrac,
  }
}

const phasor = (v: Complex): Phasor => ({ voltageV: abs(v), angleDeg: (angleRad(v) * 180) / Math.PI })
