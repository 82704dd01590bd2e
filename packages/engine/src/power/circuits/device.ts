import type { Device, Plug } from '../../job/index.ts'
import type { Outlet, RuleSet, System } from '../../rules/index.ts'
import { type Connection, outletAtLeast, POLES } from './connection.ts'
import { type OutletLoad, sum } from './group.ts'

export interface ChosenDevice {
  readonly device: Device
  /** Outlet that stands behind it: the one wanted, or the next that the device asks for. */
  readonly outletName: string
  readonly outlet: Outlet | null
  /** Largest device and smallest conductor of a motor circuit; null for other loads. */
  readonly motor: { readonly tableA: number; readonly conductorA: number; readonly deviceMaxA: number } | null
}

export interface DeviceTask {
  readonly rules: RuleSet
  readonly system: System
  readonly connection: Connection
  readonly outlets: readonly OutletLoad[]
  readonly interruptingKA: number
  readonly family: string | undefined
  readonly leastA: number | undefined
}

/** Outlets up to this rating get a circuit of their own rating: another machine of the same plug may come. House rule. */
export const MATCHED_TO_A = 32
/** A family that the maker's range ends before: what stands in its place. */
export const LARGER_FAMILY = 'IEC 60947-2'
/** Wider magnetic band where a start would trip the first. */
const WIDER: Readonly<Record<string, string>> = { 'IEC 60898 B': 'IEC 60898 C', 'IEC 60898 C': 'IEC 60898 D' }

/**
 * Device of a circuit. By current: the set's need, next standard rating, never under what the outlet is rated for where that is small.
 * A motor: smallest standard rating that carries the motor, lets it start without tripping, and stays within the set's largest.
 */
export function deviceFor(task: DeviceTask): ChosenDevice {
  const { rules } = task
  const motorPlug =
    task.outlets.length === 1 && task.outlets[0]!.loads.length === 1 && task.outlets[0]!.loads[0]!.motor
      ? task.outlets[0]!.loads[0]!.plug
      : null
  const outlet = task.outlets[0]!.outlet
  const outletName = task.outlets[0]!.outletName
  if (motorPlug !== null) return motorDevice(task, motorPlug, outlet, outletName)
  const needA = rules.deviceNeedA({ continuousA: sum(task.outlets, 'continuousA'), otherA: sum(task.outlets, 'otherA') }).value
  const welder = task.outlets.some((o) => o.loads.some((l) => l.plug.kind === 'welder'))
  const wantsA = Math.max(needA, task.leastA ?? 0)
  const behind =
    outlet !== null && wantsA > outlet.ratingA * (1 + 1e-9) ? (outletAtLeast(rules, outlet, wantsA) ?? outlet) : outlet
  const matched = behind !== null && (behind.ratingA <= MATCHED_TO_A || welder) ? Math.max(wantsA, behind.ratingA) : wantsA
  const family = task.family ?? rules.defaults.deviceFamily
  return { device: deviceOf(task, matched, family), outletName: behind?.id ?? outletName, outlet: behind, motor: null }
}

function deviceOf(
  task: Pick<DeviceTask, 'rules' | 'system' | 'connection' | 'interruptingKA'>,
  neededA: number,
  family: string,
): Device {
  const { rules } = task
  const own = rules.nextDeviceA(neededA, family).value
  const ratingA = own ?? rules.nextDeviceA(neededA, LARGER_FAMILY).value ?? Math.ceil(neededA)
  return {
    ratingA,
    poles: POLES[task.connection],
    family: own === null ? LARGER_FAMILY : family,
    interruptingKA: interruptingAtLeast(rules, task.system, task.interruptingKA, false),
  }
}

/** Smallest step offered that reaches the fault level; the largest there is where none does, and `faults` says so. */
export function interruptingAtLeast(rules: RuleSet, system: System, neededKA: number, main: boolean): number {
  const steps = rules.interruptingStepsKA(system, main)
  return steps.find((kA) => kA >= neededKA) ?? steps[steps.length - 1] ?? neededKA
}

function motorDevice(task: DeviceTask, plug: Plug, outlet: Outlet | null, outletName: string): ChosenDevice {
  const { rules } = task
  const plate = plug.motor!
  const motor = rules.motorDeviceA({
    ...(plate.hp === undefined ? {} : { hp: plate.hp }),
    ...(plate.shaftW === undefined ? {} : { shaftW: plate.shaftW }),
    currentA: plate.fullLoadA ?? plug.currentA,
    voltageV: plug.voltageV,
    phases: plug.phases,
  }).value
  const startA = startingA(plug)
  const floorA = Math.max(motor.conductorA, task.leastA ?? 0)
  const families = [task.family ?? rules.defaults.deviceFamily]
  while (WIDER[families[families.length - 1]!] !== undefined && task.family === undefined)
    families.push(WIDER[families[families.length - 1]!]!)
  for (const family of families) {
    for (let rating = rules.nextDeviceA(floorA, family).value; rating !== null && rating <= motor.deviceMaxA * (1 + 1e-9); ) {
      if (startA <= rules.tripBand(family, rating).magneticFromRatio * rating) {
        const behind = outlet !== null && rating > outlet.ratingA ? (outletAtLeast(rules, outlet, rating) ?? outlet) : outlet
        return { device: deviceOf(task, rating, family), outletName: behind?.id ?? outletName, outlet: behind, motor }
      }
      rating = rules.nextDeviceA(rating + 1e-6, family).value
    }
  }
  const largest = Math.max(floorA, motor.deviceMaxA)
  return { device: deviceOf(task, largest, families[families.length - 1]!), outletName, outlet, motor }
}

/** Start over full load where the plate says nothing. @source usual ratios: direct 5–7, star–delta a third, soft start 3. Provenance: common practice */
const START_RATIO: Record<NonNullable<Plug['motor']>['start'], number> = { direct: 6, 'star-delta': 2.5, soft: 3, drive: 1.1 }

/** Current a motor draws when it starts, A: locked rotor as told, else the ratio told, else by the way it starts. */
export function startingA(plug: Plug): number {
  const plate = plug.motor
  if (plate === undefined) return plug.currentA
  const fullA = plate.fullLoadA ?? plug.currentA
  if (plate.lockedRotorA !== undefined && plate.start === 'direct') return plate.lockedRotorA
  return fullA * (plate.startRatio ?? START_RATIO[plate.start])
}

/** House family, or the one beyond its range. */
export function deviceFamilyFor(rules: RuleSet, ratingA: number): string {
  return rules.nextDeviceA(ratingA, rules.defaults.deviceFamily).value === null ? LARGER_FAMILY : rules.defaults.deviceFamily
}
