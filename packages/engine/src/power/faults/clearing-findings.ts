import type { Circuit } from '../../job/index.ts'
import {
  type Finding,
  judgeEnds,
  type Mend,
  type Put,
  put,
  type Step,
  source,
  step,
  type Verdict,
  weakest,
} from '../../kernel/index.ts'
import type { TripDemand } from '../../rules/index.ts'
import { type Asked, ampere, inAmpere, inSeconds, lazyWorking, onSource, seconds } from './asked.ts'
import { type Least, leastAt, RESIDUAL_SOURCES, residualS, type SetCurrent, setCurrent, tripOnSet } from './clearing.ts'
import { faultSteps, KIND_WORDS } from './fault-steps.ts'
import { type Answered, whoDecides } from './interrupting.ts'
import type { BoxLevels, Place } from './levels.ts'
import type { TripTime } from './result.ts'
import { isFuse, type TripTask, tripTime } from './trip-time.ts'

/** How one circuit clears its least fault on one source. */
export interface CircuitTrip {
  readonly levels: BoxLevels
  readonly circuit: Circuit
  readonly place: Place
  readonly least: Least
  /** On a set whose excitation is not known: with boost first, without second. */
  readonly short: readonly TripTime[]
  /** Null in TT. */
  readonly earth: readonly TripTime[] | null
  readonly residualS: number | null
  readonly demand: TripDemand
  readonly shortVerdict: Verdict
  readonly earthVerdict: Verdict
}

/** Circuits that feed something, or may: spares and stubs have no wires to fault. */
export const hasWires = (circuit: Circuit): boolean => circuit.own !== 'spare' && circuit.own !== 'stub'

/** Each circuit's worst place on one source: cord ends, else the receptacle. */
export function circuitTrips(asked: Asked, levels: BoxLevels): readonly CircuitTrip[] {
  const out: CircuitTrip[] = []
  const demands = new Map<number, TripDemand>()
  for (const circuit of asked.box.circuits) {
    if (!hasWires(circuit)) continue
    let worst: CircuitTrip | null = null
    for (const place of placesOf(levels, circuit)) {
      const trip = tripAt(asked, levels, circuit, place, demands)
      if (trip !== null && (worst === null || worseTrip(trip, worst))) worst = trip
    }
    if (worst !== null) out.push(worst)
  }
  return out
}

export function placesOf(levels: BoxLevels, circuit: Circuit): readonly Place[] {
  const ends: Place[] = []
  for (const tag of circuit.plugs) {
    const end = levels.cordEnds.get(tag)
    if (end !== undefined) ends.push(end)
  }
  const receptacle = levels.receptacles.get(circuit.id)
  return ends.length > 0 ? ends : receptacle === undefined ? [] : [receptacle]
}

const RANK: Readonly<Record<Verdict, number>> = { holds: 0, tight: 1, unknown: 2, fails: 3 }
const rankOf = (t: CircuitTrip): number => Math.max(RANK[t.shortVerdict], RANK[t.earthVerdict])
const worseTrip = (a: CircuitTrip, b: CircuitTrip): boolean =>
  rankOf(a) > rankOf(b) ||
  (rankOf(a) === rankOf(b) &&
    Math.min(a.least.shortA, a.least.earthA ?? Infinity) < Math.min(b.least.shortA, b.least.earthA ?? Infinity))

/** The feeder from another box, as a circuit that ends at this panel. Null: this box has its own supply. */
export function feederTrip(asked: Asked, levels: BoxLevels): CircuitTrip | null {
  const { box, system } = asked
  if (box.fedFrom === null) return null
  const connection = system.kind === 'single' ? 'LN' : system.legs.length === 3 ? 'LLLN' : 'LLN'
  const feeder: Circuit = {
    id: `${box.box} feeder`,
    ways: [],
    legs: system.legs,
    connection,
    device: box.fedFrom.device,
    shock: { kind: 'none', sensitivityMA: null, form: null },
    run: box.fedFrom.run,
    outlet: 'panel',
    plugs: [],
    own: null,
    cords: [],
    label: `feeder to ${box.box}`,
  }
  return tripAt(asked, levels, feeder, levels.panel, undefined, true)
}

