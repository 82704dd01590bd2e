import { power } from '../../kernel/index.ts'
import type { TripBand } from '../../rules/index.ts'
import type { Asked } from './asked.ts'
import { type CircuitTrip, hasWires } from './clearing-findings.ts'
import { circuitHeat, heatingOf } from './heat-findings.ts'
import { damageS } from './heating.ts'
import type { BoxLevels } from './levels.ts'
import { highestOfKinds } from './levels.ts'
import { KINDS_OF } from './place.ts'
import type { Chart, ChartCurve } from './result.ts'
import { decrementOf } from './set-findings.ts'
import { fastTripS, slowTripS } from './trip-time.ts'

/** Edges of the paper: a time below the first is drawn on it. */
const CHART = { leastS: 0.01, mostS: 10_000, perDecade: 10 } as const

/** One chart for each different branch device and wire of a box on one source: equal circuits share it. */
export function chartsOf(asked: Asked, levels: BoxLevels, trips: readonly CircuitTrip[]): readonly Chart[] {
  const seen = new Set<string>()
  const out: Chart[] = []
  for (const trip of trips) {
    const { circuit } = trip
    if (!hasWires(circuit)) continue
    const key = `${circuit.device.family}|${circuit.device.ratingA}|${circuit.run.line.size}|${circuit.connection}`
    if (seen.has(key)) continue
    seen.add(key)
    out.push(chartOf(asked, levels, trip))
  }
  return out
}

function chartOf(asked: Asked, levels: BoxLevels, trip: CircuitTrip): Chart {
  const { circuit } = trip
  const { main } = asked.box.panel
  const highA = highestOfKinds(levels.panel, KINDS_OF[circuit.connection], levels.voltageFactor.max)?.currentA ?? 0
  const lowA = Math.min(trip.least.shortA, trip.least.earthA ?? Infinity)
  const upToA = Math.max(highA, lowA) * 1.5
  const curves: ChartCurve[] = [
    ...bandCurves(
      asked,
      asked.name(circuit.id),
      asked.bands(circuit.device.family, circuit.device.ratingA),
      circuit.device.ratingA,
      upToA,
    ),
    ...bandCurves(asked, 'main', asked.bands(main.family, main.ratingA), main.ratingA, upToA),
    vertical('fault highest', `highest at the panel`, highA),
    vertical('fault lowest', `least at ${trip.place.plug ?? circuit.id}`, lowA),
  ]
  for (const heat of circuitHeat(asked, trip)) {
    const { bears } = heat
    const task = heatingOf(bears)
    curves.push({
      id: `${circuit.id} ${bears.what}`,
      what: 'cable damage',
      label: `${bears.wire.size} ${bears.what} spoilt`,
      points: inside(currents(circuit.device.ratingA, upToA).map((a) => [a, damageS(task, a)] as const)),
    })
  }
  const decrement = decrementOf(levels)
  if (decrement !== null)
    curves.push({
      id: `${decrement.offer}`,
      what: 'generator',
      label: `current of ${decrement.offer} as it dies away`,
      points: decrement.points.filter(([t]) => t >= CHART.leastS).map(([t, a]) => [a, t] as const),
    })
  return {
    box: asked.box.box,
    phase: asked.box.phase,
    mode: levels.mode,
    circuit: circuit.id,
    title: `${circuit.device.ratingA} A ${circuit.device.family}, ${circuit.run.line.size}, behind ${main.ratingA} A main`,
    curves: curves.filter((c) => c.points.length > 1),
  }
}

function bandCurves(asked: Asked, id: string, band: TripBand, ratingA: number, upToA: number): readonly ChartCurve[] {
  const base = { band, ratingA, coldC: asked.temperatures.deviceColdC, hotC: asked.temperatures.deviceHotC }
  const at = edgesOf(band, ratingA, upToA)
  return [
    {
      id: `${id} fast`,
      what: 'device fast',
      label: `${id}, ${ratingA} A, may open`,
      points: inside(at.map((currentA) => [currentA, fastTripS({ ...base, currentA })] as const)),
    },
    {
      id: `${id} slow`,
      what: 'device slow',
      label: `${id}, ${ratingA} A, surely opens`,
      points: inside(at.map((currentA) => [currentA, slowTripS({ ...base, currentA })] as const)),
    },
  ]
}

/** Evenly spaced on log paper, and both sides of each step of the magnetic part. */
function edgesOf(band: TripBand, ratingA: number, upToA: number): readonly number[] {
  const steps = [band.magneticFromRatio, band.magneticSureRatio].flatMap((r) => [r * ratingA * (1 - 1e-6), r * ratingA])
  return [...currents(ratingA, upToA), ...steps.filter((a) => a < upToA)].sort((a, b) => a - b)
}

function currents(fromA: number, toA: number): readonly number[] {
  const out: number[] = []
  const factor = power(10, 1 / CHART.perDecade)
  for (let a = fromA; a < toA; a *= factor) out.push(a)
  out.push(toA)
  return out
}

/** Points on the paper: finite, and not before its first time. */
const inside = (points: readonly (readonly [number, number])[]): readonly (readonly [number, number])[] =>
  points.filter(([, t]) => Number.isFinite(t) && t <= CHART.mostS).map(([a, t]) => [a, Math.max(t, CHART.leastS)] as const)

const vertical = (what: ChartCurve['what'], label: string, currentA: number): ChartCurve => ({
  id: what,
  what,
  label,
  points:
    currentA > 0 && Number.isFinite(currentA)
      ? [
          [currentA, CHART.leastS],
          [currentA, CHART.mostS],
        ]
      : [],
})
