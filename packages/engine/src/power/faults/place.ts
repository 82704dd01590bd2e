import type { Circuit } from '../../job/index.ts'
import { type Complex, Fault } from '../../kernel/index.ts'
import type { System } from '../../rules/index.ts'
import type { Loops } from '../source-task.ts'
import type { FaultKind } from './result.ts'

/** Kinds of fault that can happen on these wires. */
export const KINDS_OF: Readonly<Record<Circuit['connection'], readonly FaultKind[]>> = {
  LN: ['line-neutral', 'line-earth'],
  LL: ['line-line', 'line-earth'],
  LLN: ['line-line', 'line-neutral', 'line-earth'],
  LLL: ['three-phase', 'line-line', 'line-earth'],
  LLLN: ['three-phase', 'line-line', 'line-neutral', 'line-earth'],
}

export function kindsOfSystem(system: System): readonly FaultKind[] {
  if (system.kind === 'single') return KINDS_OF.LN
  if (system.legs.length === 3) return system.neutral ? KINDS_OF.LLLN : KINDS_OF.LLL
  return system.neutral ? KINDS_OF.LLN : KINDS_OF.LL
}

const LOOP: Readonly<Record<FaultKind, keyof Loops>> = {
  'three-phase': 'threePhase',
  'line-line': 'lineLine',
  'line-neutral': 'lineNeutral',
  'line-earth': 'lineEarth',
}

/** Volts that drive the loop of a kind; a three-phase fault per phase. */
export const drivingV = (system: System, kind: FaultKind): number =>
  kind === 'line-line'
    ? system.kind === 'single'
      ? system.lineNeutralV
      : system.lineLineV
    : kind === 'three-phase'
      ? system.lineLineV / Math.sqrt(3)
      : system.lineNeutralV

/** One loop: I = c·V/|Z|, V across the loop. @throws Fault `faults/no-impedance` @source IEC 60909-0:2016, 8.2. Provenance: memory */
export function loopA(f: { readonly voltageV: number; readonly cRatio: number; readonly loopZ: Complex }): number {
  const ohm = Math.sqrt(f.loopZ.re * f.loopZ.re + f.loopZ.im * f.loopZ.im)
  if (!(f.voltageV > 0 && ohm > 0)) throw new Fault('faults/no-impedance', f)
  return (f.cRatio * f.voltageV) / ohm
}

export const loopOf = (loops: Loops, kind: FaultKind): Complex | null => loops[LOOP[kind]]

/** I = c·V/|Z| of a kind; null where that loop does not exist; Infinity never: a loop without impedance is null too. */
export function kindA(system: System, loops: Loops, kind: FaultKind, cRatio: number): number | null {
  const loopZ = loopOf(loops, kind)
  if (loopZ === null || (loopZ.re === 0 && loopZ.im === 0)) return null
  return loopA({ voltageV: drivingV(system, kind), cRatio, loopZ })
}

/**
 * The loops a bus shows once running motors feed it too: each kind as if its source were stronger by the motors' current,
 *
 *   Z' = Z · I/(I + I_M)
 *
 * so that X/R stays and the runs behind are added as they are.
 */
export function withMotors(system: System, loops: Loops, motorA: number, cRatio: number): Loops {
  if (motorA === 0) return loops
  const lower = (kind: FaultKind): Complex | null => {
    const z = loopOf(loops, kind)
    const currentA = kindA(system, loops, kind, cRatio)
    if (z === null || currentA === null) return z
    const k = currentA / (currentA + motorA)
    return { re: z.re * k, im: z.im * k }
  }
  return {
    threePhase: lower('three-phase'),
    lineLine: lower('line-line') ?? loops.lineLine,
    lineNeutral: lower('line-neutral'),
    lineEarth: lower('line-earth'),
  }
}

/** Loops with more source reactance: a set whose field has begun to collapse. `moreOhm` per phase, positive sequence. */
export function withSourceReactance(system: System, loops: Loops, moreOhm: number): Loops {
  const plus = (z: Complex | null, share: number): Complex | null =>
    z === null ? null : { re: z.re, im: z.im + share * moreOhm }
  // Negative and zero sequence stay; one phase has no sequences, so all of its loop moves.
  const one = system.legs.length < 3
  return {
    threePhase: plus(loops.threePhase, 1),
    lineLine: plus(loops.lineLine, one ? 2 : 1) as Complex,
    lineNeutral: plus(loops.lineNeutral, one ? 1 : 1 / 3),
    lineEarth: plus(loops.lineEarth, one ? 1 : 1 / 3),
  }
}
