import { describe, expect, test } from 'vitest'
import { type ClimateTold, climateFrom, madeYear, normalNamed, toldOfNormal, type WeatherHours } from '../../weather/index.ts'
import { surroundingsOf, yearOf } from '../year/index.ts'
import { sampleBox } from '../year/sample-boxes.ts'
import type { BoxModel, YearRun } from '../year/types.ts'

/**
 * What others measured in boxes and under roofs, beside the run of a box that is as theirs as far as they say. Made weather stands for theirs,
 * of which only the sunshine is told: an order of magnitude and a band are all that can be held.
 *
 * @source container handbook of the German insurers, 10.3.2 and 10.3.2.1: https://containerhandbuch.de/chb/scha/scha_10_03_02_01.html (read).
 * Two standard boxes of a seafaring university on the Baltic, one packed with bags of sawdust, one with packets of sugar; ten days at a time.
 * Class A: less than three hours of sun a day, low, several days with none; “mean highest overheating” 2.0 K. Class B: four to eight hours,
 * not every day; 5.2 K. Clear summer days: up to 20 K in the mean; above 50 °C in the upper part. Colour, month and wind are not told.
 * @source roofs at night: ASME IMECE 2013, V06AT07A024, abstract (read): 3 to 8 K below the air under a very clear sky
 * @source a storage operator's page (read; weak, no method): outside 20, 30, 40 °C, inside 30–45, 45–60, 55–70 °C
 */
const STEPS = { stepsPerHour: 4 }
const NO_MONTHS = new Float64Array(288)

/** A shut, unlit, unvented 20 ft box; `loaded` by a cargo that stores so much heat and leaves the air so much room. */
function shutBox(absorptance: number, loaded: { readonly heatJPerK: number } | null): BoxModel {
  const box = sampleBox()
  return {
    ...box,
    faces: box.faces.map((face) => ({ ...face, absorptanceFrac: absorptance })),
    openings: [],
    gearHeatW: NO_MONTHS,
    waterKgS: NO_MONTHS,
    doorOpenS: new Float64Array(24),
    // 45 m² of bags or packets meet the air at 5 W/m²K, films and radiation together; 10 m³ are left to the air. Common practice.
    ...(loaded === null
      ? { gear: { heatJPerK: 1000, toAirWPerK: 1, areaM2: 0.1 } }
      : { volumeM3: 10, gear: { heatJPerK: loaded.heatJPerK, toAirWPerK: 225, areaM2: 45 } }),
  }
}
/** What 45 m² of it store from day to day, ρ·c·√(aT/π)/√2: sawdust 200 kg/m³, 1.7 kJ/kgK, 0.06 W/mK; sugar 850, 1.25, 0.2. Common practice. */
const SAWDUST = { heatJPerK: 0.77e6 }
const SUGAR = { heatJPerK: 2.5e6 }

/** Coast of the Baltic at 54 N; monthly means from memory, rounded. */
const BALTIC: ClimateTold = {
  ...{ name: 'coast at 54 N', latitudeDeg: 54.2, longitudeDeg: 12.1, elevationM: 4, utcOffsetH: 1, over: 'liquid', dewC: null },
  meanC: [1.9, 2.2, 4.3, 8, 12.5, 16.3, 18.9, 18.8, 15.4, 10.8, 6.3, 3.3],
  rangeK: [4, 4.5, 5.5, 6.5, 7, 7, 7, 7, 6.5, 5.5, 4.5, 4],
  relativeFrac: [0.86, 0.84, 0.82, 0.79, 0.77, 0.77, 0.77, 0.77, 0.79, 0.82, 0.86, 0.87],
  windMPerS: [5, 4.7, 4.6, 4, 3.8, 3.8, 3.7, 3.6, 3.9, 4.4, 4.6, 4.9],
  sunKWhPerM2: [0.6, 1.2, 2.6, 4.5, 5.7, 5.9, 5.7, 4.8, 3.2, 1.7, 0.75, 0.45],
  ...{ spreadK: null, snowLies: null, coldC: null, hotC: null, winterFromDeg: null, windShape: null },
}

