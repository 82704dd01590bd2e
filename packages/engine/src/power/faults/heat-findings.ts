import type { Circuit, Wire } from '../../job/index.ts'
import {
  type Finding,
  formatQuantity,
  judgeEnds,
  judgeUpper,
  type Mend,
  put,
  source,
  step,
  type Verdict,
  worst,
} from '../../kernel/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import { type Asked, inAmpere, inSeconds, lazyWorking, onSource, seconds } from './asked.ts'
import type { CircuitTrip } from './clearing-findings.ts'
import { damageS, type HeatingTask, withstandA2s } from './heating.ts'
import { type Answered, whoDecides } from './interrupting.ts'
import { letThrough } from './let-through.ts'
import { highestOfKinds, type Place } from './levels.ts'
import { KINDS_OF } from './place.ts'
import type { FaultKind, TripTime, Withstand } from './result.ts'

/** A conductor of a circuit and what it bears. */
interface Bears {
  readonly what: Withstand['conductor']
  readonly wire: Wire
  readonly facts: WireFacts
  readonly areaMm2: number
  readonly k: number
  readonly currents: 'short' | 'earth'
  /** Where it starts, and where it ends. */
  readonly near: Place
  readonly far: Place
}

export interface Heat {
  readonly trip: CircuitTrip
  readonly bears: Bears
  readonly verdict: Verdict
  readonly highest: Withstand
  readonly basis: string
  /** Least current: slow edge against the time until it is spoilt. */
  readonly leastA: number
  readonly slowS: number
  readonly damageS: number
}

/** From this share of the time until it is spoilt on, a conductor counts as near it. */
const NEAR = 0.9

/** Loaded conductors are rated at this air temperature. @source ampacity tables, 30 °C. Provenance: memory */
const TABLE_AMBIENT_C = 30

/** Every conductor of a circuit against the heat of its least and its highest fault, on one source. */
export function circuitHeat(asked: Asked, trip: CircuitTrip): readonly Heat[] {
  return conductorsOf(asked, trip).map((bears) => heatOf(asked, trip, bears))
}

function conductorsOf(asked: Asked, trip: CircuitTrip): readonly Bears[] {
  const { circuit, levels } = trip
  const out: Bears[] = []
  const receptacle = levels.receptacles.get(circuit.id) ?? trip.place
  const push = (what: Bears['what'], wire: Wire | null, currents: Bears['currents'], near: Place, far: Place) => {
    const facts = wire === null ? null : factsOf(asked, wire, what === 'cord')
    if (wire === null || facts === null) return
    out.push({
      what,
      wire,
      facts,
      areaMm2: facts.areaMm2 * (what === 'cord' ? 1 : circuit.run.sets),
      k: facts.k,
      currents,
      near,
      far,
    })
  }
  push('line', circuit.run.line, 'short', levels.panel, receptacle)
  push('protective', circuit.run.protective, 'earth', levels.panel, receptacle)
  const cord = circuit.cords.find((c) => c.plug === trip.place.plug)
  if (cord !== undefined) push('cord', { size: cord.size, metal: 'cu', insulation: cord.type }, 'short', receptacle, trip.place)
  return out
}

interface WireFacts {
  readonly areaMm2: number
  readonly k: number
  readonly initialC: number
  readonly finalC: number
  readonly ampacityA: number
}

const known = new WeakMap<object, Map<string, WireFacts | null>>()

/** What a wire bears and carries, by the rule set; asked once each. Null: a size the set does not know. */
function factsOf(asked: Asked, wire: Wire, cord: boolean): WireFacts | null {
  const { rules } = asked.inputs
  let facts = known.get(rules)
  if (facts === undefined) {
    facts = new Map()
    known.set(rules, facts)
  }
  const key = `${wire.size}|${wire.metal}|${wire.insulation}|${cord}`
  let found = facts.get(key)
  if (found === undefined) {
    found = wireFacts(rules, wire, cord)
    facts.set(key, found)
  }
  return found
}

function wireFacts(rules: RuleSet, wire: Wire, cord: boolean): WireFacts | null {
  const areaMm2 = rules.sizes.find((s) => s.name === wire.size)?.areaMm2
  if (areaMm2 === undefined) return null
  const k = rules.adiabaticK({ metal: wire.metal, insulation: wire.insulation })
  const task = { ...MILD, metal: wire.metal, insulation: wire.insulation }
  const ampacityA = cord
    ? rules.cordAmpacityA({ size: wire.size, type: wire.insulation, loaded: 3, ambientC: TABLE_AMBIENT_C }).value
    : rules.ampacityA(wire.size, task).value
  const told = k.steps.flatMap((s) => s.values)
  const at = (symbol: string) => told.find((v) => v.symbol === symbol && typeof v.value === 'number')?.value as number | undefined
  const row = K_ROWS.find(([printed]) => Math.abs(printed - k.value) <= 1)
  return { areaMm2, k: k.value, ampacityA, initialC: at('T1') ?? row?.[1] ?? 75, finalC: at('T2') ?? row?.[2] ?? 150 }
}

