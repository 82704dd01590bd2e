import { SIDES } from '../../job/index.ts'
import { dewOrFrostC, type WeatherHours } from '../../weather/index.ts'
import type { AirMoment, AirReason, DripEvent } from '../result.ts'
import type { BoxModel, YearRun } from '../year/types.ts'
import { SEEN_KG_PER_M2 } from './counts.ts'
import { clockAt, DAY_H, most, whenAt } from './hours.ts'

const FACES = 6
const ROOF = SIDES.indexOf('roof')
/** Dry air of a cubic metre near room temperature and sea level: for telling how often the air turns over, no more. */
const AIR_KG_PER_M3 = 1.2

interface Told {
  readonly model: BoxModel
  readonly run: YearRun
  readonly weather: WeatherHours
}

const at = (values: Float64Array | null, h: number): number => values?.[h] ?? Number.NaN
const roof = (series: Float64Array, h: number): number => series[h * FACES + ROOF] as number
const reason = (said: string, value: number | string, unit = ''): AirReason => ({ said, value, unit })
/** “… below that air by 6.2 K”, or over it. */
const overOrUnder = (what: string, overK: number): readonly AirReason[] =>
  known(`${what} ${overK < 0 ? 'below' : 'over'} that air by`, Math.abs(overK), 'K')
const known = (said: string, value: number, unit: string): readonly AirReason[] =>
  Number.isFinite(value) ? [reason(said, value, unit)] : []

/** Hours in which the most hung under the roof: before the largest fall of it, or the most there was. Null: it stayed dry. */
function wettest(run: YearRun, events: readonly DripEvent[]): { readonly atH: number; readonly event: DripEvent | null } | null {
  const fell = events.filter((e) => e.side === 'roof')
  const harm = (e: DripEvent) => e.on.filter((o) => !o.hooded).reduce((s, o) => s + o.landsKg, 0)
  const event = [...fell].sort((a, b) => harm(b) - harm(a) || b.fellKg - a.fellKg || a.atH - b.atH)[0] ?? null
  const [from, to] = event === null ? [0, run.hoursCount] : [Math.max(0, event.atH - DAY_H), event.atH + event.hoursCount]
  let peak = from
  for (let h = from; h < to; h += 1) if (roof(run.series.filmKgPerM2, h) > roof(run.series.filmKgPerM2, peak)) peak = h
  return roof(run.series.filmKgPerM2, peak) > SEEN_KG_PER_M2 ? { atH: peak, event } : null
}

/** Less light than this is night. */
const DARK_W_PER_M2 = 5

/** Since when the roof has not been dry, and on how many nights since then water or frost grew on it. */
function since(
  run: YearRun,
  peak: number,
  sun: Float64Array | null,
): { readonly fromH: number; readonly nights: number; readonly growsAtH: number; readonly byNight: boolean } {
  const film = run.series.filmKgPerM2
  let from = peak
  while (from > 0 && roof(film, from - 1) > SEEN_KG_PER_M2) from -= 1
  const nights = new Set<number>()
  for (let h = Math.max(from, 1); h <= peak; h += 1) {
    const grew = roof(film, h) - roof(film, h - 1)
    if (grew > SEEN_KG_PER_M2 / 5) nights.add(Math.floor((h + DAY_H / 2) / DAY_H))
  }
  // The hour in which most grew; one of the night where as much as half of that grew there, for by day the sun hides the reason.
  const none = { atH: peak, grew: Number.NEGATIVE_INFINITY }
  let [any, dark] = [none, none]
  for (let h = Math.max(from, 1); h <= peak; h += 1) {
    const grew = roof(film, h) - roof(film, h - 1)
    if (grew > any.grew) any = { atH: h, grew }
    if (grew > dark.grew && isDark(sun, h)) dark = { atH: h, grew }
  }
  const grows = dark.grew >= any.grew / 2 ? dark : any
  return { fromH: from, nights: Math.max(1, nights.size), growsAtH: grows.atH, byNight: isDark(sun, grows.atH) }
}

const isDark = (sun: Float64Array | null, h: number): boolean => !((sun?.[h] ?? 0) > DARK_W_PER_M2)

/**
 * The night behind the most water under the roof, and how it came to it; where it gathered by day, as when wet boots come in, those hours,
 * named for what they are. Null: the roof stayed dry.
 */
