import { climateFrom, designYear, dewC, normalNamed, toldOfNormal } from '@plugstead/engine/weather'

const DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
const SATURATED_PCT = 100

export function madeYear() {
  const normal = normalNamed('Great Falls Intl Arpt, MT, USA')
  const climate = normal === undefined ? null : climateFrom(toldOfNormal(normal))
  if (climate?.ok !== true) throw new Error('no climate')
  return designYear(climate.climate)
}

/** The same year as a table of a station: degrees Fahrenheit, miles an hour, the time of the end of each hour, cells of its own for date and clock. */
export function hoursTable(): string {
  const { columns } = madeYear()
  const rows = (columns.airC ?? []).length
  const at = (name: keyof typeof columns, h: number): number => columns[name]?.[h] || 0
  const two = (n: number): string => String(n).padStart(2, '0')
  const lines = Array.from({ length: rows }, (_, h) => {
    const ends = new Date(Date.UTC(2001, 0, 1, h + 1))
    const air = at('airC', h)
    return [
      `${ends.getUTCFullYear()}-${two(ends.getUTCMonth() + 1)}-${two(ends.getUTCDate())}`,
      `${two(ends.getUTCHours())}:00`,
      ((air * 9) / 5 + 32).toFixed(2),
      ((Math.min(air, dewC(at('vapourPa', h))) * 9) / 5 + 32).toFixed(2),
      (at('pressurePa', h) / 100).toFixed(1),
      (at('windMPerS', h) / 0.44704).toFixed(2),
      Math.round(at('globalWPerM2', h)),
      'fair',
    ].join(';')
  })
  return `Station 7, made\nDate;Clock;Temp (°F);Dew Point;Pressure (hPa);Wind Spd (mph);Solar (W/m2);Sky\n${lines.join('\n')}\n`
}

/** A typical year in the form of design programs (EPW), made of published monthly means: for giving it to the app as a file. */
export function typicalYear(): string {
  const { place, columns } = madeYear()
  // Calm air comes from nowhere.
  const at = (name: keyof typeof columns, h: number): number => columns[name]?.[h] || 0
  const head = [
    `LOCATION,Made place,-,XXX,made,000000,${place.latitudeDeg},${place.longitudeDeg},${place.utcOffsetH},${place.elevationM}`,
    ...['DESIGN CONDITIONS,0', 'TYPICAL/EXTREME PERIODS,0', 'GROUND TEMPERATURES,0', 'HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0'],
    ...['COMMENTS 1,made', 'COMMENTS 2,', 'DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31'],
  ]
  const rows = DAYS.flatMap((days, month) => {
    const before = DAYS.slice(0, month).reduce((sum, n) => sum + n, 0)
    return Array.from({ length: days * 24 }, (_, i) => {
      const h = before * 24 + i
      const air = at('airC', h)
      const dew = Math.min(air, dewC(at('vapourPa', h)))
      // Magnus over water, near enough for a column that is only held against the others.
      const magnus = (c: number): number => Math.exp((17.62 * c) / (243.12 + c))
      const humidity = Math.min(SATURATED_PCT, Math.round((SATURATED_PCT * magnus(dew)) / magnus(air)))
      const cloud = Math.round(10 * at('cloudFrac', h))
      return [
        ...[2001, month + 1, Math.floor(i / 24) + 1, (i % 24) + 1, 0, '?9', air.toFixed(1), dew.toFixed(1), humidity],
        ...[Math.round(at('pressurePa', h)), 9999, 9999, 9999],
        ...(['globalWPerM2', 'beamWPerM2', 'diffuseWPerM2'] as const).map((name) => Math.round(at(name, h))),
        ...[999999, 999999, 999999, 9999, Math.round(at('windFromDeg', h)), at('windMPerS', h).toFixed(1), cloud, cloud],
        ...[777.7, 77777, 9, 999999999, 999, 0.1, 0, 88, 0.2, 0, 1],
      ].join(',')
    })
  })
  return `${[...head, ...rows].join('\n')}\n`
}
