import type { BoxBody } from '../../box/index.ts'
import { type Assumption, type BoxBuild, type Design, SIDES, type YearSeason } from '../../job/index.ts'
import { type Memory, noMemory } from '../../kernel/index.ts'
import type { BoxReach } from '../../power/reach/result.ts'
import type { RuleSet } from '../../rules/index.ts'
import { RUNS, type WeatherHours } from '../../weather/index.ts'
import type { MeasuredSaid } from '../facts/measured.ts'
import type { AirNote } from '../facts/note.ts'
import { restOfYear, stayOf } from '../facts/stay.ts'
import { type AirJob, boxModelOf, type ModelTask } from '../model/box-model.ts'
import { type EndName, MODEL_ENDS } from '../model/ends.ts'
import { seasonDays } from '../model/months.ts'
import type { AirAnswer, ShortRun } from '../result.ts'
import { type Surroundings, type SurroundingsOptions, surroundingsOf, type YearOptions, yearOf } from '../year/index.ts'
import type { BoxModel, YearRun } from '../year/types.ts'
import { type AirBox, answerRuns } from './answer.ts'
import { amount } from './figures.ts'
import { faceOf, most } from './hours.ts'
import { hoursAfter } from './lead-in.ts'
import type { AirLack, BoxAir, BoxRuns, EndRuns } from './runs.ts'
import { type BoxTimes, runIn, seasonHours, standingHours, weatherIn } from './standing.ts'
import { unpluggedOf } from './unplugged.ts'
import { type AirWeather, type WeatherFound, type WeatherGiven, weatherFor } from './weather.ts'

export interface AirInputs {
  readonly job: AirJob
  readonly design: Design
  /** By box. */
  readonly bodies: Readonly<Record<string, BoxBody>>
  readonly rules: Pick<RuleSet, 'sizes'>
  readonly reach: readonly BoxReach[]
  /** What hangs in each box, weighed; a box without: strut counts for nothing. */
  readonly weighed: Readonly<Record<string, ModelTask['weighed']>>
  /** Hours a person gave; null: the design year is made. */
  readonly weather: WeatherGiven | null
  readonly memory?: Memory
}

/** Quarters of an hour: a bare sheet follows within minutes. */
const STEPS_PER_HOUR = 4

/** Will it stay dry, and cool enough? Each box that has a body and a build, through the year and the short runs, at both ends. */
export function answerAir(inputs: AirInputs): AirAnswer {
  const { job, design, bodies, memory = noMemory } = inputs
  const found = memory.recall(
    'weather of the year',
    {
      job: { boxes: job.boxes, yard: job.yard, site: job.site, ...(job.climate === undefined ? {} : { climate: job.climate }) },
      given: inputs.weather,
    },
    (reads) => weatherFor(reads.job, reads.given),
  )
  const made = design.builds.flatMap((build) => {
    const body = bodies[build.box]
    return body === undefined ? [] : [boxOf(inputs, build, body)]
  })
  return answerRuns({
    yard: job.yard,
    boxes: made.map((one) => one.box),
    runsOf: ({ box }) => runsOf(made.find((one) => one.box.box === box) as Made, found, memory),
  })
}

export interface Made {
  readonly box: AirBox
  readonly modelAt: (end: EndName) => BoxModel
  readonly notes: readonly AirNote[]
  /** Nobody said how it is turned, and nothing is told of what stands beside it. */
  readonly turnUntold: boolean
  readonly measured: readonly MeasuredSaid[]
}

