import { allOnByHand, type Job, type Leg, type Staging } from '../../job/index.ts'
import { put, type Step, source, step } from '../../kernel/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import { type BoxLoad, boxLoads, type StagingResult } from '../staging/index.ts'
import { systemOf } from '../systems.ts'
import { legPhasorA } from './legs.ts'
import { motorStart } from './motor-start.ts'
import type { ColdRestart, LegDemand, ServiceDemand } from './result.ts'
import { sumsOf } from './sums.ts'

export interface DemandTask {
  readonly job: Job
  readonly boxId: string
  readonly phaseId: string
  readonly rules: RuleSet
  readonly staging: Pick<Staging, 'control' | 'capA'>
  /** Legs of each plug as the circuits have them; absent: the lightest leg in turn. */
  readonly legsOf?: Readonly<Record<string, readonly Leg[]>>
  /** Staged leg currents, where they were worked out. */
  readonly staged?: Pick<StagingResult, 'afterA'>
}

export interface BoxDemand {
  readonly demand: ServiceDemand
  readonly coldRestart: ColdRestart
  readonly steps: readonly Step[]
  /** Vehicle heaters by the set's own text against their plates; null where the set has no such text or the job no such plug. */
  readonly vehicleHeaters: { readonly platesW: number; readonly ruleW: number } | null
}

const WELDER = source('NEC 630.11(A), √duty; taken for all sets', 'memory')

/** Heaters and chargers run on in a cold spell whatever the list says: continuous in every set. */
const alwaysContinuous = (load: BoxLoad): boolean => load.kind === 'heater' || load.kind === 'charger' || load.own === 'heater'

export const isContinuousLoad = (load: BoxLoad, rules: RuleSet): boolean =>
  alwaysContinuous(load) ||
  (load.kind !== 'welder' && rules.isContinuous(load.own === null ? load.runH : load.windowH, load.currentA).value)

/** Current that a load adds to a feeder: as written; of a welder its effective current, I·√duty. */
export const feederA = (load: BoxLoad): number =>
  load.kind === 'welder' ? load.currentA * Math.sqrt(load.dutyFrac) : load.currentA

/** “with everything on”, “as held by an interlock that fails off”. */
export const basisWords = (basis: ServiceDemand['basis']): string =>
  basis === 'everything on' ? 'with everything on' : 'as held by an interlock that fails off'

/** Does a hard cap hold the sum? Only an interlock that fails off, with a cap, and no hand switch beside it. */
export const capHolds = (job: Job, staging: Pick<Staging, 'control' | 'capA'>): boolean =>
  staging.control === 'interlock' && staging.capA !== null && !allOnByHand(job)

/**
 * What the service of a box must be sized for: everything on at nameplate, worst leg, by the demand rule of the set.
 *
 * No diversity of clocks: timers and thermostats fail on in the cold, so they lower the bill, never the size. A hard cap lowers it,
 * to the cap or to what the interlock cannot shed, whichever is more.
 * @throws Fault `power/system-unknown`, `staging/box-unknown`
 */
export function demandFor(task: DemandTask): BoxDemand {
  return demandOf(boxLoads(task), task)
}