/** How a circuit's device opens on the least fault at a place. Null: no loop is known there. */
export function tripAt(
  asked: Asked,
  levels: BoxLevels,
  circuit: Circuit,
  place: Place,
  demands = new Map<number, TripDemand>(),
  distribution = false,
): CircuitTrip | null {
  const { rules } = asked.inputs
  const least = leastAt(place, levels.voltageFactor.min)
  if (least === null) return null
  const device = circuit.device
  const band = asked.bands(device.family, device.ratingA)
  const base = { band, ratingA: device.ratingA, coldC: asked.temperatures.deviceColdC, hotC: asked.temperatures.deviceHotC }
  const times = (kind: Least['shortKind'] | 'line-earth', currentA: number): readonly TripTime[] => {
    if (levels.set === null) return [tripTime({ ...base, currentA })]
    const current = setCurrent(place, kind, levels.set, levels.voltageFactor.min, rules.frequencyHz)
    return current === null ? [] : onSet(base, current, levels.set.boost)
  }
  const short = times(least.shortKind, least.shortA)
  const earth = least.earthA === null ? null : times('line-earth', least.earthA)
  const residual = residualS(circuit.shock, least.earthA ?? Infinity)
  const demand =
    demands.get(device.ratingA) ??
    rules.tripDemand({
      system: asked.system,
      earthing: levels.mode === 'own set' && asked.box.earthing === 'TT' ? 'TN-S' : asked.box.earthing,
      deviceA: device.ratingA,
      distribution,
    })
  demands.set(device.ratingA, demand)
  return {
    levels,
    circuit,
    place,
    least,
    short,
    earth,
    residualS: residual,
    demand,
    shortVerdict: ends(short.map((t) => shortVerdict(t, base.ratingA * band.magneticSureRatio))),
    earthVerdict: earthVerdict(earth, residual, demand, base.ratingA * band.magneticSureRatio),
  }
}

function onSet(base: Omit<TripTask, 'currentA'>, current: SetCurrent, boost: boolean | null): readonly TripTime[] {
  if (boost !== null) return [tripOnSet(base, current, boost)]
  return [tripOnSet(base, current, true), tripOnSet(base, current, false)]
}

const ends = (verdicts: readonly Verdict[]): Verdict =>
  verdicts.length === 0 ? 'unknown' : verdicts.length === 1 ? verdicts[0]! : judgeEnds(verdicts[0]!, verdicts[1]!)

/** Share above the sure edge that still counts as near it. */
const NEAR_FRAC = 0.1
/** A short that stands longer than this is not called cleared without a word. @source IEC 60364-4-43, 434.5.2, 5 s. Provenance: memory */
const LONG_S = 5

/** A short between wires: at once, in a stated time, or never. No set asks a time for it; what it does to the wires is judged apart. */
function shortVerdict(t: TripTime, sureA: number): Verdict {
  if (t.slowS === Infinity) return 'fails'
  if (t.sure) return t.currentA < sureA * (1 + NEAR_FRAC) ? 'tight' : 'holds'
  return t.slowS <= LONG_S && t.by === 'fuse' ? 'holds' : 'tight'
}

function earthVerdict(earth: readonly TripTime[] | null, residual: number | null, demand: TripDemand, sureA: number): Verdict {
  if (demand.kind === 'time') {
    if (residual !== null && residual <= demand.timeS) return 'holds'
    if (earth === null) return 'fails'
    return ends(
      earth.map((t) =>
        t.slowS <= demand.timeS ? (t.sure && t.currentA < sureA * (1 + NEAR_FRAC) ? 'tight' : 'holds') : 'fails',
      ),
    )
  }
  if (residual !== null) return 'holds'
  if (earth === null) return 'fails'
  return ends(earth.map((t) => shortVerdict(t, sureA)))
}

