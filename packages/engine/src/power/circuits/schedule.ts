import type { Leg, Run, Wire } from '../../job/index.ts'
import { type Verdict, worst } from '../../kernel/index.ts'
import { materialMoney, outletCount, stubCount } from '../../parts/index.ts'
import type { BoxView, CircuitView, LegSum } from './box-view.ts'
import { type Check, provenanceOf, type Subject, workingId } from './check.ts'
import { COLD_MARGIN_K } from './cord.ts'
import type { JudgedCircuit } from './judge-circuit.ts'
import type { JudgedCord } from './judge-cord.ts'
import { feedRunOf } from './judge-feed.ts'
import { outletBoxML } from './judge-outlet.ts'
import type {
  Balance,
  BoxCircuits,
  CheckRow,
  CircuitRow,
  CordRow,
  FeedRow,
  Label,
  LegLoad,
  PanelSchedule,
  RacewayCount,
  WayRow,
  WireCount,
} from './result.ts'
import { legOfWay, spareWanted } from './ways.ts'

export interface Scheduled {
  readonly view: BoxView
  readonly judged: readonly { readonly c: CircuitView; readonly subject: Subject; readonly j: JudgedCircuit }[]
  readonly sums: ReadonlyMap<Leg, LegSum>
  readonly balance: Balance
  readonly feed: readonly Check[]
  readonly cordSubject: (plug: string) => Subject
}

/**
 * Everything the book shows of one box: schedule, lists, labels and material, as plain figures. Each list is made when somebody reads it
 * first: a plan judges hundreds of boxes and prints one.
 */
export function scheduleOf(s: Scheduled): BoxCircuits {
  const { view } = s
  const panel = once(() => panelSchedule(s))
  const legs = once(() => legLoads(s))
  const circuits = once(() => s.judged.map(({ c, subject, j }) => circuitRow(c, subject, j, view)))
  const cords = once(() => s.judged.flatMap(({ c, j }) => j.cords.map((k) => cordRow(s, c, k))))
  const feed = once(() => feedRow(s))
  const labels = once(() => labelsOf(s))
  const wires = once(() => wireCounts(s))
  const raceways = once(() => racewayCounts(s))
  const material = once(() => materialMoney(view.box, view.inputs.prices))
  return {
    box: view.box.box,
    phase: view.box.phase,
    subject: view.subject.subject,
    system: view.box.system,
    balance: s.balance,
    get panel() {
      return panel()
    },
    get legs() {
      return legs()
    },
    get circuits() {
      return circuits()
    },
    get cords() {
      return cords()
    },
    get feed() {
      return feed()
    },
    get labels() {
      return labels()
    },
    get wires() {
      return wires()
    },
    get raceways() {
      return raceways()
    },
    get material() {
      return material()
    },
  }
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined
  return () => {
    made ??= { value: make() }
    return made.value
  }
}

export const checkRow = (subject: Subject, check: Check): CheckRow => ({
  code: `circuits/${check.what}`,
  verdict: check.verdict,
  demand: check.demand,
  limit: check.limit,
  marginFrac: check.marginFrac,
  working: workingId(subject, check),
  provenance: provenanceOf(check),
})

function panelSchedule(s: Scheduled): PanelSchedule {
  const { box, system, circuits, wanted } = s.view
  const { panel } = box
  const byWay = new Map<number, CircuitView>()
  for (const c of circuits) for (const way of c.circuit.ways) byWay.set(way, c)
  const top = Math.max(panel.ways, ...byWay.keys())
  const ways: WayRow[] = Array.from({ length: top }, (_, i) => {
    const way = i + 1
    const c = byWay.get(way)
    const leg = legOfWay(way, system.legs)
    const poles = c?.circuit.legs.length ?? 0
    return {
      way,
      side: way % 2 === 1 ? 'left' : 'right',
      leg,
      circuit: c?.circuit.id ?? null,
      deviceA: c?.circuit.device.ratingA ?? null,
      poles: c === undefined ? null : poles,
      label: c?.circuit.label ?? 'spare',
      powerW: c === undefined ? 0 : c.powerW / poles,
      apparentVA: c === undefined ? 0 : c.apparentVA / poles,
      currentA: c?.currentA ?? 0,
    }
  })
  const usedCount = byWay.size
  const spareCount = panel.ways - usedCount
  return {
    busA: panel.busA,
    mainA: panel.main.ratingA,
    mainPoles: panel.main.poles,
    interruptingKA: panel.interruptingKA,
    ways,
    waysCount: panel.ways,
    usedCount,
    spareCount,
    spareWantedCount: spareWanted(usedCount, wanted?.spareWaysFrac ?? 0),
    stubs: Array.from({ length: stubCount(spareCount) }, (_, i) => `stub ${i + 1}: empty raceway from the panel to the wall`),
    bond: panel.bond,
  }
}

