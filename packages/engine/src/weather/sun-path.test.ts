import { describe, expect, test } from 'vitest'
import { type Fault, seeded } from '../kernel/index.ts'
import {
  cosBetween,
  daysSince2000D,
  fillSunPath,
  hourAngleRad,
  litHours,
  newSunPath,
  type PathSpan,
  planeNormal,
  STAND_IN_YEAR,
  solarTimeH,
  sunOf,
  towardSun,
} from './index.ts'

const PLACES = [
  { latitudeDeg: 45.5, longitudeDeg: -73.6, utcOffsetH: -5 },
  { latitudeDeg: 67.4, longitudeDeg: 26.6, utcOffsetH: 2 },
  { latitudeDeg: 0.3, longitudeDeg: 179.5, utcOffsetH: 12 },
  { latitudeDeg: -33.9, longitudeDeg: 151.2, utcOffsetH: 10 },
  { latitudeDeg: 89.5, longitudeDeg: 0, utcOffsetH: 0 },
  // A clock far from the sun.
  { latitudeDeg: 43.8, longitudeDeg: 87.6, utcOffsetH: 8 },
]

/** The sun over a place by the clock, the long way. */
function direct(place: PathSpan['place'], year: number, day: number, clockH: number) {
  const sun = sunOf(daysSince2000D(year, day, clockH - place.utcOffsetH))
  const solarH = solarTimeH({ ...place, clockH, equationMin: sun.equationMin })
  return { sun, toward: towardSun({ ...place, declinationRad: sun.declinationRad, hourAngleRad: hourAngleRad(solarH) }) }
}

const pathOf = (span: PathSpan, count: number) => {
  const path = newSunPath(count)
  fillSunPath(path, span)
  return path
}

