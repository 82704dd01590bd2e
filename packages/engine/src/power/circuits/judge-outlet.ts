import type { Plug, Shock } from '../../job/index.ts'
import { put, source, step } from '../../kernel/index.ts'
import type { BoxView, CircuitView } from './box-view.ts'
import { type Check, shown, upper, worded } from './check.ts'
import { connectionOf, isHardWired, outletOf, POLES, SAME_VOLTS_FRAC, takesPlugOf } from './connection.ts'
import { LIGHT_W, MOST_PER_CIRCUIT, madeOutlet, TOOL_DUTY_FRAC } from './group.ts'
import type { PlugLoad } from './loads.ts'

/** In words about a circuit of one machine it needs no name, so that equal circuits read alike; of several each has its tag. */
export const nameIn = (c: CircuitView, plug: Plug): string => (c.loads.length === 1 ? 'its machine' : plug.tag)

/** Outlet, plug, voltage and who shares the way. */
export function outletChecks(view: BoxView, c: CircuitView): readonly Check[] {
  return [
    ...voltageChecks(view, c),
    ...connectionChecks(view, c),
    ...outletKindChecks(view, c),
    ...plugChecks(view, c),
    ...sharingChecks(view, c),
    ...boxFillChecks(view, c),
  ]
}

function voltageChecks(view: BoxView, c: CircuitView): readonly Check[] {
  return c.loads.flatMap(({ plug }) => {
    const fitted = connectionOf(plug, view.system, outletOf(view.rules, plug.outlet))
    if (fitted === null) {
      return [
        worded({
          what: 'voltage',
          title: 'phases',
          basis: 'physics',
          rests: source(`panel of ${view.system.title}`, 'told'),
          verdict: 'fails',
          found: `${view.system.legs.length} legs`,
          wanted: 'three phases',
          said: `feeds ${nameIn(c, plug)}, which is three-phase, from a panel without three phases.`,
        }),
      ]
    }
    const onV = c.circuit.connection === 'LN' ? view.system.lineNeutralV : view.system.lineLineV
    const offFrac = Math.abs(plug.voltageV - onV) / onV
    if (offFrac <= SAME_VOLTS_FRAC) return []
    const heat = plug.kind === 'heater' ? ` It keeps ${shown(100 * (onV / plug.voltageV) ** 2)} % of its heat.` : ''
    return [
      worded({
        what: 'voltage',
        title: 'volts of the machine and of the circuit',
        basis: 'physics',
        rests: source('volts as written against the system', 'computed'),
        verdict: 'fails',
        found: `${onV} V`,
        wanted: `${plug.voltageV} V`,
        steps: [
          step(
            'Δ',
            '|U − Uc|/Uc',
            [put('U', plug.voltageV, 'V'), put('Uc', onV, 'V')],
            offFrac,
            '',
            source('volts as written', 'told'),
          ),
        ],
        said: `puts ${onV} V on ${nameIn(c, plug)}, which is for ${plug.voltageV} V.${heat}`,
      }),
    ]
  })
}

/** Poles and legs of the device are those of the connection. */
function connectionChecks(view: BoxView, c: CircuitView): readonly Check[] {
  const { connection, device, legs } = c.circuit
  const poles = POLES[connection]
  const known = legs.every((leg) => view.system.legs.includes(leg))
  const right = known && legs.length === poles && device.poles >= poles && new Set(legs).size === legs.length
  if (right) return []
  return [
    worded({
      what: 'poles',
      title: 'poles and legs',
      basis: 'code',
      rests: source('every line of a circuit opens together', 'common practice'),
      verdict: 'fails',
      found: `${device.poles} poles on ${legs.join('')}`,
      wanted: `${poles}`,
      said: `is ${connection} and needs ${poles} poles on ${poles} different legs; it has ${device.poles} on ${legs.join(', ')}.`,
    }),
  ]
}

