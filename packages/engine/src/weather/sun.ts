import { acos, atan, atan2, cos, exp, Fault, isLeapYear, log, sin, tan } from '../kernel/index.ts'
import { PHYSICS } from './constants.ts'
import { degOf, finite, radOf } from './shelf.ts'
import type { WeatherPlace } from './types.ts'

/** Where the sun stands among the stars and by the clock, seen from the middle of the earth. */
export interface Sun {
  /** North positive. */
  readonly declinationRad: number
  /** Sundial less mean clock. */
  readonly equationMin: number
  /** Square of mean distance over distance: what light outside the air is more than the solar constant. 0.967 to 1.034 */
  readonly distanceRatio: number
}

/** A year of no number (typical, made) is laid on this one, in the middle of the four years of a leap cycle: 0.1° of declination at most. */
export const STAND_IN_YEAR = 2001

/**
 * Days since noon of 1 January 2000, universal time. `day` 1 is 1 January; it and the hours may run on past their year.
 * @throws Fault `weather/sun-range` outside 1901 to 2099
 */
export function daysSince2000D(year: number, day: number, utcH: number): number {
  if (!(Number.isInteger(year) && year >= 1901 && year <= 2099 && Math.abs(day) <= 800 && Math.abs(utcH) <= 20_000)) {
    throw new Fault('weather/sun-range', { year, day, utcH })
  }
  // Every fourth year is a leap year from 1901 to 2099.
  return 365 * (year - 2000) + Math.ceil((year - 2000) / 4) + day - 1 + utcH / 24 - 0.5
}

/** Days in a year, 365 in the stand-in for none. */
export const daysInYearCount = (year: number | null): number => (year !== null && isLeapYear(year) ? 366 : 365)

/**
 * The sun by its mean elements, equation of the centre, aberration and nutation in one term each: 0.01° from 1901 to 2099, against the
 * full theory of the planets (tests). Difference of dynamic and universal time left out: 0.001°.
 * @throws Fault `weather/sun-range`
 * @source Meeus, Astronomical Algorithms, 2nd ed., ch. 25 (low accuracy) and 28.1, the form of NOAA's sheets. Provenance: memory
 */
export function sunOf(sinceD: number): Sun {
  if (!(Math.abs(sinceD) <= 36_600)) throw new Fault('weather/sun-range', sinceD)
  const t = sinceD / 36_525
  const meanLong = 280.46646 + t * (36_000.76983 + t * 0.0003032)
  const anomaly = radOf(357.52911 + t * (35_999.05029 - t * 0.0001537))
  const eccentricity = 0.016708634 - t * (0.000042037 + t * 0.0000001267)
  const centre =
    (1.914602 - t * (0.004817 + t * 0.000014)) * sin(anomaly) +
    (0.019993 - t * 0.000101) * sin(2 * anomaly) +
    0.000289 * sin(3 * anomaly)
  const node = radOf(125.04 - 1934.136 * t)
  const long = radOf(meanLong + centre - 0.00569 - 0.00478 * sin(node))
  const meanTilt = 23 + (26 + (21.448 - t * (46.815 + t * (0.00059 - t * 0.001813))) / 60) / 60
  const tilt = radOf(meanTilt + 0.00256 * cos(node))
  const sine = sin(tilt) * sin(long)
  const ascension = degOf(atan2(cos(tilt) * sin(long), cos(long)))
  // 28.1: nutation in longitude, 0.00478°, falls on the equinox too.
  const equationDeg = meanLong - 0.0057183 - ascension - 0.00478 * sin(node) * cos(tilt)
  const distance = (1.000001018 * (1 - eccentricity * eccentricity)) / (1 + eccentricity * cos(anomaly + radOf(centre)))
  return {
    declinationRad: atan(sine / Math.sqrt(1 - sine * sine)),
    equationMin: 4 * (equationDeg - 360 * Math.round(equationDeg / 360)),
    distanceRatio: 1 / (distance * distance),
  }
}

/**
 * The sun by the whole day of the year, for sums of textbooks: within 0.5° and a minute of the sun at noon (tests); never for hours of weather.
 * @throws Fault `weather/sun-range` unless 1 ≤ n ≤ 366
 * @source Spencer 1971, Search 2(5), four terms. Provenance: memory
 */
export function spencerSun(dayOfYear: number): Sun {
  if (!(dayOfYear >= 1 && dayOfYear < 367)) throw new Fault('weather/sun-range', dayOfYear)
  const b = (2 * Math.PI * (dayOfYear - 1)) / 365
  const [c1, s1, c2, s2, c3, s3] = [cos(b), sin(b), cos(2 * b), sin(2 * b), cos(3 * b), sin(3 * b)]
  return {
    declinationRad: 0.006918 - 0.399912 * c1 + 0.070257 * s1 - 0.006758 * c2 + 0.000907 * s2 - 0.002697 * c3 + 0.00148 * s3,
    equationMin: 229.2 * (0.000075 + 0.001868 * c1 - 0.032077 * s1 - 0.014615 * c2 - 0.04089 * s2),
    distanceRatio: 1.00011 + 0.034221 * c1 + 0.00128 * s1 + 0.000719 * c2 + 0.000077 * s2,
  }
}