/** One finding a circuit, for the source position that is worst. Shorts on a set with unknown or no boost are said once for the box. */
export function clearingFindings(asked: Asked, all: readonly (readonly CircuitTrip[])[]): Answered {
  const findings: Finding[] = []
  const workings: ReturnType<typeof lazyWorking>[] = []
  const worst = new Map<string, CircuitTrip>()
  for (const trips of all) {
    for (const trip of trips) {
      const counted = counts(trip)
      const known = worst.get(counted.circuit.id)
      if (known === undefined || worseTrip(counted, known)) worst.set(counted.circuit.id, counted)
    }
  }
  for (const trip of worst.values()) {
    const id = asked.name(`${trip.circuit.id}/clearing`)
    workings.push(workingOf(asked, id, trip))
    findings.push(findingOf(asked, id, trip))
  }
  return { findings, workings }
}

/** As it counts in the circuit's own finding. */
function counts(trip: CircuitTrip): CircuitTrip {
  return trip.levels.set !== null && trip.levels.set.boost !== true ? { ...trip, shortVerdict: 'holds' } : trip
}

function findingOf(asked: Asked, id: string, trip: CircuitTrip): Finding {
  const { circuit, levels, least, demand } = trip
  const verdict = RANK[trip.shortVerdict] > RANK[trip.earthVerdict] ? trip.shortVerdict : trip.earthVerdict
  const band = asked.bands(circuit.device.family, circuit.device.ratingA)
  const onSetAlone = levels.set !== null && levels.set.boost !== true
  const shortFirst = !onSetAlone && RANK[trip.shortVerdict] >= RANK[trip.earthVerdict] && trip.shortVerdict !== 'holds'
  const asksTime = demand.kind === 'time' && !shortFirst
  const worstTime = (shortFirst ? trip.short : (trip.earth ?? trip.short)).at(-1)
  const sureA = band.magneticSureRatio * circuit.device.ratingA
  const limits: { demand: Put; limit: Put } = asksTime
    ? { demand: seconds('t', earthTimeS(trip)), limit: seconds('t max', demand.timeS) }
    : { demand: ampere('I min', worstTime?.currentA ?? least.shortA), limit: ampere('I magnetic', sureA) }
  return {
    code: 'faults/clearing',
    question: 'faults',
    subject: circuit.id,
    verdict,
    basis: asksTime && verdict === 'fails' ? 'code' : 'physics',
    get said() {
      return sentence(trip, shortFirst, onSetAlone)
    },
    ...limits,
    provenance: weakest(band.rests.provenance, demand.rests.provenance, levels.source.weak.provenance),
    confirm: true,
    assumed: levels.assumed,
    workings: [id],
    get mends() {
      return verdict === 'holds' ? [] : mendsOf(asked, trip)
    },
    decides: whoDecides(asked.box),
    ...(verdict === 'holds'
      ? {}
      : {
          caution: 'Until the device opens, the wires heat and metal that can be touched is live. Measure the loop before use.',
        }),
  }
}

const earthTimeS = (trip: CircuitTrip): number => {
  const byBand = trip.earth?.reduce((worst, t) => Math.max(worst, t.slowS), 0) ?? Infinity
  return Math.min(byBand, trip.residualS ?? Infinity)
}

function sentence(trip: CircuitTrip, shortFirst: boolean, onSetAlone: boolean): string {
  const { circuit, place, least, levels } = trip
  const where =
    place.kind === 'cord end'
      ? `at the end of ${place.plug}’s cord`
      : place.kind === 'panel'
        ? `at the panel of ${place.id}`
        : `at ${circuit.id}’s receptacle`
  const device =
    place.kind === 'panel' ? `the ${circuit.device.ratingA} A device of its feeder` : `its ${circuit.device.ratingA} A device`
  const shortPart = onSetAlone
    ? ''
    : `A ${least.shortKind === 'line-neutral' ? 'line–neutral' : 'line–line'} short ${where} ${onSource(levels)} drives at least ${inAmpere(least.shortA)}: ${device} ${opens(trip.short)}.`
  const earthDrives =
    least.earthA === null
      ? 'A fault to earth finds only the ground'
      : `A fault to earth ${onSetAlone || shortPart === '' ? `${where} ${onSource(levels)} ` : ''}drives ${inAmpere(least.earthA)}`
  const earthPart =
    trip.residualS !== null
      ? `${earthDrives}: the residual device opens in ${inSeconds(trip.residualS)}${trip.demand.kind === 'time' ? `, ${inSeconds(trip.demand.timeS)} asked` : ''}.`
      : trip.earth === null
        ? `${earthDrives} and no residual device stands there: nothing opens.`
        : `${earthDrives}: ${device} ${opens(trip.earth)}${trip.demand.kind === 'time' ? `; ${inSeconds(trip.demand.timeS)} asked` : ''}.`
  return shortFirst || shortPart === '' ? [shortPart, earthPart].filter((p) => p !== '').join(' ') : `${shortPart} ${earthPart}`
}

