import type { Side } from '../../job/index.ts'

/** One layer of a face, from outside to inside. No mass where `heatJPerM2K` is 0: a resistance only. */
export interface FaceLayer {
  readonly what: string
  readonly resistanceM2KPerW: number
  readonly heatJPerM2K: number
  /** Nodes it is cut into. ≥ 1 */
  readonly nodesCount: number
}

/** What is seen from outside and inside of one of the six faces. */
export interface BoxFace {
  readonly side: Side
  /** Flat area inside; developed area over it, for the sheet's film and heat. */
  readonly areaM2: number
  readonly developedRatio: number
  /** Perimeter of the whole face, for the wind's film. */
  readonly perimeterM: number
  /** Height of the middle of the face over the ground. */
  readonly middleM: number
  readonly absorptanceFrac: number
  readonly outsideEmittanceFrac: number
  readonly roughnessRatio: number
  readonly layers: readonly FaceLayer[]
  readonly insideEmittanceFrac: number
  /** Share of the area that is bare steel through and through: rails and posts of a foamed face. 0: none. */
  readonly bareFrac: number
  /** Water that hangs before it falls or runs, and where a warning begins. Infinity: never falls (floor). */
  readonly holdsKgPerM2: number
  /** The face's outside: open air; air only, neither sun nor sky (a gap below); ground at a told temperature. */
  readonly sees: 'sky' | 'air' | 'ground'
  /** A second roof above: share of sun and sky that it takes away, and its absorptance. Null: none. */
  readonly shade: { readonly coversFrac: number; readonly absorptanceFrac: number } | null
}

/** A hole or louvre that air passes both ways by pressure. */
export interface BoxOpening {
  readonly id: string
  readonly side: Side
  /** Clear area, and the height of its middle over the floor. */
  readonly areaM2: number
  readonly heightM: number
  /** Discharge coefficient with hood and screen in series. */
  readonly dischargeRatio: number
  /** Share of the clear area that is open in winter; 1: the same all year. Blown snow and frost are kept out by it. */
  readonly winterFrac: number
}

export interface BoxFan {
  readonly side: Side
  readonly heightM: number
  /** Out of the box, or into it. */
  readonly blows: 'out' | 'in'
  readonly freeFlowM3S: number
  readonly shutPressurePa: number
  readonly powerW: number
  /** Runs above this air temperature; with `drierKgPerKg`, also while the outside air is drier by that much. */
  readonly onAboveC: number
  readonly drierKgPerKg: number | null
  /** A panel drives it: no sun, no flow. */
  readonly solar: { readonly ratedWPerM2: number; readonly startsAtFrac: number } | null
}

export interface BoxHeater {
  /** The room's air, or the cabinet of the gear. */
  readonly at: 'room' | 'cabinet'
  readonly powerW: number
  readonly onBelowC: number
  readonly deadBandK: number
  /** Also on while the gear is less than this above the dew point. Null: no humidistat. */
  readonly dewMarginK: number | null
}

