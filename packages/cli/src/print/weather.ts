import { formatNumber } from '@plugstead/engine/kernel'
import {
  type MonthBeside,
  type NormalNear,
  WEATHER_MEANS,
  WEATHER_READINGS,
  type WeatherFile,
  type WeatherNote,
  type WeatherSummary,
} from '@plugstead/engine/weather'
import { csvText } from './csv.ts'
import { table } from './table.ts'
import { wrapped } from './wrap.ts'

/** A weather file as a person reads it, within 80 columns. */
export function weatherText(file: WeatherFile, summary: WeatherSummary, near: NormalNear): string {
  return `${[
    headText(file),
    columnsText(summary),
    monthsText(summary, near),
    doneText(file),
    findingsText(file),
    refusedText(file),
  ]
    .filter((part) => part !== '')
    .join('\n\n')}\n`
}

function headText(file: WeatherFile): string {
  const { place, runs } = file
  const side = (value: number, plus: string, minus: string) => `${Math.abs(value).toFixed(2)}° ${value < 0 ? minus : plus}`
  const clock =
    place.utcOffsetH === 0
      ? 'UTC'
      : `${formatNumber(Math.abs(place.utcOffsetH))} h ${place.utcOffsetH < 0 ? 'behind' : 'ahead of'} UTC`
  const lines = [
    place.name === '' ? 'Place without a name' : place.name,
    `${side(place.latitudeDeg, 'north', 'south')}, ${side(place.longitudeDeg, 'east', 'west')}, ${Math.round(place.elevationM)} m, clock ${clock}`,
    `${file.formatWords.charAt(0).toUpperCase()}${file.formatWords.slice(1)}: ${file.hoursCount} hours`,
    `${file.typical ? 'Months from the years' : 'Years'} ${file.years.join(', ')}${runs.length > 1 ? `, ${runs.length} runs` : ''}`,
  ]
  return lines.map((line) => wrapped(line, { hang: 2 })).join('\n')
}

function columnsText(summary: WeatherSummary): string {
  const rows = summary.columns.map(({ what, mean, low, high, unit, from }) => {
    const scale = unit === '1' ? 100 : unit === 'Pa' && mean > 5000 ? 0.01 : 1
    const shown = unit === '1' ? '%' : scale === 0.01 ? 'hPa' : unit
    const digits = shown === '°C' || shown === 'm/s' ? 1 : shown === 'm' || shown === 'mm' ? 2 : 0
    const figure = (value: number) => (Number.isFinite(value) ? (value * scale).toFixed(digits) : '')
    return [what, figure(mean), figure(low), figure(high), shown, from]
  })
  const columns = [
    { head: 'column' },
    { head: 'mean', side: 'right' as const },
    { head: 'lowest', side: 'right' as const },
    { head: 'highest', side: 'right' as const },
    { head: 'unit' },
    { head: 'from' },
  ]
  const sums = [
    ...(summary.levelKWhPerM2 === null ? [] : [`Sun on the level: ${summary.levelKWhPerM2.toFixed(0)} kWh/m² a year.`]),
    ...(summary.wetH === null ? [] : [`Hours over 80 % and over freezing: ${Math.round(summary.wetH)} a year.`]),
  ]
  return [table(columns, rows), ...(sums.length === 0 ? [] : ['', wrapped(sums.join(' '))])].join('\n')
}

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']

function monthsText(summary: WeatherSummary, near: NormalNear): string {
  const figure = (value: number | null, digits: number) => (value === null ? '' : value.toFixed(digits))
  const row = (m: MonthBeside) => [
    MONTHS[m.month - 1] as string,
    ...[figure(m.airC, 1), figure(m.normalAirC, 1), figure(m.relativePct, 0), figure(m.normalRelativePct, 0)],
    ...[figure(m.windMPerS, 1), figure(m.normalWindMPerS, 1), figure(m.levelKWhPerM2, 2), figure(m.normalLevelKWhPerM2, 2)],
  ]
  const pair = (head: string) => [
    { head, side: 'right' as const },
    { head: 'normal', side: 'right' as const },
  ]
  const columns = [{ head: '' }, ...pair('air °C'), ...pair('humid %'), ...pair('wind m/s'), ...pair('kWh/m² d')]
  const head = wrapped(`Beside the nearest normal: ${near.said}.`)
  return `${head}\n\n${table(columns, summary.months.map(row))}`
}

const KIND_WORDS: Readonly<Record<WeatherNote['kind'], string>> = {
  taken: 'Taken',
  'worked out': 'Worked out',
  filled: 'Filled',
  'filled from the normals': 'Filled from the normals',
  'not known': 'Not known',
  dropped: 'Dropped',
  'not read': 'Note',
  default: 'Default',
}

function doneText(file: WeatherFile): string {
  const cold = file.cold
  const humidity =
    cold === null || cold.rowsCount === 0
      ? 'Humidity: no cold rows that tell over what it was taken; over liquid water, as stations do.'
      : `Humidity: ${cold.rowsCount} rows colder than −8 °C fit liquid water to ${cold.liquidPct.toFixed(2)} %, ice to ${cold.icePct.toFixed(2)} %; taken over ${cold.over === 'ice' ? 'ice' : 'liquid water'} below freezing.`
  const notes = file.notes.map(({ kind, what, count, said }) =>
    kind === 'not read'
      ? said
      : `${KIND_WORDS[kind]}: ${what}${count === 0 ? '' : `, ${count} ${what === 'rows' ? 'of them' : 'hours'}`}, ${said}.`,
  )
  return ['What was done', ...[humidity, ...notes].map((line) => wrapped(line, { indent: 2, hang: 4 }))].join('\n')
}

function findingsText(file: WeatherFile): string {
  const findings = file.findings.filter((finding) => finding.code !== 'weather/refused-for-air')
  if (findings.length === 0) return 'Nothing in its rows speaks against it.'
  return ['What speaks against it', ...findings.map((f) => wrapped(`${f.verdict}: ${f.said}`, { indent: 2, hang: 4 }))].join('\n')
}

const refusedText = (file: WeatherFile): string =>
  file.refusedForAir.length === 0
    ? ''
    : ['Refused for the air inside a box', ...file.refusedForAir.map((said) => wrapped(said, { indent: 2, hang: 4 }))].join('\n')

/** Every hour of every run: where it begins, and each column; an empty cell is not known. */
export function weatherCsv(file: WeatherFile): string {
  const names = [...WEATHER_READINGS, ...WEATHER_MEANS].filter((name) => file.runs.some((run) => run.columns[name] !== null))
  const rows = file.runs.flatMap((run) =>
    Array.from({ length: run.hoursCount }, (_, i) => {
      const at = (run.firstDay - 1) * 24 + run.firstHour + i
      const cells = names.map((name) => {
        const value = run.columns[name]?.[i] ?? Number.NaN
        return Number.isNaN(value) ? '' : Number(value.toFixed(4))
      })
      return [run.year ?? '', Math.floor(at / 24) + 1, at % 24, ...cells]
    }),
  )
  return csvText(['year', 'dayOfYear', 'hour', ...names], rows)
}
