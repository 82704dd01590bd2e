import { formatQuantity, judgeEnds, put, source, type Verdict } from '../../kernel/index.ts'
import type { AirEnd, AirYear } from '../result.ts'
import { heaterDayMeanW, inflowMeanKgPerH } from './counts.ts'
import { amount, figure } from './figures.ts'
import { between, CAUTION, degrees, hours, line, type Noted, noted, RUN, WHO, whole } from './finding.ts'
import { heaterByHand } from './hand.ts'
import { DAY_H, lowestDayMean, meanOf, sumOf, whenAt } from './hours.ts'
import type { Remedies } from './mends.ts'
import type { EndRuns } from './runs.ts'
import { type AirSetting, apart, countedWords, eachWords, judgeMost } from './setting.ts'

const ENDS: readonly AirEnd[] = ['tight', 'leaky']
/** Below what it is to hold by this much, over and above its dead band, a heater does not hold it. House rule. */
const SHORT_K = 1
/** Water grows on the roof when an hour adds this much, kg/m². */
const GROWS_KG_PER_M2 = 1e-4
const AIR_HEAT_J_PER_KGK = 1006
const ROOF = 4
const FACES = 6

/** What heater, fan and vents do in the year. */
export function remedyFindings(setting: AirSetting, mends: Remedies): readonly Noted[] {
  return [...heater(setting, mends), ...fan(setting, mends), ...vents(setting, mends)]
}

const yearAt = (setting: AirSetting, end: AirEnd): AirYear => setting.counted[end].year
const kWh = (value: number): string => `${whole(value)} kWh`
const watts = (value: number): string => formatQuantity(Math.round(value), 'W')

function heater(setting: AirSetting, mends: Remedies): readonly Noted[] {
  const own = ENDS.map((end) => setting.runs.ends[end].model.heater)
  const { heater: of } = setting.runs.ends.tight.model
  if (of === null || own.some((one) => one === null)) return []
  const day = { tight: heaterDayMeanW(setting.runs.ends.tight.year), leaky: heaterDayMeanW(setting.runs.ends.leaky.year) }
  const coldest = (runs: EndRuns): number => {
    const { airC, gearC } = runs.year.series
    return Math.min(...lowest(of.at === 'cabinet' ? gearC : airC))
  }
  const floorC = of.onBelowC - of.deadBandK - SHORT_K
  const verdictAt = (end: AirEnd): Verdict =>
    coldest(setting.runs.ends[end]) < floorC ? 'fails' : judgeMost(day[end].value, of.powerW, of.powerW * 0.1)
  const verdict = judgeEnds(verdictAt('tight'), verdictAt('leaky'))
  const end: AirEnd = day.leaky.value > day.tight.value ? 'leaky' : 'tight'
  const runs = setting.runs.ends[end]
  const { atH } = day[end]
  const { series } = runs.year
  const cold = of.at === 'cabinet' ? series.gearC : series.airC
  const insideC = meanOf(cold.subarray(atH, atH + DAY_H))
  const outsideC = meanOf(setting.runs.weather.columns.airC?.subarray(atH, atH + DAY_H) ?? [Number.NaN])
  const airC = meanOf(series.airC.subarray(atH, atH + DAY_H))
  const months = yearAt(setting, end).months.toSorted((a, b) => b.heaterKWh - a.heaterKWh)
  const where = of.at === 'cabinet' ? 'the gear’s cabinet' : 'the room'
  return [
    noted({
      code: 'air/heater-energy',
      subject: setting.box,
      verdict,
      basis: 'physics',
      said: `The heater of ${watts(of.powerW)} in ${where} takes ${between(yearAt(setting, 'tight').counts.heaterKWh, yearAt(setting, 'leaky').counts.heaterKWh, kWh)} ${eachWords(setting)}, at most ${kWh(months[0]?.heaterKWh ?? 0)} in a month; in its hardest 24 h, from ${whenAt(setting.runs.weather, atH)}, it gives ${between(day.tight.value, day.leaky.value, watts)} on the mean. It is to keep ${where} above ${degrees(of.onBelowC)}; the coldest there is ${between(coldest(setting.runs.ends.tight), coldest(setting.runs.ends.leaky), degrees)}.${apart(verdict)}`,
      title: `Heater of ${setting.box}`,
      steps: [
        ...ENDS.map((e) =>
          line(`E ${e}`, `sum over ${countedWords(setting)}`, [], yearAt(setting, e).counts.heaterKWh, 'kWh', RUN),
        ),
        ...ENDS.map((e) => line(`h ${e}`, 'hours at full power', [], yearAt(setting, e).counts.heaterFullH, 'h', RUN)),
        line(
          'P 24 h',
          'highest mean of 24 h in a row',
          [['from', whenAt(setting.runs.weather, atH), '']],
          day[end].value,
          'W',
          RUN,
        ),
      ],
      notes: ['The hand takes neither sun nor what the box stored the day before; the run has both.'],
      crossCheck:
        of.at === 'cabinet'
          ? [
              line(
                'P',
                'G·(t_gear − t_air): gear to room, steady',
                [
                  ['G', runs.model.gear.toAirWPerK, 'W/K'],
                  ['t_gear', insideC, '°C'],
                  ['t_air', airC, '°C'],
                ],
                runs.model.gear.toAirWPerK * (insideC - airC),
                'W',
                source('steady heat flow', 'computed'),
              ),
            ]
          : heaterByHand({
              ...{ model: runs.model, insideC, outsideC },
              inflowKgPerH: inflowMeanKgPerH(runs.year, atH, atH + DAY_H),
              runW:
                (sumOf(series.heaterWh.subarray(atH, atH + DAY_H)) + sumOf(series.gearHeatWh.subarray(atH, atH + DAY_H))) / DAY_H,
            }),
      judged: {
        ...{ demand: put('P 24 h', day[end].value, 'W'), relation: '≤', limit: put('P heater', of.powerW, 'W') },
        ...{ tight: '10 %', rests: source('the heater of the design', 'told') },
      },
      assumed: setting.assumed,
      mends: of.at === 'room' ? mends.warmer : [],
      decides: WHO.electrician,
      caution: CAUTION.heater,
    }),
  ]
}