function outletKindChecks(view: BoxView, c: CircuitView): readonly Check[] {
  const { circuit } = c
  if (c.kind !== 'machines' && circuit.own !== 'receptacle') return []
  const hardWired = isHardWired(circuit.outlet)
  const out: Check[] = []
  if (!hardWired && c.outlet === null) {
    out.push(
      worded({
        what: 'outlet-kind',
        title: 'outlet of the list',
        basis: 'house',
        rests: source(`outlets of ${view.rules.title}`, 'told'),
        verdict: 'unknown',
        found: circuit.outlet,
        wanted: 'an outlet of the list',
        grave: false,
        said: `has an outlet written as “${circuit.outlet}”, which the list of the set does not name: its rating is not known.`,
      }),
    )
  }
  if (c.outlet !== null) {
    const single = c.outlets.length <= 1
    const ratingOk = single
      ? c.outlet.ratingA >= circuit.device.ratingA
      : c.outlet.ratingA >= circuit.device.ratingA || circuit.device.ratingA <= MULTI_TO_A
    const phasesOk = c.outlet.phases === (POLES[circuit.connection] === 3 ? 3 : 1)
    const wiresOk =
      c.outlet.connection.startsWith('LLL') === circuit.connection.startsWith('LLL') &&
      (c.outlet.connection === 'LN') === (circuit.connection === 'LN')
    const holds = ratingOk && phasesOk && wiresOk
    out.push(
      worded({
        what: 'outlet-kind',
        title: 'outlet behind its device',
        basis: 'code',
        rests: source('outlet rating not under the circuit’s (us 210.21(B); like it in the others)', 'memory'),
        verdict: holds ? 'holds' : 'fails',
        relation: '≥',
        found: `${c.outlet.ratingA} A ${c.outlet.connection}`,
        wanted: `${circuit.device.ratingA} A ${circuit.connection}`,
        steps: [step('outlet', circuit.outlet, [], c.outlet.ratingA, 'A', c.outlet.rests ?? LISTED)],
        said: holds
          ? `has ${circuit.outlet} on ${circuit.device.ratingA} A.`
          : `has ${circuit.outlet} (${c.outlet.ratingA} A, ${c.outlet.connection}) on a ${circuit.device.ratingA} A ${circuit.connection} circuit.`,
      }),
    )
  }
  for (const { plug } of c.loads) {
    if (plug.outlet === circuit.outlet || takesPlugOf(circuit.outlet, plug.outlet)) continue
    out.push(
      worded({
        what: 'outlet-changed',
        title: 'plug and outlet',
        basis: 'house',
        rests: source('plug as written', 'told'),
        verdict: 'tight',
        found: circuit.outlet,
        wanted: plug.outlet,
        grave: false,
        said: `has ${circuit.outlet} where ${nameIn(c, plug)} was said to have ${plug.outlet}: plug or outlet must be changed.`,
      }),
    )
  }
  return out
}

/** Two or more 15 A receptacles may stand on a 20 A circuit. @source NEC Table 210.21(B)(3). Provenance: memory */
const MULTI_TO_A = 20
const CONTINUOUS_PLUG_FRAC = 0.8
const LISTED = source('outlets of the set', 'memory')

/** Current of each physical plug against the rating of its own plug and outlet. */
function plugChecks(view: BoxView, c: CircuitView): readonly Check[] {
  return c.outlets.flatMap((group) => {
    const { plug } = group[0]!
    const own = outletOf(view.rules, plug.outlet)
    if (own === null) return []
    const currentA = group.reduce((s, l) => s + l.currentA, 0)
    const tags = group.map((l) => nameIn(c, l.plug)).join(' and ')
    return [
      upper({
        what: 'plug-overloaded',
        title: `plug of ${tags}`,
        basis: 'maker',
        rests: own.rests ?? LISTED,
        steps: group.flatMap((l) => l.steps),
        demandA: currentA,
        limitA: own.ratingA,
        tightFrac: 1 - CONTINUOUS_PLUG_FRAC,
        symbols: ['I', 'Ir'],
        said: `puts ${shown(currentA)} A through the ${own.ratingA} A plug (${plug.outlet}) of ${tags}${currentA > CONTINUOUS_PLUG_FRAC * own.ratingA && currentA <= own.ratingA ? ': over 80 % of it, for hours' : ''}.`,
      }),
    ]
  })
}

