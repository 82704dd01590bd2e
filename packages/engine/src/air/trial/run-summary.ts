import { SIDES, type Side } from '../../job/index.ts'
import type { YearRun } from '../year/types.ts'

const FACES = 6
/** Film that is seen: half a gram a square metre; on gear a tenth of a gram. House rule. */
const SEEN_KG_PER_M2 = 5e-4
const ON_GEAR_KG_PER_M2 = 1e-4

export interface Extreme {
  readonly value: number
  /** Index of the hour in the run. */
  readonly hour: number
}

/** One run in a few numbers. */
export interface RunSummary {
  readonly airHighestC: Extreme
  readonly airLowestC: Extreme
  readonly gearHighestC: Extreme
  readonly gearLowestC: Extreme
  readonly roofHighestC: Extreme
  readonly roofLowestC: Extreme
  readonly meanHumidityFrac: number
  readonly faces: readonly {
    readonly side: Side
    readonly wetH: number
    readonly frostH: number
    readonly mostKgPerM2: Extreme
    readonly fellKg: number
  }[]
  /** Hours in which any face, or the gear, was wet; in which any face carried frost. */
  readonly wetH: number
  readonly frostH: number
  readonly gearWetH: number
  readonly fellKg: number
  readonly fellOnGearKg: number
  readonly heaterKWh: number
  readonly fanKWh: number
  readonly gearHeatKWh: number
}

/** Extremes, wet and frosted hours, what dripped, and energy of a run. */
export function runSummary(run: YearRun): RunSummary {
  const { series, hoursCount } = run
  const roof = SIDES.indexOf('roof')
  const roofC = Float64Array.from({ length: hoursCount }, (_, h) => series.faceC[h * FACES + roof] as number)
  let [wetH, frostH, gearWetH, humidity] = [0, 0, 0, 0]
  for (let h = 0; h < hoursCount; h++) {
    let [wet, frost] = [false, false]
    for (let i = h * FACES; i < (h + 1) * FACES; i++) {
      wet ||= liquidOf(run, i) > SEEN_KG_PER_M2
      frost ||= (series.frostKgPerM2[i] as number) > SEEN_KG_PER_M2
    }
    if (wet) wetH += 1
    if (frost) frostH += 1
    if ((series.gearFilmKgPerM2[h] as number) > ON_GEAR_KG_PER_M2) gearWetH += 1
    humidity += series.relativeFrac[h] as number
  }
  const faces = SIDES.map((side, s) => faceSummary(run, side, s))
  return {
    ...{ airHighestC: extreme(series.airC, 1), airLowestC: extreme(series.airC, -1) },
    ...{ gearHighestC: extreme(series.gearC, 1), gearLowestC: extreme(series.gearC, -1) },
    ...{ roofHighestC: extreme(roofC, 1), roofLowestC: extreme(roofC, -1) },
    meanHumidityFrac: humidity / hoursCount,
    ...{ faces, wetH, frostH, gearWetH },
    fellKg: faces.reduce((sum, face) => sum + face.fellKg, 0),
    fellOnGearKg: total(series.fellOnGearKg),
    ...{ heaterKWh: run.heaterKWh, fanKWh: run.fanKWh, gearHeatKWh: total(series.gearHeatWh) / 1000 },
  }
}

const liquidOf = ({ series }: YearRun, i: number): number =>
  (series.filmKgPerM2[i] as number) - (series.frostKgPerM2[i] as number)

function faceSummary(run: YearRun, side: Side, s: number): RunSummary['faces'][number] {
  let [wetH, frostH, most, at, fellKg] = [0, 0, 0, 0, 0]
  for (let h = 0; h < run.hoursCount; h++) {
    const i = h * FACES + s
    if (liquidOf(run, i) > SEEN_KG_PER_M2) wetH += 1
    if ((run.series.frostKgPerM2[i] as number) > SEEN_KG_PER_M2) frostH += 1
    if ((run.series.filmKgPerM2[i] as number) > most) [most, at] = [run.series.filmKgPerM2[i] as number, h]
    fellKg += run.series.fellKg[i] as number
  }
  return { side, wetH, frostH, mostKgPerM2: { value: most, hour: at }, fellKg }
}

function extreme(values: Float64Array, sign: 1 | -1): Extreme {
  let hour = 0
  for (let h = 1; h < values.length; h++) if (sign * (values[h] as number) > sign * (values[hour] as number)) hour = h
  return { value: values[hour] as number, hour }
}

function total(values: Float64Array): number {
  let sum = 0
  for (const v of values) sum += v
  return sum
}