describe('the sun over a year of steps', () => {
  test.each(PLACES)('at $latitudeDeg°, fully lit steps point where the long way does, to 0.002°', (place) => {
    const path = pathOf({ place, year: null, firstDay: 1, firstHour: 0, stepH: 0.25 }, 35_040)
    let worst = 0
    let lit = 0
    for (let i = 0; i < path.stepsCount; i += 7) {
      if (path.litFrac[i] !== 1) continue
      lit += 1
      const { sun, toward } = direct(place, STAND_IN_YEAR, 1, (i + 0.5) / 4)
      const [e, n, u] = [
        path.eastRatio[i]! - toward.eastRatio,
        path.northRatio[i]! - toward.northRatio,
        path.upRatio[i]! - toward.upRatio,
      ]
      worst = Math.max(worst, Math.sqrt(e * e + n * n + u * u))
      expect(Math.abs(path.distanceRatio[i]! - sun.distanceRatio)).toBeLessThan(1e-5)
    }
    expect(lit).toBeGreaterThan(2000)
    expect((worst * 180) / Math.PI).toBeLessThan(0.002)
  })

  test.each(PLACES)(
    'at $latitudeDeg°, lit share, middle of the lit part and mean height are those of a plain sum over seconds',
    (place) => {
      const random = seeded(31)
      const path = pathOf({ place, year: 2012, firstDay: 1, firstHour: 0, stepH: 1 }, 8784)
      let partly = 0
      for (let i = 0; i < path.stepsCount; i++) {
        const edge = path.litFrac[i]! > 0 && path.litFrac[i]! < 1
        if (!edge && random.next() > 0.02) continue
        if (edge && random.next() > 0.3) continue
        const [pieces, lit] = [360, [] as number[]]
        let mean = 0
        for (let k = 0; k < pieces; k++) {
          const { upRatio } = direct(place, 2012, 1, i + (k + 0.5) / pieces).toward
          mean += Math.max(0, upRatio) / pieces
          if (upRatio > 0) lit.push(k)
        }
        expect(Math.abs(lit.length / pieces - path.litFrac[i]!), `step ${i}`).toBeLessThan(place.latitudeDeg > 80 ? 0.2 : 0.01)
        expect(Math.abs(mean - path.meanUpRatio[i]!), `step ${i}`).toBeLessThan(5e-5)
        const together = lit.length > 3 && lit[lit.length - 1]! - lit[0]! === lit.length - 1
        if (!edge || !together || place.latitudeDeg > 80) continue
        partly += 1
        const middle = direct(place, 2012, 1, i + (lit[0]! + lit[lit.length - 1]! + 1) / 2 / pieces).toward
        expect(Math.abs(middle.eastRatio - path.eastRatio[i]!), `step ${i}`).toBeLessThan(0.002)
        expect(Math.abs(middle.upRatio - path.upRatio[i]!), `step ${i}`).toBeLessThan(0.002)
      }
      if (Math.abs(place.latitudeDeg) < 80) expect(partly).toBeGreaterThan(50)
    },
  )

  test('hours of sun of a day are those between its rise and set', () => {
    for (const place of PLACES.slice(0, 4))
      for (let day = 1; day <= 365; day += 13) {
        const { riseH, setH, lit } = litHours({ place, year: 2003, day, horizonDeg: 0 })
        const path = pathOf({ place, year: 2003, firstDay: day, firstHour: 0, stepH: 0.25 }, 96)
        const hours = path.litFrac.reduce((sum, share) => sum + share / 4, 0)
        const wanted = lit === 'all' ? 24 : riseH === null || setH === null ? 0 : setH - riseH
        expect(Math.abs(hours - wanted), `${place.latitudeDeg} ${day}`).toBeLessThan(place.latitudeDeg > 66 ? 0.5 : 0.1)
      }
  })

  test('no sun under the horizon, none through polar night, all day at midnight sun', () => {
    const place = PLACES[1]!
    const path = pathOf({ place: { ...place, latitudeDeg: 75 }, year: 2014, firstDay: 350, firstHour: 0, stepH: 1 }, 240)
    expect(Math.max(...path.litFrac, ...path.upRatio, ...path.meanUpRatio)).toBe(0)
    const summer = pathOf({ place, year: 2014, firstDay: 170, firstHour: 0, stepH: 1 }, 72)
    expect(Math.min(...summer.litFrac)).toBe(1)
    expect(Math.min(...summer.upRatio)).toBeGreaterThan(0)
  })

  test('a short run that begins in the afternoon is a piece of the whole year', () => {
    const place = PLACES[0]!
    const year = pathOf({ place, year: 2003, firstDay: 1, firstHour: 0, stepH: 0.5 }, 17_520)
    const run = pathOf({ place, year: 2003, firstDay: 100, firstHour: 15, stepH: 0.5 }, 200)
    const from = (99 * 24 + 15) * 2
    for (let i = 0; i < 200; i++) {
      expect(run.upRatio[i]!).toBeCloseTo(year.upRatio[from + i]!, 9)
      expect(run.eastRatio[i]!).toBeCloseTo(year.eastRatio[from + i]!, 9)
    }
  })

  test('in the hour of sunrise a low wall to the east takes the sun of the lit part, not of the whole hour', () => {
    const place = PLACES[0]!
    const path = pathOf({ place, year: null, firstDay: 80, firstHour: 0, stepH: 1 }, 24)
    const i = path.litFrac.findIndex((share) => share > 0 && share < 1)
    const east = planeNormal({ slopeDeg: 90, facesDeg: 90 })
    const at = { eastRatio: path.eastRatio[i]!, northRatio: path.northRatio[i]!, upRatio: path.upRatio[i]! }
    expect(cosBetween(at, east)).toBeGreaterThan(0.9)
    expect(at.upRatio).toBeGreaterThan(0)
    expect(cosBetween(at, at)).toBeCloseTo(1, 6)
  })

  test('steps that do not make a whole day, and places off the earth, are refused', () => {
    const span = { place: PLACES[0]!, year: null, firstDay: 1, firstHour: 0, stepH: 1 }
    const codes = [
      { stepH: 0.7 },
      { stepH: 0 },
      { stepH: 12 },
      { place: { ...span.place, latitudeDeg: 95 } },
      { year: 1850 },
    ].map((change) => {
      try {
        pathOf({ ...span, ...change }, 24)
      } catch (thrown) {
        return (thrown as Fault).code
      }
      return 'nothing thrown'
    })
    expect(codes).toEqual(codes.map(() => 'weather/sun-range'))
  })
})
