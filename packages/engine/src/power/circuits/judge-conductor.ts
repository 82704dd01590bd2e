import type { FitDesign, SizeName, Wire } from '../../job/index.ts'
import { judgeEnds, judgeLower, type Source, source, type Verdict } from '../../kernel/index.ts'
import type { ConductorCheck, ConductorTask } from '../../rules/index.ts'
import { besideIn, worstCrowd } from './beside.ts'
import type { BoxView, CircuitView } from './box-view.ts'
import { type Check, lower, shown, upper, worded } from './check.ts'
import { hasNeutral } from './connection.ts'
import { carryingOf, circuitWires, conductorTask, sizeIndex } from './wire.ts'

const known = new WeakMap<FitDesign, ReturnType<typeof besideIn>>()

/** As `besideIn`, worked out once for a layout. */
function besideOf(laid: FitDesign): ReturnType<typeof besideIn> {
  const had = known.get(laid) ?? besideIn(laid)
  known.set(laid, had)
  return had
}

/** Circuits and load-carrying conductors that lie together with this one; wires: of the raceway it shares by design. */
export function together(
  view: BoxView,
  c: CircuitView,
): { readonly circuits: number; readonly othersCarrying: number; readonly wires: readonly Wire[] } {
  const shared = c.circuit.run.raceway?.shared
  const mates = shared === undefined ? [] : view.circuits.filter((o) => o !== c && o.circuit.run.raceway?.shared === shared)
  const fit = view.inputs.design.builds.find((b) => b.box === view.box.box)?.fit
  const carries = (o: CircuitView) => carryingOf(o.circuit.connection, view.system, o.nonLinearFrac, view.rules).count
  const crowd = worstCrowd({
    mates: mates.map((o) => o.circuit.id),
    bunches: (fit === undefined ? undefined : besideOf(fit)[c.circuit.id]) ?? [],
    own: carries(c),
    carrying: (id) => {
      const other = view.circuits.find((o) => o.circuit.id === id)
      return other === undefined ? 0 : carries(other)
    },
    uncountedTo: view.rules.wireway.uncountedTo.value,
  })
  return { ...crowd, wires: [c, ...mates].flatMap((o) => circuitWires(o.circuit)) }
}

/** What the conductors of a circuit are asked, at one temperature of the air. */
export function taskOf(view: BoxView, c: CircuitView, ambientC: number): ConductorTask {
  const { circuit } = c
  const motor = c.loads.length === 1 && c.loads[0]!.motor ? c.loads[0]! : null
  const tableA = motor === null ? 0 : motorTableA(view, c)
  const mates = together(view, c)
  return {
    ...conductorTask({
      rules: view.rules,
      system: view.system,
      connection: circuit.connection,
      continuousA: motor === null ? c.continuousA : tableA,
      otherA: motor === null ? c.otherA : 0,
      motor: motor !== null,
      multiOutlet: c.outlets.length > 1,
      nonLinearFrac: c.nonLinearFrac,
      deviceA: circuit.device.ratingA,
      deviceFamily: circuit.device.family,
      ambientC,
      circuits: mates.circuits,
      othersCarrying: mates.othersCarrying,
      lengthM: circuit.run.lengthM,
      metal: circuit.run.line.metal,
      insulation: circuit.run.line.insulation,
      racewayKind: circuit.run.raceway?.kind ?? view.rules.defaults.raceway,
    }),
    ...(circuit.run.sets > 1 ? { sets: circuit.run.sets } : {}),
  }
}

function motorTableA(view: BoxView, c: CircuitView): number {
  const { plug } = c.loads[0]!
  const plate = plug.motor!
  return view.rules.motorDeviceA({
    ...(plate.hp === undefined ? {} : { hp: plate.hp }),
    ...(plate.shaftW === undefined ? {} : { shaftW: plate.shaftW }),
    currentA: plate.fullLoadA ?? plug.currentA,
    voltageV: plug.voltageV,
    phases: plug.phases,
  }).value.tableA
}

const TITLES: Record<ConductorCheck['what'], string> = {
  terminals: 'conductor at its terminals',
  conditions: 'conductor as it lies',
  protected: 'conductor protected by its device',
  'small-conductor': 'largest device for a small conductor',
  overload: 'conductor against a long overload',
}

