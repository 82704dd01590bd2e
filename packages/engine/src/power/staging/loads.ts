import type { BoxWanted, Job, Leg, LoadKind, Plug, Span } from '../../job/index.ts'
import { systemById } from '../../job/index.ts'
import { Fault } from '../../kernel/index.ts'
import type { OwnKind, OwnLoad } from '../../parts/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import { ownLoadsOf } from '../own-loads.ts'
import { DAY_H, windowLengthH } from './task.ts'

/** One plug, or one of the box's own loads, as it stands in the day. */
export interface BoxLoad {
  readonly tag: string
  readonly box: string
  readonly own: OwnKind | null
  readonly plug: Plug | null
  readonly ownLoad: OwnLoad | null
  readonly kind: LoadKind
  readonly powerW: number
  readonly voltageV: number
  readonly phases: 1 | 3
  readonly powerFactorFrac: Span
  readonly currentA: number
  readonly legs: readonly Leg[]
  readonly fromH: number
  /** (0, 24] */
  readonly windowH: number
  /** Hours wanted in the window, never more than the window. */
  readonly runH: number
  readonly dutyFrac: number
  readonly daysPerYear: number
  /** A clock may choose its start. */
  readonly stageable: boolean
}

export interface LoadTask {
  readonly job: Job
  readonly boxId: string
  readonly phaseId: string
  readonly rules: Pick<RuleSet, 'build'>
  /** Legs of each plug, as the circuits have them. A plug without an entry goes on the lightest leg. */
  readonly legsOf?: Readonly<Record<string, readonly Leg[]>>
}

const told = (value: number, basis: string): Span => ({ low: value, high: value, basis, told: false })

/** Tag of a box's own load, as every list shows it. */
export const ownTag = (box: string, own: OwnKind): string => `${box}/${own}`

/** The box itself and every box that is fed from it, in the order of the job. */
export function boxesBehind(job: Job, boxId: string): readonly BoxWanted[] {
  const behind = new Set([boxId])
  for (let grew = true; grew; ) {
    grew = false
    for (const box of job.boxes) {
      if (box.fedFrom && behind.has(box.fedFrom.box) && !behind.has(box.id)) {
        behind.add(box.id)
        grew = true
      }
    }
  }
  return job.boxes.filter((box) => behind.has(box.id))
}

/**
 * Can a clock choose when this runs? Heaters and chargers may wait; light, tools, pumps, welders, offices run when people or water
 * ask for them, heat trace when it is cold, and what must always be ready does not wait.
 */
export const isStageable = (plug: Plug): boolean =>
  !plug.essential &&
  (plug.kind === 'heater' || plug.kind === 'charger') &&
  (plug.use === 'vehicle-heater' || plug.use === 'charger' || plug.use === 'general')

/**
 * Everything that one supply carries in a phase: the machines of the box, its own light, heater, fan and controls, and the same of the
 * boxes fed from it. Own loads are never left out.
 * @throws Fault `staging/box-unknown`, `staging/system-unknown`
 */
export function boxLoads({ job, boxId, phaseId, rules, legsOf = {} }: LoadTask): readonly BoxLoad[] {
  const system = systemById(job.system)
  if (system === null) throw new Fault('staging/system-unknown', job.system)
  if (!job.boxes.some((box) => box.id === boxId)) throw new Fault('staging/box-unknown', boxId)
  const lineV = system.lineNeutralV ?? system.lineLineV
  const loads: Omit<BoxLoad, 'legs'>[] = []
  for (const box of boxesBehind(job, boxId)) {
    for (const plug of job.plugs) if (plug.fedBy[phaseId] === box.id) loads.push(plugLoad(plug, box.id))
    for (const own of ownLoadsOf(job, box, rules)) loads.push(ownBoxLoad(own, box.id, lineV))
  }
  const legs: readonly Leg[] =
    system.phases === 3 ? ['A', 'B', 'C'] : system.lineNeutralV === system.lineLineV ? ['A'] : ['A', 'B']
  return withLegs(loads, legs, lineV, system.lineLineV, legsOf)
}

