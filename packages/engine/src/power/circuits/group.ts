import type { Circuit, Plug, Shock } from '../../job/index.ts'
import { Fault } from '../../kernel/index.ts'
import type { Outlet, RuleSet, System } from '../../rules/index.ts'
import { type Connection, connectionOf, isHardWired, outletOf } from './connection.ts'
import { byNature, natural, type PlugLoad, plugLoad } from './loads.ts'

/** Plugs that hang on one physical outlet: one, or the rows that share a plug. */
export interface OutletLoad {
  readonly loads: readonly PlugLoad[]
  readonly connection: Connection
  readonly feedV: number
  readonly outletName: string
  readonly outlet: Outlet | null
}

/** What one circuit feeds. */
export interface CircuitLoad {
  readonly id: string
  readonly outlets: readonly OutletLoad[]
  readonly connection: Connection
}

/** Machines that may share a way: light ones, and hand tools that run a part of the time. House rule. */
export const LIGHT_W = 250
export const TOOL_DUTY_FRAC = 0.5
/** Even light machines: a fault takes out no more than these. House rule. */
export const MOST_PER_CIRCUIT = 6

export interface Grouped {
  readonly circuits: readonly CircuitLoad[]
  /** Machines nothing in this panel can feed: three-phase ones on a panel without three phases. */
  readonly cannot: readonly Plug[]
}

/**
 * One heavy machine, one breaker. Light machines of one kind share a way up to what a device of `shareA` holds; always-ready ones never
 * do; two elements of one machine never share a way.
 */
export function groupedCircuits(plugs: readonly Plug[], rules: RuleSet, system: System): Grouped {
  const cannot: Plug[] = []
  const outlets: OutletLoad[] = []
  for (const shared of byOutlet(plugs)) {
    const first = shared[0]!
    const outlet = outletOf(rules, first.outlet)
    const fitted = connectionOf(first, system, outlet)
    if (fitted === null) cannot.push(...shared)
    else
      outlets.push({
        loads: shared.map((p) => plugLoad(p, rules)),
        connection: fitted.connection,
        feedV: fitted.feedV,
        outletName: first.outlet,
        outlet,
      })
  }
  const circuits: CircuitLoad[] = []
  const open = new Map<string, OutletLoad[]>()
  const close = (group: readonly OutletLoad[]) =>
    circuits.push({ id: circuitId(group), outlets: group, connection: group[0]!.connection })
  for (const outlet of outlets) {
    if (!isLight(outlet) || isHardWired(outlet.outletName)) {
      close([outlet])
      continue
    }
    const { plug } = outlet.loads[0]!
    const key = [outlet.outletName, outlet.connection, plug.voltageV, plug.kind, plug.use].join('|')
    const group = open.get(key) ?? []
    const full =
      group.length > 0 &&
      (group.length >= MOST_PER_CIRCUIT || !holdsTogether([...group, outlet], rules) || sameMachine(group, outlet))
    if (full) close(group)
    open.set(key, full ? [outlet] : [...group, outlet])
  }
  for (const group of open.values()) close(group)
  return { circuits: circuits.sort((a, b) => byNature(lead(a), lead(b))), cannot }
}

const lead = (c: CircuitLoad): Plug => c.outlets[0]!.loads[0]!.plug

function byOutlet(plugs: readonly Plug[]): readonly (readonly Plug[])[] {
  const sorted = [...plugs].sort(byNature)
  const groups = new Map<string, Plug[]>()
  for (const plug of sorted) {
    const key = plug.plugShared === undefined ? `plug ${plug.tag}` : `shared ${plug.plugShared}`
    const group = groups.get(key)
    if (group === undefined) groups.set(key, [plug])
    else group.push(plug)
  }
  return [...groups.values()]
}

function isLight(outlet: OutletLoad): boolean {
  return (
    outlet.connection === 'LN' &&
    outlet.loads.length === 1 &&
    outlet.loads.every(({ plug }) => {
      const tool = plug.use === 'tools' && plug.dutyFrac <= TOOL_DUTY_FRAC
      return !plug.essential && !plug.motor && (plug.powerW <= LIGHT_W || tool)
    })
  )
}

/** The device that a shared way would need must not exceed the outlet's own rating. */
function holdsTogether(group: readonly OutletLoad[], rules: RuleSet): boolean {
  const needA = rules.deviceNeedA({ continuousA: sum(group, 'continuousA'), otherA: sum(group, 'otherA') }).value
  const ratingA = group[0]!.outlet?.ratingA ?? 0
  return needA <= ratingA * (1 + 1e-9)
}

const sameMachine = (group: readonly OutletLoad[], outlet: OutletLoad): boolean => {
  const machine = outlet.loads[0]!.plug.machine
  return group.some((o) => o.loads.some((l) => l.plug.machine === machine))
}

export function sum(
  outlets: readonly OutletLoad[],
  what: 'currentA' | 'continuousA' | 'otherA' | 'powerW' | 'apparentVA',
): number {
  let total = 0
  for (const outlet of outlets) for (const load of outlet.loads) total += load[what]
  return total
}

/** `C-` and the first plug by name: renaming a machine renames its circuit and nothing else. @throws Fault `circuits/empty` */
function circuitId(group: readonly OutletLoad[]): string {
  const tags = group.flatMap((o) => o.loads.map((l) => l.plug.tag)).sort(natural)
  if (tags[0] === undefined) throw new Fault('circuits/empty')
  return `C-${tags[0]}`
}

export interface ShockTask {
  readonly rules: RuleSet
  readonly system: System
  readonly temporary: boolean | null
}

/** Strictest of what the outlets of a circuit must have. */
export function shockOf(outlets: readonly OutletLoad[], task: ShockTask): ReturnType<RuleSet['shockFor']> {
  const asked = outlets.flatMap((o) =>
    o.loads.map(({ plug, currentA }) => {
      const hardWired = isHardWired(o.outletName)
      const outlet = o.outlet ?? madeOutlet(o, currentA, task.rules)
      return task.rules.shockFor({
        outlet,
        system: task.system,
        use: plug.use,
        kind: plug.kind,
        temporary: task.temporary,
        outdoors: true,
        hardWired,
      })
    }),
  )
  return asked.reduce((a, b) => (strictness(b.value) > strictness(a.value) ? b : a))
}

/** An outlet the set's list does not name, made from the machine: hard-wired, or known by its words only. */
export function madeOutlet(o: OutletLoad, currentA: number, rules: RuleSet): Outlet {
  const machine = { ratingA: currentA, phases: o.loads[0]!.plug.phases, connection: o.connection, voltageV: o.feedV }
  return rules.outletNamed('hard-wired', machine) ?? { id: o.outletName, ...machine, rests: o.loads[0]!.steps[0]!.rests }
}

const FORM_ORDER: readonly Shock['form'][] = [null, 'AC', 'A', 'F', 'B']
function strictness(shock: Shock): number {
  if (shock.kind === 'none') return 0
  const bySensitivity = 1e4 / Math.max(1, shock.sensitivityMA ?? 1e4)
  return 10 + bySensitivity * 10 + FORM_ORDER.indexOf(shock.form)
}

/** Circuit id for the box's own loads. */
export const OWN_ID: Record<NonNullable<Circuit['own']>, string> = {
  light: 'own-light',
  heater: 'own-heater',
  fan: 'own-fan',
  control: 'own-control',
  receptacle: 'own-outlet',
  stub: 'stub',
  spare: 'spare',
}