export function boxOf(inputs: AirInputs, build: BoxBuild, body: BoxBody): Made {
  const { job, design, rules, reach } = inputs
  const task = { job, design, build, body, rules, reach, weighed: inputs.weighed[build.box] ?? null }
  const at = (end: EndName) => boxModelOf({ ...task, end: MODEL_ENDS[end] })
  const { air, notes, measured } = at('damp')
  const wanted = job.boxes.find((b) => b.id === build.box)
  const stay = stayOf(job, build.box)
  return {
    box: {
      ...{ box: build.box, air, fit: build.fit, wanted },
      designs: design.boxes.filter((b) => b.box === build.box),
      ...timesOf(job, build.box),
      stay,
    },
    modelAt: (end) => rounded(at(end).model),
    notes: [...notes, ...stay.notes],
    measured,
    turnUntold: wanted?.doorFacesDeg === undefined && wanted?.airFacts?.beside === undefined,
  }
}

/** When a box stands here, and when anything is plugged in there. */
export const timesOf = (job: AirJob, box: string): BoxTimes => ({
  standing: stayOf(job, box).span,
  season: seasonOf(job, box),
})

/** The season of the job, where all that this box feeds is plugged in in it alone: what works on more days works outside it too. */
function seasonOf(job: AirJob, box: string): YearSeason | null {
  const season = job.climate?.season
  if (season === undefined) return null
  const own = job.plugs.filter((p) => Object.values(p.fedBy).includes(box))
  const days = seasonDays(season)
  return own.length === 0 || days >= 365 || own.some((p) => p.daysPerYear > days + 1) ? null : season
}

const END_WORDS = {
  tight: 'least leakage, vents half clogged, wet boots; heat with aged paint on a day when everything works',
  leaky: 'most leakage, vents clear, wet boots',
} as const

function runsOf(made: Made, found: WeatherFound, memory: Memory): BoxAir {
  const missing: AirLack[] = [
    ...('lacks' in found ? found.lacks : []),
    ...made.notes.filter((n) => n.kind === 'missing' && !saidOfClimate(n, found)).map(({ path, said }) => ({ path, said })),
  ]
  const lacks = [...new Map(missing.map((one) => [one.path + one.said, one])).values()]
  if (lacks.length > 0 || 'lacks' in found) return { lacks }
  return { runs: runsWith(made, found.weather, runner(made.box.box, made.modelAt('damp'), memory)) }
}

/** That the months lack was said with the reason why no other place's stand in for them. */
const saidOfClimate = ({ path }: AirNote, found: WeatherFound): boolean =>
  path === 'facts.climate.mean-by-month' && 'lacks' in found && found.lacks.some((lack) => lack.path === 'facts.climate')

/** A box at both ends, through the year and the short runs: the hours in which it stands here. */
export function runsWith(made: Made, weather: AirWeather, run: Run): BoxRuns {
  const standing = made.box.standing ?? null
  const runs = wholeYear(made, thereIn(weather, standing), run)
  const hours = standingHours(weather.hours, standing)
  if (hours === null) return runs
  const cut = (of: EndRuns): EndRuns => ({
    ...of,
    year: runIn(of.year, hours),
    ...(of.heat === undefined ? {} : { heat: { ...of.heat, year: runIn(of.heat.year, hours) } }),
    ...(of.colderSky === undefined ? {} : { colderSky: runIn(of.colderSky, hours) }),
  })
  return {
    ...runs,
    weather: weatherIn(weather.hours, hours),
    ends: { tight: cut(runs.ends.tight), leaky: cut(runs.ends.leaky) },
  }
}

/** Short runs of whose counted hours some lie in the time it stands here. */
function thereIn(weather: AirWeather, standing: YearSeason | null): AirWeather {
  if (standing === null) return weather
  const there = Object.entries(weather.shorts).filter(
    ([, { hours, leadInH }]) => seasonHours(hoursAfter(hours, leadInH), standing) !== null,
  )
  return { ...weather, shorts: Object.fromEntries(there) }
}

