import { formatNumber, judgeEnds, put, type Source, type Step, source, type Verdict, worst } from '../../kernel/index.ts'
import { breakerHolds } from '../gear/index.ts'
import type { AirEnd, GearHours } from '../result.ts'
import { amount, figure } from './figures.ts'
import { between, CAUTION, degrees, hours, type Judged, line, type Noted, noted, RUN, WHO, whole } from './finding.ts'
import { breakerHoldsFrac, calibratedC, type GearPart } from './gear.ts'
import { steadyAir } from './hand.ts'
import { whenAt } from './hours.ts'
import type { Remedies } from './mends.ts'
import { heatRun } from './runs.ts'
import { type AirSetting, apart, atBoth, countedWords, judgeLeast, judgeMost, spanWords, worseEnd } from './setting.ts'

const MARGIN_WORDS = '3 K'

/** Too hot, too cold, and what its breakers still hold. */
export function heatFindings(setting: AirSetting, mends: Remedies): readonly Noted[] {
  return [
    ...setting.parts.flatMap((part, nth) => [...hot(setting, part, nth, mends), ...cold(setting, part, nth, mends)]),
    ...breakerHeat(setting, mends),
  ]
}

const hoursOf = (setting: AirSetting, nth: number, end: AirEnd): GearHours => setting.counted[end].year.gear[nth] as GearHours

/** Upper limit of the air at a part, and where it stands. Breakers carry less from their calibration on and are held to the house limit. */
function mostOf(part: GearPart, of: GearHours): { readonly limitC: number; readonly rests: Source } | null {
  if (part.derates) return { limitC: amount('breaker-most'), rests: figure('breaker-most').rests }
  return of.mostC === null ? null : { limitC: of.mostC, rests: part.limit.rests }
}

/** The verdict on heat of one part at one end, with which of its two limits decides. */
export function hotVerdict(part: GearPart, of: GearHours): { readonly verdict: Verdict; readonly byMean: boolean } | null {
  const most = mostOf(part, of)
  if (most === null) return null
  const margin = amount('device-margin')
  const peak = judgeMost(of.hottestC, most.limitC, margin)
  if (part.derates || of.dayMeanMostC === null) return { verdict: peak, byMean: false }
  const mean = judgeMost(of.dayMeanC, of.dayMeanMostC, margin)
  return { verdict: worst([peak, mean]), byMean: worst([peak, mean]) !== peak }
}

export function coldVerdict(of: GearHours): Verdict | null {
  return of.leastC === null ? null : judgeLeast(of.coldestC, of.leastC, amount('device-margin'))
}

function hot(setting: AirSetting, part: GearPart, nth: number, mends: Remedies): readonly Noted[] {
  const ends = { tight: hoursOf(setting, nth, 'tight'), leaky: hoursOf(setting, nth, 'leaky') }
  const [tight, leaky] = [hotVerdict(part, ends.tight), hotVerdict(part, ends.leaky)]
  const most = mostOf(part, ends.tight)
  if (tight === null || leaky === null || most === null) return []
  const verdict = judgeEnds(tight.verdict, leaky.verdict)
  const end = worseEnd(setting, (year) => year.gear[nth]?.hottestC ?? Number.NaN)
  const of = ends[end]
  const byMean = (end === 'tight' ? tight : leaky).byMean && of.dayMeanMostC !== null
  const rests = byMean ? part.limit.rests : most.rests
  const meanWords =
    part.derates || of.dayMeanMostC === null
      ? ''
      : ` The hottest mean of 24 h is ${between(ends.tight.dayMeanC, ends.leaky.dayMeanC, degrees)}; it stands ${degrees(of.dayMeanMostC)}.`
  const above = between(ends.tight.aboveH, ends.leaky.aboveH, hours)
  const aboveWords =
    Math.max(ends.tight.aboveH, ends.leaky.aboveH) === 0 ? '' : ` It is above that for ${above} of ${countedWords(setting)}.`
  return [
    noted({
      code: 'air/hot',
      subject: `${setting.box} ${part.name}`,
      verdict,
      basis: part.derates ? 'house' : 'maker',
      said: `The ${part.what} may stand in air of ${degrees(most.limitC)}; ${spanWords(setting)} brings ${between(ends.tight.hottestC, ends.leaky.hottestC, degrees)}, at its hottest on ${whenAt(setting.runs.weather, of.hottestAtH + 1)}.${part.derates ? deratedWords(setting, part) : aboveWords}${meanWords}${apart(verdict)}`,
      title: `Hottest air at the ${part.what} in ${setting.box}`,
      steps: [
        atHot(setting, end, of),
        ...(of.dayMeanMostC === null || part.derates ? [] : [meanStep(of)]),
        ...countSteps(ends, 'above'),
      ],
      crossCheck: steadyAir(
        heatRun(setting.runs.ends[end]).model,
        heatRun(setting.runs.ends[end]).year,
        setting.runs.weather.columns.airC,
        setting.counted[end].year.hottestHour.atH,
      ),
      notes: ['The hand’s steady hour has no mass that lags; the run has.'],
      judged: byMean
        ? judgedC('t 24 h', of.dayMeanC, 't 24 h max', of.dayMeanMostC as number, '≤', rests)
        : judgedC('t', of.hottestC, 't max', most.limitC, '≤', rests),
      assumed: setting.assumed,
      mends: mends.cooler,
      decides: WHO.maker,
      caution: CAUTION.hot,
    }),
  ]
}

