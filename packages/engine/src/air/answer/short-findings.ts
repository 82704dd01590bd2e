import { judgeEnds, put, type Step, type Verdict, worst } from '../../kernel/index.ts'
import type { AirEnd, AirShort, ShortRun } from '../result.ts'
import { ON_GEAR_KG_PER_M2 } from './counts.ts'
import { figure } from './figures.ts'
import { between, CAUTION, degrees, grams, hours, line, litres, type Noted, noted, RUN, tenths, WHO } from './finding.ts'
import { coldVerdict, hotVerdict } from './heat-findings.ts'
import { hoursAfter } from './lead-in.ts'
import type { Remedies } from './mends.ts'
import { type AirSetting, apart } from './setting.ts'
import { seasonHours } from './standing.ts'

type ShortEnd = AirShort['ends'][AirEnd]

/** A year may miss the worst: each short run is judged by what it is there to show. */
export function shortFindings(setting: AirSetting, mends: Remedies): readonly Noted[] {
  return setting.shorts.map((short) => shortRun(setting, short, mends))
}

function verdictOf(setting: AirSetting, run: ShortRun, of: ShortEnd): Verdict {
  if (outOfSeason(setting, run)) return run === 'hot week' ? 'holds' : wetVerdict(of)
  if (run === 'hot week') return worstOr(setting.parts.flatMap((part, nth) => hotVerdict(part, of.gear[nth]!)?.verdict ?? []))
  const cold = run !== 'cold spell' ? [] : setting.parts.flatMap((_, nth) => coldVerdict(of.gear[nth]!) ?? [])
  return worst([wetVerdict(of), ...cold])
}

const wetVerdict = (of: ShortEnd): Verdict =>
  of.counts.fellOnGearKg > 0 || of.counts.gearDewMostGPerM2 > ON_GEAR_KG_PER_M2 * 1000 ? 'fails' : 'holds'

/** No day of it lies in the season in which anything is plugged in: heat and cold of the gear are then not judged, water on it is. */
function outOfSeason({ season, runs }: AirSetting, run: ShortRun): boolean {
  const weather = runs.shortWeather[run]
  if (season === null || weather === undefined) return false
  return seasonHours(hoursAfter(weather.hours, weather.leadInH), season) === null
}

const worstOr = (all: readonly Verdict[]): Verdict => (all.length === 0 ? 'unknown' : worst(all))

function shortRun(setting: AirSetting, short: AirShort, mends: Remedies): Noted {
  const { tight, leaky } = short.ends
  const { run } = short
  const verdict = judgeEnds(verdictOf(setting, run, tight), verdictOf(setting, run, leaky))
  const both = (of: (end: ShortEnd) => number, words: (value: number) => string) => between(of(tight), of(leaky), words)
  const hot = run === 'hot week'
  const air = hot
    ? `The air inside reaches ${both((e) => e.counts.airMostC, degrees)}${atGearWords(setting, both)}.`
    : `The air inside falls to ${both((e) => e.counts.airLeastC, degrees)}.`
  const dew = `Water settles on the gear for ${both((e) => e.counts.gearDewH, hours)}, at most ${both(
    (e) => e.counts.gearDewMostGPerM2,
    (g) => `${tenths(g)} g/m²`,
  )}; under the roof hang ${both((e) => roofMost(e), grams)} at most; ${both((e) => e.counts.fellKg, litres)} fall, ${both((e) => e.counts.fellOnGearKg, litres)} of it on gear without a hood.`
  const away = outOfSeason(setting, run)
  const awayWords = away ? ' Nothing is plugged in then: the gear’s heat and cold are not judged in it.' : ''
  const beyond = setting.parts.filter((part, nth) =>
    [tight, leaky].some((end) => {
      const of = end.gear[nth]!
      if (away) return false
      return hot ? hotVerdict(part, of)?.verdict === 'fails' : run === 'cold spell' && coldVerdict(of) === 'fails'
    }),
  )
  const beyondWords = beyond.length === 0 ? '' : ` Beyond what they stand: ${beyond.map((p) => p.what).join(', ')}.`
  const steps: readonly Step[] = (['tight', 'leaky'] as const).flatMap((end) => [
    line(`t most ${end}`, 'hottest air inside', [], short.ends[end].counts.airMostC, '°C', RUN),
    line(`t least ${end}`, 'coldest air inside', [], short.ends[end].counts.airLeastC, '°C', RUN),
    line(`m gear ${end}`, 'most on the gear at once', [], short.ends[end].counts.gearDewMostGPerM2, 'g/m²', RUN),
    line(`m roof ${end}`, 'most under the roof at once', [], roofMost(short.ends[end]), 'g/m²', RUN),
    line(`on gear ${end}`, 'fell on gear without a hood', [], short.ends[end].counts.fellOnGearKg, 'kg', RUN),
  ])
  const wetter = Math.max(tight.counts.gearDewMostGPerM2, leaky.counts.gearDewMostGPerM2)
  return noted({
    code: 'air/short-run',
    subject: `${setting.box} ${run}`,
    verdict,
    basis: 'physics',
    said: `${sentence(short)} ${air}${hot ? '' : ` ${dew}`}${beyondWords}${awayWords}${apart(verdict)}`,
    title: `${setting.box}: ${run}`,
    steps,
    notes: ['A run beside the year: nothing of it is in the counts of the year.'],
    ...(hot
      ? {}
      : {
          judged: {
            ...{
              demand: put('m gear', wetter, 'g/m²'),
              relation: '≤',
              limit: put('none to be seen', ON_GEAR_KG_PER_M2 * 1000, 'g/m²'),
            },
            ...{ tight: 'none', rests: figure('device-margin').rests },
          },
        }),
    assumed: setting.assumed,
    mends: hot ? mends.cooler : [...mends.hood, ...mends.drier],
    decides: WHO.electrician,
    caution: hot ? CAUTION.hot : CAUTION.wet,
  })
}

/** Air at the gear, which is what is judged: on a wall in the sun it is hotter than the room’s. */
const atGearWords = (
  setting: AirSetting,
  both: (of: (end: ShortEnd) => number, words: (value: number) => string) => string,
): string => {
  if (setting.parts.length === 0) return ''
  return `, at the gear ${both((e) => Math.max(...e.gear.map((g) => g.hottestC)), degrees)}`
}

/** “Hot week: five clear days up to 41 °C.” */
const sentence = ({ run, said }: AirShort): string => `${run.charAt(0).toUpperCase()}${run.slice(1)}: ${said.replace(/\.$/, '')}.`

const roofMost = (end: ShortEnd): number => end.counts.faces.find((f) => f.side === 'roof')?.mostGPerM2 ?? 0
