import type { Finding } from '../../kernel/index.ts'
import { linesText, rowsText, rowsVerdict, weatherFinding } from './finding.ts'
import { type Over, saturationOverPa, type Vapour } from './humidity.ts'
import type { OutOfRange } from './ranges.ts'
import type { FileRows } from './rows.ts'
import type { HourSlots } from './slots.ts'

/** A dew point is not above the air; to this it may be, by rounding of both. */
const DEW_ABOVE_K = 1
/** Rounding of both columns is worth a few per cent of humidity. Common practice. */
const HUMIDITY_APART_PCT = 10
/** Where the months of a typical year meet, each column is smoothed by itself: a few hours a year are told apart by that alone. */
const SEAMS_FRAC = 0.01
/** Longitude tells the clock to within the borders of zones: the widest of them lie this far from their middle. */
const CLOCK_APART_H = 3.5

/** What does not hold in the rows as they stand in the file: order, ranges, columns that contradict each other, a place off its clock. */
export function rowFindings(of: {
  readonly rows: FileRows
  readonly slots: HourSlots
  readonly out: readonly OutOfRange[]
  readonly vapour: Vapour | null
}): readonly Finding[] {
  const { rows, slots, out, vapour } = of
  const count = rows.lines.length
  const findings: Finding[] = out.map(({ words, lines }) =>
    weatherFinding(
      'weather/out-of-range',
      rowsVerdict(lines.length, count),
      `${words} in ${rowsText(lines.length)}, taken as not known: ${linesText(lines)}.`,
    ),
  )
  const say = (code: `weather/${string}`, lines: readonly number[], said: string) => {
    if (lines.length > 0) findings.push(weatherFinding(code, rowsVerdict(lines.length, count), `${said}: ${linesText(lines)}.`))
  }
  say('weather/hour-twice', slots.twiceLines, `${rowsText(slots.twiceLines.length)} of an hour that was there already, not taken`)
  say(
    'weather/out-of-order',
    slots.unorderedLines,
    `${rowsText(slots.unorderedLines.length)} earlier than the row before, put in their place`,
  )
  if (slots.absentCount > 0)
    findings.push(
      weatherFinding(
        'weather/rows-missing',
        rowsVerdict(slots.absentCount, slots.hoursCount),
        `${slots.absentCount} hours between the first and the last have no row; the row after each gap: ${linesText(afterGaps(slots.lineOf))}.`,
      ),
    )
  const { airC, dewC } = rows.cells
  if (airC !== undefined && dewC !== undefined)
    say(
      'weather/dew-above-air',
      Array.from(rows.lines).filter((_, i) => (dewC[i] as number) > (airC[i] as number) + DEW_ABOVE_K),
      'The dew point stands above the air temperature',
    )
  const apart = humidityApart(rows)
  if (apart.length > SEAMS_FRAC * count)
    say(
      'weather/dew-and-humidity-differ',
      apart,
      `Relative humidity differs by more than ${HUMIDITY_APART_PCT} % from what the dew point says, which is taken`,
    )
  if (vapour !== null && vapour.cappedLines.length > 0)
    findings.push(
      weatherFinding(
        'weather/more-than-air-holds',
        rowsVerdict(vapour.cappedLines.length, count),
        `${rowsText(vapour.cappedLines.length)} colder than −10 °C hold over 1.1 times what stands over ice; brought down to that: ${linesText(vapour.cappedLines)}.`,
      ),
    )
  const aheadH = rows.place.utcOffsetH - rows.place.longitudeDeg / 15
  if (Math.abs(aheadH) > CLOCK_APART_H)
    findings.push(
      weatherFinding(
        'weather/clock-and-longitude',
        'fails',
        `The clock is ${aheadH.toFixed(1)} h ahead of the sun at ${rows.place.longitudeDeg}° east: latitude and longitude changed places, or a sign was lost.`,
      ),
    )
  return findings
}

/** Lines of rows whose dew point and relative humidity speak of other air, over liquid as over ice. */
function humidityApart({ cells, lines }: FileRows): readonly number[] {
  const { airC, dewC, relativeFrac } = cells
  if (airC === undefined || dewC === undefined || relativeFrac === undefined) return []
  return Array.from(lines).filter((_, i) => {
    const [t, dew, shown] = [airC[i] as number, dewC[i] as number, 100 * (relativeFrac[i] as number)]
    const off = (over: Over) => Math.abs((100 * saturationOverPa(dew, over)) / saturationOverPa(t, over) - shown)
    return Math.min(off('liquid'), off('ice')) > HUMIDITY_APART_PCT
  })
}

function afterGaps(lineOf: Int32Array): readonly number[] {
  const lines: number[] = []
  for (let i = 1; i < lineOf.length; i++) if (lineOf[i - 1] === 0 && lineOf[i] !== 0) lines.push(lineOf[i] as number)
  return lines
}