/** δ = 23.45° sin(360°·(284 + n)/365), as worked examples take it. @throws Fault `weather/sun-range` @source Cooper 1969. Provenance: memory */
export function cooperDeclinationRad(dayOfYear: number): number {
  if (!(dayOfYear >= 1 && dayOfYear < 367)) throw new Fault('weather/sun-range', dayOfYear)
  return radOf(23.45) * sin((2 * Math.PI * (284 + dayOfYear)) / 365)
}

/** Time of the sundial: clock + (4·(longitude − 15·offset) + E)/60 h, longitude east positive. */
export const solarTimeH = (of: {
  readonly clockH: number
  readonly longitudeDeg: number
  readonly utcOffsetH: number
  readonly equationMin: number
}): number => of.clockH + (4 * (of.longitudeDeg - 15 * of.utcOffsetH) + of.equationMin) / 60

/** 15° an hour from solar noon, afternoon positive. */
export const hourAngleRad = (solarH: number): number => radOf(15 * (solarH - 12))

/** A direction as a vector of length one. */
export interface Toward {
  readonly eastRatio: number
  readonly northRatio: number
  readonly upRatio: number
}

/**
 * Towards the sun, from its declination and hour angle: up = sin L sin δ + cos L cos δ cos ω, north = cos L sin δ − sin L cos δ cos ω,
 * east = −cos δ sin ω. Below the horizon up is negative.
 * @throws Fault `weather/sun-range`
 */
export function towardSun(of: {
  readonly latitudeDeg: number
  readonly declinationRad: number
  readonly hourAngleRad: number
}): Toward {
  finite('sun-range', { ...of })
  if (Math.abs(of.latitudeDeg) > 90) throw new Fault('weather/sun-range', of)
  const [sinL, cosL] = [sin(radOf(of.latitudeDeg)), cos(radOf(of.latitudeDeg))]
  const [sinD, cosD] = [sin(of.declinationRad), cos(of.declinationRad)]
  const cosW = cos(of.hourAngleRad)
  return {
    eastRatio: -cosD * sin(of.hourAngleRad),
    northRatio: cosL * sinD - sinL * cosD * cosW,
    upRatio: sinL * sinD + cosL * cosD * cosW,
  }
}

/** Out of a plane: slope from level (0 looks up, 90 a wall), azimuth of what it faces, clockwise from true north. */
export function planeNormal(of: { readonly slopeDeg: number; readonly facesDeg: number }): Toward {
  finite('plane-range', of)
  const [slope, faces] = [radOf(of.slopeDeg), radOf(of.facesDeg)]
  return { eastRatio: sin(slope) * sin(faces), northRatio: sin(slope) * cos(faces), upRatio: cos(slope) }
}

/** Cosine of the angle between two directions: of incidence, for a plane's normal and the sun. Negative: the sun is behind the plane. */
export const cosBetween = (a: Toward, b: Toward): number =>
  a.eastRatio * b.eastRatio + a.northRatio * b.northRatio + a.upRatio * b.upRatio

/** Angle from straight up, and bearing clockwise from true north, 0 to 360. */
export function anglesOf(toward: Toward): { readonly zenithDeg: number; readonly azimuthDeg: number } {
  const level = Math.sqrt(toward.eastRatio * toward.eastRatio + toward.northRatio * toward.northRatio)
  const bearing = degOf(atan2(toward.eastRatio, toward.northRatio))
  return { zenithDeg: degOf(atan2(level, toward.upRatio)), azimuthDeg: bearing < 0 ? bearing + 360 : bearing }
}

/**
 * Half the day as an hour angle: cos ω = (sin a − sin L sin δ)/(cos L cos δ); π where the sun does not set, 0 where it does not rise.
 * `horizonDeg` a: height of the sun's middle that counts as rising: 0 for light on planes, −0.833 for what the eye and almanacs call sunrise.
 * @throws Fault `weather/sun-range`
 */
export function setHourAngleRad(of: {
  readonly latitudeDeg: number
  readonly declinationRad: number
  readonly horizonDeg: number
}): number {
  finite('sun-range', of)
  const lat = radOf(of.latitudeDeg)
  const c = (sin(radOf(of.horizonDeg)) - sin(lat) * sin(of.declinationRad)) / (cos(lat) * cos(of.declinationRad))
  return c <= -1 ? Math.PI : c >= 1 ? 0 : acos(c)
}

