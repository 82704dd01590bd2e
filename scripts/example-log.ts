/**
 * Writes the example of docs/air-trial.md into examples/logger: six weeks of invented weather, and a list that loggers would have written in a
 * box of known leakage, roof and gear. `--check` does not exist: the list is an example, not a guard; run it again when the run of the box
 * has changed, and look at what `plugstead year` finds.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { shopFolder } from '../packages/cli/src/shop-folder.ts'
import { boxModelOf, boxUnknowns, MODEL_ENDS, modelWith, surroundingsOf, yearOf } from '../packages/engine/src/air/index.ts'
import { rulesOf } from '../packages/engine/src/assess/index.ts'
import { boxBody } from '../packages/engine/src/box/index.ts'
import { readJob } from '../packages/engine/src/job/index.ts'
import { seeded } from '../packages/engine/src/kernel/index.ts'
import { plannedJob } from '../packages/engine/src/plan/index.ts'
import {
  climateFrom,
  designYear,
  normalsNear,
  readColumnMapping,
  readWeather,
  toldOfNormal,
} from '../packages/engine/src/weather/index.ts'

const root = dirname(dirname(fileURLToPath(import.meta.url)))
const folder = join(root, 'examples/logger')
const YEAR = 2027
const FIRST_DAY = 74
const DAYS = 42
const LOG_FROM_H = 21 * 24
const STEP_MIN = 30
/** m³/h at 50 Pa, share of the sun, kg. */
const TRUTH = [340, 0.58, 260]

const stamp = (hours: number): string =>
  new Date(Date.UTC(YEAR, 0, FIRST_DAY) + Math.round(hours * 3_600_000)).toISOString().slice(0, 16).replace('T', ' ')

const near = normalsNear({ latitudeDeg: 45, longitudeDeg: -93, elevationM: 300 }).normal
const climate = climateFrom({
  ...toldOfNormal(near),
  name: 'farm yard',
  latitudeDeg: 45,
  longitudeDeg: -93,
  elevationM: 300,
  utcOffsetH: -6,
})
if (!climate.ok) throw new Error(climate.missing.join())
const year = designYear(climate.climate)
const at = (column: keyof typeof year.columns, h: number, digits: number): string =>
  ((year.columns[column] as Float64Array)[(FIRST_DAY - 1) * 24 + h] as number).toFixed(digits).replace(/^NaN$/, '')
const weather = [
  'Invented weather of an invented farm yard: no station wrote it. Made by scripts/example-log.ts.',
  'time,air (C),vapour (Pa),wind (m/s),wind from (deg),sun on the level (W/m2),direct sun (W/m2),light of the sky (W/m2),cloud (%)',
  ...Array.from({ length: DAYS * 24 }, (_, h) =>
    [
      stamp(h),
      ...[at('airC', h, 1), at('vapourPa', h, 0), at('windMPerS', h, 1), at('windFromDeg', h, 0), at('globalWPerM2', h, 0)],
      ...[
        at('beamWPerM2', h, 0),
        at('diffuseWPerM2', h, 0),
        String(Math.round(((year.columns.cloudFrac as Float64Array)[(FIRST_DAY - 1) * 24 + h] as number) * 100)),
      ],
    ].join(','),
  ),
].join('\n')
mkdirSync(folder, { recursive: true })
writeFileSync(join(folder, 'weather.csv'), `${weather}\n`)

const mapping = readColumnMapping(readFileSync(join(folder, 'weather.columns.yaml'), 'utf8'))
if (!mapping.ok) throw new Error(JSON.stringify(mapping.problems))
const read = readWeather(`${weather}\n`, { columns: mapping.value })
if (!read.ok) throw new Error(JSON.stringify(read.problems))
const hours = read.value.runs[0]
if (hours === undefined || hours.hoursCount !== DAYS * 24) throw new Error('hours')

const document = readJob(readFileSync(join(root, 'examples/two-machines.yaml')))
if (!document.ok) throw new Error('job')
const job = document.value
const shop = shopFolder(undefined)
const planned = plannedJob(job, 'two-machines.yaml', shop)
if (!planned.ok) throw new Error('plan')
const { design, assessment } = planned.value
const { model } = boxModelOf({
  ...{
    job,
    design,
    build: design.builds[0] as (typeof design.builds)[number],
    rules: rulesOf(job, shop),
    end: MODEL_ENDS.middle,
  },
  body: boxBody(job.boxes[0] as (typeof job.boxes)[number], null),
  reach: assessment.results.reach.boxes,
  weighed: assessment.results.haul.boxes[0]?.items ?? null,
})
const { series } = yearOf(modelWith(model, TRUTH), surroundingsOf(model, hours, { stepsPerHour: 4 }))

const random = seeded(26)
const bell = (): number => Array.from({ length: 12 }, () => random.next()).reduce((a, b) => a + b, -6)
const ROOF = 4
const between = (values: Float64Array, h: number, stride = 1, place = 0): number => {
  const i = Math.floor(h)
  const [a, b] = [values[(i - 1) * stride + place] as number, values[i * stride + place] as number]
  return a + (h - i) * (b - a)
}
const offsets = Array.from({ length: 6 }, () => 0.3 * bell())
const half = (value: number): string => (Math.round(value * 2) / 2).toFixed(1)
const list = Array.from({ length: ((DAYS * 24 - LOG_FROM_H) * 60) / STEP_MIN }, (_, i) => LOG_FROM_H + (i * STEP_MIN) / 60).map(
  (h) => {
    // Air high stands above the mean of the room while the sun is on the roof, air low below it.
    const layered = Math.max(0, between(series.faceC, h, 6, ROOF) - between(series.airC, h)) * 0.15
    const read = (value: number, s: number) => half(value + (offsets[s] as number) + 0.15 * bell())
    const humidity = Math.round(between(series.relativeFrac, h) * 100 + 2 * (offsets[5] as number) + 0.5 * bell())
    return [
      stamp(h),
      ...[read(between(series.airC, h) + layered, 0), read(between(series.airC, h) - layered, 1)],
      ...[
        read(between(series.faceC, h, 6, ROOF), 2),
        read(
          between(series.faceC, h, 6, 0) / 4 +
            between(series.faceC, h, 6, 1) / 4 +
            between(series.faceC, h, 6, 2) / 4 +
            between(series.faceC, h, 6, 3) / 4,
          3,
        ),
      ],
      ...[read(between(series.gearC, h), 4), Math.min(100, humidity)],
    ].join(',')
  },
)
// A morning without a battery.
const kept = list.filter((_, i) => i < 410 || i >= 424)
writeFileSync(
  join(folder, 'log.csv'),
  `${[
    'Invented list: no logger wrote it. Made by scripts/example-log.ts from a run of the box of examples/two-machines.yaml',
    `with leakage ${TRUTH[0]} m3/h at 50 Pa and a roof that takes in ${Math.round((TRUTH[1] as number) * 100)} % of the sun and ${TRUTH[2]} kg of gear.`,
    'time,air high (C),air low (C),roof (C),wall (C),panel (C),humidity (%)',
    ...kept,
  ].join('\n')}\n`,
)
console.log(
  boxUnknowns(model)
    .map(({ id, start }) => `${id}: taken ${start.value}`)
    .join('\n'),
)
