import { abs, add, type Complex, cx, div, Fault, mul, scale, sub } from '../../kernel/index.ts'

export interface RunOfOneLoad {
  /** One way. ≥ 0 */
  readonly lengthM: number
  readonly currentA: number
  /** Of one conductor, at its working temperature. */
  readonly resistanceOhmPerM: number
  readonly reactanceOhmPerM: number
  /** Lagging. 0–1 */
  readonly powerFactorFrac: number
  readonly phases: 1 | 3
}

const LOOP_FACTOR: Record<1 | 3, number> = { 1: 2, 3: Math.sqrt(3) }

/**
 * Volts lost along a run, between its live conductors.
 *
 *   ΔU = k·I·L·(r·cosφ + x·sinφ),   k = 2 for two wires, √3 for three phases
 *
 * Takes the drop as in line with the supply: it stands beside the network's answer as the hand's cross-check.
 * @throws Fault `power/run-range`
 * @source NEC 210.19 informational note (practice); IEC 60364-5-52 Annex G. Provenance: memory
 */
export function runDropV(run: RunOfOneLoad): number {
  const { lengthM, currentA, resistanceOhmPerM: r, reactanceOhmPerM: x, powerFactorFrac: cos } = run
  const inRange = [lengthM, currentA, r, x].every((n) => n >= 0 && n < Infinity) && cos >= 0 && cos <= 1
  if (!inRange) throw new Fault('power/run-range', run)
  return LOOP_FACTOR[run.phases] * currentA * lengthM * (r * cos + x * Math.sqrt(1 - cos * cos))
}

/** Drop by millivolts per ampere and metre, as cable tables print it. */
export const tableDropV = (task: { readonly currentA: number; readonly lengthM: number; readonly mVPerAM: number }): number =>
  (task.currentA * task.lengthM * task.mVPerAM) / 1000

/** Resistance per metre of one conductor by its area. */
export const resistanceByArea = (task: { readonly areaMm2: number; readonly resistivityOhmMm2PerM: number }): number =>
  task.resistivityOhmMm2PerM / task.areaMm2

/**
 * Volts at the load when the source holds Vs and the load takes I at a lagging power factor to its own volts.
 *
 *   Vs² = (Vr + I·(R cosφ + X sinφ))² + (I·(X cosφ − R sinφ))²
 *
 * @throws Fault `power/no-volts-left` when the current alone loses more than there is
 * @source law of cosines on the phasors. Provenance: computed
 */
export function exactLoadV(task: {
  readonly sourceV: number
  readonly currentA: number
  readonly powerFactorFrac: number
  readonly loopOhm: Complex
}): number {
  const { sourceV, currentA: i, powerFactorFrac: cos, loopOhm: z } = task
  const sin = Math.sqrt(1 - cos * cos)
  const across = i * (z.im * cos - z.re * sin)
  const left = sourceV * sourceV - across * across
  const v = Math.sqrt(left) - i * (z.re * cos + z.im * sin)
  if (!(v > 0)) throw new Fault('power/no-volts-left', task)
  return v
}

/** Constant impedance behind a loop: V = Vs·|Z/(Z + Zloop)|, with Z = Vn²/S*. */
export function impedanceLoadV(task: {
  readonly sourceV: number
  readonly sVA: Complex
  readonly nominalV: number
  readonly loopOhm: Complex
}): number {
  const z = loadOhm(task.sVA, task.nominalV)
  return task.sourceV * abs(div(z, add(z, task.loopOhm)))
}

/** Impedance that takes S at its nominal volts. */
export const loadOhm = (sVA: Complex, nominalV: number): Complex => div(cx(nominalV * nominalV), cx(sVA.re, -sVA.im))

/**
 * Volts at a load of constant power behind a loop; null when there are none: the power is more than the loop can pass.
 *
 *   V² = b + √(b² − |S|²|Z|²),   b = Vs²/2 − (P·R + Q·X);   unity power factor on R: V = Vs/2 + √(Vs²/4 − P·R)
 *
 * @source quadratic of the two-bus network. Provenance: computed
 */
export function powerLoadV(task: { readonly sourceV: number; readonly sVA: Complex; readonly loopOhm: Complex }): number | null {
  const { sourceV, sVA: s, loopOhm: z } = task
  const b = (sourceV * sourceV) / 2 - (s.re * z.re + s.im * z.im)
  const under = b * b - (s.re * s.re + s.im * s.im) * (z.re * z.re + z.im * z.im)
  return under < 0 || b < 0 ? null : Math.sqrt(b + Math.sqrt(under))
}

/** Two legs in series when the neutral is open: the volts divide as the impedances. */
export function openNeutralV(task: {
  readonly lineLineV: number
  readonly aVA: Complex
  readonly bVA: Complex
  readonly nominalV: number
}): { readonly a: number; readonly b: number } {
  const za = loadOhm(task.aVA, task.nominalV)
  const zb = loadOhm(task.bVA, task.nominalV)
  const all = add(za, zb)
  return { a: task.lineLineV * abs(div(za, all)), b: task.lineLineV * abs(div(zb, all)) }
}

/** Three wires, two legs: Va = Es − Ia·Z − (Ia − Ib)·Zn. The lightly loaded leg may rise above its source. */
export function threeWireV(task: {
  readonly sourceV: readonly [number, number]
  readonly lineOhm: Complex
  readonly neutralOhm: Complex
  readonly aA: Complex
  readonly bA: Complex
}): { readonly a: number; readonly b: number } {
  const { sourceV, lineOhm, neutralOhm, aA, bA } = task
  const back = mul(sub(aA, bA), neutralOhm)
  return {
    a: abs(sub(sub(cx(sourceV[0]), mul(aA, lineOhm)), back)),
    b: abs(add(sub(cx(sourceV[1]), mul(bA, lineOhm)), back)),
  }
}

/**
 * Longest one-way length at which the load still has `leastV`, its panel end held at `panelV`. The current at the limit follows
 * from the load's own model, so the equation is a quadratic in the length. Null: not even a cord of no length leaves so much.
 *
 *   |leastV + I·(Zfixed + z·L)| = panelV,   I = S*·g / cos-kept phase to leastV
 */
export function longestM(task: {
  readonly panelV: number
  readonly leastV: number
  /** Current at `leastV`, phasor to it (lagging: negative imaginary). */
  readonly currentA: Complex
  readonly fixedOhm: Complex
  readonly loopOhmPerM: Complex
}): number | null {
  const c = add(cx(task.leastV), mul(task.currentA, task.fixedOhm))
  const d = mul(task.currentA, task.loopOhmPerM)
  const aa = d.re * d.re + d.im * d.im
  const bb = 2 * (c.re * d.re + c.im * d.im)
  const cc = c.re * c.re + c.im * c.im - task.panelV * task.panelV
  if (cc > 0) return null
  if (aa === 0) return Infinity
  return (-bb + Math.sqrt(bb * bb - 4 * aa * cc)) / (2 * aa)
}

/** Current a load takes at some volts, phasor to those volts. */
export function currentAt(sVA: Complex, nominalV: number, model: 'Z' | 'I' | 'P', volts: number): Complex {
  const k = model === 'P' ? 1 / volts : model === 'I' ? 1 / nominalV : volts / (nominalV * nominalV)
  return scale(cx(sVA.re, -sVA.im), k)
}
