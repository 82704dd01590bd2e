import { woodMoisturePct } from '../water/index.ts'

/** Grid of humidity in balance with wood, over its water and temperature, for the hot loop: a 200th of dry mass by 10 K. */
export const WOOD_PER_UNIT = 200
export const WOOD_CONTENTS = 64
/** The handbook's curves are for these; outside they are held. */
export const WOOD_LOW_C = -1.1
export const WOOD_STEP_C = 10
export const WOOD_TEMPERATURES = 6
const WETTEST = 0.995
/** Rise of humidity per unit of water beyond saturation: wet wood gives off water and takes none. */
const BEYOND = 0.5

/** Water of wood in balance with air, kg per kg dry. */
export const woodWaterRatio = (relativeFrac: number, atC: number): number => woodMoisturePct(atC, relativeFrac) / 100

/** The curve turned round, by halving; beyond its wettest point it goes on straight. */
function humidityOf(waterRatio: number, atC: number): number {
  const full = woodWaterRatio(WETTEST, atC)
  if (waterRatio >= full) return WETTEST + (waterRatio - full) * BEYOND
  let low = 0
  let high = WETTEST
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2
    if (woodWaterRatio(middle, atC) < waterRatio) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/** Humidity at `content / 200` and `−1.1 + 10·temperature` °C: index `temperature * WOOD_CONTENTS + content`. */
export const WOOD_HUMIDITY: Float64Array = Float64Array.from({ length: WOOD_CONTENTS * WOOD_TEMPERATURES }, (_, i) =>
  humidityOf((i % WOOD_CONTENTS) / WOOD_PER_UNIT, WOOD_LOW_C + WOOD_STEP_C * Math.floor(i / WOOD_CONTENTS)),
)
