import { type AirDesign, SIDES } from '../../job/index.ts'
import { plugOf, yardOf } from '../../power/circuits/yards.fixture.ts'
import { saturationPa, type WeatherHours } from '../../weather/index.ts'
import type { AirAnswer, ShortRun } from '../result.ts'
import type { BoxModel, YearRun } from '../year/types.ts'
import { type AirBox, answerRuns } from './answer.ts'
import type { BoxRuns } from './runs.ts'

export const YEAR_H = 8760
const FACES = 6
export const ROOF = SIDES.indexOf('roof')
export const FLOOR = SIDES.indexOf('floor')

const filled = (n: number, value: number) => new Float64Array(n).fill(value)

export function weatherOf(change: { readonly hoursCount?: number; readonly airC?: (h: number) => number } = {}): WeatherHours {
  const n = change.hoursCount ?? YEAR_H
  const airC = Float64Array.from({ length: n }, (_, h) => change.airC?.(h) ?? 15)
  return {
    place: { name: 'Testfield', latitudeDeg: 47, longitudeDeg: 8, elevationM: 400, utcOffsetH: 1 },
    ...{ firstDay: 1, firstHour: 0, year: null, hoursCount: n, readingAtH: 0, lightSplit: false, origins: {} },
    columns: {
      ...{ airC, vapourPa: airC.map((c) => 0.6 * saturationPa(c)), pressurePa: filled(n, 96_600) },
      ...{ windMPerS: filled(n, 2), windFromDeg: filled(n, 270), cloudFrac: filled(n, 0.5), snowM: filled(n, 0) },
      ...{ globalWPerM2: filled(n, 100), beamWPerM2: filled(n, 50), diffuseWPerM2: filled(n, 50) },
      ...{ infraredWPerM2: null, rainMm: null },
    },
  }
}

/** A dry, mild box: 20 °C, half saturated, nothing wet, lightly loaded. */
export function runOf(change: (series: YearRun['series']) => void = () => {}, hoursCount = YEAR_H): YearRun {
  const n = hoursCount
  const series: YearRun['series'] = {
    ...{ airC: filled(n, 20), vapourPa: filled(n, 0.5 * saturationPa(20)), relativeFrac: filled(n, 0.5), gearC: filled(n, 21) },
    ...{ faceC: filled(n * FACES, 20), outsideFaceC: filled(n * FACES, 19) },
    ...{ filmKgPerM2: filled(n * FACES, 0), frostKgPerM2: filled(n * FACES, 0), fellKg: filled(n * FACES, 0) },
    ...{ gearFilmKgPerM2: filled(n, 0), floorWaterKg: filled(n, 10), inflowKg: filled(n, 30) },
    ...{ heaterWh: filled(n, 0), fanWh: filled(n, 0), gearHeatWh: filled(n, 200), coolerWh: filled(n, 0) },
    ...{ bareC: filled(n * FACES, 20), bareFilmKgPerM2: filled(n * FACES, 0), fellOnGearKg: filled(n, 0) },
    ...{ floorTopFrac: filled(n, 0.1), floorRestFrac: filled(n, 0.1) },
  }
  change(series)
  const kWh = (values: Float64Array) => values.reduce((s, v) => s + v, 0) / 1000
  return {
    ...{ hoursCount: n, stepsPerHour: 4, series, heaterKWh: kWh(series.heaterWh), fanKWh: kWh(series.fanWh), coolerKWh: 0 },
    ...{ waterInKg: 0, waterOutKg: 0, waterStoredKg: 0 },
    fellKg: SIDES.map((_, side) => series.fellKg.reduce((s, v, i) => s + (i % FACES === side ? v : 0), 0)),
    ...{ energyResidualFrac: 1e-13, waterResidualFrac: 1e-13 },
  }
}

export const modelOf = (change: Partial<BoxModel> = {}): BoxModel => ({
  ...{ box: 'yard', volumeM3: 33, floorAreaM2: 13.8, insideHeightM: 2.39, doorFacesDeg: 90 },
  faces: SIDES.map((side) => ({
    ...{ side, areaM2: side === 'left' || side === 'right' ? 14.1 : side === 'roof' || side === 'floor' ? 13.8 : 5.6 },
    ...{
      developedRatio: 1.1,
      perimeterM: 16.6,
      middleM: 1.3,
      absorptanceFrac: 0.75,
      outsideEmittanceFrac: 0.9,
      roughnessRatio: 1,
    },
    layers: [{ what: 'steel', resistanceM2KPerW: 4e-5, heatJPerM2K: 7500, nodesCount: 1 }],
    ...{ insideEmittanceFrac: 0.9, bareFrac: 0, holdsKgPerM2: side === 'floor' ? Infinity : 0.54, sees: 'sky', shade: null },
  })),
  ...{ openings: [], leakM3SAt1Pa: 0.002, leakExponent: 0.65, fan: null, heater: null },
  gear: { heatJPerK: 145_000, toAirWPerK: 30, areaM2: 6 },
  floor: { dryKgPerM2: 15, topM: 0.002, thicknessM: 0.028, vapourResistanceRatio: 100, paintedRatio: 1 },
  ...{ gearHeatW: filled(288, 200), airHeatW: filled(288, 0), waterKgS: filled(288, 0), doorOpenS: filled(24, 0) },
  ...{ doorAreaM2: 5, doorHeightM: 2.2, winterMonths: [], terrain: 'country', windHeightM: 10 },
  ...{ groundReflectanceFrac: 0.2, snowReflectanceFrac: 0.7, skirted: false },
  below: [{ id: 'P1', areaM2: 0.69, hooded: false }],
  ...change,
})

