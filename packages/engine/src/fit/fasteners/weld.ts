import { Fault } from '../../kernel/index.ts'
import { fastenerFigure } from '../shelf.ts'

/**
 * Strength of a fillet weld whatever way it is pulled: fvw,d = fu/(√3·βw·γM2), times the throat per millimetre of effective length.
 * @throws Fault `fit/fastener-range`
 * @source EN 1993-1-8, 4.5.3.3. Provenance: memory, agrees with a published worked example
 */
export function fillet(of: { readonly fuMPa: number; readonly bw: number; readonly throatMm: number }): {
  readonly strengthMPa: number
  readonly perMmN: number
} {
  if (!Object.values(of).every((n) => n > 0 && n < Infinity)) throw new Fault('fit/fastener-range', of)
  const strengthMPa = of.fuMPa / (Math.sqrt(3) * of.bw * fastenerFigure('gamma-m2').value)
  return { strengthMPa, perMmN: strengthMPa * of.throatMm }
}

/**
 * Fillet on sheet to lay for a force at design level: throat 0.7 t of the thinner part, effective length force over strength, and a throat
 * at each end, for start and end count nothing.
 * @throws Fault `fit/fastener-range`
 * @source EN 1993-1-8, 4.5.3.3 and 4.5.1. Provenance: memory
 */
export function weldToLay(of: { readonly designForceN: number; readonly thinnerMm: number; readonly runs: number }): {
  readonly throatMm: number
  readonly perMmN: number
  /** Of each run, ends counted. */
  readonly runMm: number
} {
  if (!(of.designForceN >= 0 && of.designForceN < Infinity && of.thinnerMm > 0 && of.runs >= 1))
    throw new Fault('fit/fastener-range', of)
  const throatMm = fastenerFigure('throat').value * of.thinnerMm
  const { perMmN } = fillet({
    fuMPa: fastenerFigure('weld-fu').value,
    bw: fastenerFigure('weld-bw').value,
    throatMm,
  })
  return { throatMm, perMmN, runMm: of.designForceN / perMmN / of.runs + 2 * throatMm }
}
