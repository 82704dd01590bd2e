import type { Circuit, Device } from '../../job/index.ts'
import type { OwnLoad } from '../../parts/index.ts'
import type { RuleSet, System } from '../../rules/index.ts'
import type { Crowd } from './beside.ts'
import { isHardWired, outletOf } from './connection.ts'
import { interruptingAtLeast } from './device.ts'
import { OWN_ID } from './group.ts'
import { type Wired, wired } from './wire.ts'

export interface OwnTask {
  readonly rules: RuleSet
  readonly system: System
  readonly temporary: boolean | null
  readonly ambientC: number
  readonly interruptingKA: number
  readonly lengthM: (id: string) => number
  readonly least: (id: string) => string | undefined
  readonly family: (id: string) => string | undefined
  readonly shock: (id: string) => Circuit['shock'] | undefined
  /** What lies together with it where it is laid. */
  readonly crowd: (id: string) => Crowd
}

export type UnplacedCircuit = Omit<Circuit, 'ways' | 'legs'>

const LABELS: Record<OwnLoad['own'], string> = {
  light: 'Box light: sensor and plain switch',
  heater: 'Box heater',
  fan: 'Box fan',
  control: 'Controls, timers, contactor coils',
  receptacle: 'Service receptacle',
}

/** The service receptacle: the smallest line–neutral one that the set lists. */
const serviceOutlet = (rules: RuleSet): string =>
  [...rules.outlets].filter((o) => o.connection === 'LN').sort((a, b) => a.ratingA - b.ratingA || (a.id < b.id ? -1 : 1))[0]
    ?.id ?? 'hard-wired'

/** Circuit of one of the box's own loads, line to neutral. A heater and the controls run all day; the others a few hours. */
export function ownCircuit(load: OwnLoad, task: OwnTask): { readonly circuit: UnplacedCircuit; readonly wired: Wired } {
  const { rules, system } = task
  const id = OWN_ID[load.own]
  const inCabinet = load.at === 'cabinet'
  const voltageV = system.lineNeutralV
  const currentA = load.powerW / (voltageV * load.powerFactorFrac)
  const split = ownSplit(rules, load.own, load.hoursPerDay, currentA)
  const outletName = load.own === 'receptacle' ? serviceOutlet(rules) : 'hard-wired'
  const outlet = outletOf(rules, outletName)
  const needA = Math.max(rules.deviceNeedA(split).value, outlet?.ratingA ?? SMALLEST_A)
  const family = task.family(id) ?? rules.defaults.deviceFamily
  const device: Device = {
    ratingA: rules.nextDeviceA(needA, family).value ?? Math.ceil(needA),
    poles: 1,
    family,
    interruptingKA: interruptingAtLeast(rules, system, task.interruptingKA, false),
  }
  const made = rules.outletNamed('hard-wired', { ratingA: currentA, phases: 1, connection: 'LN', voltageV })
  const shockOutlet = outlet ?? made
  const shock =
    task.shock(id) ??
    (shockOutlet === null
      ? { kind: 'none' as const, sensitivityMA: null, form: null }
      : rules.shockFor({
          outlet: shockOutlet,
          system,
          use: 'building',
          kind: load.own === 'heater' ? 'heater' : load.own === 'fan' ? 'motor' : 'mixed',
          temporary: task.temporary,
          outdoors: false,
          hardWired: isHardWired(outletName),
        }).value)
  const wiring = {
    rules,
    system,
    connection: 'LN' as const,
    ...split,
    motor: false,
    multiOutlet: false,
    nonLinearFrac: 0,
    deviceA: device.ratingA,
    deviceFamily: family,
    ambientC: task.ambientC,
    lengthM: inCabinet ? IN_CABINET_M : task.lengthM(id),
    metal: 'cu' as const,
    insulation: rules.defaults.insulation,
    racewayKind: rules.defaults.raceway,
  }
  const crowd = task.crowd(id)
  const grownFrom =
    crowd.othersCarrying === 0 ? {} : { grownFrom: wired({ ...wiring, circuits: 1, othersCarrying: 0 }, undefined).base }
  const wire = wired({ ...wiring, ...crowd, ...grownFrom }, task.least(id))
  const ownLoad = {
    powerW: load.powerW,
    voltageV,
    powerFactorFrac: load.powerFactorFrac,
    fromH: load.fromH,
    hoursPerDay: load.hoursPerDay,
    ...(load.at === undefined ? {} : { at: load.at }),
  }
  return {
    circuit: {
      id,
      connection: 'LN',
      device,
      shock,
      // Inside the cabinet its wires lie in no raceway.
      run: inCabinet ? { ...wire.run, raceway: null } : wire.run,
      outlet: outletName,
      plugs: [],
      own: load.own,
      ownLoad,
      cords: [],
      label: LABELS[load.own],
    },
    wired: wire,
  }
}

/** Wire from its device to a heater in the same cabinet, m. Common practice. */
const IN_CABINET_M = 2

/** Smallest device the box's own circuits get: what a person may later hang on it. House rule. */
const SMALLEST_A = 15

/** Continuous part of an own load: heater always, others by their hours. */
export function ownSplit(
  rules: RuleSet,
  own: NonNullable<Circuit['own']>,
  hoursPerDay: number,
  currentA: number,
): { readonly continuousA: number; readonly otherA: number } {
  const continuous = own === 'heater' || rules.isContinuous(hoursPerDay, currentA).value
  return { continuousA: continuous ? currentA : 0, otherA: continuous ? 0 : currentA }
}