/** One heavy machine, one breaker; two elements of one machine on one way only where the device holds both. */
function sharingChecks(view: BoxView, c: CircuitView): readonly Check[] {
  const out: Check[] = []
  const byMachine = new Map<string, PlugLoad[]>()
  for (const load of c.loads) byMachine.set(load.plug.machine, [...(byMachine.get(load.plug.machine) ?? []), load])
  for (const [machine, loads] of byMachine) {
    if (loads.length < 2) continue
    const currentA = loads.reduce((s, l) => s + l.currentA, 0)
    const holds = view.rules.deviceHoldsA(c.circuit.device.ratingA)
    out.push(
      upper({
        what: 'element-sharing',
        title: `two elements of ${machine} on one way`,
        basis: 'code',
        rests: holds.steps[0]?.rests ?? source('device holds', 'memory'),
        steps: [...loads.flatMap((l) => l.steps), ...holds.steps],
        demandA: currentA,
        limitA: holds.value,
        symbols: ['ΣI', 'I max'],
        said: `carries ${loads.map((l) => shown(l.currentA)).join(' + ')} = ${shown(currentA)} A of ${machine}; a ${c.circuit.device.ratingA} A way holds ${shown(holds.value)} A.`,
      }),
    )
  }
  if (c.outlets.length > 1) {
    const light = c.loads.every(
      ({ plug }) => !plug.essential && (plug.powerW <= LIGHT_W || (plug.use === 'tools' && plug.dutyFrac <= TOOL_DUTY_FRAC)),
    )
    const few = c.outlets.length <= MOST_PER_CIRCUIT
    out.push(
      worded({
        what: 'one-machine',
        title: 'one heavy machine, one breaker',
        basis: 'house',
        rests: source('a fault takes out one machine', 'common practice'),
        verdict: light && few ? 'holds' : 'tight',
        relation: '≤',
        grave: false,
        found: `${c.outlets.length} machines`,
        wanted: light ? `${MOST_PER_CIRCUIT} light ones` : '1',
        said:
          light && few
            ? `feeds ${c.outlets.length} light machines.`
            : `feeds ${c.outlets.length} machines from one device: a fault in one takes out all.`,
      }),
    )
  }
  return out
}

/** Usual receptacle box: 4 × 2-1/8 in square, 30.3 in³; larger outlets 4-11/16 × 2-1/8, 42 in³. @source NEC Table 314.16(A). Provenance: read */
const BOX_ML = { usual: 30.3 * 16.387064, large: 42 * 16.387064 } as const
const LARGE_FROM_A = 30

export const outletBoxML = (deviceA: number): number => (deviceA > LARGE_FROM_A ? BOX_ML.large : BOX_ML.usual)

function boxFillChecks(view: BoxView, c: CircuitView): readonly Check[] {
  const { rules } = view
  const { run, connection, device } = c.circuit
  const areaMm2 = rules.sizes.find((s) => s.name === run.line.size)?.areaMm2 ?? Infinity
  if (
    rules.boxFill === undefined ||
    run.protective === null ||
    areaMm2 > FILL_TO_MM2 ||
    (c.kind !== 'machines' && c.kind !== 'own')
  )
    return []
  const through = c.outlets.length > 1 ? 2 : 1
  const one = [...Array(POLES[connection]).fill(run.line.size), ...(run.neutral === null ? [] : [run.neutral.size])] as string[]
  const conductors = Array.from({ length: through }, () => one).flat()
  const asked = rules.boxFill({
    conductors,
    devices: isHardWired(c.circuit.outlet) ? 0 : 1,
    deviceWire: run.line.size,
    clamps: false,
    grounds: through,
    groundSize: run.protective.size,
  })
  const limitML = outletBoxML(device.ratingA)
  return [
    upper({
      what: 'box-fill',
      title: 'volume of the outlet box',
      basis: 'code',
      rests: asked.steps[asked.steps.length - 1]?.rests ?? source('box fill of the set', 'memory'),
      steps: asked.steps,
      demandA: asked.value,
      limitA: limitML,
      unit: 'mL',
      symbols: ['V', 'V box'],
      grave: false,
      said: `asks ${shown(asked.value)} mL of its outlet box, which has ${shown(limitML)} mL.`,
    }),
  ]
}

/** Larger conductors end in enclosures of the maker, not in counted boxes: 6 AWG, 13.3 mm². @source NEC 314.16 covers 18 to 6 AWG. Provenance: memory */
const FILL_TO_MM2 = 13.35

const FORM_ORDER: readonly Shock['form'][] = [null, 'AC', 'A', 'F', 'B']

/** Does one protection do all that another is asked for? */
function shockDoes(has: Shock, asked: Shock): boolean {
  if (asked.kind === 'none') return true
  if (has.kind === 'none') return false
  if ((has.sensitivityMA ?? Infinity) > (asked.sensitivityMA ?? Infinity) + 1e-9) return false
  return FORM_ORDER.indexOf(has.form) >= FORM_ORDER.indexOf(asked.form)
}