/** One circuit alone at the table's own air. */
const MILD = {
  continuousA: 0,
  otherA: 0,
  deviceA: 0,
  deviceFamily: '',
  loaded: 2,
  carrying: 2,
  circuits: 1,
  ambientC: TABLE_AMBIENT_C,
  multiOutlet: false,
  motor: false,
} as const

/** Temperatures that a printed k stands for: `[k, initial, final]`. @source IEC 60364-4-43 Table 43A. Provenance: memory */
const K_ROWS: readonly (readonly [number, number, number])[] = [
  [115, 70, 160],
  [103, 70, 140],
  [143, 90, 250],
  [141, 60, 200],
  [76, 70, 160],
  [94, 90, 250],
  [68, 70, 140],
]

const TO_EARTH: readonly FaultKind[] = ['line-earth']
const SHORTS_OF = Object.fromEntries(
  Object.entries(KINDS_OF).map(([connection, kinds]) => [connection, kinds.filter((k) => k !== 'line-earth')]),
) as unknown as typeof KINDS_OF

function heatOf(asked: Asked, trip: CircuitTrip, bears: Bears): Heat {
  const { circuit } = trip
  const band = asked.bands(circuit.device.family, circuit.device.ratingA)
  const bearsA2s = withstandA2s(bears.k, bears.areaMm2)
  // Highest: through its whole length, and just behind its near end, where more flows in a piece of it.
  const kinds = bears.currents === 'earth' ? TO_EARTH : SHORTS_OF[circuit.connection]
  const highA = highestOfKinds(bears.near, kinds, trip.levels.voltageFactor.max)?.currentA ?? 0
  const farA = highestOfKinds(bears.far, kinds, trip.levels.voltageFactor.max)?.currentA ?? 0
  const { family, ratingA } = circuit.device
  const { frequencyHz } = asked.inputs.rules
  const passes = letThrough({ family, ratingA, currentA: highA, magneticS: band.magneticS, frequencyHz })
  const whole = letThrough({ family, ratingA, currentA: farA, magneticS: band.magneticS, frequencyHz })
  const listed = isListed(circuit)
  const tested = listed && testedWithIt(asked, circuit, bears)
  const through = judgeEnds(judgeUpper(whole.lowA2s, bearsA2s), judgeUpper(whole.highA2s, bearsA2s))
  const piece = judgeEnds(judgeUpper(passes.lowA2s, bearsA2s), judgeUpper(passes.highA2s, bearsA2s))
  // Without the maker's let-through a piece near the panel is not proven either way; of listed devices and the code's own wire it is near.
  const open = listed ? 'tight' : 'unknown'
  const softened = (v: Verdict): Verdict => (v === 'unknown' && listed ? 'tight' : v)
  const highVerdict: Verdict = tested
    ? 'holds'
    : worst([softened(through), piece === 'fails' || piece === 'unknown' ? open : piece])
  // Least: slow edge against heating with what it loses to the air.
  const times = withHelp(trip, bears.currents === 'earth' ? trip.earth : trip.short)
  const residual = bears.currents === 'earth' ? trip.residualS : null
  const low = leastHeat(times, residual, bears)
  const { leastA, slowS, damage } = low
  // The generic slow edge is the widest of all makers: of a listed device and the wire of its rating it proves no damage, only no margin.
  const lowVerdict: Verdict =
    listed && bears.what !== 'cord' ? softened(low.verdict) : tested ? softened(low.verdict) : low.verdict
  return {
    trip,
    bears,
    verdict: RANK[highVerdict] > RANK[lowVerdict] ? highVerdict : lowVerdict,
    highest: { conductor: bears.what, size: bears.wire.size, letThroughA2s: passes.highA2s, withstandA2s: bearsA2s, atA: highA },
    basis: tested ? 'tested with its wire' : passes.basis,
    leastA,
    slowS,
    damageS: damage,
  }
}

/** A set without boost drives no current that a device opens: the box's own finding on the set says so, once. Here only its boosted end counts. */
function withHelp(trip: CircuitTrip, times: readonly TripTime[] | null): readonly TripTime[] | null {
  const { set } = trip.levels
  if (set === null || set.boost === true) return times
  return set.boost === null ? (times?.slice(0, 1) ?? null) : null
}

/** As `damageS` takes it; conductors in parallel carry together. */
export const heatingOf = ({ facts, areaMm2, k }: Pick<Bears, 'facts' | 'areaMm2' | 'k'>): HeatingTask => ({
  k,
  areaMm2,
  ampacityA: (facts.ampacityA * areaMm2) / facts.areaMm2,
  ambientC: TABLE_AMBIENT_C,
  initialC: facts.initialC,
  finalC: facts.finalC,
})

