import { readFileSync } from 'node:fs'
import { readShop, rulesOf } from '../../assess/index.ts'
import { boxBody } from '../../box/index.ts'
import { outsideMm } from '../../fit/index.ts'
import { readJob } from '../../job/index.ts'
import { BUILT } from '../../kernel/index.ts'
import { receptaclePart } from '../../parts/index.ts'
import { plan } from '../../plan/index.ts'
import { designSkin } from '../../skin/index.ts'
import { RUNS, saturationPa, type WeatherHours } from '../../weather/index.ts'
import { type AirWeather, weatherFor } from '../answer/weather.ts'
import type { AirChoiceTask } from './choose-air.ts'

const root = new URL('../../../../../', import.meta.url)
const text = (path: string) => readFileSync(new URL(path, root), 'utf8')
const shop = readShop((path) => ({ ok: true, value: text(`shop/${path}`) }))
if (!shop.ok) throw new Error(JSON.stringify(shop.problems))

/** The groomer yard laid out with nothing chosen about its air. */
export function yardTask(): AirChoiceTask {
  const read = readJob(text('examples/groomer-yard-us.yaml'))
  if (!read.ok || !shop.ok) throw new Error('groomer-yard-us')
  const job = read.value
  const built = BUILT as Set<string>
  const had = built.delete('air')
  const { design, assessment } = plan(job, shop.value)
  if (had) built.add('air')
  const build = design.builds[0]!
  const body = boxBody(job.boxes[0]!, job.surveys.find((s) => s.box === build.box) ?? null)
  const rules = rulesOf(job, shop.value)
  const found = weatherFor(job, null)
  if ('lacks' in found) throw new Error('weather')
  return {
    ...{ job, design, build, body, rules, prices: shop.value.prices, weather: found.weather, energy: null },
    reach: assessment.results.reach.boxes,
    weighed: assessment.results.haul.boxes.find((b) => b.box === build.box)!.items,
    skinOf: (air) =>
      designSkin({
        ...{
          body,
          designs: design.boxes.filter((b) => b.box === build.box),
          rules: rules.build,
          pins: job.pins,
          vents: air.vents,
        },
        ...{ foam: air.roofFoamM > 0, snowDepthM: job.yard.snow.depthM, racewayMm: outsideMm },
        outletMm: (circuit) => receptaclePart(circuit, rules),
      }),
  }
}

/** Some days of a year in place of all of it, warmer or colder, at the same relative humidity: another climate, soon run. */
export function daysOf(of: AirWeather, fromH: number, hoursCount: number, byK: number): AirWeather {
  const { hours } = of
  const cut = (values: Float64Array | null) => (values === null ? null : values.slice(fromH, fromH + hoursCount))
  const columns = Object.fromEntries(Object.entries(hours.columns).map(([name, values]) => [name, cut(values)])) as Record<
    keyof WeatherHours['columns'],
    Float64Array | null
  >
  const was = columns.airC!
  const airC = was.map((c) => c + byK)
  const vapourPa = columns.vapourPa!.map((pa, h) => (pa / saturationPa(was[h]!)) * saturationPa(airC[h]!))
  const days: WeatherHours = {
    ...hours,
    ...{
      firstDay: hours.firstDay + Math.floor(fromH / 24),
      firstHour: fromH % 24,
      hoursCount,
      columns: { ...columns, airC, vapourPa, infraredWPerM2: null },
    },
  }
  return {
    ...of,
    hours: days,
    shorts: Object.fromEntries(RUNS.flatMap((name) => (of.shorts[name] === undefined ? [] : [[name, of.shorts[name]]]))),
  }
}
