import { diversifiedVA, machinesByLegs } from './diversity.ts'
import { elementOn } from './element.ts'
import { correctionVar, vectorSum } from './reactive.ts'

export const needsCases: Record<string, (given: any) => Record<string, unknown>> = {
  'need-06': (given) => {
    const groups = (given.connected_kVA as number[]).map((kVA, i) => ({ connectedVA: kVA * 1000, demandFrac: given.demand[i] }))
    const { undiversifiedVA, diversifiedVA: diversified } = diversifiedVA(groups, given.diversity)
    return { undiversified_kVA: undiversifiedVA / 1000, diversified_kVA: diversified / 1000 }
  },
  'need-09': (given) => {
    const counts = machinesByLegs({
      serviceA: given.service_A,
      holdsFrac: given.continuous_share,
      legs: 2,
      machineW: given.machine_W,
      machineV: given.machine_V,
      lineLineV: 240,
    })
    return { by_power: counts.byPowerCount, per_leg: counts.perLegCount, by_legs: counts.byLegsCount }
  },
  'need-10': (given) => {
    const on = elementOn({ ratedW: given.rated_W, ratedV: given.rated_V, actualV: given.actual_V })
    return { actual_W: on.powerW, ratio: on.leftFrac, current_A: on.currentA }
  },
  'eng-01': (given) => ({ kvar: correctionVar(given.kW * 1000, given.pf_from, given.pf_to) / 1000 }),
  'eng-03': (given) => ({
    kvar: correctionVar(given.kW * 1000, given.pf_from, given.pf_to) / 1000,
    // At the same kVA the better power factor carries more watts.
    freed_kW: (given.kW / given.pf_from) * given.pf_to - given.kW,
  }),
  'eng-04': (given) => {
    const loads = (given.loads as { kW: number; pf: number }[]).map((l) => ({ powerW: l.kW * 1000, powerFactorFrac: l.pf }))
    const sum = vectorSum(loads)
    const byPlainSum = sum.powerW / sum.plainVA
    return {
      kW: sum.powerW / 1000,
      arithmetic_kVA: sum.plainVA / 1000,
      phasor_kVA: sum.vectorVA / 1000,
      pf: sum.powerFactorFrac,
      // What follows from adding kVA as the source does: its power factor is too low and its capacitor too large.
      printed_kvar: correctionVar(sum.powerW, byPlainSum, given.target_pf) / 1000,
      correct_kvar: correctionVar(sum.powerW, sum.powerFactorFrac, given.target_pf) / 1000,
    }
  },
}