export const shockWords = (shock: Shock): string =>
  shock.kind === 'none'
    ? 'none'
    : shock.kind === 'class A'
      ? 'class A'
      : `${shock.kind === 'rcd' ? 'residual device' : 'equipment protection'} ${shock.sensitivityMA ?? '?'} mA${shock.form === null ? '' : ` form ${shock.form}`}`

/** What each outlet must have, by rule and use. */
export function shockChecks(view: BoxView, c: CircuitView): readonly Check[] {
  const { rules, system, inputs } = view
  const { circuit } = c
  const temporary = inputs.job.site.temporary
  const asked = c.loads.map((load) => {
    const o = {
      loads: [load],
      connection: circuit.connection,
      feedV: system.lineNeutralV,
      outletName: circuit.outlet,
      outlet: c.outlet,
    }
    return rules.shockFor({
      outlet: c.outlet ?? madeOutlet(o, load.currentA, rules),
      system,
      use: load.plug.use,
      kind: load.plug.kind,
      temporary,
      outdoors: true,
      hardWired: isHardWired(circuit.outlet),
    })
  })
  if (c.kind === 'own' && c.outlet !== null)
    asked.push(
      rules.shockFor({ outlet: c.outlet, system, use: 'building', kind: 'mixed', temporary, outdoors: false, hardWired: false }),
    )
  const out: Check[] = []
  for (const one of dedupe(asked)) {
    const holds = shockDoes(circuit.shock, one.value)
    const rests = one.steps[one.steps.length - 1]?.rests ?? source('shock protection of the set', 'memory')
    out.push(
      worded({
        what: 'shock',
        title: 'shock protection',
        basis: 'code',
        rests,
        steps: one.steps,
        verdict: holds ? 'holds' : 'fails',
        relation: '≥',
        found: shockWords(circuit.shock),
        wanted: shockWords(one.value),
        said: holds
          ? `has ${shockWords(circuit.shock)}; ${shockWords(one.value)} is asked.`
          : `has ${shockWords(circuit.shock)}, but its outlet must have ${shockWords(one.value)}.`,
        assumed: temporary === null ? ['facts.site.temporary'] : [],
        mends: holds ? [] : [{ path: `circuits.${circuit.id}.shock`, value: one.value.kind, words: shockWords(one.value) }],
      }),
    )
  }
  return out
}

/**
 * Outlets of vehicle heaters that the rule set lets off from shock protection where the installation is permanent. Said where it is so,
 * with what the design does all the same: the rule leaves it to the person.
 */
export function shockExemptChecks(view: BoxView): readonly Check[] {
  const { rules, system } = view
  const exempt = view.circuits.filter((c) => {
    const load = c.loads[0]
    if (load === undefined || c.outlet === null || load.plug.use !== 'vehicle-heater' || isHardWired(c.circuit.outlet))
      return false
    const task = { outlet: c.outlet, system, kind: load.plug.kind, temporary: false, outdoors: true, hardWired: false }
    const general = rules.shockFor({ ...task, use: 'general' }).value.kind
    return general !== 'none' && rules.shockFor({ ...task, use: 'vehicle-heater' }).value.kind === 'none'
  })
  if (exempt.length === 0) return []
  const kept = exempt.filter((c) => c.circuit.shock.kind !== 'none')
  return [
    worded({
      what: 'shock-exempt',
      title: 'outlets that the rule lets off',
      basis: 'house',
      rests: source('shock protection of the set, permanent installation', 'memory'),
      verdict: kept.length === exempt.length ? 'holds' : 'tight',
      found: kept.length,
      wanted: exempt.length,
      unit: 'circuits',
      said: `has ${exempt.length} circuits of vehicle heaters whose outlets the rule set lets off from shock protection in a permanent installation; ${kept.length} of them have it all the same. Decide by the rule, and choose anyway.`,
    }),
  ]
}

function dedupe(all: readonly ReturnType<BoxView['rules']['shockFor']>[]): readonly ReturnType<BoxView['rules']['shockFor']>[] {
  const seen = new Map<string, ReturnType<BoxView['rules']['shockFor']>>()
  for (const one of all) seen.set(JSON.stringify(one.value), one)
  return [...seen.values()]
}
