import type { BoxWanted, Site } from '../job/index.ts'
import { type Source, source } from '../kernel/index.ts'
import { stripW } from './light/lamps.ts'

export type OwnKind = 'light' | 'heater' | 'fan' | 'control' | 'receptacle'

/** A load of the box itself. House defaults until the hour-by-hour run of air, fit and light replaces them. */
export interface OwnLoad {
  readonly own: OwnKind
  readonly powerW: number
  readonly powerFactorFrac: number
  readonly fromH: number
  readonly hoursPerDay: number
  /** Of a heater inside the panel's cabinet; else it hangs in the room. */
  readonly at?: 'cabinet'
  /** How it was sized, in words; shown as assumed. */
  readonly said: string
  readonly rests: Source
}

const HOUSE = source('house default within the usual range of the trade', 'common practice')

/**
 * The box's own light, heater, fan, controls and one service receptacle, fed between a line and neutral.
 * Light 30 W a strip, as many strips as are chosen. Heater 500 W near the panel against frost where the design minimum is 0 °C or
 * lower; where the person wants the box or its panel end heated, 1500 W, or 2000 W in a box longer than 20 ft. Fan 60 W where the
 * design maximum is 25 °C or higher, or not told. Controls 20 W all day. The receptacle is counted as 180 W.
 * @source lights 40–100 W, heater 500–2000 W, fan 20–100 W, controls 20 W; 180 W a strap. Provenance: common practice
 */
export function ownLoads(
  box: Pick<BoxWanted, 'lengthFt' | 'heatedC'>,
  site: Pick<Site, 'designMinC' | 'designMaxC'>,
  strips: number,
): readonly OwnLoad[] {
  const long = box.lengthFt > 20
  const loads: OwnLoad[] = [
    {
      own: 'light',
      powerW: strips * stripW(),
      powerFactorFrac: 0.9,
      fromH: 17,
      hoursPerDay: 2,
      said: `${strips} sealed strips of ${stripW()} W`,
      rests: HOUSE,
    },
  ]
  if (box.heatedC !== null) {
    const powerW = long ? 2000 : 1500
    loads.push({
      own: 'heater',
      powerW,
      powerFactorFrac: 1,
      fromH: 0,
      hoursPerDay: 24,
      said: `heater ${powerW} W on a thermostat, the box or its panel end kept warm`,
      rests: HOUSE,
    })
  } else if (site.designMinC === null || site.designMinC <= 0) {
    loads.push({
      own: 'heater',
      powerW: 500,
      powerFactorFrac: 1,
      fromH: 0,
      hoursPerDay: 24,
      said: 'heater 500 W near the panel against frost',
      rests: HOUSE,
    })
  }
  if (site.designMaxC === null || site.designMaxC >= 25) {
    loads.push({ own: 'fan', powerW: 60, powerFactorFrac: 0.65, fromH: 10, hoursPerDay: 8, said: 'fan 60 W', rests: HOUSE })
  }
  loads.push({
    own: 'control',
    powerW: 20,
    powerFactorFrac: 0.9,
    fromH: 0,
    hoursPerDay: 24,
    said: 'thermostats, clock and contactor coils 20 W',
    rests: HOUSE,
  })
  loads.push({
    own: 'receptacle',
    powerW: 180,
    powerFactorFrac: 1,
    fromH: 8,
    hoursPerDay: 1,
    said: 'one service receptacle, counted as 180 W',
    rests: HOUSE,
  })
  return loads
}