/** Hours above the calibration of the breakers, at both ends. */
function deratedWords(setting: AirSetting, part: GearPart): string {
  const calibration = calibratedC(part)
  const count = (end: AirEnd) => setting.counted[end].hot.hotC.reduce((sum, c) => sum + (c > calibration ? 1 : 0), 0)
  const most = between(count('tight'), count('leaky'), hours)
  return ` They are calibrated at ${degrees(calibration)} and carry less above it, for ${most} of ${countedWords(setting)}.`
}

const judgedC = (
  symbol: string,
  value: number,
  limitSymbol: string,
  limit: number,
  relation: Judged['relation'],
  rests: Source,
): Judged => ({
  ...{ demand: put(symbol, value, '°C'), relation, limit: put(limitSymbol, limit, '°C'), tight: MARGIN_WORDS, rests },
})

const endWords = (end: AirEnd): string => (end === 'tight' ? 'at the tight end' : 'at the leaky end')

function atHot(setting: AirSetting, end: AirEnd, of: GearHours): Step {
  const { series } = heatRun(setting.runs.ends[end]).year
  const h = of.hottestAtH
  return line(
    't at the gear',
    `largest of t_gear and t_air + min(5, t_wall − t_air), ${endWords(end)}`,
    [
      ['t_air', series.airC[h] as number, '°C'],
      ['t_gear', series.gearC[h] as number, '°C'],
      ['when', whenAt(setting.runs.weather, h + 1), ''],
    ],
    of.hottestC,
    '°C',
    RUN,
  )
}

const meanStep = (of: GearHours): Step => line('t 24 h', 'highest mean of 24 h in a row', [], of.dayMeanC, '°C', RUN)

const countSteps = (ends: Readonly<Record<AirEnd, GearHours>>, which: 'above' | 'below'): readonly Step[] =>
  (['tight', 'leaky'] as const).map((end) =>
    line(
      `h ${end}`,
      `hours ${which} the limit, ${endWords(end)}`,
      [],
      which === 'above' ? ends[end].aboveH : ends[end].belowH,
      'h',
      RUN,
    ),
  )

function cold(setting: AirSetting, part: GearPart, nth: number, mends: Remedies): readonly Noted[] {
  const ends = { tight: hoursOf(setting, nth, 'tight'), leaky: hoursOf(setting, nth, 'leaky') }
  const [tight, leaky] = [coldVerdict(ends.tight), coldVerdict(ends.leaky)]
  const { leastC } = ends.tight
  if (tight === null || leaky === null || leastC === null) return []
  const verdict = judgeEnds(tight, leaky)
  const end = ends.leaky.coldestC < ends.tight.coldestC ? 'leaky' : 'tight'
  const of = ends[end]
  const heated = setting.runs.ends[end].model.heater?.at === 'cabinet'
  return [
    noted({
      code: 'air/cold',
      subject: `${setting.box} ${part.name}`,
      verdict,
      basis: 'maker',
      said: `The ${part.what} may stand in air down to ${degrees(leastC)}; ${spanWords(setting)} brings ${between(ends.tight.coldestC, ends.leaky.coldestC, degrees)}, at its coldest on ${whenAt(setting.runs.weather, of.coldestAtH + 1)}, with ${between(ends.tight.belowH, ends.leaky.belowH, hours)} below that.${apart(verdict)}`,
      title: `Coldest air at the ${part.what} in ${setting.box}`,
      steps: [
        line(
          't at the gear',
          heated ? `t_gear: its cabinet is heated, ${endWords(end)}` : `smaller of t_air and t_gear, ${endWords(end)}`,
          [
            ['t_air', setting.runs.ends[end].year.series.airC[of.coldestAtH] as number, '°C'],
            ['t_gear', setting.runs.ends[end].year.series.gearC[of.coldestAtH] as number, '°C'],
            ['t_out', setting.runs.weather.columns.airC?.[of.coldestAtH] ?? Number.NaN, '°C'],
          ],
          of.coldestC,
          '°C',
          RUN,
        ),
        ...countSteps(ends, 'below'),
      ],
      judged: judgedC('t', of.coldestC, 't min', leastC, '≥', part.limit.rests),
      assumed: setting.assumed,
      mends: mends.warmer,
      decides: WHO.maker,
      caution: CAUTION.cold,
    }),
  ]
}

