import { Fault } from '../../kernel/index.ts'
import { addZ, magnitudeOhm, scaleZ } from './impedance.ts'
import type { Impedance } from './result.ts'

const current = (voltageV: number, z: Impedance): number => {
  const ohm = magnitudeOhm(z)
  if (!(voltageV > 0 && ohm > 0)) throw new Fault('faults/no-impedance', { voltageV, z })
  return voltageV / ohm
}

/** I3 = c·V/(√3·|Z1|). V line–line. @throws Fault `faults/no-impedance` @source IEC 60909-0:2016, 8.2. Provenance: memory */
export const threePhaseA = (f: { readonly voltageV: number; readonly cRatio: number; readonly z1: Impedance }): number =>
  current((f.cRatio * f.voltageV) / Math.sqrt(3), f.z1)

/** I2 = c·V/|Z1 + Z2|; with Z2 = Z1 √3/2 of three-phase. @throws Fault `faults/no-impedance` @source as above */
export const lineLineA = (f: {
  readonly voltageV: number
  readonly cRatio: number
  readonly z1: Impedance
  readonly z2?: Impedance
}): number => current(f.cRatio * f.voltageV, addZ(f.z1, f.z2 ?? f.z1))

/** I1 = √3·c·V/|Z1 + Z2 + Z0|. @throws Fault `faults/no-impedance` @source as above */
export const lineEarthA = (f: {
  readonly voltageV: number
  readonly cRatio: number
  readonly z1: Impedance
  readonly z2?: Impedance
  readonly z0: Impedance
}): number => current(Math.sqrt(3) * f.cRatio * f.voltageV, addZ(f.z1, f.z2 ?? f.z1, f.z0))

/** One loop: I = c·V/|Z|, V across the loop. @throws Fault `faults/no-impedance` */
export const loopA = (f: { readonly voltageV: number; readonly cRatio: number; readonly loopZ: Impedance }): number =>
  current(f.cRatio * f.voltageV, f.loopZ)

/** Loop of a three-phase source from its sequence values: (Z1 + Z2 + Z0)/3 of line–neutral voltage. */
export const sequenceLoopZ = (z1: Impedance, z2: Impedance, z0: Impedance): Impedance => scaleZ(addZ(z1, z2, z0), 1 / 3)