function leastHeat(times: readonly TripTime[] | null, residual: number | null, bears: Bears) {
  if (times === null || times.length === 0) return { leastA: 0, slowS: 0, damage: Infinity, verdict: 'holds' as const }
  let most: { leastA: number; slowS: number; damage: number; verdict: Verdict } | null = null
  const task = heatingOf(bears)
  for (const t of times) {
    const slowS = Math.min(t.slowS, residual ?? Infinity)
    const fastS = Math.min(t.fastS, slowS)
    const damage = damageS(task, t.currentA)
    const at = (s: number): Verdict => (s <= damage ? (s > NEAR * damage ? 'tight' : 'holds') : 'fails')
    const verdict = slowS === Infinity && damage === Infinity ? 'holds' : judgeEnds(at(fastS), at(slowS))
    if (most === null || RANK[verdict] > RANK[most.verdict]) most = { leastA: t.currentA, slowS, damage, verdict }
  }
  return most!
}

/**
 * A listed moulded-case breaker is tested up to its interrupting rating with the wire of its rating, which must stay whole: a conductor
 * no thinner than the circuit's own, itself no weaker than the device's rating, needs no let-through sum.
 * @source UL 489 short-circuit tests with rated wire. Provenance: memory
 */
function testedWithIt(asked: Asked, circuit: Circuit, bears: Bears): boolean {
  const line = factsOf(asked, circuit.run.line, false)
  if (line === null || line.ampacityA * circuit.run.sets < circuit.device.ratingA) return false
  return bears.areaMm2 >= line.areaMm2 * circuit.run.sets * (1 - 1e-9)
}

const isListed = (circuit: Circuit): boolean => circuit.device.family === 'us thermal-magnetic'

const RANK: Readonly<Record<Verdict, number>> = { holds: 0, tight: 1, unknown: 2, fails: 3 }
const worseHeat = (a: Heat, b: Heat): boolean =>
  RANK[a.verdict] > RANK[b.verdict] ||
  (a.verdict === b.verdict && a.highest.letThroughA2s / a.highest.withstandA2s > b.highest.letThroughA2s / b.highest.withstandA2s)

/** One finding a circuit: its weakest conductor, on the worst source. */
export function heatFindings(asked: Asked, all: readonly (readonly CircuitTrip[])[]): Answered {
  const weakest = new Map<string, Heat>()
  for (const trips of all) {
    for (const trip of trips) {
      for (const heat of circuitHeat(asked, trip)) {
        const before = weakest.get(trip.circuit.id)
        if (before === undefined || worseHeat(heat, before)) weakest.set(trip.circuit.id, heat)
      }
    }
  }
  const findings: Finding[] = unknownSizes(asked)
  const workings: ReturnType<typeof lazyWorking>[] = []
  for (const heat of weakest.values()) {
    const id = asked.name(`${heat.trip.circuit.id}/fault-heat`)
    findings.push(findingOf(asked, id, heat))
    workings.push(workingOf(asked, id, heat))
  }
  return { findings, workings }
}

/** A wire that the set's table of areas does not have cannot be judged; it is not passed over in silence. */
function unknownSizes(asked: Asked): Finding[] {
  const out: Finding[] = []
  for (const circuit of asked.box.circuits) {
    const sizes = [circuit.run.line.size, circuit.run.protective?.size, ...circuit.cords.map((c) => c.size)]
    const missing = sizes.find((size) => size !== undefined && !asked.inputs.rules.sizes.some((known) => known.name === size))
    if (missing === undefined) continue
    out.push({
      ...{ code: 'faults/conductor-heat', question: 'faults', subject: circuit.id, verdict: 'unknown', basis: 'physics' },
      said: `The area of ${missing} is not in the tables: what heat it bears cannot be said; its maker can tell.`,
      ...{ provenance: 'told', assumed: [], workings: [], mends: [], decides: whoDecides(asked.box) },
    })
  }
  return out
}

const WORDS: Readonly<Record<Bears['what'], string>> = {
  line: 'line conductor',
  neutral: 'neutral',
  protective: 'protective conductor',
  cord: 'cord',
}

