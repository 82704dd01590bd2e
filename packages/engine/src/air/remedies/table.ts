import type { AirDesign, Paint } from '../../job/index.ts'
import type { Prices } from '../../parts/index.ts'
import { type Climate, oneOfThirty, type WeatherHours, YEARS } from '../../weather/index.ts'
import { type GearPart, gearParts } from '../answer/gear.ts'
import { monthsOf } from '../answer/hours.ts'
import { timesOf } from '../answer/join.ts'
import { grownHours } from '../answer/remedy-findings.ts'
import type { BoxTimes } from '../answer/standing.ts'
import { ventPair } from '../design.ts'
import { paintsOf } from '../facts/paint.ts'
import { buildFigure } from '../figures.ts'
import { measureAreas } from '../measures/areas.ts'
import { measuresCost } from '../measures/cost.ts'
import type { EndName } from '../model/ends.ts'
import type { RemedyAmounts, RemedyRow, RemedyTable } from '../result.ts'
import { type Surroundings, surroundingsOf, yearOf } from '../year/index.ts'
import type { YearRun } from '../year/types.ts'
import { amountsOf, meanAmounts } from './amounts.ts'
import { type Ask, failsOf } from './judge.ts'
import type { Kind } from './kinds.ts'
import { type VariantTask, variantsOf } from './variants.ts'

export interface RemedyTask extends VariantTask {
  readonly prices: Prices
  readonly climate: Climate
  /** Years, from the first of the thirty on. */
  readonly yearsCount: number
}

/** A piece of the work: every single measure in one year, or every stack and the design itself in one year. */
export interface RemedyStep {
  readonly phase: 'alone' | 'stacked'
  readonly year: number
}

/** What a step came to, plain: it may come from another worker, in any order. */
export interface RemedyPart {
  readonly step: RemedyStep
  /** In the order of the sets of its phase. */
  readonly amounts: readonly RemedyAmounts[]
  /** Of the sets that have a fan: hours in which frost grew under the roof, and those in which the fan ran. */
  readonly frost: readonly ({ readonly grownH: number; readonly ranH: number } | null)[]
  /** What fails of the design in this year, at any end. */
  readonly fails: readonly Kind[]
}

interface Measure {
  readonly id: string
  readonly name: string
  readonly takes: Partial<AirDesign>
  /** Shown alone, never stacked: another of its kind is. */
  readonly onlyAlone?: true
}

export const YEAR_STEPS_PER_HOUR = 4
const WHITE: Paint = 'white epoxy, clean'
const VENT_MM = 400
const FOAM_M = 0.05
const CABINET_W = 250

/** The table of one box: its measures, its pieces of work, each piece, and the table out of all of them. */
export interface Remedies {
  readonly measures: readonly { readonly id: string; readonly name: string }[]
  readonly steps: (phase: RemedyStep['phase']) => readonly RemedyStep[]
  /** `order`: ids of the measures as `orderOf` gives them; what a stack is made of. Not read by the first phase. */
  readonly part: (step: RemedyStep, order: readonly string[]) => RemedyPart
  readonly orderOf: (alone: readonly RemedyPart[]) => readonly string[]
  readonly table: (alone: readonly RemedyPart[], stacked: readonly RemedyPart[]) => RemedyTable
}

/**
 * What each remedy buys. A plain box, painted as it is told, with the usual vents and nothing else, is taken through made years at the middle
 * of what nobody measured; then with each measure alone, and with one more at a time in the order of what they pay: hours in which something
 * is wrong, taken away for a unit of money. The design itself is judged in every year at both ends, as its design year is.
 */
