import type { Wire } from '../../job/index.ts'
import type { RuleSet, System } from '../../rules/index.ts'
import { ownLoadsOf } from '../own-loads.ts'
import { type Crowd, worstCrowd } from './beside.ts'
import { type ChosenDevice, deviceFor } from './device.ts'
import { type Draft, hotC, pinnedNumber, pinnedText, type Warning } from './draft.ts'
import { type CircuitLoad, type OutletLoad, OWN_ID, shockOf, sum } from './group.ts'
import { onSlots, SLOTS } from './loads.ts'
import { ownCircuit, type UnplacedCircuit } from './own-circuits.ts'
import { cordsOf, fixedRunM } from './plug-cords.ts'
import type { CircuitsRequest } from './request.ts'
import { carryingOf, raceWires, wired } from './wire.ts'

/** Circuits that share a raceway with this one, itself among them, and the name of that raceway. Heavy ones keep their own. */
export function matesOf(request: CircuitsRequest, all: readonly CircuitLoad[], load: CircuitLoad): readonly CircuitLoad[] {
  const shared = request.grown?.together
  const name = shared?.[load.id]
  if (shared === undefined || name === undefined || !isLight(load)) return [load]
  return all.filter((o) => shared[o.id] === name && isLight(o)).toSorted((x, y) => (x.id < y.id ? -1 : 1))
}

/** Load-carrying conductors of each circuit of the box, by its id: of machines and of the box's own; one that is not there carries nothing. */
export function carryingIn(request: CircuitsRequest, system: System, all: readonly CircuitLoad[]): (id: string) => number {
  const { rules, box, job } = request
  const counts = new Map([
    ...all.map((l) => [l.id, carryingOf(l.connection, system, nonLinearOf(l), rules).count] as const),
    ...ownLoadsOf(job, box, rules).map((o) => [OWN_ID[o.own], carryingOf('LN', system, 0, rules).count] as const),
  ])
  return (id) => counts.get(id) ?? 0
}

/** What lies together with a circuit where most do: those it shares a raceway with, and those beside it in a trunk or a wireway. */
const crowdOf = (
  request: CircuitsRequest,
  carrying: (id: string) => number,
  id: string,
  mates: readonly string[],
  laid: boolean,
): Crowd =>
  worstCrowd({
    mates,
    bunches: laid ? (request.grown?.beside?.[id] ?? []) : [],
    own: carrying(id),
    carrying,
    uncountedTo: request.rules.wireway.uncountedTo.value,
  })

/** Light enough to share a raceway with others without a size of pipe that nobody bends by hand. House rule. */
const isLight = (load: CircuitLoad): boolean => sum(load.outlets, 'currentA') <= MOST_SHARED_A
const MOST_SHARED_A = 24

/** Raceways that several circuits share take the trade size of all their wires. */
export function inOneRaceway(rules: RuleSet, drafts: readonly Draft[]): readonly Draft[] {
  const wires = new Map<string, Wire[]>()
  for (const { circuit } of drafts) {
    const shared = circuit.run.raceway?.shared
    if (shared !== undefined)
      wires.set(shared, [...(wires.get(shared) ?? []), ...raceWires({ ...circuit.run, connection: circuit.connection })])
  }
  return drafts.map((d) => {
    const { raceway } = d.circuit.run
    if (raceway?.shared === undefined) return d
    const trade = rules.racewayFor(wires.get(raceway.shared)!, raceway.kind).value
    return trade === null ? d : { ...d, circuit: { ...d.circuit, run: { ...d.circuit.run, raceway: { ...raceway, trade } } } }
  })
}

