import { type AirDesign, airPinsOf } from '../../job/index.ts'
import type { Prices } from '../../parts/index.ts'
import { gearParts } from '../answer/gear.ts'
import { timesOf } from '../answer/join.ts'
import type { AirWeather } from '../answer/weather.ts'
import { builtAirOf } from '../facts/built.ts'
import { paintsOf } from '../facts/paint.ts'
import { buildFigure } from '../figures.ts'
import { measureAreas } from '../measures/areas.ts'
import { type EnergyPaid, type Found, leastMeasures } from './choose.ts'
import { type Menu, menuOf } from './menu.ts'
import { type Judge, type Screens, screensOf } from './screens.ts'
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
const MOST_HOURS = 200_000
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
    judge: { modelOf, parts, fit: build.fit, times: timesOf(job, build.box) },
    screens: screensOf(stands, weather),
    base: build.air,
  }
}

/**
 * Measures of one box: least cost among those in which nothing of its air fails, at either end of what nobody measured, in the design year
 * and the short runs. Null where the box stands already: it has what it has.
 */
export function chooseAir(task: AirChoiceTask): Found | null {
  if (builtAirOf(task.job) !== null) return null
  const at = boxAtChoice(task)
  return leastMeasures({ ...at, energy: task.energy, mostH: task.mostH ?? MOST_HOURS })
}
