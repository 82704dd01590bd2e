import type { Circuit, Cord, Leg, SizeName, Wire } from '../../job/index.ts'
import { Fault } from '../../kernel/index.ts'
import { ownLoads } from '../../parts/index.ts'
import type { RuleSet, System } from '../../rules/index.ts'
import { boxesBehind } from '../staging/index.ts'
import { type Balanced, type BalanceItem, balancedLegs } from './balance.ts'
import { hasNeutral, isHardWired, legOptions } from './connection.ts'
import { CORD_AMBIENT_C, cordFor, cordLoaded, cordType } from './cord.ts'
import { type ChosenDevice, deviceFor, interruptingAtLeast } from './device.ts'
import { electrodeFor, feedAmbientC, feedRun, panelBond, transformerFor } from './feed.ts'
import { type CircuitLoad, groupedCircuits, type OutletLoad, shockOf, sum } from './group.ts'
import { onSlots, SLOTS } from './loads.ts'
import { ownCircuit, type UnplacedCircuit } from './own-circuits.ts'
import { type CircuitsDesign, type CircuitsRequest, MOST_INSIDE_C } from './request.ts'
import { panelWays, placedWays, spareWanted } from './ways.ts'
import { carryingOf, raceWires, sizeIndex, wired } from './wire.ts'

type Warning = CircuitsDesign['warnings'][number]

/** A circuit whose legs are still open, with what the balance needs to know of it. */
interface Draft {
  readonly circuit: UnplacedCircuit
  readonly profileA: readonly number[]
  readonly allOnA: number
  readonly neutralA: number
  readonly nonLinearA: number
}

/** Inside runs until the layout is built: the whole length of the box, and up and down. House default. */
export const RISE_M = 2
const FT_M = 0.3048

/**
 * Panel, circuits, cords, feed and electrode of one box in one phase. Every choice is the smallest that the set's checks pass and that
 * earlier rounds asked for; circuits go on legs by the balance of the day, and on ways in the order of what they are.
 * @throws Fault `circuits/system-unknown` · `circuits/ways` when no stock panel takes them
 */
export function designCircuits(request: CircuitsRequest): CircuitsDesign {
  const { job, box, rules } = request
  const system = systemOf(rules, request.system)
  const warnings: Warning[] = []
  const plugs = job.plugs.filter((p) => p.fedBy[request.phase] === box.id)
  const grouped = groupedCircuits(plugs, rules, system)
  for (const plug of grouped.cannot) {
    warnings.push({
      path: `needs.machines.${plug.row}`,
      said: `${plug.tag} is three-phase and the panel is ${system.title}: no circuit of this box can feed it.`,
    })
  }
  const lengthM = box.lengthFt * FT_M + RISE_M
  if (request.grown?.runsM === undefined)
    warnings.push({
      path: `boxes.${box.id}.layout`,
      said: `Every run inside the box is taken as ${lengthM.toFixed(1)} m, its whole length and the rise, until the layout is known.`,
    })
  const drafts = [
    ...inOneRaceway(
      rules,
      grouped.circuits.map((load) =>
        machineDraft(request, system, load, matesOf(request, grouped.circuits, load), grouped.circuits, lengthM, warnings),
      ),
    ),
    ...ownDrafts(request, system, lengthM, warnings),
    ...feederDrafts(request, system),
  ]
  const mainA = mainRatingA(request, system, drafts)
  const held = request.staging.control === 'interlock' && request.staging.capA !== null
  const balance = balancedLegs({
    legs: system.legs,
    items: drafts.map((d) => itemOf(d, system)),
    allOnLimitA: held ? Infinity : rules.deviceHoldsA(mainA).value,
  })
  const legged = drafts.map((d) => ({ ...d.circuit, legs: balance.legsOf[d.circuit.id]! }))
  const { circuits, ways } = onWays(legged, system, box.spareWaysFrac, pinnedNumber(job.pins, 'panel.ways'))
  const worst = neutralWorst(drafts, balance, system)
  const feed = feedOf(request, system, mainA, rules.neutralA({ ...worst, system, lineA: worst.unbalanceA }).value)
  const interruptingKA =
    pinnedNumber(job.pins, 'panel.interruptingKA') ?? interruptingAtLeast(rules, system, request.interruptingKA, true)
  const poles = system.legs.length as 1 | 2 | 3
  const main = { ratingA: mainA, poles, family: mainFamily(rules, mainA), interruptingKA }
  return {
    panel: {
      busA: rules.defaults.panelBusA.find((a) => a >= mainA) ?? mainA,
      ways,
      main,
      interruptingKA,
      feed: feed.run,
      bond: feed.bond,
    },
    circuits,
    electrode: electrodeFor(rules, feed.run.line.size),
    transformer: feed.transformer,
    fedFrom:
      box.fedFrom === undefined
        ? null
        : {
            box: box.fedFrom.box,
            run: feed.run,
            device: { ...main, interruptingKA: interruptingAtLeast(rules, system, request.interruptingKA, false) },
          },
    warnings,
    steps: [],
    balance: { peakA: balance.peakA, boundA: balance.boundA, proven: balance.proven, triedCount: balance.triedCount },
  }
}

