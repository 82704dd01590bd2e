import type { SourceMode } from '../../job/index.ts'

/** R and X kept apart: faults are never summed by |Z|. */
export interface Impedance {
  readonly r: number
  readonly x: number
}

export type FaultKind = 'three-phase' | 'line-line' | 'line-neutral' | 'line-earth'

/** What may flow at most: cold conductors, lowest impedance, highest voltage factor, motors added. */
export interface HighestFault {
  /** Kind of fault that gives the most at this point. */
  readonly kind: FaultKind
  /** Symmetrical, first half cycle, motors included. */
  readonly currentA: number
  readonly byKindA: Readonly<Partial<Record<FaultKind, number>>>
  readonly motorA: number
  readonly xOverRRatio: number
  readonly peakA: number
  readonly kappaRatio: number
  /** Raised by the ratio of peak factors where X/R is above the value the device was tested at; compared with its rating. */
  readonly comparedA: number
  readonly impedance: Impedance
  readonly conductorC: number
}

/** What flows at least: hot conductors, highest impedance, weakest source, lowest voltage factor. */
export interface LowestFault {
  readonly lineNeutralA: number | null
  /** Line–line where the circuit has no neutral. */
  readonly lineLineA: number | null
  /** Through the protective conductor, or through soil where the earthing is TT. */
  readonly lineEarthA: number
  /** Least of the three through metal: what an overcurrent device is asked to see. */
  readonly leastA: number
  readonly loopOhm: number
  readonly earthLoopOhm: number
  /** Offer and unit that is weakest here. */
  readonly at: string
  readonly conductorC: number
}

export type TripPart = 'magnetic' | 'thermal' | 'fuse' | 'residual device' | 'nothing'

/** When the device opens: between its fast and its slow edge at this current. Infinity: never. */
export interface TripTime {
  readonly currentA: number
  readonly fastS: number
  readonly slowS: number
  /** By which part it surely opens. */
  readonly by: TripPart
  /** True when the magnetic part surely trips. */
  readonly sure: boolean
}

/** Does it trip, in what time, by which part, and what was asked. */
export interface Clearing {
  readonly device: string
  readonly ratingA: number
  readonly family: string
  readonly deviceC: number
  readonly lineNeutral: TripTime | null
  readonly lineEarth: TripTime
  /** Residual device that opens on a fault to earth; none on a fault to neutral. */
  readonly residualMA: number | null
  readonly residualS: number | null
  readonly demand: { readonly kind: 'time' | 'magnetic'; readonly timeS: number | null; readonly said: string }
}

/** Heat of the fault against what the conductor withstands. */
export interface Withstand {
  readonly conductor: 'line' | 'neutral' | 'protective' | 'cord'
  readonly size: string
  readonly letThroughA2s: number
  readonly withstandA2s: number
  /** At which fault current the two stand nearest. */
  readonly atA: number
}

export interface BusFault {
  /** `main`, `panel`, circuit id, or plug tag for a cord end. */
  readonly id: string
  readonly kind: 'service' | 'transformer' | 'main' | 'panel' | 'receptacle' | 'cord end'
  readonly circuit: string | null
  readonly plug: string | null
  /** Null: unknown, see the finding. */
  readonly highest: HighestFault | null
  readonly lowest: LowestFault | null
  /** Rating of the device that must break it; of the panel as a box. Null where nothing stands here. */
  readonly interruptingA: number | null
  readonly withstandA: number | null
  readonly clearing: Clearing | null
  readonly conductors: readonly Withstand[]
}

export interface Coordination {
  readonly upstream: string
  readonly downstream: string
  /** Selective up to here; Infinity: in every fault that can flow. */
  readonly selectiveToA: number
  readonly highestA: number
  readonly whole: boolean
}

/** A polyline of the time–current chart, `[ampere, second]`, both > 0, for log-log paper. */
export interface ChartCurve {
  readonly id: string
  readonly what: 'device fast' | 'device slow' | 'cable damage' | 'fault highest' | 'fault lowest' | 'generator'
  readonly label: string
  readonly points: readonly (readonly [number, number])[]
}

export interface Chart {
  readonly box: string
  readonly phase: string
  readonly mode: SourceMode
  readonly circuit: string
  readonly title: string
  readonly curves: readonly ChartCurve[]
}

/** Short-circuit current of a set as it dies away. */
export interface Decrement {
  readonly offer: string
  readonly ratedA: number
  /** `[second, ampere]` of a three-phase or line–neutral fault at its terminals. */
  readonly points: readonly (readonly [number, number])[]
  readonly boost: boolean | null
  /** When it falls below the rated current; null: it does not. */
  readonly belowRatedS: number | null
  readonly sustainedA: number
}

/** One source position of one box. */
export interface SourceFaults {
  readonly mode: SourceMode
  readonly offer: string
  /** True when the fault level was told in writing; else both ends are bounds. */
  readonly told: boolean
  readonly voltageFactor: { readonly max: number; readonly min: number }
  readonly buses: readonly BusFault[]
  readonly decrement: Decrement | null
}

export interface ElectrodeValue {
  readonly kind: 'rods' | 'ring'
  readonly count: number
  /** Thawed at low soil resistivity … frozen at high. Both ends. */
  readonly lowOhm: number
  readonly thawedOhm: { readonly low: number; readonly high: number }
  readonly frozenOhm: { readonly low: number; readonly high: number } | null
  readonly highOhm: number
  /** Current to soil at line–earth voltage, at the lowest resistance: what an electrode alone would pass. */
  readonly faultA: number
}

export interface Touch {
  readonly circuit: string
  readonly system: 'TN' | 'TT'
  readonly touchV: number
  readonly limitV: number
}

export interface BoxFaults {
  readonly box: string
  readonly phase: string
  readonly sources: readonly SourceFaults[]
  readonly coordination: readonly Coordination[]
  readonly charts: readonly Chart[]
  readonly electrode: ElectrodeValue | null
  readonly touch: readonly Touch[]
  readonly arcFlash: { readonly said: string; readonly leeJPerCm2: number | null; readonly boundaryMm: number | null }
}

export interface FaultsResult {
  readonly boxes: readonly BoxFaults[]
}