/** Steps 2 to 4: the set's own checks of the line, in its order, at both ends of the inside temperature. */
export function lineChecks(view: BoxView, c: CircuitView): readonly Check[] {
  const { rules } = view
  const { line } = c.circuit.run
  const id = c.circuit.id
  if (sizeIndex(rules, line.size) < 0) {
    return [
      worded({
        what: 'terminals',
        title: 'conductor of the set',
        basis: 'code',
        rests: source(`sizes of ${rules.title}`, 'told'),
        verdict: 'unknown',
        found: line.size,
        wanted: 'a size of the set',
        said: `is wired in ${line.size}, which the set does not list.`,
      }),
    ]
  }
  const { low, high, told } = view.insideHotC
  const hot = checksAt(view, line.size, taskOf(view, c, high))
  const mild = low === high ? hot : checksAt(view, line.size, taskOf(view, c, low))
  const passes = rules.conductorFor(taskOf(view, c, high)).value
  return hot.map((check, i) => {
    const other = mild[i] ?? check
    const verdict = judgeEnds(word(check), word(other))
    const mends =
      verdict === 'holds' || passes === null
        ? []
        : [{ path: `circuits.${id}.line`, value: passes, words: `${passes} conductors in place of ${line.size}` }]
    const made = upper({
      what: check.what,
      title: TITLES[check.what],
      basis: 'code',
      rests: lastRests(check),
      steps: check.steps,
      demandA: check.demandA,
      limitA: check.limitA,
      said: saidOf(check, line.size, high),
      assumed: told || check.what === 'small-conductor' || check.what === 'terminals' ? [] : [`boxes.${view.box.box}.inside-hot`],
      mends,
    })
    return { ...made, verdict }
  })
}

const word = (check: ConductorCheck): Verdict => (check.holds ? 'holds' : 'fails')
const lastRests = (check: ConductorCheck): Source =>
  check.steps[check.steps.length - 1]?.rests ?? source('conductor rules of the set', 'memory')

function saidOf(check: ConductorCheck, size: SizeName, ambientC: number): string {
  const [d, l] = [shown(check.demandA), shown(check.limitA)]
  switch (check.what) {
    case 'terminals':
      return `asks ${d} A of its terminals; ${size} gives ${l} A there.`
    case 'conditions':
      return `asks ${d} A of ${size}, which carries ${l} A in ${shown(ambientC)} °C as it lies.`
    case 'protected':
      return `has a ${d} A device over ${size}; at most ${l} A protects it.`
    case 'small-conductor':
      return `has a ${d} A device; ${size} may stand behind ${l} A at most.`
    case 'overload':
      return `may carry ${d} A for an hour before its device opens; ${size} stands ${l} A.`
  }
}

function checksAt(view: BoxView, size: SizeName, task: ConductorTask): readonly ConductorCheck[] {
  const { rules } = view
  if (rules.conductorChecks !== undefined) return rules.conductorChecks(size, task)
  const ampacity = rules.ampacityA(size, task)
  const demandA = task.continuousA + task.otherA
  return [{ what: 'conditions', holds: demandA <= ampacity.value, demandA, limitA: ampacity.value, steps: ampacity.steps }]
}

/** Steps 5 to 7: protective conductor, neutral, raceway fill. */
export function runChecks(view: BoxView, c: CircuitView): readonly Check[] {
  return [...protectiveCheck(view, c), ...neutralCheck(view, c), ...fillCheck(view, c)]
}

function protectiveCheck(view: BoxView, c: CircuitView): readonly Check[] {
  const { rules } = view
  const { run, device, id } = c.circuit
  const task = taskOf(view, c, view.insideHotC.high)
  // A feeder to another box is sized for its device, as the feed it is there.
  const sized = c.kind === 'feeder' ? { ...task, continuousA: 0, otherA: device.ratingA } : task
  const grownFrom = rules.conductorFor(sized).value ?? run.line.size
  const asked = rules.protectiveFor({
    deviceA: device.ratingA,
    line: run.line.size,
    grownFrom: sizeIndex(rules, grownFrom) > sizeIndex(rules, run.line.size) ? run.line.size : grownFrom,
    metal: run.protective?.metal ?? 'cu',
  })
  const rests = asked.steps[asked.steps.length - 1]?.rests ?? source('protective conductor of the set', 'memory')
  const mends = [{ path: `circuits.${id}.protective`, value: asked.value, words: `a ${asked.value} protective conductor` }]
  if (run.protective === null) {
    return [
      worded({
        what: 'protective',
        title: 'protective conductor',
        basis: 'code',
        rests,
        steps: asked.steps,
        verdict: 'fails',
        found: 'none',
        wanted: asked.value,
        said: `has no protective conductor; ${asked.value} is asked.`,
        mends,
      }),
    ]
  }
  const areas = areaOf(view, run.protective.size),
    need = areaOf(view, asked.value)
  return [
    lower({
      what: 'protective',
      title: 'protective conductor',
      basis: 'code',
      rests,
      steps: asked.steps,
      demandA: areas,
      limitA: need,
      unit: 'mm²',
      symbols: ['S', 'S min'],
      said: `has a ${run.protective.size} protective conductor; ${asked.value} is asked behind ${device.ratingA} A.`,
      mends: areas < need ? mends : [],
    }),
  ]
}

