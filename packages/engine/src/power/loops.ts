import { add, type Complex, cx, Fault, scale } from '../kernel/index.ts'
import type { System } from '../rules/index.ts'
import type { ConductorZ, RunSegment, Segment, TransformerSegment } from './segments.ts'
import type { Loops } from './source-task.ts'

/**
 * Impedance of one half winding of a centre-tapped transformer, for a fault from line to the tap.
 *
 *   Z_LN = (1.5 r + j 1.2 x) · V_LN²/S = (1.5 R + j 1.2 X) / 4
 *
 * `whole` is line–line, on the line–line voltage. Interlaced windings; others lie higher.
 * @source point-to-point method for centre-tapped transformers (table `split-phase-fault`). Provenance: read
 */
export const halfWindingZ = (whole: Complex): Complex => cx((HALF_R_RATIO * whole.re) / 4, (HALF_X_RATIO * whole.im) / 4)
/** One half against the whole: R times this, X times that, both on the half's own base. */
const HALF_R_RATIO = 1.5
const HALF_X_RATIO = 1.2

/** Loop of a three-phase source from its sequence values, Z2 = Z1: (2 Z1 + Z0)/3 of line–neutral voltage. */
export const sequenceLoopZ = (z1: Complex, z0: Complex): Complex => scale(add(scale(z1, 2), z0), 1 / 3)

/**
 * Loops at the terminals of a source given per phase.
 * Three-phase: line–line 2 Z1, line–neutral (2 Z1 + Z0)/3. Centre tap (z1 = half the line–line loop, on 240 V):
 * line–neutral (1.5 r + j 1.2 x) on the 120 V base, that is a quarter of the line–line base.
 */
export function terminalLoops(system: System, z1: Complex, z0: Complex): Loops {
  const lineLine = scale(z1, 2)
  if (system.kind === 'split') {
    const lineNeutral = halfWindingZ(lineLine)
    return { threePhase: null, lineLine, lineNeutral, lineEarth: lineNeutral }
  }
  if (system.kind === 'single') return { threePhase: null, lineLine, lineNeutral: lineLine, lineEarth: lineLine }
  if (system.kind === 'delta') return { threePhase: z1, lineLine, lineNeutral: system.neutral ? lineLine : null, lineEarth: null }
  const lineNeutral = sequenceLoopZ(z1, z0)
  return { threePhase: z1, lineLine, lineNeutral, lineEarth: lineNeutral }
}

/**
 * Loop impedances at the end of a path: sums of R and of X, each kept; an own transformer brings what stands before it
 * over by its ratio squared, and a delta–wye one stops the zero sequence.
 */
export function loopsAt(path: readonly Segment[]): Loops {
  let loops: Loops | null = null
  for (const segment of path) {
    if (segment.kind === 'source') loops = segment.source.loops
    else if (loops === null) throw new Fault('power/path-without-source', segment.id)
    else loops = segment.kind === 'own transformer' ? throughTransformer(loops, segment) : alongRun(loops, segment)
  }
  if (loops === null) throw new Fault('power/path-without-source')
  return loops
}

/** Loops with a run’s conductors added: R to R, X to X. */
export function alongRun(loops: Loops, run: RunSegment): Loops {
  const z = run.phase.ohm
  const plus = (loop: Complex | null, back: ConductorZ | null) =>
    loop === null || back === null ? null : add(add(loop, z), back.ohm)
  return {
    threePhase: loops.threePhase === null ? null : add(loops.threePhase, z),
    lineLine: add(loops.lineLine, scale(z, 2)),
    lineNeutral: plus(loops.lineNeutral, run.neutral),
    lineEarth: plus(loops.lineEarth, run.earthReturn),
  }
}

function throughTransformer(loops: Loops, t: TransformerSegment): Loops {
  const upstream1 = scale(loops.threePhase ?? scale(loops.lineLine, 0.5), t.ratio * t.ratio)
  const z1 = add(upstream1, t.z1)
  if (t.secondary.kind !== 'split') return terminalLoops(t.secondary, z1, t.z1)
  // Behind a centre tap what stands on the primary side is common to both halves: a quarter of the line–line loop.
  const own = terminalLoops(t.secondary, t.z1, t.z1)
  const lineNeutral = add(own.lineNeutral!, scale(upstream1, 2 / 4))
  return { threePhase: null, lineLine: scale(z1, 2), lineNeutral, lineEarth: lineNeutral }
}
