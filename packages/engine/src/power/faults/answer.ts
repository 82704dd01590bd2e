import type { BoxDesign } from '../../job/index.ts'
import { Fault, type Finding, type Working } from '../../kernel/index.ts'
import type { Answer } from '../answer.ts'
import type { Inputs } from '../inputs.ts'
import { systemOf } from '../systems.ts'
import { leeBoundaryMm, leeJPerCm2 } from './arc-flash.ts'
import type { Asked } from './asked.ts'
import { chartsOf } from './charts.ts'
import { bandsOf, leastAt, lowestOf } from './clearing.ts'
import { type CircuitTrip, circuitTrips, clearingFindings, feederTrip, hasWires, placesOf, tripAt } from './clearing-findings.ts'
import { coordinationFindings, coordinationPairs } from './coordination-findings.ts'
import { deviceFindings } from './device-findings.ts'
import { earthFindings } from './earth-findings.ts'
import { circuitHeat, heatFindings } from './heat-findings.ts'
import { interruptingFindings, whoDecides } from './interrupting.ts'
import { type BoxLevels, boxLevels, highestAt, type Place, positionsOf } from './levels.ts'
import { plugsByTag } from './motors.ts'
import { comparedA } from './peak.ts'
import type { BoxFaults, BusFault, Clearing, FaultsResult, SourceFaults } from './result.ts'
import { decrementOf, setFindings } from './set-findings.ts'
import { faultTemperatures } from './temperatures.ts'
import { tripTime } from './trip-time.ts'

/**
 * What happens when something goes wrong: highest and lowest fault at every place of every box, in every source position, against
 * interrupting ratings, device bands, conductors; coordination; the set's collapse; electrode and touch voltage. Never a permission.
 */
export function answerFaults(inputs: Inputs): Answer<FaultsResult> {
  const findings: Finding[] = []
  const workings: Working[] = []
  const boxes: BoxFaults[] = []
  const told = { ...inputs, job: writtenFirst(inputs.job) }
  const shared = {
    bands: bandsOf(inputs.rules),
    plugs: plugsByTag(inputs.job),
    offers: new Map(told.job.offers.map((o) => [o.id, o])),
  }
  for (const box of inputs.design.boxes) {
    const asked = askedOf(told, box, shared)
    const trips = asked.positions.map((levels) => circuitTrips(asked, levels))
    const pairs = coordinationPairs(asked)
    const earth = earthFindings(asked, trips)
    const parts = [
      noSource(asked),
      interruptingFindings(asked),
      clearingFindings(asked, withFeeder(asked, trips)),
      heatFindings(asked, trips),
      coordinationFindings(asked, pairs),
      ...asked.positions.map((levels, i) => setFindings(asked, levels, trips[i] ?? [])),
      earth,
      deviceFindings(asked),
    ]
    for (const part of parts) {
      findings.push(...part.findings)
      workings.push(...part.workings)
    }
    boxes.push(boxResult(asked, trips, pairs, earth))
  }
  return { findings, workings, result: { boxes } }
}

/** The feeder's own trip beside those of the circuits, on each source. */
const withFeeder = (asked: Asked, trips: readonly (readonly CircuitTrip[])[]): readonly (readonly CircuitTrip[])[] =>
  asked.box.fedFrom === null
    ? trips
    : trips.map((own, i) => [...own, ...[feederTrip(asked, asked.positions[i]!)].filter((t) => t !== null)])

/** A level the utility wrote down wins over what its transformer would let through. */
function writtenFirst(job: Inputs['job']): Inputs['job'] {
  if (!job.offers.some((o) => o.faultA !== undefined && o.transformer !== undefined)) return job
  return {
    ...job,
    offers: job.offers.map((o) => {
      if (o.faultA === undefined || o.transformer === undefined) return o
      const { transformer: _instead, ...rest } = o
      return rest
    }),
  }
}

