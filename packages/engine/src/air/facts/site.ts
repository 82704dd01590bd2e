import { type ClimateFacts, type Job, UNTOLD_CLIMATE, writtenOffsetH } from '../../job/index.ts'
import type { WeatherPlace } from '../../weather/index.ts'
import { type AirNote, type Noticed, noticed } from './note.ts'

export type AirSiteJob = Pick<Job, 'boxes' | 'climate' | 'yard' | 'site'>

/** Where the box stands, as the sun and the wind see it. */
export interface AirSite {
  /** Null where latitude or longitude is not told: no sun can be counted. */
  readonly place: WeatherPlace | null
  readonly terrain: 'open' | 'country' | 'town'
  readonly groundSurface: string
}

const HOUR_DEG = 15

/** Place, terrain and ground of a job; what is taken where nobody said is said. */
export function airSiteOf(job: AirSiteJob): Noticed<AirSite> {
  const climate = job.climate ?? UNTOLD_CLIMATE
  const place = placeOf(climate, job.site.place)
  const terrain = terrainOf(climate.kind)
  const ground = groundOf(job.yard.ground.surface)
  return noticed(
    { place: place.value, terrain: terrain.value, groundSurface: ground.value },
    ...place.notes,
    ...terrain.notes,
    ...ground.notes,
  )
}

function placeOf(climate: ClimateFacts, name: string): Noticed<WeatherPlace | null> {
  const { latitudeDeg, longitudeDeg, elevationM, timeZone } = climate
  const notes: AirNote[] = []
  const lacks = (key: string, said: string, mend: string) =>
    notes.push({ kind: 'missing', path: `facts.site.${key}`, said, source: '', mend })
  if (latitudeDeg === null)
    lacks('latitude', 'Nobody has said the latitude: the sun cannot be counted.', 'Write for example “47.5 deg”.')
  if (longitudeDeg === null)
    lacks(
      'longitude',
      'Nobody has said the longitude: the sun cannot be counted.',
      'Write for example “-114.6 deg”; west is negative.',
    )
  if (latitudeDeg === null || longitudeDeg === null) return noticed(null, ...notes)
  const written = writtenOffsetH(timeZone)
  const byLongitudeH = Math.round(longitudeDeg / HOUR_DEG) || 0
  if (written === null)
    notes.push({
      ...{ kind: 'assumed', path: 'facts.site.time-zone' },
      said: `clocks run ${byLongitudeH} h from UTC, by the longitude${timeZone === null ? '' : `; of “${timeZone}” the offset is not written`}`,
      source: 'one hour for 15 degrees; common practice',
      mend: 'Write it as an offset, for example “UTC-7”.',
    })
  if (elevationM === null)
    notes.push({
      ...{ kind: 'assumed', path: 'facts.site.elevation', said: 'the site lies at the height of the sea' },
      ...{ source: 'nobody said; the air of a higher place is thinner', mend: 'Write for example “2450 m”.' },
    })
  return noticed({ name, latitudeDeg, longitudeDeg, elevationM: elevationM ?? 0, utcOffsetH: written ?? byLongitudeH }, ...notes)
}

const TERRAINS: readonly (readonly [RegExp, AirSite['terrain']])[] = [
  [/\b(town|city|street|suburb|built-up|industrial|wood(ed|land|s)?|forest)\b/i, 'town'],
  [/\b(open|air(strip|port|field)|shore|coast|quay|ice|desert|hill(top)?|ridge|plain|tundra)\b/i, 'open'],
  [/\b(country|farm|fields?|hedges?|yard)\b/i, 'country'],
]

function terrainOf(kind: string | null): Noticed<AirSite['terrain']> {
  const named = kind === null ? undefined : TERRAINS.find(([words]) => words.test(kind))
  if (named !== undefined) return noticed(named[1])
  return noticed('country', {
    ...{ kind: 'assumed', path: 'facts.site.kind', said: 'the wind comes over country with a few obstacles' },
    ...{
      source: 'between open and town; common practice',
      mend: 'Write what kind of place it is, for example “open shore” or “town”.',
    },
  })
}

/** Ground by its first word that is known, as rows of table `ground-reflectance`. */
const GROUNDS: readonly (readonly [RegExp, string])[] = [
  [/\b(snow|ice)\b/i, 'snow (settled)'],
  [/\basphalt|tarmac|blacktop\b/i, 'asphalt'],
  [/\b(concrete|slab|quay)\b/i, 'concrete'],
  [/\bsand\b/i, 'sand'],
  [/\b(grass|turf|meadow)\b/i, 'grass'],
  [/\b(gravel|rock|stone|fill|till|soil|earth|mats|rubble|fines|clay|loam)\b/i, 'bare soil'],
]

const GROUND_UNTOLD = 'bare soil'

function groundOf(surface: string | null): Noticed<string> {
  const words = surface ?? ''
  const hits = GROUNDS.flatMap(([pattern, row]) => {
    const at = words.search(pattern)
    return at < 0 ? [] : [{ at, row }]
  }).toSorted((a, b) => a.at - b.at)
  if (hits[0] !== undefined) return noticed(hits[0].row)
  return noticed(GROUND_UNTOLD, {
    ...{ kind: surface === null ? 'assumed' : 'unread', path: 'facts.site.ground.surface' },
    said:
      surface === null
        ? 'the ground throws back the sun like firm gravel'
        : `What it stands on, “${surface}”, names no ground whose brightness is known; it is taken as bare soil.`,
    source: 'table ground-reflectance, bare soil',
    mend: 'Write for example “gravel”, “concrete”, “asphalt”, “grass” or “sand”.',
  })
}
