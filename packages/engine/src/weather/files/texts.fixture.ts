import { dewC, saturationOverLiquidPa } from '../saturation.ts'
import type { WeatherHours } from '../types.ts'

/** The same hours written in each form that is read: what is read back is laid beside what was written. */
export const WRITERS = { epw, tmy3, tmy2, pvgis, plain } as const
export type Writer = keyof typeof WRITERS

const DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
const two = (n: number) => String(n).padStart(2, '0')

/** Month and day of a day (from 1) of a year of 365. */
export function monthDay(day: number): readonly [month: number, day: number] {
  let left = day
  for (const [m, days] of DAYS.entries()) {
    if (left <= days) return [m + 1, left]
    left -= days
  }
  return [12, 31]
}

interface Row {
  readonly month: number
  readonly day: number
  readonly hour: number
  readonly t: number
  readonly dew: number
  readonly rh: number
  readonly p: number
  readonly wind: number
  readonly from: number
  readonly cloud: number
  readonly ghi: number
  readonly dni: number
  readonly dhi: number
}

/** Hour by hour as a station would print it: the hour is the one that the row covers, 0 to 23. */
export function rowsOf(hours: WeatherHours): readonly Row[] {
  const of = (name: keyof WeatherHours['columns'], i: number) => hours.columns[name]?.[i] ?? 0
  return Array.from({ length: hours.hoursCount }, (_, i) => {
    const at = (hours.firstDay - 1) * 24 + hours.firstHour + i
    const [month, day] = monthDay(Math.floor(at / 24) + 1)
    const t = of('airC', i)
    const vapour = Math.min(of('vapourPa', i), saturationOverLiquidPa(t))
    const wind = of('windMPerS', i)
    return {
      ...{ month, day, hour: at % 24, t, dew: dewC(vapour), rh: (100 * vapour) / saturationOverLiquidPa(t) },
      ...{ p: of('pressurePa', i), wind, from: Number.isNaN(of('windFromDeg', i)) ? 0 : of('windFromDeg', i) },
      cloud: of('cloudFrac', i),
      ...{ ghi: of('globalWPerM2', i), dni: of('beamWPerM2', i), dhi: of('diffuseWPerM2', i) },
    }
  })
}

function epw(hours: WeatherHours): string {
  const { place } = hours
  const head = [
    `LOCATION,Made place,-,XXX,made,000000,${place.latitudeDeg},${place.longitudeDeg},${place.utcOffsetH},${place.elevationM}`,
    ...['DESIGN CONDITIONS,0', 'TYPICAL/EXTREME PERIODS,0', 'GROUND TEMPERATURES,0', 'HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0'],
    ...['COMMENTS 1,made', 'COMMENTS 2,', 'DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31'],
  ]
  const rows = rowsOf(hours).map((r) =>
    [
      ...[2001, r.month, r.day, r.hour + 1, 0, '?9', r.t.toFixed(1), r.dew.toFixed(1), Math.round(r.rh), Math.round(r.p)],
      ...[9999, 9999, 9999, Math.round(r.ghi), Math.round(r.dni), Math.round(r.dhi), 999999, 999999, 999999, 9999],
      ...[Math.round(r.from), r.wind.toFixed(1), Math.round(10 * r.cloud), Math.round(10 * r.cloud), 777.7, 77777, 9],
      ...[999999999, 999, 0.1, 0, 88, 0.2, 0, 1],
    ].join(','),
  )
  return `${[...head, ...rows].join('\n')}\n`
}

function tmy3(hours: WeatherHours): string {
  const { place } = hours
  const head = `000000,"MADE PLACE",XX,${place.utcOffsetH},${place.latitudeDeg},${place.longitudeDeg},${place.elevationM}`
  const headings = `Date (MM/DD/YYYY),Time (HH:MM)${',x'.repeat(66)}`
  const rows = rowsOf(hours).map((r) => {
    const cells = new Array<string | number>(68).fill(0)
    const set = (field: number, value: string | number) => {
      cells[field - 1] = value
    }
    set(1, `${two(r.month)}/${two(r.day)}/2001`)
    set(2, `${two(r.hour + 1)}:00`)
    for (const [field, value] of [
      ...[[5, Math.round(r.ghi)] as const, [8, Math.round(r.dni)] as const, [11, Math.round(r.dhi)] as const],
      ...[[26, Math.round(10 * r.cloud)] as const, [29, Math.round(10 * r.cloud)] as const, [32, r.t.toFixed(1)] as const],
      ...[[35, r.dew.toFixed(1)] as const, [38, Math.round(r.rh)] as const, [41, Math.round(r.p / 100)] as const],
      ...[[44, Math.round(r.from)] as const, [47, r.wind.toFixed(1)] as const, [65, 0] as const, [66, 1] as const],
    ])
      set(field, value)
    return cells.join(',')
  })
  return `${[head, headings, ...rows].join('\r\n')}\r\n`
}