function yearAt(told: ClimateTold): WeatherHours {
  const found = climateFrom(told)
  if (!found.ok) throw new Error(found.missing.join())
  return madeYear(found.climate, { seed: 1, normal: true })
}
const runOf = (model: BoxModel, hours: WeatherHours): YearRun => yearOf(model, surroundingsOf(model, hours, STEPS))

interface Day {
  readonly sunshineH: number
  readonly outsideMostC: number
  readonly airMostC: number
  readonly roofMostC: number
  /** Highest of inside air less outside air. */
  readonly overMostK: number
}

const ROOF = 4
/** Sunshine as stations count it: hours with more than 120 W/m² of direct sun. @source WMO Guide to Instruments, chapter 8. Provenance: memory */
const SUNSHINE_W_PER_M2 = 120

function daysOf(hours: WeatherHours, { series }: YearRun): readonly Day[] {
  const outside = hours.columns.airC as Float64Array
  return Array.from({ length: 365 }, (_, d) => {
    const all = Array.from({ length: 24 }, (_, h) => d * 24 + h)
    const most = (of: (h: number) => number) => Math.max(...all.map(of))
    // Readings of the run stand at the end of the hour, those of the record at its beginning.
    const outsideAt = (h: number) => outside[Math.min(h + 1, 8759)] as number
    return {
      sunshineH: all.filter((h) => (hours.columns.beamWPerM2?.[h] as number) >= SUNSHINE_W_PER_M2).length,
      outsideMostC: most(outsideAt),
      airMostC: most((h) => series.airC[h] as number),
      roofMostC: most((h) => series.faceC[h * 6 + ROOF] as number),
      overMostK: most((h) => (series.airC[h] as number) - outsideAt(h)),
    }
  })
}
const mean = (all: readonly number[]): number => all.reduce((a, b) => a + b, 0) / all.length

/** Sun at noon on the middle day of ten, degrees. */
const noonDeg = (day: number): number => 90 - 54.2 - 23.45 * Math.cos((2 * Math.PI * (day + 15)) / 365)

function classesOf(days: readonly Day[]) {
  const tens = Array.from({ length: 36 }, (_, k) => ({ noon: noonDeg(k * 10), days: days.slice(k * 10, k * 10 + 10) }))
  const overOf = (fits: (ten: (typeof tens)[number], sunshineH: number, without: number) => boolean) => {
    const own = tens.filter((ten) =>
      fits(ten, mean(ten.days.map((d) => d.sunshineH)), ten.days.filter((d) => d.sunshineH === 0).length),
    )
    expect(own.length).toBeGreaterThan(2)
    return mean(own.flatMap((ten) => ten.days.map((d) => d.overMostK)))
  }
  return {
    aK: overOf(({ noon }, h, without) => h < 3 && noon < 25 && without >= 2),
    // “Weak effect”: the four to eight hours of a sun that stays below 40 degrees.
    bK: overOf(({ noon }, h, without) => h >= 4 && h <= 8 && noon < 40 && without >= 1),
  }
}

