import type { BoxBody } from '../../box/index.ts'
import type { BoxAirFacts, SkinDesign } from '../../job/index.ts'
import { saturationPa } from '../../weather/index.ts'
import { amount } from '../figures.ts'
import { waterSource } from '../water/sources.ts'
import type { ModelEnd } from './ends.ts'
import { MONTHS } from './months.ts'

const HOURS = 24
const HOUR_S = 3600
/** Below this monthly mean there is snow on boots and cords: the upper figure may come in. House rule. */
const SNOW_BELOW_C = 2

/** Doors opened by the hour of the day, and water that comes in by month and hour. */
export interface BoxUse {
  readonly doorOpenS: Float64Array
  readonly waterKgS: Float64Array
  readonly doorAreaM2: number
  readonly doorHeightM: number
}

/**
 * A box that is visited as often as is told, or as the house rule says, spread over the working day: for each visit the door stands open, somebody breathes,
 * and what is on boots and cords dries in the hours after.
 */
export function useOf(of: {
  readonly body: BoxBody
  readonly skin: SkinDesign
  readonly end: ModelEnd
  /** As told; what is not is taken by house rule. */
  readonly told?: BoxAirFacts['visits']
  readonly meanCByMonth: readonly number[] | null
  /** What a heater of the room holds; null: none does. */
  readonly heldC: number | null
}): BoxUse {
  const told = of.told ?? {}
  const perDay = told.perDayCount ?? amount('visits-a-day')
  // Less than one a day: one at the same hour, with its share of a visit.
  const visits = Math.ceil(perDay)
  const each = visits === 0 ? 0 : perDay / visits
  const first = amount('visit-at')
  const doorOpenS = new Float64Array(HOURS)
  const waterKgS = new Float64Array(MONTHS * HOURS)
  const boots = waterSource('wet boots and cords, a visit')
  const person = waterSource('one person')
  const dryH = amount('boots-dry-in')
  for (let visit = 0; visit < visits; visit++) {
    const at = Math.floor(first + (visit * WORKDAY_H) / visits) % HOURS
    doorOpenS[at]! += each * (told.doorOpenS ?? amount('door-open'))
    for (let month = 0; month < MONTHS; month++) {
      const meanC = of.meanCByMonth?.[month]
      const wet = of.end.boots === 'wet' && (meanC === undefined || meanC < SNOW_BELOW_C)
      const broughtKg = (told.waterKg ?? (wet ? boots.high : boots.low)) * driesFrac(meanC, of.heldC)
      waterKgS[month * HOURS + at]! +=
        each * ((of.end.boots === 'wet' ? person.high : person.low) / 1000 / HOUR_S) * amount('visit-takes')
      for (let h = 0; h < dryH; h++) waterKgS[month * HOURS + ((at + h) % HOURS)]! += (each * broughtKg) / (dryH * HOUR_S)
    }
  }
  const door = of.skin.openings.find((o) => o.use === 'personnel door')
  const size = door ?? of.body.doorOpeningMm
  const heightM = size.heightMm / 1000
  // Of cargo doors one leaf is opened.
  const widthM = door === undefined ? of.body.doorOpeningMm.widthMm / 2000 : door.widthMm / 1000
  return { doorOpenS, waterKgS, doorAreaM2: widthM * heightM, doorHeightM: heightM }
}
const WORKDAY_H = 9

/**
 * Share of what is on boots and cords that dries in the box. Below freezing it is snow: it gives off vapour as its own pressure lets it, that of
 * ice over that at 0 °C, at the mean of the month or at what a heater holds; the rest goes out again as it came in. 0 to 1.
 * @source mass transfer grows with the pressure at the surface (moist air, ice). Provenance: computed
 */
export function driesFrac(meanC: number | undefined, heldC: number | null): number {
  const atC = Math.min(0, Math.max(meanC ?? 0, heldC ?? Number.NEGATIVE_INFINITY))
  return saturationPa(atC) / saturationPa(0)
}
