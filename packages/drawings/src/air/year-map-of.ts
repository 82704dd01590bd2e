import type { AirBoxResult, AirEnd, AirMap } from '@plugstead/engine/air'
import { dayWords, timeAt } from './clock.ts'
import { type AirUnits, degrees, degreesSaid, degreeUnit, fixed, waterSaid } from './units.ts'
import type { YearMap } from './year-map.ts'

/** Quantities of the map that ink can show. */
export const MAP_QUANTITIES = ['roofGPerM2', 'roofC', 'airC', 'gearC', 'relativePct', 'outsideC'] as const
export type MapQuantity = (typeof MAP_QUANTITIES)[number]

export const MAP_QUANTITY_WORDS: Readonly<Record<MapQuantity, string>> = {
  roofGPerM2: 'water and frost under the roof',
  roofC: 'underside of the roof',
  airC: 'air in the box',
  gearC: 'the gear itself',
  relativePct: 'humidity in the box',
  outsideC: 'air outside',
}

export interface MapAsked {
  readonly widthMm: number
  readonly units: AirUnits
  readonly end: AirEnd
  /** Null: marks only, as on paper. */
  readonly quantity: MapQuantity | null
  /** Place of the chosen week in the year's spells; null: none. */
  readonly spell: number | null
}

/** Edges of a film by what is seen of it: damp, runs when pushed, drops, dense drops, falls. @source table `sweat-stages` */
const FILM_EDGES = [1, 40, 120, 300, 540] as const
/** From 80 % on steel rusts. @source table `wetness` */
const HUMID_EDGES = [20, 40, 60, 80, 95] as const

/** The map of a box's year, from its figures. Frost: something hangs under a roof that is below freezing. */
export function yearMapOf(box: AirBoxResult, asked: MapAsked): YearMap {
  const { units, end } = asked
  const year = box.ends[end]
  const { map } = year
  const hoursCount = map.airC.length
  const hotC = hotFromC(year.gear)
  const frostH = hoursOf(hoursCount, (h) => map.roofGPerM2[h]! >= 1 && map.roofC[h]! < 0)
  const hotH = hotC === null ? [] : hoursOf(hoursCount, (h) => Math.max(map.airC[h]!, map.gearC[h]!) > hotC)
  const dripH = [...new Set(year.drips.flatMap((d) => Array.from({ length: d.hoursCount }, (_, i) => d.atH + i)))].sort(
    (a, b) => a - b,
  )
  return {
    ...{ widthMm: asked.widthMm, hoursCount, firstDay: box.weather.firstDay, firstHour: box.weather.firstHour },
    leap: hoursCount > 365 * 24,
    ramp: asked.quantity === null ? null : rampOf(asked.quantity, map, box.outsideC, units),
    ...{ frostH, dripH, hotH },
    words: {
      frost: `frost under the roof: ${fixed(frostH.length, 0)} h`,
      drip:
        year.counts.dripEventsCount === 0
          ? 'water falls: never'
          : `water falls: ${dripWords(year.drips.length, year.counts.dripEventsCount)}, ${waterSaid(year.counts.fellKg * 1000, units)} in all`,
      hot:
        hotC === null
          ? 'too hot: nothing in it has a limit that is known'
          : `too hot: air or gear over ${degreesSaid(hotC, units, 0)}: ${fixed(hotH.length, 0)} h`,
    },
    weeks: year.spells.map((spell, i) => ({
      id: spellId(i),
      what: spell.what,
      fromH: spell.fromH,
      hoursCount: spell.hoursCount,
    })),
    chosen: asked.spell === null ? null : spellId(asked.spell),
  }
}

export const spellId = (place: number): string => `week ${place + 1}`

const dripWords = (drawn: number, all: number): string =>
  drawn < all ? `the ${fixed(drawn, 0)} largest of ${fixed(all, 0)} times` : `${fixed(all, 0)} ${all === 1 ? 'time' : 'times'}`

/** Lowest of the upper limits of what is in the box. */
export function hotFromC(gear: AirBoxResult['ends'][AirEnd]['gear']): number | null {
  const limits = gear.flatMap((g) => (g.mostC === null ? [] : [g.mostC]))
  return limits.length === 0 ? null : Math.min(...limits)
}

function hoursOf(count: number, is: (h: number) => boolean): readonly number[] {
  const out: number[] = []
  for (let h = 0; h < count; h += 1) if (is(h)) out.push(h)
  return out
}

function rampOf(quantity: MapQuantity, map: AirMap, outsideC: readonly number[], units: AirUnits): YearMap['ramp'] {
  const name = MAP_QUANTITY_WORDS[quantity]
  if (quantity === 'roofGPerM2') return { name, unit: 'g/m²', values: map.roofGPerM2, edges: FILM_EDGES }
  if (quantity === 'relativePct') return { name, unit: '%', values: map.relativePct, edges: HUMID_EDGES }
  const valuesC = quantity === 'outsideC' ? outsideC : map[quantity]
  const values = valuesC.map((c) => degrees(c, units))
  const known = values.filter(Number.isFinite)
  let [low, high] = [Infinity, -Infinity]
  for (const v of known) {
    low = Math.min(low, v)
    high = Math.max(high, v)
  }
  if (known.length === 0) [low, high] = [0, 1]
  const step = Math.max(1, Math.ceil((high - low) / 5))
  const from = Math.floor(low)
  return { name, unit: degreeUnit(units), values, edges: [from, from + step, from + 2 * step, from + 3 * step, from + 4 * step] }
}

/** Title of a spell with its days: “week around the worst night, 14 Jan … 20 Jan”. */
export function spellTitle(spell: {
  readonly what: string
  readonly firstDay: number
  readonly firstHour: number
  readonly hoursCount: number
}): string {
  const from = dayWords(timeAt(spell, 0))
  const to = dayWords(timeAt(spell, Math.max(0, spell.hoursCount - 1)))
  return from === to ? `${spell.what}, ${from}` : `${spell.what}, ${from} … ${to}`
}