/** The hottest hour under load: against the air that a person told circuits, else as circuits take it, up to the house limit. */
function breakerHeat(setting: AirSetting, mends: Remedies): readonly Noted[] {
  const part = setting.parts.find((p) => p.derates)
  if (part === undefined) return []
  const [tight, leaky] = [setting.counted.tight.year.breaker, setting.counted.leaky.year.breaker]
  const calibration = calibratedC(part)
  const told = setting.wanted?.insideHotC.told === true ? setting.wanted.insideHotC.high : null
  const subject = `${setting.box} breakers`
  const title = `What the breakers of ${setting.box} still hold at the hottest hour under load`
  if (tight === null || leaky === null) {
    return [
      noted({
        ...{ code: 'air/breaker-heat', subject, verdict: 'unknown', basis: 'physics', title },
        said: `No hour of ${countedWords(setting)} carries load in this box, so what its breakers hold under load is not known: tell what runs and when.`,
        steps: [line('P', 'largest heat of the gear in an hour', [], 0, 'W', RUN)],
        assumed: setting.assumed,
      }),
    ]
  }
  const mostC = told ?? amount('breaker-most')
  const verdict = atBoth(setting, (year) => judgeMost(year.breaker?.airC ?? Number.NaN, mostC, amount('device-margin')))
  const hotter = leaky.airC > tight.airC ? leaky : tight
  const worstC = hotter.airC
  const holdsPct = (airC: number) => breakerHoldsFrac(part, airC) * 100
  const ratings = [...new Set(setting.designs.flatMap((d) => d.circuits.map((c) => c.device.ratingA)))].sort((a, b) => a - b)
  const rests = source('square root of (105 − t)/(105 − calibration), IEEE C37.20.1 practice (table breaker-heat)', 'read')
  return [
    noted({
      ...{ code: 'air/breaker-heat', subject, verdict, basis: 'physics', title },
      said: `Under load the air at the breakers reaches ${between(tight.airC, leaky.airC, degrees)}, on ${whenAt(setting.runs.weather, hotter.atH + 1)}; they then hold ${whole(holdsPct(worstC))} % of their rating. ${told === null ? `Circuits judge them in that air, up to a whole degree.` : `Circuits take ${degrees(told)}, as told.`}${apart(verdict)}`,
      steps: [
        line(
          'I(t)/I',
          '√((105 − t)/(105 − t_cal)), 1 up to t_cal',
          [
            ['t', worstC, '°C'],
            ['t_cal', calibration, '°C'],
          ],
          breakerHoldsFrac(part, worstC),
          '',
          rests,
        ),
        ...ratings.map((ratingA) =>
          line(
            `I(t) of ${formatNumber(ratingA)} A`,
            'I·√((105 − t)/(105 − t_cal))',
            [['I', ratingA, 'A']],
            ratingA * breakerHoldsFrac(part, worstC),
            'A',
            rests,
          ),
        ),
      ],
      crossCheck: ratings.flatMap((ratingA) => printed(ratingA, worstC)),
      judged: judgedC(
        't',
        worstC,
        told === null ? 't most' : 't told',
        mostC,
        '≤',
        told === null ? figure('breaker-most').rests : source('the hottest air inside, as told', 'told'),
      ),
      assumed: setting.assumed,
      mends: mends.cooler,
      decides: WHO.electrician,
      caution: CAUTION.hot,
    }),
  ]
}

/** The same rating in one maker's printed table, calibrated at 40 °C; none where it prints no such rating. */
function printed(ratingA: number, airC: number): readonly Step[] {
  const held = breakerHolds(ratingA, airC)
  return held.by === 'rule'
    ? []
    : [
        line(
          `I(t) of ${formatNumber(ratingA)} A`,
          'one maker’s table, calibrated at 40 °C',
          [['t', airC, '°C']],
          held.currentA,
          'A',
          held.rests,
        ),
      ]
}
