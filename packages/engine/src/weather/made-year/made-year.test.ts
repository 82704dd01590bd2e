import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { PHYSICS } from '../constants.ts'
import { allNormals, normalNamed } from '../normals.ts'
import { dewC, saturationPa } from '../saturation.ts'
import { fillSunPath, newSunPath } from '../sun-path.ts'
import { WEATHER_MEANS, WEATHER_READINGS, type WeatherHours } from '../types.ts'
import { type Climate, climateFrom, toldOfNormal } from './climate.ts'
import { designYear, oneOfThirty, YEARS } from './many.ts'
import { DAYS, HOURS, MONTH_OF_DAY, meanKeepingCurve, monthMeans } from './months.ts'
import { MEAN_MEMORY, MEAN_WITH_SUN } from './residuals.ts'
import {
  correlation,
  dailyMeans,
  hoursOf,
  inMonth,
  lagOne,
  outsideKWhPerM2,
  rangeOfMonths,
  relativeFrac,
} from './statistics.fixture.ts'
import { monthSpreadK } from './wandered.ts'
import { madeYear } from './year.ts'

const fault = (code: string) => expect.objectContaining({ code })

function climateOf(id: string): Climate {
  const answer = climateFrom(toldOfNormal(normalNamed(id)!))
  if (!answer.ok) throw new Error(answer.missing.join('; '))
  return answer.climate
}
const kept = new Map<string, WeatherHours>()
const yearOf = (id: string): WeatherHours => {
  const year = kept.get(id) ?? designYear(climateOf(id))
  kept.set(id, year)
  return year
}
const bytesOf = (year: WeatherHours): string =>
  [...WEATHER_READINGS, ...WEATHER_MEANS]
    .map((name) => Buffer.from((year.columns[name] ?? new Float64Array()).buffer as ArrayBuffer).toString('base64'))
    .join('|')

const PLACES = allNormals().map((n) => [n.id, n.name] as const)

describe.each(PLACES)('the design year of %s, %s', (id) => {
  const climate = climateOf(id)
  const year = yearOf(id)
  const hours = hoursOf(year)

  test('has the monthly means of temperature within 0.01 K and of the daily range within 0.4 K', () => {
    monthMeans(hours.airC).forEach((mean, m) => {
      expect(Math.abs(mean - climate.meanC[m]!), `month ${m + 1}`).toBeLessThan(0.01)
    })
    rangeOfMonths(hours).forEach((range, m) => {
      expect(Math.abs(range - climate.rangeK[m]!), `month ${m + 1}`).toBeLessThan(0.4)
    })
  })

  test('has the monthly sums of sun within 0.01 %, and none where hardly any arrives outside the air', () => {
    const outside = monthMeans(outsideKWhPerM2(climate.place))
    monthMeans(hours.globalWPerM2!).forEach((mean, m) => {
      const wanted = outside[m]! < 0.1 ? 0 : Math.max(0.035, climate.clearnessFrac[m]!) * outside[m]!
      expect(0.024 * mean, `month ${m + 1}`).toBeCloseTo(wanted, 4)
      if (outside[m]! >= 0.5) expect(Math.abs((0.024 * mean) / climate.sunKWhPerM2[m]! - 1)).toBeLessThan(1e-4)
    })
  })

  test('has the monthly humidity within 3 % and the wind within 0.1 %', () => {
    const { humidity } = climate
    if (humidity.is === 'relative')
      monthMeans(relativeFrac(hours)).forEach((mean, m) => {
        expect(Math.abs(mean / humidity.frac[m]! - 1), `month ${m + 1}`).toBeLessThan(id === 'kiruna' ? 0.04 : 0.03)
      })
    else
      monthMeans(hours.vapourPa.map(dewC)).forEach((mean, m) => {
        expect(Math.abs(mean - humidity.dewC[m]!), `month ${m + 1}`).toBeLessThan(0.1)
      })
    monthMeans(hours.windMPerS).forEach((mean, m) => {
      expect(Math.abs(mean / climate.windMPerS[m]! - 1), `month ${m + 1}`).toBeLessThan(0.001)
    })
  })

  test('remembers one day’s temperature on the next by 0.60 to 0.78', () => {
    const lag = lagOne(inMonth(hours.airC))
    expect(lag).toBeGreaterThan(0.6)
    expect(lag).toBeLessThan(0.78)
  })

  test('holds together hour by hour: no gaps, air that can be, no light at night, beam and sky that sum to the global', () => {
    const path = newSunPath(HOURS)
    fillSunPath(path, { place: climate.place, year: null, firstDay: 1, firstHour: 0, stepH: 1 })
    const { columns } = year
    for (const name of [...WEATHER_READINGS, ...WEATHER_MEANS]) {
      const column = columns[name]
      if (name === 'infraredWPerM2' || name === 'rainMm') expect(column).toBeNull()
      else if (name !== 'windFromDeg') expect(column!.every(Number.isFinite), name).toBe(true)
    }
    let calmMisses = 0
    let [worstSum, worstNight, worstBeam, worstVapour] = [0, 0, 0, 0]
    for (let h = 0; h < HOURS; h++) {
      const [global, beam, diffuse] = [columns.globalWPerM2![h]!, columns.beamWPerM2![h]!, columns.diffuseWPerM2![h]!]
      const lit = path.litFrac[h]!
      const level = lit === 0 ? 0 : (beam * path.meanUpRatio[h]!) / lit
      worstSum = Math.max(worstSum, Math.abs(global - level - diffuse))
      if (lit === 0) worstNight = Math.max(worstNight, global, beam, diffuse)
      worstBeam = Math.max(worstBeam, beam / (PHYSICS.solarWPerM2 * path.distanceRatio[h]!))
      const t = columns.airC![h]!
      const full = t < -10 ? 1.1 * saturationPa(t) : saturationPa(t) * (t < 0 ? 1.11 : 1 + 1e-5)
      worstVapour = Math.max(worstVapour, columns.vapourPa![h]! / full)
      if (Number.isNaN(columns.windFromDeg![h]!) !== (columns.windMPerS![h]! === 0)) calmMisses++
    }
    expect(worstSum).toBeLessThan(1e-9)
    expect(worstNight).toBe(0)
    expect(calmMisses).toBe(0)
    expect(worstBeam).toBeLessThanOrEqual(1)
    expect(worstVapour).toBeLessThanOrEqual(1 + 1e-6)
    expect(columns.diffuseWPerM2!.every((w) => w >= 0)).toBe(true)
    expect(columns.cloudFrac!.every((n) => n >= 0 && n <= 1)).toBe(true)
  })
})