function plugLoad(plug: Plug, box: string): Omit<BoxLoad, 'legs'> {
  const windowH = windowLengthH(plug.fromH, plug.readyH)
  return {
    tag: plug.tag,
    box,
    own: null,
    plug,
    ownLoad: null,
    kind: plug.kind,
    powerW: plug.powerW,
    voltageV: plug.voltageV,
    phases: plug.phases,
    powerFactorFrac: plug.powerFactorFrac,
    currentA: plug.currentA,
    fromH: plug.fromH,
    windowH,
    runH: Math.min(plug.hoursPerDay, windowH),
    dutyFrac: plug.dutyFrac,
    daysPerYear: plug.daysPerYear,
    stageable: isStageable(plug),
  }
}

const OWN_KIND: Record<OwnKind, LoadKind> = {
  light: 'electronic',
  heater: 'heater',
  fan: 'motor',
  control: 'electronic',
  receptacle: 'mixed',
}
const DAYS_PER_YEAR = 365

/** A thermostat or a hand switch decides: it may be on at any hour, whatever hours it is counted with for energy. */
function ownBoxLoad(own: OwnLoad, box: string, voltageV: number): Omit<BoxLoad, 'legs'> {
  return {
    tag: ownTag(box, own.own),
    box,
    own: own.own,
    plug: null,
    ownLoad: own,
    kind: OWN_KIND[own.own],
    powerW: own.powerW,
    voltageV,
    phases: 1,
    powerFactorFrac: told(own.powerFactorFrac, own.said),
    currentA: own.powerW / (voltageV * own.powerFactorFrac),
    fromH: 0,
    windowH: DAY_H,
    runH: own.hoursPerDay,
    dutyFrac: 1,
    daysPerYear: DAYS_PER_YEAR,
    stageable: false,
  }
}

/** Legs as told; the rest heaviest first on the leg, pair or set that carries least, ties by name of the leg. */
function withLegs(
  loads: readonly Omit<BoxLoad, 'legs'>[],
  legs: readonly Leg[],
  lineNeutralV: number,
  lineLineV: number,
  legsOf: Readonly<Record<string, readonly Leg[]>>,
): readonly BoxLoad[] {
  const sum = new Map<Leg, number>(legs.map((leg) => [leg, 0]))
  const taken = new Map<string, readonly Leg[]>()
  const take = (load: Omit<BoxLoad, 'legs'>, on: readonly Leg[]) => {
    taken.set(load.tag, on)
    for (const leg of on) sum.set(leg, (sum.get(leg) ?? 0) + load.currentA)
  }
  for (const load of loads) {
    const on = legsOf[load.tag]
    if (on !== undefined && on.length > 0) take(load, on)
  }
  const pairs: (readonly Leg[])[] = legs.flatMap((a, i) => legs.slice(i + 1).map((b) => [a, b] as const))
  const rest = loads.filter((load) => !taken.has(load.tag))
  rest.sort((a, b) => b.currentA - a.currentA || (a.tag < b.tag ? -1 : a.tag > b.tag ? 1 : 0))
  for (const load of rest) {
    const between =
      load.phases === 1 && pairs.length > 0 && Math.abs(load.voltageV - lineLineV) < Math.abs(load.voltageV - lineNeutralV)
    const options: readonly (readonly Leg[])[] = load.phases === 3 ? [legs] : between ? pairs : legs.map((leg) => [leg])
    const highest = (on: readonly Leg[]) => Math.max(...on.map((leg) => sum.get(leg) ?? 0))
    take(
      load,
      options.reduce((best, on) => (highest(on) < highest(best) - 1e-9 ? on : best)),
    )
  }
  return loads.map((load) => ({ ...load, legs: taken.get(load.tag) ?? [] }))
}
