import type { Circuit, Wire } from '../../job/index.ts'
import { type Finding, formatQuantity, judgeEnds, judgeUpper, type Mend, put, source, step, type Verdict } from '../../kernel/index.ts'
import { type Asked, inAmpere, inSeconds, lazyWorking, onSource } from './asked.ts'
import type { CircuitTrip } from './clearing-findings.ts'
import { damageS, kTemperaturesC, withstandA2s } from './heating.ts'
import { type Answered, whoDecides } from './interrupting.ts'
import { letThrough } from './let-through.ts'
import { highestOfKinds, type Place } from './levels.ts'
import { KINDS_OF } from './place.ts'
import type { TripTime, Withstand } from './result.ts'

/** A conductor of a circuit and what it bears. */
interface Bears {
  readonly what: Withstand['conductor']
  readonly wire: Wire
  readonly areaMm2: number
  readonly k: number
  readonly currents: 'short' | 'earth'
  /** Most that may flow through its whole length into a fault just behind its near end. */
  readonly near: Place
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
  const push = (what: Bears['what'], wire: Wire | null, currents: Bears['currents'], near: Place) => {
    if (wire === null) return
    const areaMm2 = areaOf(asked, wire.size)
    if (areaMm2 === null) return
    out.push({ what, wire, areaMm2: areaMm2 * (what === 'cord' ? 1 : circuit.run.sets), k: kOf(asked, wire), currents, near })
  }
  push('line', circuit.run.line, 'short', levels.panel)
  push('protective', circuit.run.protective, 'earth', levels.panel)
  const cord = circuit.cords.find((c) => c.plug === trip.place.plug)
  if (cord !== undefined) push('cord', { size: cord.size, metal: 'cu', insulation: cord.type }, 'short', receptacle)
  return out
}

const areas = new WeakMap<object, Map<string, number>>()
function areaOf(asked: Asked, size: string): number | null {
  const { rules } = asked.inputs
  let known = areas.get(rules)
  if (known === undefined) {
    known = new Map(rules.sizes.map((s) => [s.name, s.areaMm2]))
    areas.set(rules, known)
  }
  return known.get(size) ?? null
}

const factors = new WeakMap<object, Map<string, number>>()
function kOf(asked: Asked, wire: Wire): number {
  const { rules } = asked.inputs
  let known = factors.get(rules)
  if (known === undefined) {
    known = new Map()
    factors.set(rules, known)
  }
  const key = `${wire.metal}|${wire.insulation}`
  let k = known.get(key)
  if (k === undefined) {
    k = rules.adiabaticK({ metal: wire.metal, insulation: wire.insulation }).value
    known.set(key, k)
  }
  return k
}

function heatOf(asked: Asked, trip: CircuitTrip, bears: Bears): Heat {
  const { circuit } = trip
  const band = asked.bands(circuit.device.family, circuit.device.ratingA)
  const bearsA2s = withstandA2s(bears.k, bears.areaMm2)
  // Highest: a fault just behind the near end; the magnetic part opens it.
  const kinds = bears.currents === 'earth' ? (['line-earth'] as const) : KINDS_OF[circuit.connection].filter((k) => k !== 'line-earth')
  const high = highestOfKinds(bears.near, kinds, trip.levels.voltageFactor.max)
  const highA = high?.currentA ?? 0
  const passes = letThrough({ family: circuit.device.family, ratingA: circuit.device.ratingA, currentA: highA, magneticS: band.magneticS, frequencyHz: asked.inputs.rules.frequencyHz })
  const tested = testedWithIt(asked, circuit, bears)
  const highVerdict: Verdict = tested ? 'holds' : judgeEnds(judgeUpper(passes.lowA2s, bearsA2s), judgeUpper(passes.highA2s, bearsA2s))
  // Least: slow edge against heating with what it loses to the air; the device's rating stands for the ampacity, which is never less.
  const times = withHelp(trip, bears.currents === 'earth' ? trip.earth : trip.short)
  const residual = bears.currents === 'earth' ? trip.residualS : null
  const low = leastHeat(times, residual, circuit, bears)
  const { leastA, slowS, damage } = low
  // The generic slow edge is the widest of all makers: of a listed device and the wire of its rating it proves no damage, only no margin.
  const lowVerdict: Verdict = tested && low.verdict === 'unknown' ? 'tight' : low.verdict
  return {
    trip, bears,
    verdict: RANK[highVerdict] > RANK[lowVerdict] ? highVerdict : lowVerdict,
    highest: { conductor: bears.what, size: bears.wire.size, letThroughA2s: passes.highA2s, withstandA2s: bearsA2s, atA: highA },
    basis: tested ? 'tested with its wire' : passes.basis,
    leastA, slowS, damageS: damage,
  }
}