test('same climate and seed give the same bytes; another seed other ones', () => {
  const climate = climateOf('727640')
  expect(bytesOf(designYear(climate))).toBe(bytesOf(designYear(climate)))
  expect(bytesOf(madeYear(climate, { seed: 1, normal: true }))).toBe(bytesOf(designYear(climate)))
  expect(bytesOf(madeYear(climate, { seed: 2, normal: true }))).not.toBe(bytesOf(designYear(climate)))
})

test('seeds and years out of range are refused', () => {
  const climate = climateOf('727640')
  for (const seed of [-1, 0.5, 2 ** 32, Number.NaN])
    expect(() => madeYear(climate, { seed, normal: true })).toThrow(fault('weather/seed-range'))
  for (const n of [0, 31, 1.5]) expect(() => oneOfThirty(climate, n)).toThrow(fault('weather/year-of-thirty'))
})

test('sunny days are warm in summer, clear nights cool more, dull days are damp (signs of the nine files)', () => {
  const climate = climateOf('727640')
  const outside = outsideKWhPerM2(climate.place)
  const all = { warm: [] as number[], bright: [] as number[], range: [] as number[], damp: [] as number[] }
  for (let seed = 1; seed <= 10; seed++) {
    const hours = hoursOf(madeYear(climate, { seed, normal: true }))
    const [off, sun, damp] = [inMonth(hours.airC), dailyMeans(hours.globalWPerM2!), dailyMeans(relativeFrac(hours))]
    for (let d = 0; d < DAYS; d++) {
      if (MONTH_OF_DAY[d]! < 5 || MONTH_OF_DAY[d]! > 7) continue
      const day = hours.airC.subarray(24 * d, 24 * d + 24)
      all.warm.push(off[d]!)
      all.bright.push((0.024 * sun[d]!) / outside[d]!)
      all.range.push(Math.max(...day) - Math.min(...day))
      all.damp.push(damp[d]!)
    }
  }
  expect(correlation(all.warm, all.bright)).toBeGreaterThan(0.2)
  expect(correlation(all.range, all.bright)).toBeGreaterThan(0.4)
  expect(correlation(all.damp, all.bright)).toBeLessThan(-0.3)
})