export const AIR: AirDesign = {
  ...{ roofPaint: 'red oxide, brown', wallPaint: 'red oxide, brown', vents: [], winterOpenFrac: 1 },
  ...{ roofFoamM: 0, wallFoamM: 0, bridgesFoamed: false, secondRoof: false, fan: null, heater: null },
  ...{ dripHood: false, floorPainted: false },
}

export interface Scene {
  readonly tight?: (series: YearRun['series']) => void
  /** Absent: as the tight end. */
  readonly leaky?: (series: YearRun['series']) => void
  /** Of the tight end. */
  readonly colderSky?: (series: YearRun['series']) => void
  readonly heat?: (series: YearRun['series']) => void
  /** The same with its supply off, at both ends. */
  readonly unplugged?: (series: YearRun['series']) => void
  readonly model?: Partial<BoxModel>
  readonly air?: Partial<AirDesign>
  readonly weather?: WeatherHours
  readonly run?: (run: YearRun) => YearRun
  readonly shorts?: Partial<Record<ShortRun, (series: YearRun['series']) => void>>
  readonly box?: Partial<AirBox>
  readonly insideHotC?: { readonly low: number; readonly high: number; readonly basis: string; readonly told: boolean }
  readonly used?: Partial<BoxRuns['used']>
  readonly wanted?: Partial<AirBox['wanted'] & object>
  readonly corrosivity?: string | null
  readonly set?: 'us' | 'ca' | 'intl'
}

export const SHORT_H = 192
const LEAD_H = 24

export function runsOf(scene: Scene): BoxRuns {
  const change = scene.run ?? ((run: YearRun) => run)
  const shorts = Object.entries(scene.shorts ?? {}) as [ShortRun, (series: YearRun['series']) => void][]
  const end = (edit: Scene['tight'], said: string) => ({
    ...{ model: modelOf(scene.model), said, year: change(runOf(edit)) },
    ...(scene.heat === undefined ? {} : { heat: { model: modelOf(scene.model), year: runOf(scene.heat) } }),
    ...(scene.unplugged === undefined
      ? {}
      : { unplugged: { hours: scene.weather ?? weatherOf(), on: change(runOf(edit)), off: runOf(scene.unplugged) } }),
    shorts: Object.fromEntries(shorts.map(([name, of]) => [name, runOf(of, SHORT_H)])),
  })
  return {
    weather: scene.weather ?? weatherOf(),
    used: { from: 'made', named: 'Testfield', seed: 1, assumed: [], ...scene.used },
    shortWeather: Object.fromEntries(
      shorts.map(([name]) => [name, { said: `invented`, leadInH: LEAD_H, hours: weatherOf({ hoursCount: SHORT_H }) }]),
    ),
    ends: {
      tight: {
        ...end(scene.tight, 'as little as leaks'),
        ...(scene.colderSky === undefined ? {} : { colderSky: runOf(scene.colderSky) }),
      },
      leaky: end(scene.leaky ?? scene.tight, 'as much as leaks'),
    },
    assumed: [{ path: 'boxes.BX1.paint', said: 'red oxide', source: 'common practice' }],
  }
}

/** The answer for one box of a North American yard (or another set's), its runs made by hand. */
export function answered(scene: Scene = {}): AirAnswer {
  const set = scene.set ?? 'us'
  const yard =
    set === 'intl'
      ? yardOf({ set, system: 'TN/TT 400/230', plugs: [plugOf({ tag: 'M1', powerW: 800, voltageV: 230, outlet: '16 A 3-pin' })] })
      : yardOf({ set })
  const wanted = {
    ...yard.job.boxes[0]!,
    insideHotC: scene.insideHotC ?? { low: 30, high: 60, basis: 'test', told: false },
    ...scene.wanted,
  }
  return answerRuns({
    yard: { corrosivity: scene.corrosivity === undefined ? 'C2' : scene.corrosivity },
    boxes: [{ box: wanted.id, wanted, air: { ...AIR, ...scene.air }, fit: { items: [] }, designs: [yard.box], ...scene.box }],
    runsOf: () => ({ runs: runsOf(scene) }),
  })
}

export const found = (answer: AirAnswer, code: string, thing?: string) =>
  answer.findings.find((f) => f.code === code && (thing === undefined || f.subject.includes(thing)))
export const verdict = (answer: AirAnswer, code: string, thing?: string) => found(answer, code, thing)?.verdict