export function machineDraft(
  request: CircuitsRequest,
  system: System,
  load: CircuitLoad,
  together: readonly CircuitLoad[],
  carrying: (id: string) => number,
  usualM: number,
  warnings: Warning[],
): Draft {
  const { job, rules, grown } = request
  const { id, connection, outlets } = load
  const lengthM = grown?.runsM?.[id] ?? usualM
  const pinnedA = pinnedNumber(job.pins, `circuits.${id}.device`)
  const free = deviceFor({
    rules,
    system,
    connection,
    outlets,
    interruptingKA: request.interruptingKA,
    family: pinnedText(job.pins, `circuits.${id}.family`) ?? grown?.families?.[id],
    leastA: grown?.devices?.[id],
  })
  const chosen: ChosenDevice = pinnedA === undefined ? free : { ...free, device: { ...free.device, ratingA: pinnedA } }
  if (chosen.outletName !== outlets[0]!.outletName) {
    warnings.push({
      path: `circuits.${id}.outlet`,
      said: `${id}: a ${chosen.device.ratingA} A circuit asks for ${chosen.outletName} in place of ${outlets[0]!.outletName}.`,
    })
  }
  const fixedM = fixedRunM(request, load, chosen)
  if (fixedM > 0)
    warnings.push({
      path: `circuits.${id}.cords`,
      said: `${id}: no flexible cord of the list carries ${chosen.device.ratingA} A; its ${fixedM.toFixed(0)} m are a fixed run.`,
    })
  const neutralA = neutralSum(outlets, 'neutralA')
  const nonLinearA = neutralSum(outlets, 'nonLinearA')
  const mates = together.flatMap((o) => (o === load ? [] : [o.id]))
  const [alone, laid] = [false, true].map((as) => crowdOf(request, carrying, id, mates, as)) as [Crowd, Crowd]
  const task = {
    rules,
    system,
    connection,
    continuousA: chosen.motor === null ? sum(outlets, 'continuousA') : chosen.motor.tableA,
    otherA: chosen.motor === null ? sum(outlets, 'otherA') : 0,
    motor: chosen.motor !== null,
    multiOutlet: outlets.length > 1,
    nonLinearFrac: neutralA > 0 ? nonLinearA / neutralA : 0,
    deviceA: chosen.device.ratingA,
    deviceFamily: chosen.device.family,
    ambientC: hotC(request),
    lengthM: lengthM + fixedM,
    metal: 'cu' as const,
    insulation: rules.defaults.insulation,
    racewayKind: rules.defaults.raceway,
  }
  // The protective conductor is sized for a line that grew, even where what lies beside it changes once more.
  const grownFrom =
    laid.othersCarrying === alone.othersCarrying ? {} : { grownFrom: wired({ ...task, ...alone }, undefined).base }
  const run = wired({ ...task, ...laid, ...grownFrom }, grown?.lines?.[id])
  if (run.found === null)
    warnings.push({
      path: `circuits.${id}.line`,
      said: `${id}: no conductor of the list passes every check at ${chosen.device.ratingA} A; the largest was taken.`,
    })
  const pinnedLine = pinnedText(job.pins, `circuits.${id}.line`)
  const shared =
    together.length > 1 && run.run.raceway !== null
      ? { ...run.run, raceway: { ...run.run.raceway, shared: `with ${together[0]!.id}` } }
      : run.run
  const wiredRun =
    pinnedLine === undefined
      ? shared
      : {
          ...shared,
          line: { ...run.run.line, size: pinnedLine },
          neutral: run.run.neutral === null ? null : { ...run.run.neutral, size: pinnedLine },
        }
  const shock = grown?.shock?.[id] ?? shockOf(outlets, { rules, system, temporary: job.site.temporary }).value
  const tags = outlets.flatMap((o) => o.loads.map((l) => l.plug.tag))
  const circuit: UnplacedCircuit = {
    id,
    connection,
    device: chosen.device,
    shock,
    run: wiredRun,
    outlet: chosen.outletName,
    plugs: tags,
    own: null,
    cords: fixedM > 0 ? [] : outlets.flatMap((o) => cordsOf(request, o, chosen, wiredRun.line.size, lengthM)),
    label: labelOf(outlets),
  }
  return { circuit, ...profileOf(outlets, request), neutralA, nonLinearA }
}

/** Share of a circuit's neutral current that is not linear. */
function nonLinearOf(load: CircuitLoad): number {
  const neutralA = neutralSum(load.outlets, 'neutralA')
  return neutralA > 0 ? neutralSum(load.outlets, 'nonLinearA') / neutralA : 0
}

const neutralSum = (outlets: readonly OutletLoad[], what: 'neutralA' | 'nonLinearA'): number =>
  outlets.reduce((total, o) => total + o.loads.reduce((s, l) => s + l[what], 0), 0)

function profileOf(outlets: readonly OutletLoad[], request: CircuitsRequest): Pick<Draft, 'profileA' | 'allOnA'> {
  const profileA = Array<number>(SLOTS).fill(0)
  for (const outlet of outlets) {
    for (const { plug, currentA } of outlet.loads) {
      onSlots(request.staging.startH[plug.tag] ?? plug.fromH, plug.hoursPerDay).forEach((on, t) => {
        if (on) profileA[t]! += currentA
      })
    }
  }
  return { profileA, allOnA: sum(outlets, 'currentA') }
}

function labelOf(outlets: readonly OutletLoad[]): string {
  const first = outlets[0]!.loads[0]!.plug
  const tags = outlets.flatMap((o) => o.loads.map((l) => l.plug.tag))
  return `${tags.join(', ')}: ${first.what}`
}

export function ownDrafts(
  request: CircuitsRequest,
  system: System,
  carrying: (id: string) => number,
  lengthM: number,
  warnings: Warning[],
): Draft[] {
  const { job, rules, box, grown } = request
  return ownLoadsOf(job, box, rules).map((load) => {
    const { circuit } = ownCircuit(load, {
      rules,
      system,
      temporary: job.site.temporary,
      ambientC: hotC(request),
      interruptingKA: request.interruptingKA,
      lengthM: (id) => grown?.runsM?.[id] ?? lengthM,
      least: (id) => grown?.lines?.[id],
      family: (id) => grown?.families?.[id],
      shock: (id) => grown?.shock?.[id],
      crowd: (id) => crowdOf(request, carrying, id, [], true),
    })
    warnings.push({ path: `boxes.${box.id}.${load.own}`, said: `Box's own: ${load.said}.` })
    const currentA = load.powerW / (system.lineNeutralV * load.powerFactorFrac)
    return {
      circuit,
      profileA: onSlots(load.fromH, load.hoursPerDay).map((on) => (on ? currentA : 0)),
      allOnA: currentA,
      neutralA: currentA,
      nonLinearA: 0,
    }
  })
}