function tmy2(hours: WeatherHours): string {
  const { place } = hours
  const angle = (deg: number, width: number) => {
    const size = Math.abs(deg)
    return `${String(Math.floor(size)).padStart(width)} ${String(Math.round((size % 1) * 60)).padStart(2)}`
  }
  const head = ` 00000 ${'MADE PLACE'.padEnd(22)} XX ${String(place.utcOffsetH).padStart(3)} ${place.latitudeDeg < 0 ? 'S' : 'N'} ${angle(place.latitudeDeg, 2)} ${place.longitudeDeg < 0 ? 'W' : 'E'} ${angle(place.longitudeDeg, 3)} ${String(place.elevationM).padStart(5)}`
  const number = (value: number, width: number) => {
    const text = String(Math.abs(Math.round(value)))
    return value < -0.5 ? `-${text.padStart(width - 1, '0')}` : text.padStart(width, '0')
  }
  const rows = rowsOf(hours).map((r) => {
    const light = [r.ghi, r.dni, r.dhi].map((v) => `${number(v, 4)}A5`).join('')
    const readings = `${number(10 * r.cloud, 2)}A7${number(10 * r.cloud, 2)}A7${number(10 * r.t, 4)}A7${number(10 * r.dew, 4)}A7${number(r.rh, 3)}A7${number(r.p / 100, 4)}A7${number(r.from, 3)}A7${number(10 * r.wind, 3)}A7`
    return ` 01${two(r.month)}${two(r.day)}${two(r.hour + 1)}00000000${light}${'0000?0'.repeat(4)}${readings}0161A777777A70999999999010F8050F8000A788E7`
  })
  return `${[head, ...rows].join('\n')}\n`
}

/** Its clock is UTC. Light is told a quarter of an hour after the stamp, as it is in the hour. */
function pvgis(hours: WeatherHours): string {
  const { place } = hours
  const all = rowsOf(hours)
  const head = [
    `Latitude (decimal degrees): ${place.latitudeDeg}`,
    // As far from the meridian of its clock as the place is: the rows stay where they are.
    `Longitude (decimal degrees): ${(place.longitudeDeg - 15 * place.utcOffsetH).toFixed(3)}`,
    `Elevation (m): ${place.elevationM}`,
    ...['Irradiance Time Offset (h): 0.25', 'month,year', ...DAYS.map((_, m) => `${m + 1},2001`)],
    'time(UTC),T2m,RH,G(h),Gb(n),Gd(h),IR(h),WS10m,WD10m,SP',
  ]
  const rows = all.map((r) =>
    [
      `2001${two(r.month)}${two(r.day)}:${two(r.hour)}00`,
      ...[r.t.toFixed(2), r.rh.toFixed(2), r.ghi.toFixed(1), r.dni.toFixed(1), r.dhi.toFixed(1), '300.0', r.wind.toFixed(2)],
      ...[r.from.toFixed(1), r.p.toFixed(1)],
    ].join(','),
  )
  return `${[...head, ...rows, '', 'T2m: 2-m air temperature (degree Celsius)'].join('\r\n')}\r\n`
}

export const PLAIN_MAPPING = `plugstead-weather-columns: 1
time: { column: time, stamp: beginning }
missing: ["NA"]
columns:
  air: { column: t (°C) }
  humidity: { column: rh (%) }
  pressure: { column: p (hPa) }
  wind: { column: wind (km/h) }
  wind-from: { column: from, unit: deg }
  level: { column: sun (W/m2) }
  cloud: { column: sky, unit: tenths }
`

function plain(hours: WeatherHours): string {
  const rows = rowsOf(hours).map((r) =>
    [
      `2001-${two(r.month)}-${two(r.day)} ${two(r.hour)}:00`,
      ...[
        r.t.toFixed(1),
        r.rh.toFixed(0),
        (r.p / 100).toFixed(1),
        (3.6 * r.wind).toFixed(0),
        r.from.toFixed(0),
        r.ghi.toFixed(0),
      ],
      (10 * r.cloud).toFixed(0),
    ].join(','),
  )
  return `${['time,t (°C),rh (%),p (hPa),wind (km/h),from,sun (W/m2),sky', ...rows].join('\n')}\n`
}
