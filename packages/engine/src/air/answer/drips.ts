import { SIDES } from '../../job/index.ts'
import type { WeatherHours } from '../../weather/index.ts'
import type { DripEvent } from '../result.ts'
import type { BoxModel, YearRun } from '../year/types.ts'
import { DAY_H, whenAt } from './hours.ts'

const ROOF = SIDES.indexOf('roof')
const FACES = 6
/** A pause of this long ends an event. */
const PAUSE_H = 3
/** Less than a teaspoon from a whole face in an hour is not an event. House rule. */
const LEAST_KG = 0.005
/** Of the events of a year, so many of the largest are told one by one. */
export const EVENTS_TOLD_COUNT = 24

export interface Dripped {
  /** Every event, by time. */
  readonly events: readonly DripEvent[]
  readonly fellKg: number
  /** Landed on gear that no hood stands over, and on hoods. */
  readonly onGearKg: number
  readonly onHoodsKg: number
}

/**
 * What fell, from what, onto what. Water from the roof is taken as spread evenly over the floor: a thing below catches the share that its
 * area is of the floor's. Water from a wall runs down it to the floor.
 */
export function dripped(of: { readonly model: BoxModel; readonly run: YearRun; readonly weather: WeatherHours }): Dripped {
  const { model, run, weather } = of
  const events: DripEvent[] = []
  let fellKg = 0
  for (let side = 0; side < FACES; side += 1) {
    let h = 0
    while (h < run.hoursCount) {
      const fell = run.series.fellKg[h * FACES + side] as number
      fellKg += fell
      if (fell < LEAST_KG) {
        h += 1
        continue
      }
      const from = h
      let to = h
      let sum = fell
      for (let next = h + 1; next < run.hoursCount && next - to <= PAUSE_H; next += 1) {
        const more = run.series.fellKg[next * FACES + side] as number
        if (more < LEAST_KG) continue
        for (let k = to + 1; k <= next; k += 1) sum += run.series.fellKg[k * FACES + side] as number
        to = next
      }
      fellKg += sum - fell
      events.push(eventOf({ model, run, weather, side, from, to, sum }))
      h = to + 1
    }
  }
  const lands = events.flatMap((e) => e.on)
  const kg = (hooded: boolean) => lands.filter((l) => l.hooded === hooded).reduce((s, l) => s + l.landsKg, 0)
  return {
    events: events.sort((a, b) => a.atH - b.atH || SIDES.indexOf(a.side) - SIDES.indexOf(b.side)),
    ...{ fellKg, onGearKg: kg(false), onHoodsKg: kg(true) },
  }
}

function eventOf(of: {
  readonly model: BoxModel
  readonly run: YearRun
  readonly weather: WeatherHours
  readonly side: number
  readonly from: number
  readonly to: number
  readonly sum: number
}): DripEvent {
  const { model, run, weather, side, from, to, sum } = of
  let hung = 0
  let frost = 0
  for (let h = Math.max(0, from - DAY_H); h <= to; h += 1) {
    hung = Math.max(hung, run.series.filmKgPerM2[h * FACES + side] as number)
    frost = Math.max(frost, run.series.frostKgPerM2[h * FACES + side] as number)
  }
  const floorM2 = Math.max(model.floorAreaM2, 1e-9)
  return {
    ...{ atH: from, when: whenAt(weather, from), hoursCount: to - from + 1, side: SIDES[side]!, fellKg: sum },
    hungGPerM2: hung * 1000,
    fromFrost: frost > 0.1 * hung && frost > 0,
    on:
      side === ROOF
        ? model.below.map(({ id, areaM2, hooded }) => ({ id, landsKg: sum * Math.min(1, areaM2 / floorM2), hooded }))
        : [],
  }
}

/** The largest, by time. */
export const toldEvents = (events: readonly DripEvent[]): readonly DripEvent[] =>
  events.length <= EVENTS_TOLD_COUNT
    ? events
    : [...events]
        .sort((a, b) => b.fellKg - a.fellKg || a.atH - b.atH)
        .slice(0, EVENTS_TOLD_COUNT)
        .sort((a, b) => a.atH - b.atH)
