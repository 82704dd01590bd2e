import type { Circuit, Cord, Device, OwnTransformer, Run, SizeName, Wire } from '../job/index.ts'
import { type Complex, cx, put, type Step, scale, source, step } from '../kernel/index.ts'
import type { RuleSet, System } from '../rules/index.ts'
import type { PathContext } from './path.ts'
import { transformerZ } from './plates.ts'
import type { SourceImpedance } from './source-task.ts'

/** One conductor of a segment, all its parallel sets together. */
export interface ConductorZ {
  readonly size: SizeName
  readonly metal: 'cu' | 'al'
  readonly sets: number
  readonly ohmPerM: Complex
  readonly ohm: Complex
}

/** A length of conductors between two places. */
export interface RunSegment {
  readonly kind: 'drop' | 'feed' | 'box feeder' | 'primary run' | 'run' | 'cord'
  /** Unique in a box: `P/feed`, `C4/run`, `G4C/cord`. */
  readonly id: string
  readonly said: string
  readonly lengthM: number
  readonly temperatureC: number
  readonly phase: ConductorZ
  readonly neutral: ConductorZ | null
  readonly protective: ConductorZ | null
  /** What an earth fault beyond it comes home through: the protective conductor, or the neutral up to the bond; null through the ground (TT). */
  readonly earthReturn: ConductorZ | null
  /** Device at its head that protects it. Null: none of ours (the utility's side). */
  readonly device: Device | null
  readonly insulation: string
  readonly steps: readonly Step[]
}

/** The box's own transformer. */
export interface TransformerSegment {
  readonly kind: 'own transformer'
  readonly id: string
  readonly said: string
  readonly transformer: OwnTransformer
  /** Positive-sequence leakage per line on the secondary; for one phase half of the line–line loop. */
  readonly z1: Complex
  /** V secondary over V primary, line to line. */
  readonly ratio: number
  readonly secondary: System
  readonly device: Device
  readonly steps: readonly Step[]
}

export interface SourceSegment {
  readonly kind: 'source'
  readonly id: string
  readonly said: string
  readonly source: SourceImpedance
  readonly steps: readonly Step[]
}

export type Segment = SourceSegment | TransformerSegment | RunSegment

/** Conductors of a circuit that carry load current. */
export const LINES_OF: Record<Circuit['connection'], number> = { LN: 1, LL: 2, LLN: 2, LLL: 3, LLLN: 3 }
export const hasNeutral = (circuit: Circuit): boolean => circuit.connection.endsWith('N')

export function transformerSegment(boxId: string, own: OwnTransformer, secondary: System): TransformerSegment {
  const three = own.phases === 3
  const z = transformerZ({
    ratedVA: own.kVA * 1000,
    voltageV: own.secondaryV,
    impedanceFrac: own.impedancePct / 100,
    xOverRRatio: own.xOverR,
  })
  const z1 = three ? z : scale(z, 0.5)
  const ratio = own.secondaryV / own.primaryV
  const said = `own transformer ${own.kVA} kVA, ${own.primaryV} to ${own.secondaryV} V`
  const steps = [
    step(
      'Z_T',
      three ? 'u_z·V₂²/S' : 'u_z·V₂²/S, one line half of it',
      [put('u_z', own.impedancePct, '%'), put('V₂', own.secondaryV, 'V'), put('S', own.kVA, 'kVA'), put('x/r', own.xOverR)],
      `${round(z1.re * 1000)} + j${round(z1.im * 1000)}`,
      'mΩ per line',
      source('per unit on its own rating', 'computed'),
    ),
  ]
  return {
    kind: 'own transformer',
    id: `${boxId}/transformer`,
    said,
    transformer: own,
    z1,
    ratio,
    secondary,
    device: own.primary,
    steps,
  }
}

export function asRun(cord: Cord, circuit: Circuit): Run {
  const wire: Wire = { size: cord.size, metal: 'cu', insulation: cord.type }
  const neutral = hasNeutral(circuit) ? wire : null
  return { lengthM: cord.lengthM, line: wire, neutral, protective: wire, raceway: null, sets: 1 }
}

type Impedance = ReturnType<RuleSet['impedanceOhmPerM']>

/** Impedances a rule set has given: its tables never change, so each wire is asked for once and not once a tree. */
const KNOWN = new WeakMap<RuleSet, Map<string, Impedance>>()

/** The rule set's impedance of a wire. */
export function conductorMaker(rules: RuleSet): (wire: Wire, where: string, temperatureC: number) => Impedance {
  const known = KNOWN.get(rules) ?? new Map<string, Impedance>()
  KNOWN.set(rules, known)
  return (wire, where, temperatureC) => {
    const key = `${wire.size}|${wire.metal}|${where}|${temperatureC}`
    let found = known.get(key)
    if (found === undefined) {
      found = rules.impedanceOhmPerM({ size: wire.size, metal: wire.metal, where, temperatureC })
      known.set(key, found)
    }
    return found
  }
}

interface RunTask {
  readonly kind: RunSegment['kind']
  readonly id: string
  readonly run: Run
  readonly device: Device | null
  /** Neutral and earth are one up to its far end: an earth fault comes home through the neutral. */
  readonly bonded: boolean
  readonly tt: boolean
}

export function runMaker(context: PathContext, impedance: ReturnType<typeof conductorMaker>): (task: RunTask) => RunSegment {
  return ({ kind, id, run, device, bonded, tt }) => {
    const temperatureC = kind === 'cord' ? (context.cordC ?? context.conductorC) : context.conductorC
    const where = kind === 'cord' ? 'cord' : (run.raceway?.kind ?? 'cable')
    const of = (wire: Wire | null): ConductorZ | null => {
      if (wire === null) return null
      const { r, x } = impedance(wire, where, temperatureC).value
      const ohmPerM = cx(r / run.sets, x / run.sets)
      return { size: wire.size, metal: wire.metal, sets: run.sets, ohmPerM, ohm: scale(ohmPerM, run.lengthM) }
    }
    const phase = of(run.line)!
    const neutral = of(run.neutral)
    const protective = of(run.protective)
    const earthReturn = tt ? null : bonded ? (neutral ?? protective) : (protective ?? neutral)
    return {
      kind,
      id,
      said: `${round(run.lengthM)} m of ${run.line.size}${kind === 'cord' ? ' cord' : ''}`,
      lengthM: run.lengthM,
      temperatureC,
      phase,
      neutral,
      protective,
      earthReturn,
      device,
      insulation: run.line.insulation,
      get steps() {
        return runSteps(impedance(run.line, where, temperatureC).steps, run, phase)
      },
    }
  }
}

/** Lines of derivation are made when somebody reads them: a box has hundreds and most are never shown. */
function runSteps(perM: readonly Step[], run: Run, phase: ConductorZ): readonly Step[] {
  return [
    ...perM,
    step(
      'R + jX',
      run.sets > 1 ? '(r + jx)·L/sets' : '(r + jx)·L',
      [
        put('r', phase.ohmPerM.re * run.sets, 'Ω/m'),
        put('x', phase.ohmPerM.im * run.sets, 'Ω/m'),
        put('L', run.lengthM, 'm'),
        put('sets', run.sets),
      ],
      `${round(phase.ohm.re * 1000)} + j${round(phase.ohm.im * 1000)}`,
      'mΩ',
      source('length times impedance per metre', 'computed'),
    ),
  ]
}

export const round = (n: number): string => Number(n.toPrecision(4)).toString()