/** A set without boost drives no current that a device opens: the box's own finding on the set says so, once. Here only its boosted end counts. */
function withHelp(trip: CircuitTrip, times: readonly TripTime[] | null): readonly TripTime[] | null {
  const { set } = trip.levels
  if (set === null || set.boost === true) return times
  return set.boost === null ? (times?.slice(0, 1) ?? null) : null
}

function leastHeat(times: readonly TripTime[] | null, residual: number | null, circuit: Circuit, bears: Bears) {
  if (times === null || times.length === 0) return { leastA: 0, slowS: 0, damage: Infinity, verdict: 'holds' as const }
  let worst: { leastA: number; slowS: number; damage: number; verdict: Verdict } | null = null
  const { initialC, finalC } = kTemperaturesC(bears.k)
  for (const t of times) {
    const slowS = Math.min(t.slowS, residual ?? Infinity)
    const fastS = Math.min(t.fastS, slowS)
    const damage = damageS({ k: bears.k, areaMm2: bears.areaMm2, ampacityA: circuit.device.ratingA, ambientC: TABLE_AMBIENT_C, initialC, finalC }, t.currentA)
    const at = (s: number): Verdict => (s <= damage ? (s > 0.9 * damage ? 'tight' : 'holds') : 'fails')
    const verdict = slowS === Infinity && damage === Infinity ? 'holds' : judgeEnds(at(fastS), at(slowS))
    if (worst === null || RANK[verdict] > RANK[worst.verdict]) worst = { leastA: t.currentA, slowS, damage, verdict }
  }
  return worst!
}

/**
 * A listed moulded-case breaker is tested up to its interrupting rating with the wire of its rating, which must stay whole: a conductor
 * no thinner than the circuit's own needs no let-through sum.
 * @source UL 489 short-circuit tests with rated wire. Provenance: memory
 */
function testedWithIt(asked: Asked, circuit: Circuit, bears: Bears): boolean {
  const line = areaOf(asked, circuit.run.line.size)
  return circuit.device.family === 'us thermal-magnetic' && line !== null && bears.areaMm2 >= line * (1 - 1e-9)
}

const RANK: Readonly<Record<Verdict, number>> = { holds: 0, tight: 1, unknown: 2, fails: 3 }
export const worseHeat = (a: Heat, b: Heat): boolean =>
  RANK[a.verdict] > RANK[b.verdict] || (a.verdict === b.verdict && a.highest.letThroughA2s / a.highest.withstandA2s > b.highest.letThroughA2s / b.highest.withstandA2s)

/** One finding a circuit: its weakest conductor, on the worst source. */
export function heatFindings(asked: Asked, all: readonly (readonly CircuitTrip[])[]): Answered {
  const worst = new Map<string, Heat>()
  for (const trips of all) {
    for (const trip of trips) {
      for (const heat of circuitHeat(asked, trip)) {
        const known = worst.get(trip.circuit.id)
        if (known === undefined || worseHeat(heat, known)) worst.set(trip.circuit.id, heat)
      }
    }
  }
  const findings: Finding[] = []
  const workings: ReturnType<typeof lazyWorking>[] = []
  for (const heat of worst.values()) {
    const id = asked.name(`${heat.trip.circuit.id}/fault-heat`)
    findings.push(findingOf(asked, id, heat))
    workings.push(workingOf(asked, id, heat))
  }
  return { findings, workings }
}

const WORDS: Readonly<Record<Bears['what'], string>> = { line: 'line conductor', neutral: 'neutral', protective: 'protective conductor', cord: 'cord' }