export function remediesOf(task: RemedyTask): Remedies {
  const { build, body, job } = task
  const parts = gearParts(
    task.design.boxes.filter((b) => b.box === build.box),
    build.fit,
  )
  const painted = paintsOf(job, build.box).value
  const base = plainBox(task)
  const modelOf = variantsOf(task)
  const winter = modelOf(base, 'middle').winterMonths.length > 0
  const measures = measuresFor(task, winter)
  const areas = measureAreas(body, build.fit)
  const costOf = (air: AirDesign): number | null => {
    const { value } = measuresCost({ box: build.box, air, areas, painted, prices: task.prices })
    return value.missing.length > 0 ? null : value.totalMoney
  }
  const moneyOf = (before: AirDesign, after: AirDesign): number | null => {
    const [from, to] = [costOf(before), costOf(after)]
    return from === null || to === null ? null : Math.round((to - from) * 100) / 100
  }
  const stackable = measures.filter((m) => m.onlyAlone === undefined)
  const stackOf = (order: readonly string[], count: number): AirDesign => {
    const ids = order.slice(0, count)
    const all = ids.reduce((air, id) => ({ ...air, ...measures.find((m) => m.id === id)!.takes }), base)
    // A fan keeps its own hole, however large the vent across from it.
    const vents = [...ventsOf(body, ids.includes('larger vents'), all.fan !== null)]
    return { ...all, vents }
  }
  const years = new Map<number, { readonly hours: WeatherHours; readonly around: Surroundings }>()
  const yearAt = (n: number) => {
    const kept = years.get(n)
    if (kept !== undefined) return kept
    const hours = oneOfThirty(task.climate, n)
    const made = { hours, around: surroundingsOf(modelOf(base, 'middle'), hours, { stepsPerHour: YEAR_STEPS_PER_HOUR }) }
    // One at a time: thirty years of surroundings would fill a phone.
    years.clear()
    years.set(n, made)
    return made
  }
  const runOf = (air: AirDesign, end: EndName, n: number) => {
    const model = modelOf(air, end)
    return { model, run: yearOf(model, yearAt(n).around) }
  }
  /** Of the sets of one piece, by what they are without a hood: it only catches, so where nothing falls the run with it is the run without it. */
  const counted = (air: AirDesign, n: number, ran: Map<string, YearRun>) => {
    const bare = JSON.stringify({ ...air, dripHood: false })
    const known = ran.get(bare)
    const model = modelOf(air, 'middle')
    const run = known?.fellKg.every((kg) => kg === 0) ? known : runOf(air, 'middle', n).run
    ran.set(bare, run)
    const amounts = amountsOf({ model, run, weather: yearAt(n).hours, parts, fit: build.fit })
    return { amounts, frost: air.fan === null ? null : frostOf(model, run) }
  }
  const part = (step: RemedyStep, order: readonly string[]): RemedyPart => {
    const sets =
      step.phase === 'alone'
        ? [base, ...measures.map((m) => ({ ...base, ...m.takes }))]
        : [...stackable.slice(1).map((_, i) => stackOf(order, i + 2)), build.air]
    const ran = new Map<string, YearRun>()
    const all = sets.map((air) => counted(air, step.year, ran))
    return {
      ...{ step, amounts: all.map((one) => one.amounts), frost: all.map((one) => one.frost) },
      fails:
        step.phase === 'alone'
          ? []
          : failsIn({
              ...{ runOf, parts, fit: build.fit, times: timesOf(task.job, build.box) },
              ...{ air: build.air, hours: yearAt(step.year).hours, n: step.year },
            }),
    }
  }
  const meansOf = (of: readonly RemedyPart[], at: number) => meanAmounts(byYear(of).map((one) => one.amounts[at]!))
  const orderOf = (alone: readonly RemedyPart[]): readonly string[] => {
    const before = meansOf(alone, 0)
    const pays = stackable.map((m) => {
      const after = meansOf(alone, 1 + measures.indexOf(m))
      const money = Math.max(moneyOf(base, { ...base, ...m.takes }) ?? Number.POSITIVE_INFINITY, 1)
      return {
        id: m.id,
        hours: (before.wrongH - after.wrongH) / money,
        litres: (before.onGearL + before.fellL / 10 - after.onGearL - after.fellL / 10) / money,
      }
    })
    return pays
      .toSorted((a, b) => round(b.hours) - round(a.hours) || round(b.litres) - round(a.litres) || (a.id < b.id ? -1 : 1))
      .map((one) => one.id)
  }
  return {
    measures: measures.map(({ id, name }) => ({ id, name })),
    steps: (phase) => Array.from({ length: task.yearsCount }, (_, i) => ({ phase, year: (i % YEARS) + 1 })),
    part,
    orderOf,
    table: (alone, stacked) => {
      const order = orderOf(alone)
      const row = (m: Measure, after: RemedyAmounts, money: number | null, note: string | null): RemedyRow => ({
        ...{ id: m.id, name: m.name, after, money, note },
      })
      const named = (id: string) => measures.find((m) => m.id === id)!
      const last = stackable.length - 1
      return {
        ...{ box: build.box, currency: task.prices.currency, yearsCount: task.yearsCount },
        base: { name: 'nothing done', after: meansOf(alone, 0) },
        alone: measures.map((m, i) =>
          row(
            m,
            meansOf(alone, i + 1),
            moneyOf(base, { ...base, ...m.takes }),
            noteOf(
              m,
              byYear(alone).map((one) => one.frost[i + 1] ?? null),
            ),
          ),
        ),
        stacked: order.map((id, i) =>
          row(
            named(id),
            i === 0 ? meansOf(alone, 1 + measures.indexOf(named(id))) : meansOf(stacked, i - 1),
            moneyOf(stackOf(order, i), stackOf(order, i + 1)),
            null,
          ),
        ),
        design: {
          name: 'as designed',
          after: meansOf(stacked, last),
          heldYearsCount: stacked.filter((one) => one.fails.length === 0).length,
          failed: byYear(stacked).flatMap(({ step, fails }) => (fails.length === 0 ? [] : [{ year: step.year, kinds: fails }])),
        },
      }
    },
  }
}

