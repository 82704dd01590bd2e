import type { WeatherPlace } from '../types.ts'
import { nameOf, numberOf } from './cells.ts'
import type { Gathered } from './problems.ts'

/** Ranges of a place on the ground. Lowest shore −430 m, highest station above 5000 m. */
const PLACE_PARTS = {
  latitude: { least: -90, most: 90, wanted: 'degrees north, −90 to 90' },
  longitude: { least: -180, most: 180, wanted: 'degrees east, −180 to 180' },
  height: { least: -450, most: 6000, wanted: 'metres over the sea, −450 to 6000' },
  clock: { least: -12, most: 14, wanted: 'hours ahead of UTC, −12 to 14' },
} as const
export type PlacePart = keyof typeof PLACE_PARTS

/** A part of the place as a number; a problem and NaN where it is none or lies outside the earth. */
export function placePart(found: Gathered, line: number | null, part: PlacePart, text: string): number {
  const { least, most, wanted } = PLACE_PARTS[part]
  const value = numberOf(text)
  if (value >= least && value <= most) return value
  if (Number.isNaN(value)) found.add(line, 'weather/header', part, text, wanted)
  else found.add(line, 'weather/place-range', part, text, wanted)
  return Number.NaN
}

export function placeOf(
  found: Gathered,
  line: number | null,
  told: {
    readonly name: string
    readonly latitude: string
    readonly longitude: string
    readonly height: string
    readonly clock: string
  },
): WeatherPlace {
  return {
    name: nameOf(told.name),
    latitudeDeg: placePart(found, line, 'latitude', told.latitude),
    longitudeDeg: placePart(found, line, 'longitude', told.longitude),
    elevationM: placePart(found, line, 'height', told.height),
    utcOffsetH: placePart(found, line, 'clock', told.clock),
  }
}