const areaOf = (view: BoxView, size: SizeName): number => view.rules.sizes.find((s) => s.name === size)?.areaMm2 ?? Number.NaN

function neutralCheck(view: BoxView, c: CircuitView): readonly Check[] {
  const { rules, system } = view
  const { run, connection, id } = c.circuit
  if (!hasNeutral(connection)) return []
  const counts = rules.neutralCounts({ connection, system, nonLinearFrac: c.nonLinearFrac })
  const needs = rules.neutralA({ unbalanceA: c.neutralA, nonLinearFrac: c.nonLinearFrac, system, lineA: c.currentA })
  const rests = needs.steps[needs.steps.length - 1]?.rests ?? source('neutral of the set', 'memory')
  if (run.neutral === null) {
    return [
      worded({
        what: 'neutral',
        title: 'neutral',
        basis: 'code',
        rests,
        steps: [...counts.steps, ...needs.steps],
        verdict: 'fails',
        found: 'none',
        wanted: run.line.size,
        said: 'feeds a line-to-neutral load without a neutral.',
        mends: [{ path: `circuits.${id}.neutral`, value: run.line.size, words: `a ${run.line.size} neutral` }],
      }),
    ]
  }
  const at = (ambientC: number) =>
    rules.ampacityA(run.neutral!.size, {
      ...taskOf(view, c, ambientC),
      metal: run.neutral!.metal,
      insulation: run.neutral!.insulation,
    })
  const ampacity = at(view.insideHotC.high)
  const verdict = judgeEnds(judgeLower(at(view.insideHotC.low).value, needs.value, 0), judgeLower(ampacity.value, needs.value, 0))
  const check = lower({
    what: 'neutral',
    title: 'neutral by the largest unbalance',
    basis: 'code',
    rests,
    steps: [...counts.steps, ...needs.steps, ...ampacity.steps],
    demandA: ampacity.value,
    limitA: needs.value,
    symbols: ['Iz N', 'IN'],
    said: `may put ${shown(needs.value)} A on its ${run.neutral.size} neutral, which carries ${shown(ampacity.value)} A.`,
  })
  return [{ ...check, verdict, marginFrac: verdict === 'unknown' ? null : check.marginFrac }]
}

function fillCheck(view: BoxView, c: CircuitView): readonly Check[] {
  const { rules } = view
  const { raceway } = c.circuit.run
  if (c.circuit.ownLoad?.at === 'cabinet' && raceway === null) return []
  if (raceway === null) {
    return [
      worded({
        what: 'fill',
        title: 'raceway',
        basis: 'house',
        rests: source('every inside run lies in a raceway', 'common practice'),
        verdict: 'unknown',
        found: 'none',
        wanted: 'a raceway',
        grave: false,
        said: 'names no raceway: the wires do not fit one of the list, or none was chosen.',
      }),
    ]
  }
  const { wires } = together(view, c)
  const asked = rules.racewayFor(wires, raceway.kind)
  const rests = asked.steps[asked.steps.length - 1]?.rests ?? source('raceway fill of the set', 'memory')
  if (asked.value === null) {
    return [
      worded({
        what: 'fill',
        title: 'raceway fill',
        basis: 'code',
        rests,
        steps: asked.steps,
        verdict: 'fails',
        found: `${raceway.kind} ${raceway.trade}`,
        wanted: 'none of the list',
        grave: false,
        said: `has ${wires.length} wires that fit no ${raceway.kind} of the list.`,
      }),
    ]
  }
  const order = tradeOrder(raceway.trade) - tradeOrder(asked.value)
  return [
    worded({
      what: 'fill',
      title: 'raceway fill',
      basis: 'code',
      rests,
      steps: asked.steps,
      verdict: order >= -1e-9 ? 'holds' : 'fails',
      relation: '≥',
      found: `${raceway.kind} ${raceway.trade}`,
      wanted: `${raceway.kind} ${asked.value}`,
      grave: false,
      said: `has ${wires.length} wires in ${raceway.kind} ${raceway.trade}; the fill asks ${asked.value}.`,
      mends:
        order >= -1e-9
          ? []
          : [{ path: `circuits.${c.circuit.id}.raceway`, value: asked.value, words: `${raceway.kind} ${asked.value}` }],
    }),
  ]
}

/** `1/2`, `1-1/4`, `20 mm`: trade sizes in order. */
export function tradeOrder(trade: string): number {
  const bare = trade.replace(/ *mm$/, '')
  const [whole, part] = bare.includes('-') ? bare.split('-') : bare.includes('/') ? ['0', bare] : [bare, undefined]
  const [n, d] = (part ?? '0/1').split('/')
  return Number(whole) + Number(n) / Number(d)
}