/** Work one piece after another: told before each how many are done of how many; returns the table. */
export function* remediesStepwise(
  of: Remedies,
): Generator<{ readonly doneCount: number; readonly ofCount: number }, RemedyTable> {
  const [alone, stacked] = [of.steps('alone'), of.steps('stacked')]
  const ofCount = alone.length + stacked.length
  const first: RemedyPart[] = []
  for (const step of alone) {
    yield { doneCount: first.length, ofCount }
    first.push(of.part(step, []))
  }
  const order = of.orderOf(first)
  const second: RemedyPart[] = []
  for (const step of stacked) {
    yield { doneCount: first.length + second.length, ofCount }
    second.push(of.part(step, order))
  }
  return of.table(first, second)
}

/** Parts by their year, in whatever order they came. */
const byYear = (parts: readonly RemedyPart[]): readonly RemedyPart[] => parts.toSorted((a, b) => a.step.year - b.step.year)
/** Choices never hang on the last bits. */
const round = (value: number): number => Math.round(value * 1e6) / 1e6

function ventsOf(body: RemedyTask['body'], large: boolean, fan: boolean): AirDesign['vents'] {
  const usual = buildFigure('vent-size').value
  const sizeMm = large ? VENT_MM : usual
  const pair = ventPair(body, sizeMm, sizeMm, fan)
  return fan ? [...pair.filter((v) => !v.fan), ...ventPair(body, usual, usual, true).filter((v) => v.fan)] : pair
}

/** Painted as told, the usual pair of vents, nothing else. */
function plainBox({ job, build, body }: RemedyTask): AirDesign {
  const painted = paintsOf(job, build.box).value
  const usual = buildFigure('vent-size').value
  return {
    ...{ roofPaint: painted.roof, wallPaint: painted.walls, vents: ventPair(body, usual, usual, false), winterOpenFrac: 1 },
    ...{
      roofFoamM: 0,
      wallFoamM: 0,
      bridgesFoamed: false,
      secondRoof: false,
      fan: null,
      heater: null,
      dripHood: false,
      floorPainted: false,
    },
  }
}

