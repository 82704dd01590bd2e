import { acos } from '../../kernel/index.ts'
import { PHYSICS } from '../constants.ts'
import { degOf } from '../shelf.ts'
import { skyC } from '../sky.ts'
import { airMassRatio, planeNormal } from '../sun.ts'
import { beamOnPlaneWPerM2, fillBrightness, groundOnPlaneWPerM2, perezWPerM2 } from '../tilt.ts'
import type { WeatherHours } from '../types.ts'
import { sunPathOf } from './acceptance.ts'
import { coldRows } from './humidity.ts'
import { readWeather, rowsOf } from './read.ts'
import type { FileRows } from './rows.ts'

type CaseFile = (name: string) => string

function rowsFrom(text: string): FileRows {
  const rows = rowsOf(text)
  if (!rows.ok) throw new Error(rows.problems[0]?.code)
  return rows.value
}
function hoursFrom(text: string): WeatherHours {
  const read = readWeather(text)
  if (!read.ok) throw new Error(read.problems[0]?.code)
  return read.value.runs[0] as WeatherHours
}

const sum = (values: Float64Array): number => values.reduce((a, b) => a + b, 0)
const mean = (values: Float64Array): number => sum(values) / values.length
/** In the file's own units and digits. */
const whole = (value: number, factor: number): number => Math.round(value * factor * 1e6) / 1e6

/** One row as the file prints it, by the name of each of its columns in the cases. */
function printed(rows: FileRows, at: number): Readonly<Record<string, number>> {
  const of = (name: keyof FileRows['cells'], factor = 1) => whole(rows.cells[name]?.[at] ?? Number.NaN, factor)
  return {
    ...{ ghi: of('globalWPerM2'), dni: of('beamWPerM2'), dhi: of('diffuseWPerM2'), horizontal_infrared: of('infraredWPerM2') },
    ...{ t_C: of('airC'), t_dew_C: of('dewC'), rh_pct: of('relativeFrac', 100), p_Pa: of('pressurePa') },
    ...{ wind_dir_deg: of('windFromDeg'), wind_m_s: of('windMPerS') },
    ...{ opaque_cover: of('cloudFrac', 10), opaque_cover_tenths: of('cloudFrac', 10) },
  }
}

/** Hours over 80 % and over freezing, by the humidity that stands in the file. */
function wetCount({ cells }: FileRows): number {
  const { airC, relativeFrac } = cells as Record<string, Float64Array>
  return (airC as Float64Array).reduce((n, t, i) => n + (t > 0 && ((relativeFrac as Float64Array)[i] as number) > 0.8 ? 1 : 0), 0)
}
/** Upper ends of the classes, hours a year. @source ISO 9223:2012, table 3. Provenance: memory */
const wetClass = (hours: number): string => `tau${1 + [10, 250, 2500, 5500].filter((end) => hours > end).length}`

/** Perez on the sky, the sun in the middle of the lit part of each hour. */
function sunOnPlaneKWhPerM2(
  run: WeatherHours,
  plane: { readonly slopeDeg: number; readonly facesDeg: number },
  ground: number,
): number {
  const path = sunPathOf(run)
  const normal = planeNormal(plane)
  const level = planeNormal({ slopeDeg: plane.slopeDeg, facesDeg: 90 })
  const { globalWPerM2, beamWPerM2, diffuseWPerM2 } = run.columns as Record<string, Float64Array>
  const brightness = { sunRatio: 0, horizonRatio: 0 }
  let all = 0
  for (let i = 0; i < run.hoursCount; i++) {
    const up = path.upRatio[i] as number
    const [beam, diffuse] = [beamWPerM2?.[i] as number, diffuseWPerM2?.[i] as number]
    all += groundOnPlaneWPerM2(globalWPerM2?.[i] as number, ground, level.upRatio)
    if ((path.litFrac[i] as number) === 0) {
      all += (diffuse * (1 + level.upRatio)) / 2
      continue
    }
    const cosIn =
      (path.eastRatio[i] as number) * normal.eastRatio + (path.northRatio[i] as number) * normal.northRatio + up * normal.upRatio
    const zenith = acos(Math.min(1, up))
    fillBrightness(
      brightness,
      beam,
      diffuse,
      PHYSICS.solarWPerM2 * (path.distanceRatio[i] as number),
      zenith,
      airMassRatio(degOf(zenith)),
    )
    all += perezWPerM2(brightness, diffuse, cosIn, up, level.upRatio, level.eastRatio)
    all += (path.litFrac[i] as number) * beamOnPlaneWPerM2(beam, cosIn)
  }
  return all / 1000
}