/** A box as the hourly run sees it: plain numbers, nothing unknown left. One end of what is uncertain. */
export interface BoxModel {
  readonly box: string
  readonly volumeM3: number
  readonly floorAreaM2: number
  readonly insideHeightM: number
  /** Bearing the door end looks to, clockwise from true north. */
  readonly doorFacesDeg: number
  /** Six, in the order of `SIDES`. */
  readonly faces: readonly BoxFace[]
  readonly openings: readonly BoxOpening[]
  /** Cracks, spread low and high: flow at 1 Pa and exponent. */
  readonly leakM3SAt1Pa: number
  readonly leakExponent: number
  readonly fan: BoxFan | null
  readonly heater: BoxHeater | null
  /** Panel and strut as one mass, and its cabinet around it. */
  readonly gear: {
    readonly heatJPerK: number
    /** Gear to room air without a cabinet heater: all films in a row. */
    readonly toAirWPerK: number
    readonly areaM2: number
  }
  /** Wood of the floor: dry mass per area; the top layer and the rest exchange. 0: no wood. */
  readonly floor: {
    readonly dryKgPerM2: number
    readonly topM: number
    readonly thicknessM: number
    readonly vapourResistanceRatio: number
    readonly paintedRatio: number
  }
  /** Heat set free inside and shared between gear and air, by month (0 to 11) and hour of the day (0 to 23): 288 values each. */
  readonly gearHeatW: Float64Array
  readonly airHeatW: Float64Array
  /** Water brought in, kg/s, by month and hour: boots, people, ground. 288 values. */
  readonly waterKgS: Float64Array
  /** Door openings: hour of the day and seconds that it stands open. */
  readonly doorOpenS: Float64Array
  readonly doorAreaM2: number
  readonly doorHeightM: number
  /** Months (0 to 11) in which vents stand in their winter position. */
  readonly winterMonths: readonly number[]
  readonly terrain: 'open' | 'country' | 'town'
  /** Wind of the record is at this height; air of the place at this pressure where the record has none. */
  readonly windHeightM: number
  readonly groundReflectanceFrac: number
  readonly snowReflectanceFrac: number
  readonly skirted: boolean
  /** Things that what falls from the roof may land on: area below, and what stands over it. */
  readonly below: readonly { readonly id: string; readonly areaM2: number; readonly hooded: boolean }[]
  /** Parts of a side that are built otherwise than the rest of it: a pane, an unfoamed door. Their area is not in `faces`, their perimeter is their own. */
  readonly parts?: readonly BoxFace[]
  /** Heat given off as radiation inside, by month and hour: 288 values. */
  readonly radiantHeatW?: Float64Array
  /** Outside air that comes in whatever the pressures, as volume of inside air that it takes the place of. */
  readonly toldInflowM3S?: number
  /** Air held by ideal heating and cooling without limit, as a machine with a thermostat does. */
  readonly holds?: { readonly fromC: number; readonly toC: number }
}

/** Hour by hour; index `h * 6 + side` for faces. Readings at the end of the hour, sums over it. */
export interface HourSeries {
  readonly airC: Float64Array
  readonly vapourPa: Float64Array
  readonly relativeFrac: Float64Array
  readonly gearC: Float64Array
  readonly faceC: Float64Array
  readonly outsideFaceC: Float64Array
  /** Water and frost together on each face, and the share of it that is frost. */
  readonly filmKgPerM2: Float64Array
  readonly frostKgPerM2: Float64Array
  /** What fell in the hour from each face. */
  readonly fellKg: Float64Array
  readonly gearFilmKgPerM2: Float64Array
  /** Lying on the floor and in its wood. */
  readonly floorWaterKg: Float64Array
  /** Outside air drawn in, dry air. */
  readonly inflowKg: Float64Array
  readonly heaterWh: Float64Array
  readonly fanWh: Float64Array
  readonly gearHeatWh: Float64Array
  /** Mean flow through each opening, in the order of the model's; in is positive; index `h * openings + i`. Absent: not kept. */
  readonly openingM3S?: Float64Array
  /** Steel that is bare through and through, of a face with `bareFrac` over 0; elsewhere as the face. Index `h * 6 + side`. */
  readonly bareC: Float64Array
  readonly bareFilmKgPerM2: Float64Array
  /** Share of what fell from the roof that met gear without a hood. */
  readonly fellOnGearKg: Float64Array
  /** Water in the wood of the floor, of its dry mass: top layer, and the rest. */
  readonly floorTopFrac: Float64Array
  readonly floorRestFrac: Float64Array
  /** Heat taken out by ideal cooling (`holds`). */
  readonly coolerWh: Float64Array
}

/** Sums of one run; the books of each step closed to the largest relative residual told. */
export interface YearRun {
  readonly hoursCount: number
  readonly stepsPerHour: number
  readonly series: HourSeries
  readonly heaterKWh: number
  readonly fanKWh: number
  readonly coolerKWh: number
  readonly fellKg: readonly number[]
  /** Water of the whole run: brought in by air and sources, taken out by air, left in store. */
  readonly waterInKg: number
  readonly waterOutKg: number
  readonly waterStoredKg: number
  readonly energyResidualFrac: number
  readonly waterResidualFrac: number
}