export function demandOf(loads: readonly BoxLoad[], task: Omit<DemandTask, 'legsOf'>): BoxDemand {
  const { job, rules, staging } = task
  const system = systemOf(rules, job.system)
  const phasor = legPhasorA(loads, system)
  const heaters = vehicleHeaters(loads, rules, staging.control === 'interlock')
  const raise = heaters !== null && heaters.platesW > 0 ? Math.max(1, heaters.ruleW / heaters.platesW) : 1
  const capA = capHolds(job, staging) ? staging.capA : null
  const legs = system.legs.map((leg): LegDemand & { readonly needA: number; readonly steps: readonly Step[] } => {
    const on = loads.filter((load) => load.legs.includes(leg))
    const part = (load: BoxLoad) => feederA(load) * (load.plug?.use === 'vehicle-heater' ? raise : 1)
    const receptacles = on.filter((load) => load.own === 'receptacle')
    const rest = on.filter((load) => load.own !== 'receptacle')
    const continuous = rest.filter((load) => isContinuousLoad(load, rules))
    const sum = (some: readonly BoxLoad[]) => some.reduce((total, load) => total + part(load), 0)
    const largestMotorA = Math.max(
      0,
      ...rest.filter((l) => l.kind === 'motor' && l.own === null && !isContinuousLoad(l, rules)).map((l) => l.currentA),
    )
    const allOnA = on.reduce((total, load) => total + load.currentA, 0)
    const continuousA = sum(continuous)
    const otherA = sum(rest) - continuousA
    const generalVA = receptacles.reduce((total, load) => total + load.powerW, 0)
    const lineV = system.lineNeutralV
    const uncapped = rules.demandA({ continuousA, otherA, largestMotorA, generalVA, lineV })
    const staged = task.staged ? Math.max(0, ...task.staged.afterA[leg]) : allOnA
    const shown = {
      leg,
      allOnA,
      phasorA: phasor[leg],
      stagedA: staged,
      continuousA,
      otherA,
      largestMotorA,
      lineNeutralA: on.filter((load) => load.legs.length === 1).reduce((total, load) => total + load.currentA, 0),
    }
    if (capA === null) return { ...shown, needA: uncapped.value, steps: uncapped.steps }
    const fixed = on.filter((load) => !load.stageable)
    const heldA = Math.min(
      allOnA,
      Math.max(
        capA,
        fixed.reduce((total, load) => total + load.currentA, 0),
      ),
    )
    const capped = rules.demandA({ continuousA: heldA, otherA: 0, largestMotorA: 0, generalVA: 0, lineV })
    const held = step(
      'Ic',
      'held by the interlock: min(all on, max(cap, what it cannot shed))',
      [put('all on', allOnA, 'A'), put('cap', capA, 'A')],
      heldA,
      'A',
      source('hard cap that fails off, in the design', 'told'),
    )
    return capped.value < uncapped.value
      ? { ...shown, needA: capped.value, steps: [held, ...capped.steps] }
      : { ...shown, needA: uncapped.value, steps: uncapped.steps }
  })
  const worst = legs.reduce((a, b) => (b.needA > a.needA * (1 + 1e-9) ? b : a))
  const all = sumsOf(loads)
  const growthFrac = job.needs.growthFrac
  const needWithGrowthA = worst.needA * (1 + growthFrac)
  const device = rules.nextDeviceA(needWithGrowthA)
  const mean = legs.reduce((sum, l) => sum + l.allOnA, 0) / legs.length
  const highest = Math.max(...legs.map((l) => l.allOnA))
  const welders = loads.filter((load) => load.kind === 'welder')
  return {
    demand: {
      worstLeg: worst.leg,
      legs: legs.map(({ needA: _need, steps: _steps, ...leg }) => leg),
      needA: worst.needA,
      needWithGrowthA,
      growthFrac,
      deviceA: device.value,
      basis: capA === null ? 'everything on' : 'held by an interlock that fails off',
      capA,
      allOnW: all.powerW,
      allOnVA: all.plainVA,
      imbalanceFrac: mean > 0 ? (highest - mean) / mean : 0,
    },
    coldRestart: coldRestart(loads, legs, task, capA),
    steps: [
      ...welders.map((load) =>
        step('Iw', 'I·√duty', [put('I', load.currentA, 'A'), put('duty', load.dutyFrac)], feederA(load), 'A', WELDER),
      ),
      step(
        'ΣI',
        `all on, leg ${worst.leg}, magnitudes added`,
        [put('plugs', loads.filter((l) => l.legs.includes(worst.leg)).length)],
        worst.allOnA,
        'A',
        source('sum of the machine list', 'computed'),
      ),
      ...worst.steps,
      step(
        'I′',
        'I·(1 + growth)',
        [put('I', worst.needA, 'A'), put('growth', growthFrac)],
        needWithGrowthA,
        'A',
        source('growth asked for', 'told'),
      ),
      ...device.steps,
    ],
    vehicleHeaters: heaters,
  }
}

/**
 * Demand of vehicle heaters by the set's own text, where it has one, against their plates. The greater counts: a car-park figure does not
 * describe heavy machines, and every place may be full at once.
 */
function vehicleHeaters(loads: readonly BoxLoad[], rules: RuleSet, restricted: boolean): BoxDemand['vehicleHeaters'] {
  const heaters = loads.filter((load) => load.plug?.use === 'vehicle-heater')
  if (heaters.length === 0) return null
  const platesW = heaters.reduce((sum, load) => sum + load.powerW, 0)
  const circuitA =
    rules.nextDeviceA(rules.deviceNeedA({ continuousA: Math.max(...heaters.map((load) => load.currentA)), otherA: 0 }).value)
      .value ?? 20
  // The text counts spaces: two elements of one machine stand on one.
  const count = new Set(heaters.map((load) => load.plug?.machine)).size
  const rule = rules.vehicleHeaterDemandW({ count, circuitA, restricted, nameplateW: platesW / count })
  return rule === null ? null : { platesW, ruleW: rule.value }
}

/** After an outage nothing is staged any more: every machine that is plugged in starts, and the largest motor may start last. */
function coldRestart(
  loads: readonly BoxLoad[],
  legs: readonly LegDemand[],
  task: Omit<DemandTask, 'legsOf'>,
  capA: number | null,
): ColdRestart {
  const sumA: Record<Leg, number> = { A: 0, B: 0, C: 0 }
  for (const leg of legs) sumA[leg.leg] = leg.allOnA
  let withLargestStartA = 0
  for (const leg of legs) {
    let rise = 0
    for (const load of loads) {
      if (!load.plug || !load.legs.includes(leg.leg)) continue
      const start = motorStart(load.plug, task.rules.tables['motor-code'])
      if (start) rise = Math.max(rise, start.currentA.high - load.currentA)
    }
    withLargestStartA = Math.max(withLargestStartA, leg.allOnA + rise)
  }
  return {
    sumW: loads.reduce((sum, load) => sum + load.powerW, 0),
    sumA,
    worstA: Math.max(...legs.map((leg) => leg.allOnA)),
    withLargestStartA,
    lockedOutBy: capA === null ? null : `an interlock that holds ${Math.round(capA)} A on each leg and fails off`,
  }
}
