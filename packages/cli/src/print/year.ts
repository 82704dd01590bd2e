import {
  type EndName,
  type Extreme,
  errorSaid,
  hourEndText,
  type LoggerLog,
  missedSaid,
  type RunSummary,
  type Trial,
  toldSaid,
  type YearRun,
} from '@plugstead/engine/air'
import type { WeatherHours } from '@plugstead/engine/weather'
import { table } from './table.ts'
import { wrapped } from './wrap.ts'

const END_WORDS: Readonly<Record<EndName, string>> = {
  middle: 'usual cracks, clear vents, fresh paint, the mean day’s load, dry boots',
  hot: 'tight, vents half clogged, aged paint, a full working day, dry boots',
  damp: 'tight, vents half clogged, fresh paint, the mean day’s load, wet boots',
  cold: 'leaky, clear vents, fresh paint, the mean day’s load, wet boots',
}

const fixed = (value: number, digits = 1): string => {
  const text = value.toFixed(digits)
  return Number(text) === 0 ? text.replace('-', '') : text.replace('-', '−')
}
const RIGHT = { side: 'right' as const }

/** What a year did to a box, in a few lines. */
export function yearText(of: {
  readonly box: string
  readonly end: EndName
  readonly hours: WeatherHours
  readonly named: string
  readonly said: readonly string[]
  readonly run: YearRun
  readonly summary: RunSummary
}): string {
  const { hours, summary, run } = of
  const head = [
    wrapped(`Box ${of.box} through ${hours.hoursCount} hours, from ${hourEndText(hours, -1)}`),
    wrapped(`Weather: ${of.named}`, { hang: 2 }),
    wrapped(`Where nobody knows: the ${of.end} end (${END_WORDS[of.end]})`, { hang: 2 }),
  ]
  const pair = (what: string, high: Extreme, low: Extreme) => [
    what,
    ...[fixed(high.value), hourEndText(hours, high.hour), fixed(low.value), hourEndText(hours, low.hour)],
  ]
  const extremes = table(
    [{ head: '°C inside' }, { head: 'highest', ...RIGHT }, { head: 'at' }, { head: 'lowest', ...RIGHT }, { head: 'at' }],
    [
      pair('air', summary.airHighestC, summary.airLowestC),
      pair('gear', summary.gearHighestC, summary.gearLowestC),
      pair('roof', summary.roofHighestC, summary.roofLowestC),
    ],
  )
  const faces = table(
    [
      { head: 'face' },
      { head: 'wet h', ...RIGHT },
      { head: 'frosted h', ...RIGHT },
      { head: 'most g/m²', ...RIGHT },
      { head: 'at' },
      { head: 'dripped L', ...RIGHT },
    ],
    summary.faces.map((face) => [
      face.side,
      String(face.wetH),
      String(face.frostH),
      fixed(face.mostKgPerM2.value * 1000, 0),
      face.mostKgPerM2.value > 0 ? hourEndText(hours, face.mostKgPerM2.hour) : '',
      fixed(face.fellKg),
    ]),
  )
  const sums = wrapped(
    `Some face wet ${summary.wetH} h, frosted ${summary.frostH} h; gear wet ${summary.gearWetH} h. Dripped ${fixed(summary.fellKg)} L, of it on gear without a hood ${fixed(summary.fellOnGearKg, 2)} L. Mean humidity ${fixed(summary.meanHumidityFrac * 100, 0)} %.`,
  )
  const energy = wrapped(
    `Heater ${fixed(summary.heaterKWh, 0)} kWh, fan ${fixed(summary.fanKWh, 0)} kWh, heat of the gear ${fixed(summary.gearHeatKWh, 0)} kWh. The books of every step close to ${Math.max(run.energyResidualFrac, run.waterResidualFrac).toExponential(0)} of what flowed.`,
  )
  const said =
    of.said.length === 0
      ? []
      : [['It rests on', ...of.said.map((line) => wrapped(`- ${line}`, { indent: 2, hang: 4 }))].join('\n')]
  return [head.join('\n'), extremes, faces, `${sums}\n${energy}`, ...said].join('\n\n')
}

/** The log beside the run, what was found, and the lines for the survey. */
export function trialText(of: {
  readonly trial: Trial
  readonly log: LoggerLog
  readonly hours: WeatherHours
  readonly lines: readonly string[]
}): string {
  const { trial, log, hours } = of
  const notes = [...log.notes, ...trial.paired.notes]
  const read = ['The log', ...notes.map((note) => wrapped(`- ${note}`, { indent: 2, hang: 4 }))].join('\n')
  const rows = trial.errors.map((error, s) => {
    const after = trial.fit?.errors[s]
    return [
      error.sensor.name,
      ...[fixed(error.bias), fixed(error.rms)],
      ...(after === undefined ? [] : [fixed(after.bias), fixed(after.rms)]),
      ...[error.swing === null ? '' : fixed(error.swing.correlationRatio, 2), error.unit === 'K' ? 'K' : 'points'],
    ]
  })
  const errors = table(
    [
      { head: 'sensor', wraps: true },
      { head: 'ours above', ...RIGHT },
      { head: 'off', ...RIGHT },
      ...(trial.fit === null
        ? []
        : [
            { head: 'fitted: above', ...RIGHT },
            { head: 'off', ...RIGHT },
          ]),
      { head: 'swing', ...RIGHT },
      { head: '' },
    ],
    rows,
  )
  const sentences = trial.errors.map((error) => wrapped(errorSaid(error, hours), { hang: 2 })).join('\n')
  const parts = [`Beside the log\n\n${read}`, errors, sentences]
  if (trial.fit === null) return [...parts, wrapped(trial.fitless)].join('\n\n')
  const found = [
    'What the log tells of the box',
    ...trial.fit.told.map((told) => wrapped(`- ${toldSaid(told)}`, { indent: 2, hang: 4 })),
  ]
  const { asideCount, readingsCount } = trial.fit
  const aside =
    asideCount === 0
      ? []
      : [
          wrapped(
            `Of ${readingsCount} hourly readings ${asideCount} were set aside: in them a fan, a heater or a thaw comes on or goes off, and the run jumps.`,
          ),
        ]
  const missed = trial.fit.missed.map((one) => wrapped(missedSaid(one), { hang: 2 }))
  const lines =
    of.lines.length === 0
      ? []
      : [['Lines for the job, kept apart from what is told; nothing was written:', '', ...of.lines].join('\n')]
  return [...parts, found.join('\n'), ...aside, ...missed, ...lines].join('\n\n')
}