function opens(times: readonly TripTime[]): string {
  if (times.length === 0) return 'cannot be judged'
  const say = (t: TripTime): string =>
    t.slowS === Infinity
      ? 'may never open'
      : t.sure
        ? 'opens at once by its magnetic part'
        : `opens by its ${t.by === 'fuse' ? 'element' : 'thermal part'} within ${inSeconds(t.slowS)}`
  const [first, second] = times
  if (second === undefined || say(first!) === say(second)) return say(first!)
  return `${say(first!)} if the set’s excitation is boosted, else ${say(second)}`
}

/** Changes that are tried here before they are named: a heavier cord, a faster curve, a residual device. */
function mendsOf(asked: Asked, trip: CircuitTrip): readonly Mend[] {
  const out: Mend[] = []
  const { circuit, place } = trip
  const cord = circuit.cords.find((c) => c.plug === place.plug)
  // In TT no wire brings the fault to earth home: neither cord nor curve mends that.
  const byWire = trip.shortVerdict !== 'holds' || trip.earth !== null
  if (cord !== undefined && byWire) {
    const heavier = heavierCord(asked, trip, cord)
    if (heavier !== null)
      out.push({
        path: `cords.${cord.plug}.size`,
        value: heavier,
        words: `${heavier} cord instead of ${cord.size}: the magnetic part is then sure`,
      })
  }
  const faster = circuit.device.family.replace(/^IEC 60898 [CD]$/, 'IEC 60898 B')
  if (faster !== circuit.device.family && byWire) {
    const band = asked.bands(faster, circuit.device.ratingA)
    if (Math.min(trip.least.shortA, trip.least.earthA ?? Infinity) >= band.magneticSureRatio * circuit.device.ratingA) {
      out.push({
        path: `circuits.${circuit.id}.family`,
        value: faster,
        words: 'a B curve instead: it trips at five times its rating',
      })
    }
  }
  if (trip.earthVerdict !== 'holds' && circuit.shock.kind === 'none') {
    const value = trip.demand.kind === 'time' ? 'rcd' : 'equipment 30 mA'
    out.push({
      path: `circuits.${circuit.id}.shock`,
      value,
      words: 'a residual device, which opens a fault to earth however weak',
    })
  }
  return out
}

function heavierCord(asked: Asked, trip: CircuitTrip, cord: Circuit['cords'][number]): string | null {
  const { rules } = asked.inputs
  const band = asked.bands(trip.circuit.device.family, trip.circuit.device.ratingA)
  const sureA = band.magneticSureRatio * trip.circuit.device.ratingA
  const sizes = rules.cordSizes()
  const c = trip.levels.voltageFactor.min
  const receptacle = trip.levels.receptacles.get(trip.circuit.id)
  if (receptacle === undefined) return null
  for (const size of sizes.slice(sizes.indexOf(cord.size) + 1)) {
    const { r, x } = rules.impedanceOhmPerM({ size, metal: 'cu', where: 'cord', temperatureC: asked.temperatures.cordHotC }).value
    const there = (loop: { readonly re: number; readonly im: number } | null) =>
      loop === null ? null : { re: loop.re + 2 * r * cord.lengthM, im: loop.im + 2 * x * cord.lengthM }
    const weak = {
      threePhase: null,
      lineLine: there(receptacle.weak.lineLine)!,
      lineNeutral: there(receptacle.weak.lineNeutral),
      lineEarth: there(receptacle.weak.lineEarth),
    }
    const least = leastAt({ ...trip.place, weak }, c)
    if (least !== null && Math.min(least.shortA, least.earthA ?? Infinity) >= sureA) return size
  }
  return null
}