function legLoads(s: Scheduled): readonly LegLoad[] {
  return s.view.system.legs.map((leg) => {
    const sum = s.sums.get(leg)!
    const peakA = Math.max(0, ...sum.profileA)
    return {
      leg,
      powerW: sum.powerW,
      apparentVA: sum.apparentVA,
      allOnA: sum.allOnA,
      peakA,
      peakH: Math.max(0, sum.profileA.indexOf(peakA)) / 4,
      profileA: sum.profileA,
    }
  })
}

function circuitRow(c: CircuitView, subject: Subject, j: JudgedCircuit, view: BoxView): CircuitRow {
  const { circuit } = c
  const { run, device } = circuit
  const checks = j.checks.map((check) => checkRow(subject, check))
  return {
    id: circuit.id,
    subject: subject.subject,
    label: circuit.label,
    ways: circuit.ways,
    legs: circuit.legs,
    connection: circuit.connection,
    plugs: circuit.plugs,
    own: circuit.own,
    outlet: circuit.outlet,
    outletCount: outletCount(circuit),
    powerW: c.powerW,
    apparentVA: c.apparentVA,
    currentA: c.currentA,
    continuousA: c.continuousA,
    deviceA: device.ratingA,
    devicePoles: device.poles,
    deviceFamily: device.family,
    interruptingKA: device.interruptingKA,
    shock: circuit.shock,
    shockCount: circuit.shock.kind === 'none' ? 0 : outletCount(circuit),
    line: run.line.size,
    neutral: run.neutral?.size ?? null,
    protective: run.protective?.size ?? null,
    insulation: run.line.insulation,
    metal: run.line.metal,
    lengthM: run.lengthM,
    sets: run.sets,
    ampacityA: j.ampacityA,
    ambientC: view.insideHotC.high,
    carryingCount: j.carrying,
    raceway: run.raceway === null ? 'none' : `${run.raceway.kind} ${run.raceway.trade}`,
    racewayShared: run.raceway?.shared ?? null,
    boxVolumeMm3: c.kind === 'machines' ? outletBoxML(device.ratingA) * 1000 : null,
    checks,
    verdict: worst(checks.map((k): Verdict => k.verdict)),
  }
}

function cordRow(s: Scheduled, c: CircuitView, k: JudgedCord): CordRow {
  const { designMinC } = s.view.inputs.job.site
  return {
    plug: k.cord.plug,
    plugs: k.plugs,
    circuit: c.circuit.id,
    what: c.loads.find((l) => l.plug.tag === k.cord.plug)?.plug.what ?? '',
    type: k.cord.type,
    size: k.cord.size,
    lengthM: k.cord.lengthM,
    currentA: k.currentA,
    ampacityA: k.ampacityA,
    jacketMinC: k.cord.jacketMinC,
    wantedMinC: designMinC === null ? null : designMinC - COLD_MARGIN_K,
    verdict: worst(k.checks.map((check): Verdict => check.verdict)),
  }
}

function feedRow(s: Scheduled): FeedRow {
  const { view } = s
  const run = feedRunOf(view)
  const { electrode } = view.box
  const offer = view.inputs.job.offers.find((o) => o.id === view.box.offer)
  return {
    from: view.box.fedFrom !== null ? `box ${view.box.fedFrom.box}` : (offer?.what ?? view.box.offer),
    lengthM: run.lengthM,
    line: run.line.size,
    neutral: run.neutral?.size ?? null,
    protective: run.protective?.size ?? null,
    sets: run.sets,
    raceway: run.raceway === null ? 'none' : `${run.raceway.kind} ${run.raceway.trade}`,
    electrode:
      electrode.kind === 'rods'
        ? `${electrode.count} rods ${electrode.lengthM} m, ${electrode.spacingM} m apart`
        : `ring ${electrode.lengthM} m`,
    electrodeConductor: electrode.conductor.size,
    checks: s.feed.map((check) => checkRow(view.subject, check)),
  }
}