function askedOf(inputs: Inputs, box: BoxDesign, shared: Pick<Asked, 'bands' | 'plugs' | 'offers'>): Asked {
  const { job, design, rules } = inputs
  const scope = `${box.box}·${box.phase}`
  const wanted = job.boxes.find((b) => b.id === box.box)
  const firstCord = box.circuits.find((c) => c.cords.length > 0)?.cords[0]
  const temperatures = faultTemperatures(job, wanted, {
    run: box.panel.feed.line.insulation,
    cord: firstCord?.type ?? rules.defaults.cordType,
  })
  const factor = rules.voltageFactor().value
  const motorRatio = rules.motorContributionRatio().value
  const positions: BoxLevels[] = []
  for (const position of positionsOf(box, { job, design })) {
    try {
      positions.push(
        boxLevels(
          box,
          { job, design, rules },
          {
            ...position,
            temperatures,
            motorRatio,
            voltageFactor: factor,
            ...(positions[0] === undefined ? {} : { like: positions[0] }),
          },
        ),
      )
    } catch (fault) {
      // An interim that its box cannot be fed from is the plan's business; it is no place where a fault can happen.
      if (!(fault instanceof Fault) || fault.code !== 'power/no-source') throw fault
    }
  }
  return {
    inputs,
    box,
    wanted,
    scope,
    temperatures,
    positions,
    ...shared,
    system: systemOf(rules, box.system),
    name:
      design.boxes.length === 1
        ? (thing) => thing
        : (thing) => (thing.includes('/') ? thing.replace('/', `@${scope}/`) : `${thing}@${scope}`),
  }
}

function noSource(asked: Asked): { readonly findings: readonly Finding[]; readonly workings: readonly Working[] } {
  if (asked.positions.length > 0) return { findings: [], workings: [] }
  return {
    findings: [
      {
        code: 'faults/no-source',
        question: 'faults',
        subject: asked.box.box,
        verdict: 'unknown',
        basis: 'physics',
        said: 'No source feeds this box in the design: no fault current can be worked out. Whoever offers the supply can tell.',
        provenance: 'told',
        assumed: [],
        workings: [],
        mends: [],
        decides: whoDecides(asked.box),
      },
    ],
    workings: [],
  }
}

/** Figures for the book, worked out only when somebody reads them. */
function boxResult(
  asked: Asked,
  trips: readonly (readonly CircuitTrip[])[],
  pairs: BoxFaults['coordination'],
  earth: ReturnType<typeof earthFindings>,
): BoxFaults {
  let sources: readonly SourceFaults[] | null = null
  let charts: BoxFaults['charts'] | null = null
  return {
    box: asked.box.box,
    phase: asked.box.phase,
    get sources() {
      sources ??= asked.positions.map((levels, i) => sourceResult(asked, levels, trips[i] ?? []))
      return sources
    },
    coordination: pairs,
    get charts() {
      charts ??= asked.positions.flatMap((levels, i) => chartsOf(asked, levels, trips[i] ?? []))
      return charts
    },
    electrode: earth.electrode,
    touch: earth.touch,
    arcFlash: arcFlash(asked),
  }
}

function sourceResult(asked: Asked, levels: BoxLevels, trips: readonly CircuitTrip[]): SourceFaults {
  const { box } = asked
  const offer = asked.offers.get(levels.offer)
  const mainA = box.panel.main.interruptingKA * 1000
  const busA = box.panel.interruptingKA * 1000
  const buses: BusFault[] = [busOf(asked, levels, levels.service, null, null, null)]
  if (levels.transformer !== null) buses.push(busOf(asked, levels, levels.transformer, null, null, null))
  buses.push(busOf(asked, levels, { ...levels.panel, id: 'main', kind: 'main' }, mainA, null, null))
  buses.push(busOf(asked, levels, { ...levels.panel, id: 'panel' }, leastBranchA(box) ?? busA, busA, null))
  for (const circuit of box.circuits) {
    const end = levels.receptacles.get(circuit.id)
    if (end === undefined) continue
    const trip = trips.find((t) => t.circuit.id === circuit.id) ?? null
    buses.push(busOf(asked, levels, end, null, null, trip))
    if (!hasWires(circuit)) continue
    for (const place of placesOf(levels, circuit))
      if (place.kind === 'cord end') buses.push(busOf(asked, levels, place, null, null, trip))
  }
  return {
    mode: levels.mode,
    offer: levels.offer,
    told: offer?.faultA !== undefined,
    voltageFactor: levels.voltageFactor,
    buses,
    decrement: decrementOf(levels),
  }
}

