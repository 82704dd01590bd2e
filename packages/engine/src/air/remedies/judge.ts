import { type FitDesign, SIDES } from '../../job/index.ts'
import type { WeatherHours } from '../../weather/index.ts'
import { humidityAtGear } from '../answer/at-gear.ts'
import { ON_GEAR_KG_PER_M2 } from '../answer/counts.ts'
import { dripped } from '../answer/drips.ts'
import { amount } from '../answer/figures.ts'
import { airAtGear, type GearPart, gearHours } from '../answer/gear.ts'
import { mouldOver } from '../answer/harm.ts'
import { coldVerdict, hotVerdict } from '../answer/heat-findings.ts'
import { least, most } from '../answer/hours.ts'
import { judgeMost } from '../answer/setting.ts'
import { type BoxTimes, runIn, seasonHours, standingHours, weatherIn } from '../answer/standing.ts'
import type { BoxModel, YearRun } from '../year/types.ts'
import type { Kind } from './kinds.ts'

/** One thing that fails in one run: by how much, as a share of a step that matters (3 K, the limit itself), and when. */
export interface Fail {
  readonly kind: Kind
  readonly byRatio: number
  readonly atH: number
  /** Other moments of the run at which it shows, weeks apart, the worst first. */
  readonly alsoAtH: readonly number[]
}

/** What a run is asked: as the findings of the year and of the short runs ask it. */
export type Ask = 'hot' | 'cold' | 'wet' | 'roof' | 'long'

export interface JudgeTask {
  readonly model: BoxModel
  readonly run: YearRun
  readonly weather: WeatherHours
  readonly months: Uint8Array
  readonly parts: readonly GearPart[]
  readonly fit: Pick<FitDesign, 'items'> | null
  readonly asks: readonly Ask[]
  /** All is judged in the hours in which it stands there, its gear in those of them in which anything is plugged in. */
  readonly times: BoxTimes
}

const ROOF = SIDES.indexOf('roof')
const FACES = 6
const STEP_K = 3
/** Below what it is to hold by this much over its dead band a heater does not hold it, as its finding says. */
const SHORT_K = 1

/** Everything that fails in a run in the hours in which the box stands there, once each, the worst of its kind. By the same lines as the findings. */
export function failsOf(task: JudgeTask): readonly Fail[] {
  const hours = standingHours(task.weather, task.times.standing)
  if (hours === null) return failsIn(task)
  if (hours.length === 0) return []
  const cut = {
    ...{ run: runIn(task.run, hours), weather: weatherIn(task.weather, hours) },
    months: task.months.length === 0 ? task.months : Uint8Array.from(hours, (h) => task.months[h]!),
  }
  const inRun = (atH: number): number => hours[Math.min(atH, hours.length - 1)]!
  return failsIn({ ...task, ...cut }).map((f) => ({ ...f, atH: inRun(f.atH), alsoAtH: f.alsoAtH.map(inRun) }))
}

function failsIn(task: JudgeTask): readonly Fail[] {
  const { asks } = task
  const found: Shown[] = []
  if (asks.includes('hot') || asks.includes('cold')) found.push(...temperatures(task))
  if (asks.includes('wet')) found.push(...wet(task))
  if (asks.includes('roof') || asks.includes('long')) found.push(...roofed(task))
  if (asks.includes('long')) found.push(...long(task))
  const worst = new Map<Kind, Fail>()
  for (const fail of found)
    if ((worst.get(fail.kind)?.byRatio ?? -1) < fail.byRatio) worst.set(fail.kind, { alsoAtH: [], ...fail })
  return [...worst.values()]
}

type Shown = Omit<Fail, 'alsoAtH'> & Partial<Pick<Fail, 'alsoAtH'>>

const APART_H = 240
const MOMENTS = 3

/** The worst moments over a limit, weeks apart, the worst first. */
function moments(hours: readonly (readonly [atH: number, value: number])[]): readonly number[] {
  const out: number[] = []
  for (const [atH] of hours.toSorted((a, b) => b[1] - a[1] || a[0] - b[0])) {
    if (out.every((other) => Math.abs(other - atH) >= APART_H)) out.push(atH)
    if (out.length === MOMENTS) break
  }
  return out
}

function over(values: Float64Array, limit: number): readonly (readonly [number, number])[] {
  const out: [number, number][] = []
  for (let h = 0; h < values.length; h += 1) if (values[h]! > limit) out.push([h, values[h]!])
  return out
}