const mainFamily = (rules: RuleSet, ratingA: number): string =>
  rules.nextDeviceA(ratingA, rules.defaults.deviceFamily).value === null ? 'IEC 60947-2' : rules.defaults.deviceFamily

export function systemOf(rules: RuleSet, id: string): System {
  const system = rules.systems.find((s) => s.id === id)
  if (system === undefined) throw new Fault('circuits/system-unknown', id)
  return system
}

const pinned = (pins: CircuitsRequest['job']['pins'], path: string) => pins.find((p) => p.path === path)?.value
const pinnedNumber = (pins: CircuitsRequest['job']['pins'], path: string): number | undefined => {
  const value = pinned(pins, path)
  return typeof value === 'number' ? value : undefined
}
const pinnedText = (pins: CircuitsRequest['job']['pins'], path: string): string | undefined => {
  const value = pinned(pins, path)
  return typeof value === 'string' ? value : undefined
}

/** Circuits that share a raceway with this one, itself among them, and the name of that raceway. Heavy ones keep their own. */
function matesOf(request: CircuitsRequest, all: readonly CircuitLoad[], load: CircuitLoad): readonly CircuitLoad[] {
  const shared = request.grown?.together
  const name = shared?.[load.id]
  if (shared === undefined || name === undefined || !isLight(load)) return [load]
  return all.filter((o) => shared[o.id] === name && isLight(o)).toSorted((x, y) => (x.id < y.id ? -1 : 1))
}

/** Circuits whose number counts for this one: those it shares a raceway with, and those beside it in a trunk longer than a nipple. */
function nearIn(
  request: CircuitsRequest,
  all: readonly CircuitLoad[],
  load: CircuitLoad,
  together: readonly CircuitLoad[],
): readonly CircuitLoad[] {
  const beside = new Set(request.grown?.beside?.[load.id])
  return beside.size === 0 ? together : all.filter((o) => together.includes(o) || beside.has(o.id))
}

/** Light enough to share a raceway with others without a size of pipe that nobody bends by hand. House rule. */
const isLight = (load: CircuitLoad): boolean => sum(load.outlets, 'currentA') <= MOST_SHARED_A
const MOST_SHARED_A = 24