function labelsOf(s: Scheduled): readonly Label[] {
  const { view } = s
  const { box } = view
  const offer = view.inputs.job.offers.find((o) => o.id === box.offer)
  const labels: Label[] = [
    {
      place: 'main',
      text: `Main ${box.panel.main.ratingA} A. Fed from: ${box.fedFrom !== null ? `box ${box.fedFrom.box}` : (offer?.what ?? box.offer)}. ${view.system.title}. Lock here before opening.`,
    },
    {
      place: 'panel',
      text: `${view.system.title}. ${box.panel.bond === 'neutral bonded here' ? 'Neutral bonded to earth here, and nowhere else on our side.' : 'Neutral is not bonded here.'}`,
    },
  ]
  if (box.interim !== null && box.interim !== box.offer)
    labels.push({ place: 'main', text: 'More than one source of supply: network or set. Prove both dead.' })
  if (view.fed.length > 0)
    labels.push({
      place: 'panel',
      text: `Feeds box ${view.fed.map((f) => f.box.box).join(', ')}: opened here it goes dark there.`,
    })
  if (box.staging.control === 'interlock')
    labels.push({ place: 'panel', text: `Interlock holds each leg to ${box.staging.capA ?? '?'} A. Do not bridge it.` })
  for (const { circuit } of view.circuits) {
    const where = circuit.ways.length > 0 ? `way ${circuit.ways.join(', ')}` : circuit.id
    labels.push({ place: where, text: `${circuit.label} · ${circuit.device.ratingA} A` })
    if (circuit.plugs.length > 0) {
      const cord = circuit.cords.find((k) => k.sharedWith === undefined)
      labels.push({
        place: `outlet ${circuit.plugs.join(', ')}`,
        text: `${circuit.plugs.join(', ')} · ${where} · ${circuit.device.ratingA} A${cord === undefined ? '' : ` · cord ${cord.size} ${cord.type}, at most ${cord.lengthM} m`}`,
      })
    }
    if (circuit.own === 'light')
      labels.push({
        place: 'light switch',
        text: 'Light: sensor and plain switch. Before work at the panel use the switch: the sensor may leave you in the dark.',
      })
  }
  return labels
}

function addRun(
  view: BoxView,
  run: Run,
  legs: readonly Leg[],
  add: (wire: Wire, use: WireCount['use'], colour: string, lengthM: number, count: number) => void,
): void {
  const { colours } = view.rules
  for (const leg of legs) add(run.line, 'line', colours[leg], run.lengthM, run.sets)
  if (run.neutral !== null) add(run.neutral, 'neutral', colours.N, run.lengthM, run.sets)
  if (run.protective !== null) add(run.protective, 'protective', colours.PE, run.lengthM, run.sets)
}

function wireCounts(s: Scheduled): readonly WireCount[] {
  const { view } = s
  const sums = new Map<
    string,
    { size: string; metal: string; insulation: string; colour: string; use: WireCount['use']; count: number; lengthM: number }
  >()
  const add = (wire: Wire, use: WireCount['use'], colour: string, lengthM: number, count: number) => {
    const key = [wire.size, wire.metal, wire.insulation, colour, use].join('|')
    const had = sums.get(key)
    if (had === undefined)
      sums.set(key, {
        size: wire.size,
        metal: wire.metal,
        insulation: wire.insulation,
        colour,
        use,
        count,
        lengthM: lengthM * count,
      })
    else {
      had.count += count
      had.lengthM += lengthM * count
    }
  }
  addRun(view, feedRunOf(view), view.system.legs, add)
  for (const { circuit, kind } of view.circuits) if (kind !== 'feeder') addRun(view, circuit.run, circuit.legs, add)
  return [...sums.values()]
}

function racewayCounts(s: Scheduled): readonly RacewayCount[] {
  const sums = new Map<string, { kind: string; trade: string; count: number; lengthM: number }>()
  const shared = new Set<string>()
  const add = (run: Run) => {
    if (run.raceway === null) return
    if (run.raceway.shared !== undefined) {
      if (shared.has(run.raceway.shared)) return
      shared.add(run.raceway.shared)
    }
    const key = `${run.raceway.kind}|${run.raceway.trade}`
    const had = sums.get(key)
    if (had === undefined)
      sums.set(key, { kind: run.raceway.kind, trade: run.raceway.trade, count: run.sets, lengthM: run.lengthM * run.sets })
    else {
      had.count += run.sets
      had.lengthM += run.lengthM * run.sets
    }
  }
  add(feedRunOf(s.view))
  for (const { circuit, kind } of s.view.circuits) if (kind !== 'feeder') add(circuit.run)
  return [...sums.values()]
}