function findingOf(asked: Asked, id: string, heat: Heat): Finding {
  const { trip, bears, highest, verdict } = heat
  const name = `${bears.wire.size} ${WORDS[bears.what]}`
  const late = heat.slowS > heat.damageS
  const said = () => late
    ? `${inAmpere(heat.leastA)} in its ${name} ${onSource(trip.levels)} may stand ${inSeconds(heat.slowS)} by the device’s slow edge; the insulation bears it ${inSeconds(heat.damageS)}.`
    : heat.basis === 'tested with its wire'
      ? `A fault of up to ${inAmpere(highest.atA)} heats its ${name} ${onSource(trip.levels)}; a listed device is tested with the wire of its rating, and its slow edge ends before the insulation is spoilt.`
      : `A fault of up to ${inAmpere(highest.atA)} ${onSource(trip.levels)} lets at most ${formatQuantity(highest.letThroughA2s, 'A2s')} through its ${name}, which bears ${formatQuantity(highest.withstandA2s, 'A2s')}.`
  const unknown =
    verdict === 'unknown'
      ? ' The maker’s curve or let-through decides.'
      : late && heat.basis === 'tested with its wire'
        ? ' That is the widest band of any maker; the device is listed for the wire of its rating: ask for its own curve.'
        : ''
  return {
    code: 'faults/conductor-heat', question: 'faults', subject: asked.name(trip.circuit.id), verdict,
    basis: heat.basis === 'tested with its wire' ? 'maker' : 'physics',
    get said() {
      return said() + unknown
    },
    demand: late ? put('t', heat.slowS, 's') : put('I²t', highest.letThroughA2s, 'A2s'),
    limit: late ? put('t spoilt', heat.damageS, 's') : put('k²S²', highest.withstandA2s, 'A2s'),
    provenance: 'memory', confirm: true, assumed: trip.levels.assumed, workings: [id],
    mends: verdict === 'holds' ? [] : mendsOf(asked, heat),
    decides: whoDecides(asked.box),
  }
}

function mendsOf(asked: Asked, heat: Heat): readonly Mend[] {
  const { trip, bears } = heat
  if (bears.what !== 'cord' || trip.place.plug === null) return []
  const sizes = asked.inputs.rules.cordSizes()
  const next = sizes[sizes.indexOf(bears.wire.size) + 1]
  return next === undefined ? [] : [{ path: `cords.${trip.place.plug}.size`, value: next, words: `${next} cord instead of ${bears.wire.size}` }]
}

function workingOf(asked: Asked, id: string, heat: Heat) {
  const { bears, highest, trip } = heat
  const { initialC, finalC } = kTemperaturesC(bears.k)
  return lazyWorking({
    id, title: `Heat of a fault in ${asked.name(trip.circuit.id)}’s ${WORDS[bears.what]}`,
    steps: () => [
      ...asked.inputs.rules.adiabaticK({ metal: bears.wire.metal, insulation: bears.wire.insulation }).steps,
      step('k²S²', 'k²·S²', [put('k', bears.k, 'A√s/mm²'), put('S', bears.areaMm2, 'mm2')], highest.withstandA2s, 'A2s', source('IEC 60364-4-43, 434.5.2', 'memory')),
      step('I²t', heat.basis === 'class 3 limit' ? 'limit of energy class 3' : heat.basis === 'tested with its wire' ? 'I²·t at the slowest magnetic time; not asked: tested with its wire' : 'I²·t at the slowest magnetic time',
        [put('I', highest.atA, 'A')], highest.letThroughA2s, 'A2s',
        source(heat.basis === 'class 3 limit' ? 'EN 60898-1 Annex ZA' : heat.basis === 'tested with its wire' ? 'UL 489, short-circuit tests with rated wire' : 'magnetic time of the band', 'memory')),
      step('t spoilt', 'τ·ln((I² − In²)/(I² − I∞²)), In for the ampacity', [put('I', heat.leastA, 'A'), put('Ti', initialC, '°C'), put('Tf', finalC, '°C'), put('In', trip.circuit.device.ratingA, 'A')], heat.damageS, 's', source('first-order heating', 'computed')),
      step('t slow', 'slow edge of the device at the least fault', [put('I', heat.leastA, 'A')], heat.slowS, 's', asked.bands(trip.circuit.device.family, trip.circuit.device.ratingA).rests),
    ],
  })
}