function leastBranchA(box: BoxDesign): number | null {
  return box.circuits.reduce<number | null>(
    (least, c) => (least === null ? c.device.interruptingKA * 1000 : Math.min(least, c.device.interruptingKA * 1000)),
    null,
  )
}

function busOf(
  asked: Asked,
  levels: BoxLevels,
  place: Place,
  interruptingA: number | null,
  withstandA: number | null,
  trip: CircuitTrip | null,
): BusFault {
  const high = highestAt(place, levels.voltageFactor.max, asked.temperatures.coldC)
  const least = leastAt(place, levels.voltageFactor.min)
  const highest =
    high === null || interruptingA === null
      ? high
      : { ...high, comparedA: comparedA(high.currentA, high.xOverRRatio, interruptingA) }
  const here = trip !== null && trip.place.id === place.id
  return {
    id: place.id,
    kind: place.kind,
    circuit: place.circuit?.id ?? null,
    plug: place.plug,
    highest,
    lowest: least === null ? null : lowestOf(place, least, { at: levels.offer, conductorC: asked.temperatures.hotC, soilA: 0 }),
    interruptingA,
    withstandA,
    clearing: place.circuit === null || least === null ? null : clearingAt(asked, levels, place, here ? trip : null),
    conductors: trip !== null && here ? circuitHeat(asked, trip).map((h) => h.highest) : [],
  }
}

function clearingAt(asked: Asked, levels: BoxLevels, place: Place, known: CircuitTrip | null): Clearing | null {
  const circuit = place.circuit
  if (circuit === null) return null
  const trip = known ?? tripAt(asked, levels, circuit, place)
  if (trip === null) return null
  const base = {
    band: asked.bands(circuit.device.family, circuit.device.ratingA),
    ratingA: circuit.device.ratingA,
    coldC: asked.temperatures.deviceColdC,
    hotC: asked.temperatures.deviceHotC,
  }
  return {
    device: circuit.id,
    ratingA: circuit.device.ratingA,
    family: circuit.device.family,
    deviceC: asked.temperatures.deviceColdC,
    lineNeutral: trip.short.at(-1) ?? null,
    lineEarth: trip.earth?.at(-1) ?? tripTime({ ...base, currentA: 0 }),
    residualMA: circuit.shock.sensitivityMA,
    residualS: trip.residualS,
    demand:
      trip.demand.kind === 'time'
        ? { kind: 'time', timeS: trip.demand.timeS, said: `within ${trip.demand.timeS} s` }
        : { kind: 'magnetic', timeS: null, said: 'at once by the magnetic part, else the time is said' },
  }
}

/** A caution, never a category: three-phase by Lee's open-air bound over two seconds, one phase without a number. */
function arcFlash(asked: Asked): BoxFaults['arcFlash'] {
  const caution =
    'An arc in the panel burns and blinds. Isolate, lock and prove dead before opening it; a licensed study is needed for any label with a number.'
  const { system } = asked
  if (system.legs.length < 3)
    return {
      said: `${caution} At ${system.lineLineV} V one phase no accepted equation gives a number.`,
      leeJPerCm2: null,
      boundaryMm: null,
    }
  const boltedA = asked.positions.reduce(
    (most, levels) => Math.max(most, highestAt(levels.panel, levels.voltageFactor.max, 20)?.currentA ?? 0),
    0,
  )
  if (boltedA === 0) return { said: caution, leeJPerCm2: null, boundaryMm: null }
  const arc = { voltageKV: system.lineLineV / 1000, boltedKA: boltedA / 1000, timeS: LONGEST_S }
  const energy = leeJPerCm2({ ...arc, distanceMm: PANEL_MM })
  return {
    said: `${caution} Lee’s open-air bound over ${LONGEST_S} s at ${PANEL_MM} mm: ${energy.toFixed(0)} J/cm². This is a bound for caution, not a category.`,
    leeJPerCm2: energy,
    boundaryMm: leeBoundaryMm(arc),
  }
}

/** Nobody stays in front of an arc for longer. @source IEEE 1584, two seconds. Provenance: memory */
const LONGEST_S = 2
/** Working distance at a panel. @source table arc-flash. Provenance: read */
const PANEL_MM = 455
