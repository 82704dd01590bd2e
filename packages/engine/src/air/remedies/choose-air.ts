import { type AirDesign, airPinsOf } from '../../job/index.ts'
import type { Prices } from '../../parts/index.ts'
import { airAtGear, gearParts, hottestLoaded } from '../answer/gear.ts'
import { most } from '../answer/hours.ts'
import { timesOf } from '../answer/join.ts'
import { runIn, seasonHours, standingHours, weatherIn } from '../answer/standing.ts'
import type { AirWeather } from '../answer/weather.ts'
import { builtAirOf } from '../facts/built.ts'
import { paintsOf } from '../facts/paint.ts'
import { buildFigure } from '../figures.ts'
import { measureAreas } from '../measures/areas.ts'
import type { EnergyPaid } from './asking.ts'
import { type Found, leastMeasures } from './choose.ts'
import { type Menu, menuOf } from './menu.ts'
import { type Judge, type Screen, type Screens, screened, screensOf } from './screens.ts'
import { type VariantTask, variantsOf } from './variants.ts'

export interface AirChoiceTask extends VariantTask {
  readonly prices: Prices
  readonly weather: AirWeather
  readonly energy: EnergyPaid
  /** Can the openings of these measures be cut in its walls? Absent: all can. */
  readonly canCut?: (air: AirDesign) => boolean
  /** Hours of the box that may be run. Absent: the usual. */
  readonly mostH?: number
}

/** A second or two of one core; most boxes need a quarter of it. */
export const MOST_HOURS = 200_000
/** Gear stays this far above what it stands: its margin, and the thermostat's dead band. */
const OVER_LEAST_K = 4

export interface BoxAtChoice {
  readonly menu: Menu
  readonly judge: Judge
  readonly screens: Screens
  readonly base: AirDesign
}

/** Everything that a search among the measures of a box needs, worked out once. */
export function boxAtChoice(task: AirChoiceTask): BoxAtChoice {
  const { job, design, build, body, prices, weather } = task
  const designs = design.boxes.filter((b) => b.box === build.box)
  const parts = gearParts(designs, build.fit)
  const leastC = Math.max(
    ...parts.filter((p) => p.name !== 'transformer').map((p) => p.limit.leastC ?? Number.NEGATIVE_INFINITY),
    -60,
  )
  const modelOf = variantsOf(task)
  const stands = modelOf(build.air, 'damp')
  const menu = menuOf({
    ...{ box: build.box, body, air: build.air, pins: airPinsOf(job.pins, build.box), prices },
    ...{ painted: paintsOf(job, build.box).value, areas: measureAreas(body, build.fit), winter: stands.winterMonths.length > 0 },
    gearAboveC: Math.min(leastC + OVER_LEAST_K, buildFigure('heater-on').value),
    canCut: task.canCut ?? (() => true),
    heated: (job.boxes.find((b) => b.id === build.box)?.heatedC ?? null) !== null,
  })
  return {
    menu,
    judge: { modelOf, parts, fit: build.fit, times: timesOf(job, build.box), lastHot: new Map() },
    screens: screensOf(stands, weather),
    base: build.air,
  }
}

/**
 * Measures of one box: least cost among those in which nothing of its air fails, at either end of what nobody measured, in the design year
 * and the short runs. Null where the box stands already: it has what it has.
 */
export function chooseAir(task: AirChoiceTask): AirFound | null {
  if (builtAirOf(task.job) !== null) return null
  const at = boxAtChoice(task)
  return withHottest(at, leastMeasures({ ...at, energy: task.energy, mostH: task.mostH ?? MOST_HOURS }))
}

export interface AirFound extends Found {
  /** Hottest air at the breakers under load, °C, up to a whole degree, in the runs in which heat is judged. Null: no hour carries load. */
  readonly hottestC: number | null
}

export const withHottest = (at: BoxAtChoice, found: Found): AirFound => ({ ...found, hottestC: loadedMostC(at, found.air) })

function loadedMostC({ judge, screens }: BoxAtChoice, air: AirDesign): number | null {
  const year = screens.years.find((s) => s.end === 'hot')
  if (year === undefined) return null
  const { standing, season } = judge.times
  const hot = atOf(judge, year, air)
  const hours = standingHours(year.weather, standing)
  const [run, weather] = hours === null ? [hot.run, year.weather] : [runIn(hot.run, hours), weatherIn(year.weather, hours)]
  const loaded = hottestLoaded(run, airAtGear(hot.model, run, judge.fit), seasonHours(weather, season))
  if (loaded === null) return null
  const week = screens.first.find((s) => s.id === 'hot week, hot')
  const counts = week !== undefined && season === null && standingHours(week.weather, standing)?.length !== 0
  const weekC = counts ? [most(atOf(judge, week, air).at.hotC).value] : []
  return Math.ceil(Math.max(loaded.airC, ...weekC))
}

function atOf(judge: Judge, screen: Screen, air: AirDesign) {
  const last = judge.lastHot?.get(screen.id)
  const { run } = last?.of === JSON.stringify(air) ? last : screened(judge, screen, air)
  const model = judge.modelOf(air, screen.end)
  return { model, run, at: airAtGear(model, run, judge.fit) }
}