const lowest = (values: Float64Array): readonly number[] => {
  let found = Number.POSITIVE_INFINITY
  for (const v of values) found = Math.min(found, v)
  return [found]
}

/** Hours in which frost or dew grows under the roof, and those of them in which the fan runs. */
export function grownHours(runs: EndRuns): {
  readonly grownH: number
  readonly ranH: number
  readonly nightsCount: number
  readonly ranNightsCount: number
} {
  const { filmKgPerM2, fanWh } = runs.year.series
  const nights = new Set<number>()
  const ranNights = new Set<number>()
  let [grownH, ranH] = [0, 0]
  for (let h = 1; h < runs.year.hoursCount; h += 1) {
    const grew = (filmKgPerM2[h * FACES + ROOF] as number) - (filmKgPerM2[(h - 1) * FACES + ROOF] as number)
    if (grew <= GROWS_KG_PER_M2) continue
    const night = Math.floor((h + DAY_H / 2) / DAY_H)
    grownH += 1
    nights.add(night)
    if ((fanWh[h] as number) > 0) {
      ranH += 1
      ranNights.add(night)
    }
  }
  return { grownH, ranH, nightsCount: nights.size, ranNightsCount: ranNights.size }
}

/** Said so where the fan stands still while the roof gets wet. */
function fan(setting: AirSetting, mends: Remedies): readonly Noted[] {
  const { fan: of } = setting.runs.ends.tight.model
  if (of === null) return []
  const grown = { tight: grownHours(setting.runs.ends.tight), leaky: grownHours(setting.runs.ends.leaky) }
  const verdictAt = (end: AirEnd): Verdict => (grown[end].grownH > 0 && grown[end].ranH === 0 ? 'tight' : 'holds')
  const verdict = judgeEnds(verdictAt('tight'), verdictAt('leaky'))
  const end: AirEnd = grown.leaky.grownH > grown.tight.grownH ? 'leaky' : 'tight'
  const { grownH, ranH, nightsCount } = grown[end]
  const never =
    of.solar === null
      ? 'It never runs in any of these hours: a thermostat for heat keeps it still when it is cold; let it run by humidity.'
      : 'A fan driven by the sun never runs on the night that frosts: it cools by day and dries nothing by night.'
  return [
    noted({
      code: 'air/fan-on-frost-night',
      subject: setting.box,
      verdict,
      basis: 'physics',
      said:
        grownH === 0
          ? `Neither frost nor dew grows under the roof, so nothing is asked of the fan by night; it takes ${between(yearAt(setting, 'tight').counts.fanKWh, yearAt(setting, 'leaky').counts.fanKWh, kWh)} ${eachWords(setting)}.`
          : `Frost or dew grows under the roof in ${hours(grownH)} of ${whole(nightsCount)} ${nightsCount === 1 ? 'night' : 'nights'}; the fan runs in ${hours(ranH)} of them. ${ranH === 0 ? never : ''} It takes ${between(yearAt(setting, 'tight').counts.fanKWh, yearAt(setting, 'leaky').counts.fanKWh, kWh)} ${eachWords(setting)}.`,
      title: `Fan of ${setting.box} on the nights that frost`,
      steps: ENDS.flatMap((e) => [
        line(
          `h grown ${e}`,
          'hours that add more than 0.1 g/m² under the roof',
          [['nights', grown[e].nightsCount, '']],
          grown[e].grownH,
          'h',
          RUN,
        ),
        line(
          `h ran ${e}`,
          'of these, hours in which the fan runs',
          [['nights', grown[e].ranNightsCount, '']],
          grown[e].ranH,
          'h',
          RUN,
        ),
      ]),
      assumed: setting.assumed,
      mends: mends.drier,
      decides: WHO.shop,
    }),
  ]
}

