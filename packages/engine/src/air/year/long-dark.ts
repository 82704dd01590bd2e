import {
  clearSkyWPerM2,
  coverOfHumidityFrac,
  fillSunPath,
  LONG_DARK_H,
  newSunPath,
  relativeFrac,
  type WeatherHours,
} from '../../weather/index.ts'

/** Less light than this tells nothing of the cloud. @source common practice */
export const TELLS_W_PER_M2 = 60

/**
 * Opaque cover of the hours of a long dark, from the mean humidity of their day; NaN in all others. A long dark begins when for more than
 * `LONG_DARK_H` hours the sun stood too low to tell even without cloud, and ends with the first hour whose light tells. A dull day under a
 * sun that stands high enough is not dark.
 */
export function coverInLongDark(hours: WeatherHours): Float64Array {
  const { hoursCount, firstHour, place, year, firstDay } = hours
  const { airC, vapourPa, globalWPerM2 } = hours.columns
  const out = new Float64Array(hoursCount).fill(Number.NaN)
  const path = newSunPath(hoursCount)
  fillSunPath(path, { place, year, firstDay, firstHour, stepH: 1 })
  let darkH = 0
  let [day, cover] = [-1, Number.NaN]
  for (let h = 0; h < hoursCount; h++) {
    const long = darkH > LONG_DARK_H
    if (globalWPerM2![h]! > TELLS_W_PER_M2 || (!long && clearSkyWPerM2(path.upRatio[h]!) > TELLS_W_PER_M2)) darkH = 0
    else darkH++
    if (darkH <= LONG_DARK_H) continue
    const today = Math.floor((firstHour + h) / 24)
    if (today !== day) {
      const from = Math.max(0, 24 * today - firstHour)
      const to = Math.min(hoursCount, 24 * today + 24 - firstHour)
      let sum = 0
      for (let i = from; i < to; i++)
        sum += Math.min(1, relativeFrac({ airC: airC![i]!, vapourPa: vapourPa![i]!, over: 'liquid' }))
      day = today
      cover = coverOfHumidityFrac(sum / (to - from))
    }
    out[h] = cover
  }
  return out
}