export const weatherFileCases: Record<string, (given: any, file: CaseFile) => Record<string, unknown>> = {
  'file-01': (given, file) => {
    const text = file(given.file)
    const { columns, hoursCount } = hoursFrom(text)
    const air = columns.airC as Float64Array
    return {
      rows: hoursCount,
      ...{ t_mean_C: mean(air), t_min_C: Math.min(...air), t_max_C: Math.max(...air) },
      ghi_kWh_m2: sum(columns.globalWPerM2 as Float64Array) / 1000,
      dhi_kWh_m2: sum(columns.diffuseWPerM2 as Float64Array) / 1000,
      row_1: printed(rowsFrom(text), 0),
    }
  },
  'file-02': (given, file) => {
    const text = file(given.file)
    const { columns, hoursCount } = hoursFrom(text)
    const rows = rowsFrom(text)
    return {
      ...printed(rows, 11),
      rows: hoursCount,
      t_mean_C: mean(columns.airC as Float64Array),
      ghi_kWh_m2: sum(columns.globalWPerM2 as Float64Array) / 1000,
      wet_hours_rh80_t0: wetCount(rows),
    }
  },
  'file-03': (given, file) => {
    const hours = given.files.map((name: string) => wetCount(rowsFrom(file(`${name}.csv.gz`))))
    return { hours, class: hours.map(wetClass) }
  },
  'file-04': (given, file) => {
    const rows = rowsFrom(file(given.file))
    const cover = /^.{59}(\d\d)/.exec(file(given.file).split(/\r?\n/)[given.line - 1] ?? '')?.[1]
    return { ...printed(rows, rows.lines.indexOf(given.line)), total_cover_tenths: Number(cover) }
  },
  'file-05': (given, file) => {
    const text = file(given.file)
    const { columns, hoursCount, place } = hoursFrom(text)
    const rows = rowsFrom(text)
    const lines = text.split(/\r?\n/)
    // By the clock of the place the first row is not the first hour.
    const at = rows.startH.indexOf(place.utcOffsetH)
    const row = printed(rows, at)
    return {
      rows: hoursCount,
      first: { ...row, stamp: lines[(rows.lines[at] as number) - 1]?.split(',')[0], ir_W_m2: row.horizontal_infrared },
      ghi_kWh_m2: sum(columns.globalWPerM2 as Float64Array) / 1000,
      t_mean_C: mean(columns.airC as Float64Array),
    }
  },
  'file-06': (given, file) => {
    const [fairbanks, denver] = given.files.map((name: string) => {
      const cold = coldRows(rowsFrom(file(name)))
      return { rows: cold.rowsCount, liquid_pct: cold.liquidPct, ice_pct: cold.icePct, verdict: cold.over }
    })
    return { fairbanks, denver }
  },
  'tilt-05': (given, file) => {
    const run = hoursFrom(file(given.weather))
    const on = (slopeDeg: number, facesDeg: number) => sunOnPlaneKWhPerM2(run, { slopeDeg, facesDeg }, given.ground_reflectance)
    return {
      ...{ south_kWh_m2: on(90, 180), east_kWh_m2: on(90, 90), west_kWh_m2: on(90, 270), north_kWh_m2: on(90, 0) },
      roof_kWh_m2: on(0, 0),
    }
  },
  'sky-03': (given, file) => {
    const sky = Float64Array.from(hoursFrom(file(given.weather)).columns.infraredWPerM2 as Float64Array, (w) => skyC(w))
    return { mean_C: mean(sky), min_C: Math.min(...sky), max_C: Math.max(...sky) }
  },
}