function findingOf(asked: Asked, id: string, heat: Heat): Finding {
  const { trip, bears, highest, verdict } = heat
  const name = `${bears.wire.size} ${WORDS[bears.what]}`
  const late = heat.slowS > heat.damageS * NEAR
  const said = () =>
    late
      ? `${inAmpere(heat.leastA)} in its ${name} ${onSource(trip.levels)} may stand ${inSeconds(heat.slowS)} by the device’s slow edge; the insulation bears it ${inSeconds(heat.damageS)}.`
      : heat.basis === 'tested with its wire'
        ? `A fault of up to ${inAmpere(highest.atA)} heats its ${name} ${onSource(trip.levels)}; a listed device is tested with the wire of its rating, and its slow edge ends before the insulation is spoilt.`
        : `A fault of up to ${inAmpere(highest.atA)} at its start ${onSource(trip.levels)} lets at most ${joule(highest.letThroughA2s)} through its ${name}, which bears ${joule(highest.withstandA2s)}.`
  const unknown =
    verdict === 'unknown'
      ? ' The maker’s curve or let-through decides.'
      : late && verdict === 'tight'
        ? ' That is the widest band of any maker, and the code’s own table sizes this wire: ask for the device’s curve.'
        : !late && verdict === 'tight' && heat.basis === 'unlimited'
          ? ' That is the slowest magnetic time; ask for the device’s let-through.'
          : ''
  return {
    code: 'faults/conductor-heat',
    question: 'faults',
    subject: trip.circuit.id,
    verdict,
    basis: heat.basis === 'tested with its wire' ? 'maker' : 'physics',
    get said() {
      return said() + unknown
    },
    demand: late ? seconds('t', heat.slowS) : put('I²t', highest.letThroughA2s, 'A2s'),
    limit: late ? seconds('t spoilt', heat.damageS) : put('k²S²', highest.withstandA2s, 'A2s'),
    provenance: 'memory',
    confirm: true,
    assumed: trip.levels.assumed,
    workings: [id],
    mends: verdict === 'holds' ? [] : mendsOf(asked, heat),
    decides: whoDecides(asked.box),
  }
}

const joule = (a2s: number): string => formatQuantity(Number(a2s.toPrecision(3)), 'A2s')

function mendsOf(asked: Asked, heat: Heat): readonly Mend[] {
  const { trip, bears } = heat
  // A protective conductor grows with its line.
  if (bears.what === 'line' || bears.what === 'protective') {
    const names = asked.inputs.rules.sizes.map((s) => s.name)
    const heavier = names[names.indexOf(trip.circuit.run.line.size) + 1]
    return heavier === undefined
      ? []
      : [
          {
            path: `circuits.${trip.circuit.id}.line`,
            value: heavier,
            words: `${heavier} conductors instead of ${trip.circuit.run.line.size}`,
          },
        ]
  }
  if (bears.what !== 'cord' || trip.place.plug === null) return []
  const sizes = asked.inputs.rules.cordSizes()
  const next = sizes[sizes.indexOf(bears.wire.size) + 1]
  return next === undefined
    ? []
    : [{ path: `cords.${trip.place.plug}.size`, value: next, words: `${next} cord instead of ${bears.wire.size}` }]
}

function workingOf(asked: Asked, id: string, heat: Heat) {
  const { bears, highest, trip } = heat
  const { initialC, finalC, ampacityA } = bears.facts
  return lazyWorking({
    id,
    title: `Heat of a fault in ${asked.name(trip.circuit.id)}’s ${WORDS[bears.what]}`,
    steps: () => [
      ...asked.inputs.rules.adiabaticK({ metal: bears.wire.metal, insulation: bears.wire.insulation }).steps,
      step(
        'k²S²',
        'k²·S²',
        [put('k', bears.k, 'A√s/mm²'), put('S', bears.areaMm2, 'mm2')],
        highest.withstandA2s,
        'A2s',
        source('IEC 60364-4-43, 434.5.2', 'memory'),
      ),
      step(
        'I²t',
        heat.basis === 'class 3 limit'
          ? 'limit of energy class 3'
          : heat.basis === 'tested with its wire'
            ? 'I²·t at the slowest magnetic time; not asked: tested with its wire'
            : 'I²·t at the slowest magnetic time',
        [put('I', highest.atA, 'A')],
        highest.letThroughA2s,
        'A2s',
        source(
          heat.basis === 'class 3 limit'
            ? 'EN 60898-1 Annex ZA'
            : heat.basis === 'tested with its wire'
              ? 'UL 489, short-circuit tests with rated wire'
              : 'magnetic time of the band',
          'memory',
        ),
      ),
      step(
        't spoilt',
        'τ·ln((I² − Iz²)/(I² − I∞²)), I∞² = Iz²·(Tf − 30)/(Ti − 30), τ = k²S²/(I∞² − Iz²)',
        [put('I', heat.leastA, 'A'), put('Ti', initialC, '°C'), put('Tf', finalC, '°C'), put('Iz', ampacityA, 'A')],
        heat.damageS,
        's',
        source('first-order heating', 'computed'),
      ),
      step(
        't slow',
        'slow edge of the device at the least fault',
        [put('I', heat.leastA, 'A')],
        heat.slowS,
        's',
        asked.bands(trip.circuit.device.family, trip.circuit.device.ratingA).rests,
      ),
    ],
  })
}
