import { Fault } from '../../kernel/index.ts'

/** Water in the room's air when nothing changes any more, kg/kg: outside's plus source over flow of dry air. @throws Fault `air/room-range` */
export function steadyRatioKgPerKg(outsideKgPerKg: number, sourceKgS: number, dryAirKgS: number): number {
  if (!(outsideKgPerKg >= 0 && sourceKgS >= 0 && dryAirKgS > 0))
    throw new Fault('air/room-range', { outsideKgPerKg, sourceKgS, dryAirKgS })
  return outsideKgPerKg + sourceKgS / dryAirKgS
}

/** Air in a room from what an exchange over a time brought through, m³. @throws Fault `air/room-range` */
export function volumeOfExchangeM3(airM3: number, timeH: number, changesPerH: number): number {
  if (!(airM3 > 0 && timeH > 0 && changesPerH > 0)) throw new Fault('air/room-range', { airM3, timeH, changesPerH })
  return airM3 / (timeH * changesPerH)
}