function measuresFor({ body, build }: RemedyTask, winter: boolean): readonly Measure[] {
  const usual = buildFigure('vent-size').value
  const fan = { powerW: 60, solar: false, onAboveC: buildFigure('fan-on').value, byHumidity: true }
  const withFan = ventPair(body, usual, usual, true)
  const powerW = build.air.heater?.at === 'cabinet' ? build.air.heater.powerW : CABINET_W
  const onBelowC = build.air.heater?.onBelowC ?? buildFigure('heater-on').value
  return [
    { id: 'white roof', name: 'white roof', takes: { roofPaint: WHITE } },
    { id: 'larger vents', name: `vents ${VENT_MM} x ${VENT_MM} mm`, takes: { vents: ventPair(body, VENT_MM, VENT_MM, false) } },
    { id: 'roof foam', name: `${FOAM_M * 1000} mm foam under the roof`, takes: { roofFoamM: FOAM_M } },
    { id: 'second roof', name: 'second roof', takes: { secondRoof: true } },
    { id: 'fan', name: 'fan 60 W, by humidity too', takes: { vents: withFan, fan } },
    {
      ...{ id: 'solar fan', name: 'fan 25 W driven by the sun', onlyAlone: true as const },
      takes: { vents: withFan, fan: { ...fan, powerW: 25, solar: true, byHumidity: false } },
    },
    {
      ...{ id: 'cabinet heater', name: `heater ${powerW} W in the cabinet, by humidity too` },
      takes: { heater: { at: 'cabinet', powerW, onBelowC, humidistat: true } },
    },
    { id: 'drip hood', name: 'drip hood over the gear', takes: { dripHood: true } },
    winter
      ? { id: 'winter vents', name: 'vents a fifth open in winter', takes: { winterOpenFrac: 0.2 } }
      : { id: 'painted floor', name: 'painted floor', takes: { floorPainted: true } },
  ]
}

function frostOf(
  model: Parameters<typeof grownHours>[0]['model'],
  year: YearRun,
): { readonly grownH: number; readonly ranH: number } {
  const { grownH, ranH } = grownHours({ model, year, said: '', shorts: {} })
  return { grownH, ranH }
}

/** A fan that stands still while the roof gets wet is said so. */
function noteOf(m: Measure, frost: readonly ({ readonly grownH: number; readonly ranH: number } | null)[]): string | null {
  if (m.takes.fan == null) return null
  const known = frost.flatMap((one) => (one === null ? [] : [one]))
  const grown = known.reduce((sum, one) => sum + one.grownH, 0) / known.length
  const ran = known.reduce((sum, one) => sum + one.ranH, 0) / known.length
  if (grown < 0.5) return 'no frost or dew grows under the roof'
  if (ran >= 0.5) return `runs in ${Math.round(ran)} of the ${Math.round(grown)} h a year in which frost or dew grows`
  return m.takes.fan.solar
    ? 'driven by the sun, it never runs on the night that frosts'
    : `never runs in the ${Math.round(grown)} h a year in which frost or dew grows`
}

const YEAR_ASKS: readonly (readonly [EndName, readonly Ask[]])[] = [
  ['damp', ['cold', 'wet', 'long']],
  ['cold', ['hot', 'cold', 'wet', 'long']],
  ['hot', ['hot']],
]

/** What fails of the design in one year, at any end, as in its design year. */
export function failsIn(of: {
  readonly runOf: (air: AirDesign, end: EndName, n: number) => Pick<Parameters<typeof failsOf>[0], 'model' | 'run'>
  readonly parts: readonly GearPart[]
  readonly fit: Parameters<typeof failsOf>[0]['fit']
  readonly times: BoxTimes
  readonly air: AirDesign
  readonly hours: WeatherHours
  readonly n: number
}): readonly Kind[] {
  const months = monthsOf(of.hours)
  const kinds = YEAR_ASKS.flatMap(([end, asks]) =>
    failsOf({
      ...of.runOf(of.air, end, of.n),
      weather: of.hours,
      months,
      parts: of.parts,
      fit: of.fit,
      times: of.times,
      asks,
    }).map((f) => f.kind),
  )
  return [...new Set(kinds)]
}