/** Open vents in deep cold: what the air that passes takes away, and whether they have a winter position. */
function vents(setting: AirSetting, mends: Remedies): readonly Noted[] {
  const { openings, winterMonths } = setting.runs.ends.tight.model
  if (openings.length === 0) return []
  const deepC = amount('deep-cold')
  const months = yearAt(setting, 'tight').months
  const coldest = months.reduce((a, b) => (b.outsideMeanC < a.outsideMeanC ? b : a))
  const deep = months.filter((m) => m.outsideMeanC < deepC).map((m) => m.month)
  const open = openings.filter((o) => o.winterFrac >= 1)
  const outside = setting.runs.weather.columns.airC
  const { atH } = outside === null ? { atH: 0 } : lowestDayMean(outside)
  const carried = (end: AirEnd) => {
    const { year } = setting.runs.ends[end]
    const kgPerH = inflowMeanKgPerH(year, atH, atH + DAY_H)
    const riseK =
      meanOf(year.series.airC.subarray(atH, atH + DAY_H)) - meanOf(outside?.subarray(atH, atH + DAY_H) ?? [Number.NaN])
    return { kgPerH, riseK, heatW: (kgPerH * AIR_HEAT_J_PER_KGK * riseK) / 3600 }
  }
  const ends = { tight: carried('tight'), leaky: carried('leaky') }
  const unshut = deep.some((m) => !winterMonths.includes(m)) || open.length > 0
  const verdict: Verdict = deep.length > 0 && unshut ? 'tight' : 'holds'
  const names = winterMonths.map((m) => MONTHS[m]).join(', ')
  const position =
    open.length > 0 || winterMonths.length === 0
      ? 'Its vents have no winter position.'
      : `Its vents stand in their winter position in ${names}.`
  return [
    noted({
      code: 'air/vents-in-cold',
      subject: setting.box,
      verdict,
      basis: 'house',
      said: `The coldest month, ${MONTHS[coldest.month]}, has a mean of ${degrees(coldest.outsideMeanC)} outside. ${position} In the coldest 24 h ${between(ends.tight.kgPerH, ends.leaky.kgPerH, (v) => `${whole(v)} kg/h`)} of outside air pass through the box and take ${between(ends.tight.heatW, ends.leaky.heatW, watts)} away.${verdict === 'tight' ? ` Months below ${degrees(deepC)} want the vents throttled, against cold and blown snow: ${deep.map((m) => MONTHS[m]).join(', ')}.` : ''}`,
      title: `Vents of ${setting.box} in the cold`,
      steps: ENDS.flatMap((e) => [
        line(
          `P air ${e}`,
          'm·c·(t_in − t_out), mean of the coldest 24 h',
          [
            ['m', ends[e].kgPerH, 'kg/h'],
            ['t_in − t_out', ends[e].riseK, 'K'],
          ],
          ends[e].heatW,
          'W',
          RUN,
        ),
      ]),
      judged: {
        ...{ demand: put('t month', coldest.outsideMeanC, '°C'), relation: '≥', limit: put('t throttle', deepC, '°C') },
        ...{ tight: 'below it, where the vents stay open', rests: figure('deep-cold').rests },
      },
      assumed: setting.assumed,
      mends: mends.throttle,
      decides: WHO.shop,
    }),
  ]
}

const MONTHS = [
  ...['January', 'February', 'March', 'April', 'May', 'June'],
  ...['July', 'August', 'September', 'October', 'November', 'December'],
]