function workingOf(asked: Asked, id: string, trip: CircuitTrip) {
  const { circuit, place, levels } = trip
  const band = asked.bands(circuit.device.family, circuit.device.ratingA)
  const target =
    place.kind === 'panel'
      ? ({ at: 'panel' } as const)
      : place.plug === null
        ? ({ at: 'circuit', id: circuit.id } as const)
        : ({ at: 'plug', tag: place.plug } as const)
  return lazyWorking({
    id,
    title: `Least fault of ${asked.name(circuit.id)} and what opens it`,
    steps: () => [
      ...faultSteps(levels, place, trip.least.shortKind, 'weak', target),
      ...(trip.least.earthA === null ? [] : faultSteps(levels, place, 'line-earth', 'weak', target).slice(-2)),
      ...setSteps(asked, trip),
      ...bandSteps(band.rests, circuit, band.magneticSureRatio, trip.short, `short, ${KIND_WORDS[trip.least.shortKind]}`),
      ...(trip.earth === null ? [] : bandSteps(band.rests, circuit, band.magneticSureRatio, trip.earth, 'to earth')),
      ...(trip.residualS === null
        ? []
        : [
            step(
              't residual',
              'at the fault current',
              [put('IΔn', circuit.shock.sensitivityMA ?? 0, 'mA')],
              trip.residualS,
              's',
              source(`table gfci; ${RESIDUAL_SOURCES[circuit.shock.kind]}`, 'memory'),
            ),
          ]),
    ],
    ...(trip.demand.kind === 'time'
      ? {
          judgement: {
            demand: seconds('t', earthTimeS(trip)),
            relation: '≤' as const,
            limit: seconds('t max', trip.demand.timeS),
            tight: '10 % of the sure magnetic current',
            rests: trip.demand.rests,
          },
        }
      : {}),
    notes: [
      `Conductors at ${asked.temperatures.hotC} °C, cords at ${asked.temperatures.cordHotC} °C, highest impedance, voltage factor ${levels.voltageFactor.min}.`,
      `Device between ${asked.temperatures.deviceColdC} and ${asked.temperatures.deviceHotC} °C: thermal edges moved by 5 to 8 % per 10 K from ${band.referenceC} °C (common practice).`,
    ],
  })
}

function setSteps(asked: Asked, trip: CircuitTrip): readonly Step[] {
  const { levels, place } = trip
  if (levels.set === null) return []
  const current = setCurrent(place, trip.least.shortKind, levels.set, levels.voltageFactor.min, asked.inputs.rules.frequencyHz)
  if (current === null) return []
  const rests = source('table generator-react, decrement', 'common practice')
  return [
    step(
      'I(1 cycle)',
      '(I″ − I′)·e^(−t/T″) + (I′ − I)·e^(−t/T′) + I',
      [ampere('I″', current.subtransientA), ampere('I′', current.transientA), ampere('I', current.steadyA)],
      current.cycleA,
      'A',
      rests,
    ),
    step('I stays', 'with boosted excitation, else I', [ampere('I', current.steadyA)], current.boostedA, 'A', rests),
  ]
}

function bandSteps(
  rests: CircuitTrip['demand']['rests'],
  circuit: Circuit,
  sureRatio: number,
  times: readonly TripTime[],
  which: string,
): readonly Step[] {
  return times.map((t) =>
    step(
      't',
      `${which}: by ${t.by === 'nothing' ? 'nothing' : isFuse(circuit.device.family) ? 'the element' : `the ${t.by} part`}, slow edge`,
      [put('I/In', t.currentA / circuit.device.ratingA), put('sure from', sureRatio)],
      t.slowS,
      's',
      rests,
    ),
  )
}
