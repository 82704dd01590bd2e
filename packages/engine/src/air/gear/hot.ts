import { Fault, type Source } from '../../kernel/index.ts'
import { between, numberIn, rowOf, rowsOf, sourceOf } from '../shelf.ts'

/** Temperature at which a thermal breaker's own metal trips, and at which its table begins. @source table `breaker-heat`, notes */
const TRIP_C = 105
const HOT_ROOM_C = 40
const COLUMNS = [40, 45, 50, 55, 60, 65, 70] as const

/**
 * Current that a part made for one ambient carries in another, as a share: √((T trip − t)/(T trip − calibration)); not above 1 here, 0 from the trip
 * temperature on. For breakers T trip 105 °C and calibration 40 or 30 °C as marked; for switchgear 105 and 40.
 * @throws Fault `air/derate-range`
 * @source IEEE C37.20.1 practice as quoted by a maker; table `breaker-heat`, notes. Provenance: memory
 */
export function hotShareFrac(ambientC: number, calibrationC: number, tripC: number = TRIP_C): number {
  if (!(tripC > calibrationC) || Number.isNaN(ambientC)) throw new Fault('air/derate-range', { ambientC, calibrationC, tripC })
  if (ambientC <= calibrationC) return 1
  return ambientC >= tripC ? 0 : Math.sqrt((tripC - ambientC) / (tripC - calibrationC))
}

/** Switchgear rated at 40 °C in a hotter room, as a share of its rating. @throws Fault `air/derate-range` */
export const hotRoomFrac = (ambientC: number): number => hotShareFrac(ambientC, HOT_ROOM_C)

export interface Held {
  readonly currentA: number
  /** By the maker's table, or by the root rule where the size or the heat is not in it. */
  readonly by: 'table' | 'rule'
  readonly rests: Source
}

/**
 * Current that a breaker calibrated at 40 °C still holds, A: the table of one maker, straight between its columns; the root rule for sizes and for
 * temperatures (over 70 °C) that it does not have. At 40 °C and below its rating.
 * @throws Fault `air/derate-range`
 * @source table `breaker-heat`
 */
export function breakerHolds(ratedA: number, ambientC: number): Held {
  if (!(ratedA > 0) || Number.isNaN(ambientC)) throw new Fault('air/derate-range', { ratedA, ambientC })
  const row = rowsOf('breaker-heat').find((one) => one.rated === ratedA)
  const rests = sourceOf('breaker-heat', row ?? rowsOf('breaker-heat')[0]!)
  if (row === undefined || ambientC > COLUMNS.at(-1)!) {
    const share = hotShareFrac(ambientC, HOT_ROOM_C)
    // Beyond the table's last column no more than stands in it.
    const most = row === undefined ? ratedA : numberIn(row, '70')
    return { currentA: Math.min(ratedA * share, most), by: 'rule', rests }
  }
  const held = COLUMNS.map((column) => numberIn(row, String(column)))
  return { currentA: between(COLUMNS, held, ambientC), by: 'table', rests }
}

/** What a kind of gear stands, table `gear-limits`. Null: not said. */
export interface GearLimit {
  readonly gear: string
  readonly leastC: number | null
  readonly mostC: number | null
  readonly dayMeanMostC: number | null
  readonly humidity: string
  readonly rests: Source
}

const orNull = (cell: unknown): number | null => (typeof cell === 'number' ? cell : null)

/** @throws Fault `air/no-row` */
export function gearLimit(gear: string): GearLimit {
  const row = rowOf('gear-limits', gear)
  return {
    gear,
    leastC: orNull(row.min),
    mostC: orNull(row.max),
    dayMeanMostC: orNull(row.day_mean_max),
    humidity: String(row.humidity),
    rests: sourceOf('gear-limits', row),
  }
}

export const GEAR: readonly string[] = rowsOf('gear-limits').map((row) => String(row.gear))

/** Air at the gear over that of the room: in the wall that the sun is on, and over a transformer, K. @source table `gear-limits`, notes. Provenance: common practice */
export const AT_SUN_WALL_K = 5
export const OVER_TRANSFORMER_K = 10
