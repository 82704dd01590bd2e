import { infiniteSourceA, LOW_TOLERANCE_FRAC, ratedCurrentA } from '../plates.ts'

/**
 * The fault level a phone call can give: an infinite source behind the transformer named, its own impedance only.
 *
 *   I = S/(V·z) one phase (line–line),  S/(√3·V·z) three-phase
 *
 * At the printed impedance; `lowZ` takes nine tenths of it, as the highest fault of a bus does.
 * @throws Fault `power/transformer-range`
 */
export function faultBoundA(transformer: {
  readonly kVA: number
  readonly voltageV: number
  readonly impedancePct: number
  readonly phases: 1 | 3
  readonly lowZ?: boolean
}): number {
  const impedanceFrac = (transformer.impedancePct / 100) * (transformer.lowZ === true ? LOW_TOLERANCE_FRAC : 1)
  return infiniteSourceA({
    ratedVA: transformer.kVA * 1000,
    voltageV: transformer.voltageV,
    phases: transformer.phases,
    impedanceFrac,
  })
}

/** The same of a synchronous set: initial symmetrical current at its terminals, I = Ir/x″d. @throws Fault `power/transformer-range` */
export function setFaultBoundA(set: {
  readonly kVA: number
  readonly voltageV: number
  readonly subtransientPct: number
  readonly phases: 1 | 3
}): number {
  return ratedCurrentA({ ratedVA: set.kVA * 1000, voltageV: set.voltageV, phases: set.phases }) / (set.subtransientPct / 100)
}