export function worstNight({ model, run, weather }: Told, events: readonly DripEvent[]): AirMoment | null {
  const found = wettest(run, events)
  if (found === null) return null
  const { series } = run
  const { columns } = weather
  const { nights, growsAtH: h, byNight } = since(run, found.atH, columns.globalWPerM2)
  const outsideC = at(columns.airC, h)
  const roofC = roof(series.faceC, h)
  const dewC = dewOrFrostC(series.vapourPa[h] as number)
  const frost = roofC < 0
  const grewGPerM2 = h === 0 ? 0 : (roof(series.filmKgPerM2, h) - roof(series.filmKgPerM2, h - 1)) * 1000
  const thaw = frost ? thawAtH(run, found.atH) : null
  const { event } = found
  return {
    ...{ what: byNight ? 'worst night' : 'wettest hours', atH: h, when: whenAt(weather, h + 1) },
    steps: [
      ...known('cloud covers of the sky', at(columns.cloudFrac, h) * 100, '%'),
      ...known('wind', at(columns.windMPerS, h), 'm/s'),
      ...known('the air outside is at', outsideC, '°C'),
      ...overOrUnder('outer face of the roof', roof(series.outsideFaceC, h) - outsideC),
      reason('its underside is at', roofC, '°C'),
      ...broughtIn(model, weather, h),
      reason('the air inside is at', series.airC[h] as number, '°C'),
      reason('and holds a humidity of', Math.min(1, series.relativeFrac[h] as number) * 100, '%'),
      reason(frost ? 'so frost grows on what is colder than' : 'so dew settles on what is colder than', dewC, '°C'),
      reason('the underside is colder than that by', dewC - roofC, 'K'),
      reason(frost ? 'frost grows in this hour by' : 'dew grows in this hour by', grewGPerM2, 'g/m²'),
      reason('nights on which it grew since the roof was dry', nights, ''),
      reason('what hangs under the roof in the end', roof(series.filmKgPerM2, found.atH) * 1000, 'g/m²'),
      ...(thaw === null ? [] : [reason('it thaws from', whenAt(weather, thaw), '')]),
      ...(event === null
        ? [reason('none of it falls', 0, 'l')]
        : [
            reason(`from ${event.when} on it falls, in ${event.hoursCount} h`, event.fellKg, 'l'),
            ...event.on
              .filter((o) => o.landsKg > 0)
              .map((o) => reason(o.hooded ? `of it on the hood over ${o.id}` : `of it on ${o.id}`, o.landsKg, 'l')),
          ]),
      ...(model.fan === null ? [] : [reason('the fan ran in that hour', (series.fanWh[h] as number) > 0 ? 'yes' : 'no', '')]),
    ],
  }
}

/** Water that people bring in that hour, where they do. */
function broughtIn(model: BoxModel, weather: WeatherHours, h: number): readonly AirReason[] {
  const { month, hourH } = clockAt(weather, h)
  const gPerH = (model.waterKgS[month * DAY_H + Math.floor(hourH)] ?? 0) * 3600 * 1000
  return gPerH < 1 ? [] : [reason('boots, cords and breath bring in that hour', gPerH, 'g')]
}

/** First hour after the most there was in which the frost under the roof is less and its face stands at or above freezing. */
function thawAtH(run: YearRun, peak: number): number | null {
  for (let h = peak + 1; h < run.hoursCount; h += 1) {
    const melted = roof(run.series.frostKgPerM2, h) < roof(run.series.frostKgPerM2, h - 1)
    if (melted && roof(run.series.faceC, h) >= -0.01) return h
  }
  return null
}

/** The hour with the hottest air inside, and how it came to it. */
export function hottestHour(
  { model, run, weather }: Told,
  hotC: Float64Array,
  holds: (airC: number) => number | null,
): AirMoment {
  const { series } = run
  const { columns } = weather
  const { value: airC, atH: h } = most(series.airC)
  const outsideC = at(columns.airC, h)
  const holdsFrac = holds(hotC[h] as number)
  return {
    ...{ what: 'hottest hour', atH: h, when: whenAt(weather, h + 1) },
    steps: [
      ...known('the air outside is at', outsideC, '°C'),
      ...known('sun on the flat', at(columns.globalWPerM2, h), 'W/m²'),
      ...known('wind', at(columns.windMPerS, h), 'm/s'),
      reason('the outer face of the roof is at', roof(series.outsideFaceC, h), '°C'),
      reason('its underside is at', roof(series.faceC, h), '°C'),
      reason('the gear gives off', series.gearHeatWh[h] as number, 'W'),
      reason(
        'outside air turns the air inside over, times an hour',
        (series.inflowKg[h] as number) / (AIR_KG_PER_M3 * model.volumeM3),
        '',
      ),
      ...(model.fan === null ? [] : [reason('the fan ran in that hour', (series.fanWh[h] as number) > 0 ? 'yes' : 'no', '')]),
      reason('the air inside comes to', airC, '°C'),
      ...known('above the air outside by', airC - outsideC, 'K'),
      reason('air at the gear', hotC[h] as number, '°C'),
      ...(holdsFrac === null ? [] : [reason('a breaker still holds of its rating', holdsFrac * 100, '%')]),
    ],
  }
}