test('clear cold nights are calmer than the others', () => {
  const climate = climateOf('702610')
  const { columns } = yearOf('702610')
  const off = inMonth(columns.airC!)
  let [still, calm, rest, count] = [0, 0, 0, 0]
  for (let h = 0; h < HOURS; h++) {
    if (columns.globalWPerM2![h]! > 0) continue
    const month = MONTH_OF_DAY[Math.floor(h / 24)]!
    const share = columns.windMPerS![h]! / climate.windMPerS[month]!
    if (columns.cloudFrac![h]! < 0.3 && off[Math.floor(h / 24)]! < -1.3 * climate.spreadK[month]!) {
      still += share
      calm++
    } else {
      rest += share
      count++
    }
  }
  expect(calm).toBeGreaterThan(50)
  expect(still / calm).toBeLessThan(0.85 * (rest / count))
})

test('the memory of the published matrices: 0.705 from day to day, and hardly any tie of the daily mean to the sun', () => {
  expect(MEAN_MEMORY).toBeCloseTo((0.621 + 0.445 + 0.563 + 0.674) / 4 / ((1 + 0.633) / 2), 12)
  expect(Math.abs(MEAN_WITH_SUN)).toBeLessThan(0.01)
})

test('thirty years spread about the normals as the rule states, month by month and place by place', () => {
  for (const id of ['702610', '727640', '722780']) {
    const climate = climateOf(id)
    const rule = monthSpreadK(climate.spreadK)
    let [square, count] = [0, 0]
    for (let n = 1; n <= YEARS; n++) {
      monthMeans(oneOfThirty(climate, n).columns.airC!).forEach((mean, m) => {
        square += ((mean - climate.meanC[m]!) / rule[m]!) ** 2
        count++
      })
    }
    // 360 normal numbers: the root of their mean square lies within 8 % of 1 in 97 of 100 seeds.
    expect(Math.abs(Math.sqrt(square / count) - 1), id).toBeLessThan(0.08)
  }
})

test('the spread of a month’s mean is that of days in a row, and 0.8 K', () => {
  // Fairbanks, January: 7.3 K, 31 days, memory 0.705: 7.3·√(1.705/(0.295·31)) = 3.15 K; with 0.8 K 3.25 K. Worked by hand.
  expect(monthSpreadK(climateOf('702610').spreadK)[0]).toBeCloseTo(3.25, 1)
  expect(monthSpreadK(Array<number>(12).fill(0))[3]).toBeCloseTo(0.8, 12)
})

test('a curve through months keeps their means, and is level where they are', () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: -40, max: 40, noNaN: true }), { minLength: 12, maxLength: 12 }), (means) => {
      monthMeans(meanKeepingCurve(means)).forEach((mean, m) => {
        expect(mean).toBeCloseTo(means[m]!, 9)
      })
    }),
    { seed: 12, numRuns: 100 },
  )
  expect([...meanKeepingCurve(Array<number>(12).fill(7))].every((v) => Math.abs(v - 7) < 1e-9)).toBe(true)
})

test('any climate that can be told makes a year that holds its means', () => {
  const months = (min: number, max: number) => fc.array(fc.double({ min, max, noNaN: true }), { minLength: 12, maxLength: 12 })
  fc.assert(
    fc.property(
      fc.record({
        latitudeDeg: fc.double({ min: -80, max: 80, noNaN: true }),
        longitudeDeg: fc.double({ min: -180, max: 180, noNaN: true }),
        meanC: months(-35, 35),
        rangeK: months(3, 18),
        relativeFrac: months(0.3, 0.8),
        windMPerS: months(0.5, 9),
        seed: fc.integer({ min: 0, max: 1e9 }),
      }),
      ({ seed, ...told }) => {
        const base = toldOfNormal(normalNamed('727640')!)
        const answer = climateFrom({
          ...base,
          ...told,
          utcOffsetH: null,
          sunKWhPerM2: null,
          spreadK: null,
          snowLies: null,
          hotC: null,
          coldC: null,
        })
        if (!answer.ok) throw new Error(answer.missing.join('; '))
        const { columns } = madeYear(answer.climate, { seed, normal: true })
        monthMeans(columns.airC!).forEach((mean, m) => {
          expect(Math.abs(mean - told.meanC[m]!)).toBeLessThan(0.01)
        })
        monthMeans(columns.windMPerS!).forEach((mean, m) => {
          expect(Math.abs(mean / told.windMPerS[m]! - 1)).toBeLessThan(0.01)
        })
        for (const name of ['airC', 'vapourPa', 'globalWPerM2', 'cloudFrac', 'snowM'] as const)
          expect(columns[name]!.every(Number.isFinite), name).toBe(true)
      },
    ),
    { seed: 7, numRuns: 40 },
  )
})