function wholeYear(made: Made, weather: AirWeather, run: Run): BoxRuns {
  const [damp, hot, cold] = [made.modelAt('damp'), made.modelAt('hot'), made.modelAt('cold')]
  const year = (end: EndName, model: BoxModel) => run(`year, ${end}`, model, weather.hours, {})
  const ew = year('damp', damp)
  // Where nobody said how it is turned, it stands the hottest way for heat, and for water the wetter of two ways where that may decide.
  const across: BoxModel = { ...damp, doorFacesDeg: (damp.doorFacesDeg + 90) % 360 }
  const turned = made.turnUntold && nearLimit(ew) ? run('year turned, damp', across, weather.hours, {}) : null
  const wetter = turned !== null && wetGPerM2(turned) > wetGPerM2(ew)
  const [wetModel, dampYear] = wetter && turned !== null ? [across, turned] : [damp, ew]
  const coldYear = year('cold', cold)
  const shortsOf = (endOf: (name: ShortRun) => readonly [EndName, BoxModel]): EndRuns['shorts'] =>
    Object.fromEntries(
      RUNS.flatMap((name) => {
        const short = weather.shorts[name]
        if (short === undefined) return []
        const [end, model] = endOf(name)
        // Begun at the air outside: a run that began with its own end would be wet before it starts.
        return [[name, run(`${name}, ${end}`, model, short.hours, { firstRunHours: 0 })]]
      }),
    )
  const off = (name: string, of: BoxModel, on: YearRun) =>
    unpluggedRuns(made.box, { name, model: of, year: on }, weather.hours, run)
  return {
    ...{ weather: weather.hours, used: weather.used, shortWeather: weather.shorts },
    ends: {
      tight: {
        ...{
          model: wetModel,
          said: wetter ? `${END_WORDS.tight}; long sides to north and south` : END_WORDS.tight,
          year: dampYear,
          heat: { model: hot, year: year('hot', hot) },
        },
        ...(nearLimit(dampYear) && weather.hours.columns.infraredWPerM2 === null
          ? {
              colderSky: run(
                wetter ? 'year turned, damp, colder sky' : 'year, damp, colder sky',
                wetModel,
                weather.hours,
                {},
                'berdahl-martin',
              ),
            }
          : {}),
        ...off(wetter ? 'off season turned, damp' : 'off season, damp', wetModel, dampYear),
        shorts: shortsOf((name) => (name === 'hot week' ? ['hot', hot] : ['damp', damp])),
      },
      leaky: {
        model: cold,
        said: END_WORDS.leaky,
        year: coldYear,
        ...off('off season, cold', cold, coldYear),
        shorts: shortsOf(() => ['cold', cold]),
      },
    },
    measured: made.measured,
    borrowed: weather.borrowed,
    assumed: [...weather.assumed, ...made.notes.filter((n) => n.kind === 'assumed').map(assumptionOf)],
    unread: made.notes.filter((n) => n.kind === 'unread').map(({ path, said, mend }) => ({ path, said: `${said} ${mend}` })),
  }
}

const assumptionOf = ({ path, said, source }: AirNote): Assumption => ({ path, said, source })

/** The other sky may decide: from half of the warning under the roof to the event. Beyond that it fails under either. */
function nearLimit(run: YearRun): boolean {
  const gPerM2 = roofGPerM2(run)
  return gPerM2 > amount('roof-warning') / 2 && gPerM2 <= amount('roof-event')
}
/** Most under the roof, on its sheet or foam or on rails that no foam covers. */
const roofGPerM2 = ({ series }: Pick<YearRun, 'series'>): number =>
  1000 * Math.max(most(faceOf(series.filmKgPerM2, ROOF)).value, most(faceOf(series.bareFilmKgPerM2, ROOF)).value)
const wetGPerM2 = ({ series }: YearRun): number => roofGPerM2({ series }) + 1000 * most(series.gearFilmKgPerM2).value
const ROOF = SIDES.indexOf('roof')

