import { cos, seeded, sin } from '../../kernel/index.ts'
import type { WeatherHours } from '../../weather/index.ts'
import { saturationPa } from '../../weather/index.ts'

/** Hours of an invented cold place with clear and clouded days, for tests: from the first of January, sun and air in step with day and season. */
export function sampleHours(hoursCount: number, meanC = -4): WeatherHours {
  const random = seeded(11)
  const column = () => new Float64Array(hoursCount)
  const [airC, vapourPa, windMPerS, windFromDeg, cloudFrac] = [column(), column(), column(), column(), column()]
  const [globalWPerM2, beamWPerM2, diffuseWPerM2] = [column(), column(), column()]
  let cloud = 0.5
  let front = 0
  for (let h = 0; h < hoursCount; h++) {
    const day = Math.floor(h / 24)
    if (h % 24 === 0) {
      cloud = Math.min(1, Math.max(0, random.next() * 1.4 - 0.2))
      front = 0.7 * front + 8 * (random.next() - 0.5)
    }
    const season = -cos((2 * Math.PI * (day - 15)) / 365)
    airC[h] = meanC + 14 * season + front - (2 + 5 * (1 - cloud)) * cos((2 * Math.PI * ((h % 24) - 2.5)) / 24)
    vapourPa[h] = saturationPa(airC[h]! - 1 - 3 * (1 - cloud)) * (0.9 + 0.1 * cloud)
    windMPerS[h] = Math.max(0, 2.5 + 2 * sin((2 * Math.PI * h) / 61) + 2 * (random.next() - 0.5))
    windFromDeg[h] = (200 + 70 * sin((2 * Math.PI * h) / 97) + 360) % 360
    cloudFrac[h] = cloud
    const dec = -0.409 * cos((2 * Math.PI * (day + 10)) / 365)
    const up = sin(0.87) * sin(dec) + cos(0.87) * cos(dec) * cos((2 * Math.PI * ((h % 24) + 0.5 - 12)) / 24)
    if (up > 0.02) {
      const clear = 1 - 0.9 * cloud
      beamWPerM2[h] = clear * 900 * (up / (up + 0.15))
      diffuseWPerM2[h] = (60 + 180 * cloud) * (up / (up + 0.1))
      globalWPerM2[h] = beamWPerM2[h]! * up + diffuseWPerM2[h]!
    }
  }
  return {
    place: { name: 'invented', latitudeDeg: 49.85, longitudeDeg: 0, elevationM: 300, utcOffsetH: 0 },
    firstDay: 1,
    firstHour: 0,
    year: null,
    hoursCount,
    readingAtH: 0,
    columns: {
      airC,
      vapourPa,
      pressurePa: null,
      windMPerS,
      windFromDeg,
      cloudFrac,
      snowM: null,
      globalWPerM2,
      beamWPerM2,
      diffuseWPerM2,
      infraredWPerM2: null,
      rainMm: null,
    },
    origins: {},
    lightSplit: false,
  }
}

/** Weather that stands still: no wind, no light, a sky as warm as the air, unless told otherwise by column. */
export function heldHours(
  hoursCount: number,
  of: Partial<Record<keyof WeatherHours['columns'], number>> & { airC: number },
): WeatherHours {
  const plain = sampleHours(hoursCount)
  const black = 5.670374e-8 * (of.airC + 273.15) ** 4
  const told = { windMPerS: 0, globalWPerM2: 0, beamWPerM2: 0, diffuseWPerM2: 0, infraredWPerM2: black, vapourPa: 100, ...of }
  const columns = Object.fromEntries(
    Object.entries(told).map(([name, value]) => [name, new Float64Array(hoursCount).fill(value)]),
  )
  return { ...plain, columns: { ...plain.columns, ...columns } }
}