function temperatures({ model, run, weather, parts, fit, asks, times: { season } }: JudgeTask): readonly Shown[] {
  const within = seasonHours(weather, season)
  if (season !== null && within === null) return []
  const at = airAtGear(model, run, fit)
  return parts.flatMap((part): readonly Shown[] => {
    const of = gearHours(part, at, at, within)
    const hot = asks.includes('hot') ? hotVerdict(part, of) : null
    const cold = asks.includes('cold') ? coldVerdict(of) : null
    const mostC = part.derates ? amount('breaker-most') : of.mostC
    const overK = Math.max(
      of.hottestC - (mostC ?? Infinity),
      part.derates ? -Infinity : of.dayMeanC - (of.dayMeanMostC ?? Infinity),
    )
    const free = part.name === 'transformer'
    return [
      ...(hot?.verdict === 'fails'
        ? [
            {
              kind: 'hot' as const,
              byRatio: overK / STEP_K,
              atH: of.hottestAtH,
              alsoAtH: moments(over(at.hotC, mostC ?? Infinity)).slice(1),
            },
          ]
        : []),
      ...(cold === 'fails'
        ? [
            {
              kind: free ? ('room cold' as const) : ('cold' as const),
              ...{ byRatio: ((of.leastC ?? 0) - of.coldestC) / STEP_K, atH: of.coldestAtH },
            },
          ]
        : []),
    ]
  })
}

function wet({ model, run, weather }: JudgeTask): readonly Shown[] {
  const film = most(run.series.gearFilmKgPerM2)
  const drops = dripped({ model, run, weather })
  const falls = moments(
    drops.events.flatMap((e) =>
      e.on.some((o) => !o.hooded && o.landsKg > 0) ? [[e.atH + e.hoursCount, e.fellKg] as const] : [],
    ),
  )
  return [
    ...(film.value * 1000 > ON_GEAR_KG_PER_M2 * 1000
      ? [
          {
            kind: 'dew' as const,
            byRatio: (film.value / ON_GEAR_KG_PER_M2) * DEW_SHARE,
            atH: film.atH,
            alsoAtH: moments(over(run.series.gearFilmKgPerM2, ON_GEAR_KG_PER_M2)).slice(1),
          },
        ]
      : []),
    ...(drops.onGearKg > 0
      ? [{ kind: 'drip' as const, byRatio: drops.onGearKg, atH: falls[0] ?? 0, alsoAtH: falls.slice(1) }]
      : []),
  ]
}
/** A gram on the gear weighs as much as one step elsewhere. */
const DEW_SHARE = 0.1

function roofed({ run }: JudgeTask): readonly Shown[] {
  const [warning, event] = [amount('roof-warning'), amount('roof-event')]
  let roof = { g: 0, atH: 0 }
  for (let h = 0; h < run.hoursCount; h += 1) {
    const g = run.series.filmKgPerM2[h * FACES + ROOF]! * 1000
    if (g > roof.g) roof = { g, atH: h }
  }
  return judgeMost(roof.g, event, event - warning) === 'fails'
    ? [{ kind: 'roof', byRatio: roof.g / event - 1, atH: roof.atH }]
    : []
}

function long({ model, run, months }: JudgeTask): readonly Shown[] {
  const out: Shown[] = []
  const humidity = humidityAtGear(model, run, months)
  const overPct = Math.max(humidity.dayMeanPct - amount('humid-day'), humidity.monthMeanPct - amount('humid-month'))
  if (judgeMost(overPct, 0, 0) === 'fails') out.push({ kind: 'humid', byRatio: overPct / 5, atH: humidity.dayMeanAtH + 24 })
  const mould = mouldOver(model, run)
  if (mould !== null && judgeMost(mould.mostRatio, amount('mould-seen'), 1) === 'fails')
    out.push({ kind: 'mould', byRatio: mould.mostRatio - amount('mould-seen'), atH: run.hoursCount - 1 })
  const { heater } = model
  if (heater !== null) {
    const coldest = least(heater.at === 'cabinet' ? run.series.gearC : run.series.airC)
    const floorC = heater.onBelowC - heater.deadBandK - SHORT_K
    if (coldest.value < floorC) out.push({ kind: 'heater', byRatio: (floorC - coldest.value) / STEP_K, atH: coldest.atH })
  }
  return out
}