/** Out of its season: begun as the run with current ends it, dry, and then without current. */
function unpluggedRuns(
  { season, standing }: AirBox,
  on: { readonly name: string; readonly model: BoxModel; readonly year: YearRun },
  hours: WeatherHours,
  run: Run,
): Pick<EndRuns, 'unplugged'> {
  const dead = unpluggedOf(on.model)
  if (season == null || dead === null) return {}
  const rest = standingHours(hours, restOfYear(season)) ?? new Int32Array(0)
  const there = seasonHours(hours, standing ?? null)
  const kept = Int32Array.from(rest.keys()).filter((k) => there === null || there[rest[k]!] === 1)
  if (kept.length === 0) return {}
  const before = (rest[0]! - 1 + hours.hoursCount) % hours.hoursCount
  const { airC, vapourPa } = on.year.series
  const begins = { firstRunHours: 0, startC: airC[before]!, startVapourPa: vapourPa[before]! }
  const counted = kept.map((k) => rest[k]!)
  return {
    unplugged: {
      ...{ hours: weatherIn(hours, counted), on: runIn(on.year, counted) },
      off: runIn(run(on.name, dead, weatherIn(hours, rest), begins), kept),
    },
  }
}

type Sky = NonNullable<SurroundingsOptions['sky']>
export type Run = (name: string, model: BoxModel, hours: WeatherHours, options: YearOptions, sky?: Sky) => YearRun

/**
 * Runs of one box. What stands around it is worked out once for all its ends: it hangs on how the box stands, not on what it is built with. A
 * run is kept while its model, as numbers, and its hours are the same: a longer cord or another price runs nothing again.
 */
export function runner(box: string, stands: BoxModel, memory: Memory): Run {
  const { terrain, windHeightM, groundReflectanceFrac, snowReflectanceFrac, doorFacesDeg, insideHeightM, skylinesDeg } = stands
  const place = {
    ...{ terrain, windHeightM, groundReflectanceFrac, snowReflectanceFrac, doorFacesDeg, insideHeightM },
    ...(skylinesDeg === undefined ? {} : { skylinesDeg }),
    areasM2: [...stands.faces, ...(stands.parts ?? [])].map(({ side, areaM2 }) => ({ side, areaM2 })),
  }
  const around = new Map<string, Surroundings>()
  const aroundIn = (run: string, model: BoxModel, hours: WeatherHours, sky: Sky): Surroundings => {
    const name = `${run}, ${sky}`
    const known = around.get(name)
    if (known !== undefined) return known
    const turn = model.doorFacesDeg
    const made = memory.recall(`around ${box}: ${name}`, { place, turn, hours, sky }, () =>
      surroundingsOf({ ...stands, doorFacesDeg: turn }, hours, { stepsPerHour: STEPS_PER_HOUR, sky, ...cloudOf(hours, sky) }),
    )
    around.set(name, made)
    return made
  }
  return (name, model, hours, options, sky = 'record') =>
    memory.recall(`${box}: ${name}`, { model: asNumbers(model), place, hours, options, sky }, () =>
      yearOf(model, aroundIn(name.split(',')[0] ?? name, model, hours, sky), options),
    )
}

/** Cloud that was made is off by so much either way: under the colder sky it is taken at its thinner end. */
const cloudOf = (hours: WeatherHours, sky: Sky): Pick<SurroundingsOptions, 'cloudAddedFrac'> =>
  sky === 'berdahl-martin' && hours.origins.cloudFrac?.from === 'generated' ? { cloudAddedFrac: -amount('cloud-band') } : {}

/** A model with its tables as plain lists, which a memory can compare. */
const asNumbers = (model: BoxModel): object =>
  Object.fromEntries(
    Object.entries(model).map(([key, value]) => [key, value instanceof Float64Array ? Array.from(value) : value]),
  )

/** Tenths of a watt: what a cord a metre longer changes in the heat of a box is no other box. */
function rounded(model: BoxModel): BoxModel {
  const tenths = (values: Float64Array) => values.map((w) => Math.round(w * 10) / 10)
  return { ...model, gearHeatW: tenths(model.gearHeatW), airHeatW: tenths(model.airHeatW) }
}