/** Raceways that several circuits share take the trade size of all their wires. */
function inOneRaceway(rules: RuleSet, drafts: readonly Draft[]): readonly Draft[] {
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

function machineDraft(
  request: CircuitsRequest,
  system: System,
  load: CircuitLoad,
  together: readonly CircuitLoad[],
  all: readonly CircuitLoad[],
  usualM: number,
  warnings: Warning[],
): Draft {
  const { job, rules, grown } = request
  const { id, connection, outlets } = load
  const near = nearIn(request, all, load, together)
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
  const crowd = (o: readonly CircuitLoad[]) => ({
    circuits: o.length,
    othersCarrying: o.reduce((n, x) => (x === load ? n : n + carryingOf(x.connection, system, nonLinearOf(x), rules).count), 0),
  })
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
  const grownFrom = near.length === together.length ? {} : { grownFrom: wired({ ...task, ...crowd(together) }, undefined).base }
  const run = wired({ ...task, ...crowd(near), ...grownFrom }, grown?.lines?.[id])
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

/** Metres that a hard-wired machine needs as a fixed run because no cord of the list carries its current; 0 where a cord does. */
function fixedRunM(request: CircuitsRequest, load: CircuitLoad, chosen: ChosenDevice): number {
  const { rules, job } = request
  const { plug } = load.outlets[0]!.loads[0]!
  if (!isHardWired(load.outlets[0]!.outletName) || plug.cordM <= 0) return 0
  const needA = chosen.motor?.conductorA ?? Math.max(chosen.device.ratingA, sum(load.outlets, 'currentA'))
  const { type } = cordType(rules, job.site.designMinC)
  const sizes = rules.cordSizes()
  const most = rules.cordAmpacityA({
    size: sizes[sizes.length - 1]!,
    type,
    loaded: cordLoaded(load.connection),
    ambientC: job.site.designMaxC ?? CORD_AMBIENT_C,
  }).value
  return most >= needA ? 0 : plug.cordM
}

/** One cord for each plug; rows that share a physical plug name the same cord, sized for their sum. */
function cordsOf(
  request: CircuitsRequest,
  outlet: OutletLoad,
  chosen: ChosenDevice,
  line: SizeName,
  runM: number,
): readonly Cord[] {
  const { job, rules, grown } = request
  const lead = outlet.loads[0]!.plug
  if (lead.cordM <= 0) return []
  const tags = outlet.loads.map((l) => l.plug.tag)
  const currentA = sum([outlet], 'currentA')
  const { r } = rules.impedanceOhmPerM({ size: line, metal: 'cu', where: rules.defaults.raceway, temperatureC: 60 }).value
  const three = outlet.connection === 'LLL' || outlet.connection === 'LLLN'
  const least = tags
    .map((t) => grown?.cords?.[t])
    .filter((s): s is SizeName => s !== undefined)
    .sort((a, b) => rules.cordSizes().indexOf(b) - rules.cordSizes().indexOf(a))[0]
  const cord = cordFor({
    rules,
    plug: lead.tag,
    connection: outlet.connection,
    currentA,
    deviceA: chosen.device.ratingA,
    motorConductorA: chosen.motor?.conductorA ?? null,
    lengthM: Math.max(...outlet.loads.map((l) => l.plug.cordM)),
    kind: lead.kind,
    feedV: outlet.feedV,
    designMinC: job.site.designMinC,
    ambientC: job.site.designMaxC ?? CORD_AMBIENT_C,
    runDropFrac: ((three ? Math.sqrt(3) : 2) * currentA * r * runM) / outlet.feedV,
    privateSource: request.offer.kind === 'generator',
    least,
  })
  return tags.map((plug) => ({
    ...cord,
    plug,
    size: pinnedText(job.pins, `cords.${plug}.size`) ?? cord.size,
    ...(plug === lead.tag ? {} : { sharedWith: lead.tag }),
  }))
}

const hotC = (request: CircuitsRequest): number => {
  const { high, told } = request.insideC ?? request.box.insideHotC
  return told ? high : Math.min(high, MOST_INSIDE_C)
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

function ownDrafts(request: CircuitsRequest, system: System, lengthM: number, warnings: Warning[]): Draft[] {
  const { job, rules, box, grown } = request
  return ownLoads(box, job.site).map((load) => {
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

/** A way for each box that this one feeds: its device by that box's own need. */
function feederDrafts(request: CircuitsRequest, system: System): Draft[] {
  const told = request.feeds
  const { job, rules, box } = request
  const fed =
    told ??
    job.boxes
      .filter((b) => b.fedFrom?.box === box.id)
      .map((b) => ({
        box: b.id,
        lengthM: b.fedFrom!.lengthM,
        needA: boxNeedA(request, system, b.id),
        connection: panelFeeder(system),
      }))
  return [...fed]
    .sort((a, b) => (a.box < b.box ? -1 : 1))
    .map((f) => {
      const ratingA = rules.nextDeviceA(f.needA).value ?? Math.ceil(f.needA)
      const id = `feeder-${f.box}`
      const device = {
        ratingA,
        poles: system.legs.length as 1 | 2 | 3,
        family: mainFamily(rules, ratingA),
        interruptingKA: interruptingAtLeast(rules, system, request.interruptingKA, false),
      }
      const run = feedRun({
        rules,
        system,
        deviceA: ratingA,
        lengthM: f.lengthM,
        overhead: false,
        ambientC: hotC(request),
        neutralA: ratingA,
        protective: true,
        least: feederLeast(request, f.box),
      })
      const circuit: UnplacedCircuit = {
        id,
        connection: f.connection,
        device,
        shock: { kind: 'none', sensitivityMA: null, form: null },
        run,
        outlet: 'hard-wired',
        plugs: [],
        own: null,
        cords: [],
        label: `Feeder to box ${f.box}`,
      }
      const allOnA = boxAllOnA(request, system, f.box)
      return { circuit, profileA: Array<number>(SLOTS).fill(allOnA), allOnA, neutralA: allOnA, nonLinearA: 0 }
    })
}

/** One run with two names: the feeder of the box it leaves, the feed of the box it ends at. */
function feederLeast({ rules, grown }: CircuitsRequest, box: string): SizeName | undefined {
  const asked = [grown?.lines?.feed, grown?.lines?.[`feeder-${box}`]].filter((size) => size !== undefined)
  return asked.toSorted((a, b) => sizeIndex(rules, b) - sizeIndex(rules, a))[0]
}

const panelFeeder = (system: System): Circuit['connection'] =>
  system.legs.length === 3 ? 'LLLN' : system.legs.length === 2 ? 'LLN' : 'LN'

/** Steady and needed current on the worst leg of another box of the job, its own loads and the boxes behind it among them. */
function boxLegs(request: CircuitsRequest, system: System, boxId: string): { readonly allOnA: number; readonly needA: number } {
  const { job, rules } = request
  const behind = boxesBehind(job, boxId)
  const plugs = job.plugs.filter((p) => behind.some((b) => p.fedBy[request.phase] === b.id))
  const grouped = groupedCircuits(plugs, rules, system).circuits
  const own = behind.flatMap((b) => ownLoads(b, job.site)).map((l) => l.powerW / (system.lineNeutralV * l.powerFactorFrac))
  const flat = Array<number>(SLOTS).fill(0)
  const items = [
    ...grouped.map((g) => ({
      id: g.id,
      options: legOptions(g.connection, system),
      profileA: flat,
      allOnA: sum(g.outlets, 'currentA'),
    })),
    ...own.map((a, i) => ({ id: `own ${i}`, options: legOptions('LN', system), profileA: flat, allOnA: a })),
  ]
  const allOnA = balancedLegs({ legs: system.legs, items, allOnLimitA: 0 }).overA
  return { allOnA, needA: rules.deviceNeedA({ continuousA: allOnA, otherA: 0 }).value }
}
const boxNeedA = (request: CircuitsRequest, system: System, boxId: string): number => boxLegs(request, system, boxId).needA
const boxAllOnA = (request: CircuitsRequest, system: System, boxId: string): number => boxLegs(request, system, boxId).allOnA

/** The service; of a fed box what its own feeder is. */
function mainRatingA(request: CircuitsRequest, system: System, _drafts: readonly Draft[]): number {
  if (request.box.fedFrom === undefined) return request.serviceA
  const needA = boxNeedA(request, system, request.box.id)
  return Math.min(request.serviceA, request.rules.nextDeviceA(needA).value ?? request.serviceA)
}

const itemOf = (d: Draft, system: System): BalanceItem => ({
  id: d.circuit.id,
  options: legOptions(d.circuit.connection, system),
  profileA: d.profileA,
  allOnA: d.allOnA,
})

/** All line–neutral current of the fullest leg with the others off, and how much of it is not linear. */
function neutralWorst(
  drafts: readonly Draft[],
  balance: Balanced,
  system: System,
): { readonly unbalanceA: number; readonly nonLinearFrac: number } {
  const byLeg = new Map<Leg, { all: number; nonLinear: number }>(system.legs.map((leg) => [leg, { all: 0, nonLinear: 0 }]))
  for (const d of drafts) {
    if (!hasNeutral(d.circuit.connection)) continue
    for (const leg of balance.legsOf[d.circuit.id]!) {
      const here = byLeg.get(leg)!
      here.all += d.neutralA
      here.nonLinear += d.nonLinearA
    }
  }
  const worst = [...byLeg.values()].reduce((a, b) => (b.all > a.all ? b : a))
  return { unbalanceA: worst.all, nonLinearFrac: worst.all > 0 ? worst.nonLinear / worst.all : 0 }
}

function onWays(
  circuits: readonly Omit<Circuit, 'ways'>[],
  system: System,
  spareFrac: number,
  pinnedWays: number | undefined,
): { readonly circuits: readonly Circuit[]; readonly ways: number } {
  const used = circuits.reduce((n, c) => n + c.legs.length, 0)
  const count =
    pinnedWays ??
    panelWays(circuits, system.legs, spareWanted(used, spareFrac)) ??
    panelWays(circuits, system.legs, 0) ??
    evenUp(used)
  const placed = placedWays(circuits, system.legs, count) ?? placedWays(circuits, system.legs, evenUp(used * 2 + 12))
  if (placed === null) throw new Fault('circuits/ways', { used, count })
  const top = Math.max(count, ...Object.values(placed).flat())
  return { circuits: circuits.map((c) => ({ ...c, ways: placed[c.id]! })), ways: pinnedWays ?? Math.max(count, evenUp(top)) }
}

const evenUp = (n: number): number => n + (n % 2)

function feedOf(request: CircuitsRequest, system: System, deviceA: number, neutralA: number) {
  const { rules, box, offer } = request
  const transfer = request.transfer ?? 'none'
  const own = request.transformer ?? null
  const bond = panelBond({
    fed: box.fedFrom !== undefined,
    ownTransformer: own !== null,
    kind: offer.kind,
    earthing: request.earthing ?? 'service bond',
    transfer,
    setBond: rules.setBond(transfer).value,
  })
  const lengthM = box.fedFrom?.lengthM ?? (own === null ? offer.distanceM : RISE_M)
  const common = {
    rules,
    system,
    ambientC: feedAmbientC(lengthM, hotC(request), request.job.site.designMaxC),
    overhead: offer.overhead === true && box.fedFrom === undefined && own === null,
  }
  const protective = bond === 'neutral not bonded here' && request.earthing !== 'TT'
  const run = feedRun({
    ...common,
    deviceA,
    lengthM,
    neutralA,
    protective: protective || own !== null,
    least: box.fedFrom === undefined ? request.grown?.lines?.feed : feederLeast(request, box.id),
  })
  const transformer =
    own === null
      ? null
      : transformerFor({
          ...common,
          lengthM: offer.distanceM,
          protective: true,
          transformer: own,
          primarySystem: primarySystem(rules, own.primaryV, system),
          overhead: offer.overhead === true,
          interruptingKA: interruptingAtLeast(rules, primarySystem(rules, own.primaryV, system), request.interruptingKA, true),
        })
  return { run, bond, transformer }
}

const primarySystem = (rules: RuleSet, volts: number, fallback: System): System =>
  rules.systems.find((s) => Math.abs(s.lineLineV - volts) < 0.05 * volts) ?? fallback