/** A day's light by the clock. `lit`: part of the day, all of it (midnight sun) or none (polar night); then rise and set are null. */
export interface LitHours {
  readonly lit: 'part' | 'all' | 'none'
  readonly riseH: number | null
  readonly noonH: number
  readonly setH: number | null
}

/** Rounds of the search for rise and set: the sun of the last round's hour; each round leaves a hundredth of the error of the one before. */
const ROUNDS = 4

/**
 * Hours by the clock of rise, highest sun and set of one day: 12 ∓ ω/15 less the sundial's lead, with the sun as it stands at that very hour.
 * Hours may lie before 0 or after 24 where the clock is far from the sun. `horizonDeg` as in `setHourAngleRad`. Where the day begins or
 * ends its midnight sun or polar night, noon decides.
 * @throws Fault `weather/sun-range`
 */
export function litHours(of: {
  readonly place: Pick<WeatherPlace, 'latitudeDeg' | 'longitudeDeg' | 'utcOffsetH'>
  readonly year: number | null
  readonly day: number
  readonly horizonDeg: number
}): LitHours {
  const { place, horizonDeg } = of
  const sunAt = (clockH: number) => sunOf(daysSince2000D(of.year ?? STAND_IN_YEAR, of.day, clockH - place.utcOffsetH))
  const half = (sun: Sun) => setHourAngleRad({ latitudeDeg: place.latitudeDeg, declinationRad: sun.declinationRad, horizonDeg })
  const crossing = (side: -1 | 0 | 1): number => {
    let clockH = 12
    for (let round = 0; round < ROUNDS; round++) {
      const sun = sunAt(clockH)
      const leadH = solarTimeH({ ...place, clockH: 0, equationMin: sun.equationMin })
      clockH = 12 + (side * half(sun) * 12) / Math.PI - leadH
    }
    return clockH
  }
  const noonH = crossing(0)
  const atNoon = half(sunAt(noonH))
  if (atNoon === 0 || atNoon === Math.PI) return { lit: atNoon === 0 ? 'none' : 'all', riseH: null, noonH, setH: null }
  return { lit: 'part', riseH: crossing(-1), noonH, setH: crossing(1) }
}

/** What the air lifts the sun by, degrees, from −1° up; 0 below. @source NREL/TP-560-34302, eq. 42 (after Bennett). Provenance: memory */
export function refractionDeg(of: { readonly altitudeDeg: number; readonly pressurePa: number; readonly airC: number }): number {
  finite('sun-range', of)
  if (of.altitudeDeg < -1) return 0
  const path = 60 * tan(radOf(of.altitudeDeg + 10.3 / (of.altitudeDeg + 5.11)))
  return ((of.pressurePa / 101_000) * (283 / (273 + of.airC)) * 1.02) / path
}

/** Light outside the air on a plane that faces the sun. `solarWPerM2`: 1361 today, 1367 in older books. */
export const outsideWPerM2 = (distanceRatio: number, solarWPerM2: number = PHYSICS.solarWPerM2): number =>
  solarWPerM2 * distanceRatio

/**
 * Light outside the air on a level square metre between two hour angles: (12·3600/π)·G₀·[cos L cos δ (sin ω₂ − sin ω₁) + (ω₂ − ω₁) sin L sin δ].
 * Where the sun is down it counts as nothing, at the part of the span that is lit; ω within −π to π.
 * @throws Fault `weather/sun-range`
 */
export function outsideLevelJPerM2(of: {
  readonly latitudeDeg: number
  readonly declinationRad: number
  readonly outsideWPerM2: number
  readonly fromRad: number
  readonly toRad: number
}): number {
  finite('sun-range', of)
  const set = setHourAngleRad({ latitudeDeg: of.latitudeDeg, declinationRad: of.declinationRad, horizonDeg: 0 })
  const from = Math.max(of.fromRad, -set)
  const to = Math.min(of.toRad, set)
  if (to <= from) return 0
  const lat = radOf(of.latitudeDeg)
  const swing = cos(lat) * cos(of.declinationRad) * (sin(to) - sin(from))
  return ((12 * 3600) / Math.PI) * of.outsideWPerM2 * (swing + (to - from) * sin(lat) * sin(of.declinationRad))
}

/**
 * Length of the light's way through the air, of that straight down: 1/(cos z + 0.50572·(96.07995 − z)^−1.6364). 1 to 38; with the sun at
 * or under the horizon: that at the horizon.
 * @source Kasten & Young 1989, Applied Optics 28. Provenance: memory
 */
export function airMassRatio(zenithDeg: number): number {
  const z = Math.min(Math.max(zenithDeg, 0), 90)
  return 1 / (cos(radOf(z)) + 0.50572 * exp(-1.6364 * log(96.07995 - z)))
}
