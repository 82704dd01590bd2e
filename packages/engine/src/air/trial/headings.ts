import type { SensorPlace } from './log.ts'

/** What a heading says: a sensor's place and unit, as far as it says them. */
export interface HeadingRead {
  readonly place: SensorPlace
  readonly unit: 'C' | 'F' | '%' | null
  /** A unit that is none of these: mV, psi. */
  readonly oddUnit: string | null
}

const UNITS: readonly (readonly [RegExp, 'C' | 'F' | '%'])[] = [
  [/^(°|º|\uFFFD|deg\.?|degrees?)? ?(c|celsius)$/, 'C'],
  [/^(°|º|\uFFFD|deg\.?|degrees?)? ?(f|fahrenheit)$/, 'F'],
  [/^(% ?(rh|r\.h\.)?|pct|percent|rh ?%)$/, '%'],
]

/** `C`, `F` or `%` as loggers write them; null for anything else. */
export function unitOf(text: string): 'C' | 'F' | '%' | null {
  const plain = text.trim().toLowerCase()
  return UNITS.find(([pattern]) => pattern.test(plain))?.[1] ?? null
}

/** Its unit, in brackets, behind a comma, or at its end as °C, _C or %. */
function unitIn(heading: string): { readonly unit: HeadingRead['unit']; readonly odd: string | null } {
  const bracket = /[([]([^)\]]*)[)\]]/.exec(heading)
  const after = /,\s*([^,]+)$/.exec(heading)
  const end = /(?:[_ ]|(?=[°º\uFFFD%]))([°º\uFFFD]? ?[cf]|%)$/i.exec(heading.trim())
  for (const found of [bracket, after, end]) {
    const unit = found === null ? null : unitOf(found[1] as string)
    if (unit !== null) return { unit, odd: null }
  }
  return { unit: null, odd: bracket === null ? null : (bracket[1] as string) }
}

const HIGH = /\b(high|upper|top|ceiling height|under the roof)\b/
const LOW = /\b(low|lower|bottom|near the floor)\b/

/** What a heading says of a sensor inside the box; null when it is none that is known: outside air, battery, a serial number. */
export function headingRead(heading: string): HeadingRead | null {
  const words = heading.toLowerCase().replace(/[_\-/.]+/g, ' ')
  if (/\b(outside|outdoor|outer|ambient|external|battery|voltage|dew|event|serial)\b/.test(words)) return null
  const place = placeIn(words)
  if (place === null) return null
  const { unit, odd } = unitIn(heading)
  return { place, unit, oddUnit: odd }
}

function placeIn(words: string): SensorPlace | null {
  if (/\b(rh|humidity|r h)\b/.test(words)) return 'humidity'
  if (/\b(panel|panelboard|board|cabinet|enclosure|gear)\b/.test(words)) return 'panel'
  if (/\b(floor|plywood|deck)\b/.test(words) && !/\bair\b/.test(words)) return 'floor'
  if (/\b(roof|ceiling)\b/.test(words) && !/\bair\b/.test(words)) return 'roof'
  if (/\bwall\b/.test(words)) return 'wall'
  if (/\b(air|inside|indoor|room|interior)\b/.test(words))
    return HIGH.test(words) ? 'air high' : LOW.test(words) ? 'air low' : 'air'
  return null
}

/** Whether a heading is that of the time, the day, or the clock alone. */
export function timeHeading(heading: string): 'time' | 'date' | null {
  const words = heading
    .toLowerCase()
    .replace(/[([].*$|,.*$/g, '')
    .replace(/[_\-/.]+/g, ' ')
    .trim()
  if (
    /^(date ?time|date (and |& )?time|time ?stamp|time|clock|local time|standard time|utc|gmt|time (utc|gmt).*|logged at)$/.test(
      words,
    )
  )
    return 'time'
  return /^(date|day)$/.test(words) ? 'date' : null
}

/** Hours east of Greenwich that a time heading names: `Time (UTC)`, `Date Time, GMT-09:00`. Null: none. */
export function zoneInHeading(heading: string): number | null {
  const zone = /\b(?:utc|gmt)\b ?(?:([+\-−])(\d{1,2})(?::?(\d{2}))?)?/i.exec(heading)
  if (zone === null) return null
  if (zone[1] === undefined) return 0
  return (zone[1] === '+' ? 1 : -1) * (Number(zone[2]) + Number(zone[3] ?? 0) / 60)
}
