/** Water in wood in balance with air, of its dry mass: grid of humidity over water content and temperature for the hot loop. */
export const WOOD_PER_UNIT = 200
export const WOOD_CONTENTS = 64
export const WOOD_LOW_C = -40
export const WOOD_STEP_C = 10
export const WOOD_TEMPERATURES = 11

/**
 * Water content of wood in balance with air, kg per kg dry; temperature held to −40 to 60 °C.
 * @source Forest Products Laboratory, Wood Handbook FPL-GTR-190, eq. 4-5
 */
export function woodWaterRatio(relativeFrac: number, atC: number): number {
  const t = Math.min(Math.max(atC, -40), 60)
  const w = 349 + t * (1.29 + 0.0135 * t)
  const k = 0.805 + t * (0.000736 - 0.00000273 * t)
  const k1 = 6.27 + t * (-0.00938 - 0.000303 * t)
  const k2 = 1.91 + t * (0.0407 - 0.000293 * t)
  const kh = k * relativeFrac
  const kk = k1 * k2 * kh * kh
  return (18 / w) * (kh / (1 - kh) + (k1 * kh + 2 * kk) / (1 + k1 * kh + kk))
}

/** The humidity in balance, by halving; beyond saturation it goes on straight, so that wet wood gives off water and takes none. */
export function woodHumidityFrac(waterRatio: number, atC: number): number {
  const full = woodWaterRatio(1, atC)
  if (waterRatio >= full) return 1 + (waterRatio - full) * 0.5
  let low = 0
  let high = 1
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2
    if (woodWaterRatio(middle, atC) < waterRatio) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/** Humidity at `content / 200` and `−40 + 10·temperature` °C: index `temperature * WOOD_CONTENTS + content`. */
export const WOOD_HUMIDITY: Float64Array = Float64Array.from({ length: WOOD_CONTENTS * WOOD_TEMPERATURES }, (_, i) =>
  woodHumidityFrac((i % WOOD_CONTENTS) / WOOD_PER_UNIT, WOOD_LOW_C + WOOD_STEP_C * Math.floor(i / WOOD_CONTENTS)),
)