describe('closed boxes at 54 N, by sunshine (case box-heat-01, table box-observations)', () => {
  const hours = yearAt(BALTIC)
  const days = {
    darkSugar: daysOf(hours, runOf(shutBox(0.75, SUGAR), hours)),
    darkSawdust: daysOf(hours, runOf(shutBox(0.75, SAWDUST), hours)),
    lightSugar: daysOf(hours, runOf(shutBox(0.5, SUGAR), hours)),
    darkEmpty: daysOf(hours, runOf(shutBox(0.75, null), hours)),
  }
  const a = Object.fromEntries(Object.entries(days).map(([name, own]) => [name, classesOf(own)])) as Record<
    keyof typeof days,
    { readonly aK: number; readonly bK: number }
  >

  test('little sun: 2.0 K lie between a light box of sugar and a dark one of sawdust', () => {
    expect(a.lightSugar.aK).toBeLessThan(2)
    expect(a.darkSawdust.aK).toBeGreaterThan(2)
  })
  test('weak sun: 5.2 K lie between a light box of sugar and a dark one of sawdust', () => {
    expect(a.lightSugar.bK).toBeLessThan(5.2)
    expect(a.darkSawdust.bK).toBeGreaterThan(5.2)
  })
  test('a dark box of sugar is within the factor 1.5 of both', () => {
    for (const ratio of [a.darkSugar.aK / 2, a.darkSugar.bK / 5.2]) {
      expect(ratio).toBeGreaterThan(1 / 1.5)
      expect(ratio).toBeLessThan(1.5)
    }
  })
  test('not met: under a weak sun a dark box of sawdust lies more than 1.5 times as high, and an empty one more than twice', () => {
    // The boxes that were measured were packed; colour and wind are not told. An empty dark box answers the sun far more.
    expect(a.darkSawdust.bK / 5.2).toBeGreaterThan(1.5)
    expect(a.darkSawdust.bK / 5.2).toBeLessThan(2.2)
    expect(a.darkEmpty.bK / 5.2).toBeGreaterThan(2)
    expect(a.darkEmpty.bK / 5.2).toBeLessThan(3)
  })
  test('clear summer days: up to 20 K in the mean, and above 50 °C in the upper part', () => {
    const clear = (own: readonly Day[]) => own.slice(151, 243).filter((d) => d.sunshineH >= 12)
    expect(clear(days.darkSugar).length).toBeGreaterThan(20)
    expect(mean(clear(days.darkSawdust).map((d) => d.overMostK))).toBeGreaterThan(20 / 1.5)
    expect(mean(clear(days.darkSugar).map((d) => d.overMostK))).toBeGreaterThan(20 / 2)
    expect(mean(clear(days.darkEmpty).map((d) => d.overMostK))).toBeLessThan(20 * 1.5)
    // The run knows one air: what hangs under the roof lies between it and the sheet.
    const hottest = (of: (d: Day) => number) => Math.max(...days.darkSugar.map(of))
    expect(hottest((d) => d.airMostC)).toBeGreaterThan(40)
    expect(hottest((d) => d.airMostC)).toBeLessThan(57)
    expect(hottest((d) => d.roofMostC)).toBeGreaterThan(50)
  })
})

describe('a bare roof on clear calm nights (case roof-12)', () => {
  const miami = normalNamed('12839')
  if (miami === undefined) throw new Error('Miami is not in the table of normals')
  const hours = yearAt(toldOfNormal(miami))
  const run = runOf(shutBox(0.75, null), hours)
  const nights = Array.from({ length: 8759 }, (_, h) => h).filter(
    (h) =>
      hours.columns.globalWPerM2?.[h] === 0 &&
      hours.columns.globalWPerM2[h + 1] === 0 &&
      (hours.columns.cloudFrac?.[h] as number) < 0.1,
  )
  const fallK = (h: number) => (hours.columns.airC?.[h + 1] as number) - (run.series.outsideFaceC[h * 6 + ROOF] as number)
  const calm = nights
    .filter((h) => (hours.columns.windMPerS?.[h] as number) < 2)
    .map(fallK)
    .sort((x, y) => x - y)

  test('falls 3 to 8 K below the air in nine of ten of them, in warm damp air', () => {
    expect(calm.length).toBeGreaterThan(50)
    expect(calm[Math.floor(calm.length * 0.05)]).toBeGreaterThan(3)
    expect(calm[Math.floor(calm.length * 0.95)]).toBeLessThan(8)
  })
  test('never more than 10 K with wind over 1 m/s', () => {
    const windy = nights.filter((h) => (hours.columns.windMPerS?.[h] as number) > 1)
    expect(windy.length).toBeGreaterThan(50)
    expect(Math.max(...windy.map(fallK))).toBeLessThan(10)
  })
})

describe('what a storage operator tells of its boxes (table box-observations; weak)', () => {
  const phoenix = normalNamed('722780')
  if (phoenix === undefined) throw new Error('Phoenix is not in the table of normals')
  const hours = yearAt(toldOfNormal(phoenix))
  const days = daysOf(hours, runOf(shutBox(0.75, null), hours))
  test.each([
    [20, 30, 45],
    [30, 45, 60],
    [40, 55, 70],
  ])('outside %i °C on a sunny day: the air of an empty dark box is %i to %i °C', (outsideC, low, high) => {
    const own = days.filter((d) => Math.abs(d.outsideMostC - outsideC) < 1.5 && d.sunshineH >= 8)
    expect(own.length).toBeGreaterThan(3)
    const air = mean(own.map((d) => d.airMostC))
    expect(air).toBeGreaterThan(low)
    expect(air).toBeLessThan(high)
  })
})
